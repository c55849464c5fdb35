package console

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/chzyer/readline"
	"golang.org/x/term"

	"strapline/bot/job"
	"strapline/bot/message"
)

// Talk is one person texting at a prompt or through a pipe.
type Talk struct {
	Job     *job.Job
	Who     string
	JSON    bool
	History string // the file for what was typed at the prompt; "" keeps none
	*Pictures
}

// silence tells a person at a prompt that a line was read as chatter. In a channel,
// chatter gets no reply at all.
const silence = "(nothing for me in that; `help` lists what I read)"

// Run reads messages from in until end of file. If in is a terminal, it shows a prompt.
func (t Talk) Run(ctx context.Context, in io.Reader, w io.Writer) error {
	if f, ok := in.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		width := func() int {
			if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
				return w
			}
			return 80 // the terminal does not report its width
		}
		return t.prompt(ctx, &readline.Config{Stdin: readline.NewCancelableStdin(f), Stdout: w, FuncGetWidth: width}, w)
	}
	r := bufio.NewReaderSize(in, 64<<10)
	var lost error
	for {
		line, err := readLine(r)
		if line != "" || err == nil {
			switch err := t.say(ctx, w, line, false); {
			case errors.Is(err, ErrNotConfirmed):
				lost = err
			case err != nil:
				return err
			}
		}
		if errors.Is(err, io.EOF) {
			return lost
		}
		if err != nil {
			return err
		}
	}
}

// ErrNotConfirmed reports that a message was not confirmed as saved. The messages after
// it were answered nevertheless.
var ErrNotConfirmed = errors.New("not every message is confirmed as saved")

// say sends one line to the job and prints the reply. person says that someone is at a
// prompt and should also be told about silence.
func (t Talk) say(ctx context.Context, w io.Writer, line string, person bool) error {
	if strings.TrimSpace(line) == "" {
		return nil
	}
	out, err := t.Job.Handle(ctx, message.In{Who: t.Who, Text: line, Direct: true})
	if err != nil {
		return err
	}
	if t.JSON {
		return errors.Join(writeJSON(w, out), confirmed(out))
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
	return errors.Join(err, confirmed(out))
}

func confirmed(out message.Out) error {
	if out.Failed() {
		return ErrNotConfirmed
	}
	return nil
}

// readLine reads a line of any length, but keeps only enough of it for the job to see
// that it is too long.
func readLine(r *bufio.Reader) (string, error) {
	var b strings.Builder
	for {
		part, err := r.ReadSlice('\n')
		if b.Len() <= 2*message.Longest {
			b.Write(part)
		}
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		return strings.TrimRight(b.String(), "\r\n"), err
	}
}
