package job_test

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/message"
)

// FuzzHandle texts anything to a job that has something of everything: no
// message may fail on our side, and an answer is text that fits a phone's screen.
func FuzzHandle(f *testing.F) {
	for _, p := range phrases {
		f.Add(p, p)
	}
	clock := new(console.Clock)
	clock.Set(time.Date(2026, 5, 4, 8, 0, 0, 0, time.UTC))
	b, err := bot.New(bot.Options{Dir: f.TempDir(), Now: clock.Now, Loc: time.UTC})
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { b.Close() })
	j, err := b.Job("flat")
	if err != nil {
		f.Fatal(err)
	}
	for _, p := range phrases {
		if _, err := j.Handle(f.Context(), message.In{Who: "lead", Text: p}); err != nil {
			f.Fatal(err)
		}
	}
	f.Fuzz(func(t *testing.T, first, second string) {
		for _, text := range []string{first, second} {
			out, err := j.Handle(t.Context(), message.In{Who: "hanger", Text: text})
			if err != nil {
				t.Fatal(err)
			}
			for _, a := range out.Answers {
				if a.Kind == "failure" || a.Kind == "" || a.Reply == "" {
					t.Fatalf("%q: %+v", text, a)
				}
				if a.Saved && a.Seq == 0 || !a.Saved && a.Seq != 0 {
					t.Fatalf("%q: saved %v as %d", text, a.Saved, a.Seq)
				}
			}
			if reply := out.Text(); !utf8.ValidString(reply) || strings.Contains(reply, "%!") {
				t.Fatalf("%q: %q", text, reply)
			}
		}
	})
}
