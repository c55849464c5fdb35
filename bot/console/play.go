package console

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"strapline/bot/job"
	"strapline/bot/message"
)

// ErrDiffers is returned by [Play.Run] when a reply is not the expected one.
var ErrDiffers = errors.New("a reply differs from the one expected")

// Clock is the time in a conversation: the latest time at which a message was sent.
type Clock struct{ at atomic.Int64 }

// Now returns the time of the conversation.
func (c *Clock) Now() time.Time { return time.UnixMilli(c.at.Load()).UTC() }

// Set moves the clock forward to t; it never goes back.
func (c *Clock) Set(t time.Time) { c.at.Store(max(c.at.Load(), t.UnixMilli())) }

// Play plays conversations to a job.
type Play struct {
	Job   *job.Job
	Clock *Clock
	JSON  bool // print one JSON object per entry instead of the conversation
	Check bool // print only replies that differ from the expected ones
	*Pictures
}

// Run plays the steps and prints the conversation with the actual replies, in the
// format that [ReadChat] reads.
func (p Play) Run(ctx context.Context, steps []Step, w io.Writer) error {
	differs := 0
	var lost error
	for _, s := range steps {
		if s.Who == "" {
			if !p.JSON && !p.Check {
				fmt.Fprintln(w, s.Comment)
			}
			continue
		}
		p.Clock.Set(s.Sent)
		out, err := p.Job.Handle(ctx, message.In{Who: s.Who, Sent: s.Sent, Text: s.Text})
		if err != nil {
			return err
		}
		lost = cmp.Or(lost, confirmed(out))
		got := Lines(out)
		switch {
		case p.JSON:
			if err := writeJSON(w, out); err != nil {
				return err
			}
		case !p.Check:
			fmt.Fprintln(w, s)
			writeReply(w, got)
			kept, err := p.keep(p.Job, out)
			for _, l := range kept {
				fmt.Fprintln(w, "# "+l)
			}
			if err != nil {
				return err
			}
		}
		if p.Check && !slices.Equal(got, s.Want) {
			differs++
			fmt.Fprintf(w, "line %d: %s\nexpected\n", s.Line, s)
			writeReply(w, s.Want)
			fmt.Fprintln(w, "got")
			writeReply(w, got)
		}
	}
	if differs > 0 {
		return fmt.Errorf("%w: %d of %d messages", ErrDiffers, differs, len(steps))
	}
	return lost
}

// writeJSON writes one JSON object per entry; lines that got no reply come last.
func writeJSON(w io.Writer, out message.Out) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	for _, a := range slices.Concat(out.Answers, out.Left) {
		if err := enc.Encode(a); err != nil {
			return err
		}
	}
	return nil
}

// Lines splits a reply into lines; it returns none for silence.
func Lines(out message.Out) []string {
	if len(out.Answers) == 0 {
		return nil
	}
	lines := strings.Split(out.Text(), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return lines
}
