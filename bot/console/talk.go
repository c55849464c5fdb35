package console

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"strapline/bot/job"
)

// Talk is one person at a prompt, or a pipe.
type Talk struct {
	Job  *job.Job
	Who  string
	JSON bool
	*Pictures
}

// silence is shown to a person at a prompt, who would else wonder; in a channel
// the same line gets no answer at all.
const silence = "(nothing for me in that; `help` lists what I read)"

// Run reads messages from in until it ends. When in is a terminal it keeps a
// history; it never takes the whole screen.
func (t Talk) Run(ctx context.Context, in io.Reader, w io.Writer) error {
	if f, ok := in.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		return t.terminal(ctx, f, w)
	}
	r := bufio.NewReaderSize(in, 64<<10)
	for {
		line, err := readLine(r)
		if line != "" || err == nil {
			if err := t.say(ctx, w, line, false); err != nil {
				return err
			}
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func (t Talk) terminal(ctx context.Context, f *os.File, w io.Writer) error {
	old, err := term.MakeRaw(int(f.Fd()))
	if err != nil {
		return err
	}
	defer term.Restore(int(f.Fd()), old)
	tty := term.NewTerminal(struct {
		io.Reader
		io.Writer
	}{f, w}, t.Who+"> ")
	for {
		line, err := tty.ReadLine()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil && !errors.Is(err, term.ErrPasteIndicator) {
			return err
		}
		if err := t.say(ctx, tty, line, true); err != nil {
			return err
		}
	}
}

// say hands one line over and prints the reply.
func (t Talk) say(ctx context.Context, w io.Writer, line string, person bool) error {
	if strings.TrimSpace(line) == "" {
		return nil
	}
	out, err := t.Job.Handle(ctx, job.In{Who: t.Who, Text: line, Direct: true})
	if err != nil {
		return err
	}
	if t.JSON {
		enc := json.NewEncoder(w)
		enc.SetEscapeHTML(false)
		for _, a := range out.Answers {
			if err := enc.Encode(a); err != nil {
				return err
			}
		}
		return nil
	}
	if len(out.Answers) == 0 && person {
		_, err = fmt.Fprintln(w, silence)
		return err
	}
	kept, err := t.keep(t.Job, out)
	for _, l := range append(Lines(out), kept...) {
		if _, err := fmt.Fprintln(w, l); err != nil {
			return err
		}
	}
	return err
}

// readLine reads a line of any length but keeps only so much of it that the
// bot can say that it is too long.
func readLine(r *bufio.Reader) (string, error) {
	var b strings.Builder
	for {
		part, err := r.ReadSlice('\n')
		if b.Len() <= 2*job.MaxMessage {
			b.Write(part)
		}
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		return strings.TrimRight(b.String(), "\r\n"), err
	}
}
