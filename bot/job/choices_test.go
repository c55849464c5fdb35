package job_test

import (
	"encoding/json"
	"testing"
	"time"

	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/grammar"
)

// TestChoicesAreEntries: what a question offers is kept as entries that are read already, also what leads to one more
// question.
func TestChoicesAreEntries(t *testing.T) {
	j := openJob(t, t.TempDir())
	at := time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)
	say := func(who, text string) string {
		at = at.Add(time.Minute)
		out, err := j.Handle(t.Context(), message.In{Who: who, Text: text, Sent: at})
		if err != nil {
			t.Fatal(err)
		}
		return out.Text()
	}
	var read func(all []grammar.Choice) (doubts int)
	read = func(all []grammar.Choice) (doubts int) {
		for _, c := range all {
			if c.Text != "" {
				t.Errorf("choice %q is text: %q", c.Label, c.Text)
			}
			for _, l := range c.Lines {
				if d, ok := l.Entry.(grammar.Doubtful); ok {
					doubts += 1 + read(d.Ask.Choices)
				}
			}
		}
		return doubts
	}
	say("lead", "room porch 15' x 12' high 8'")
	for _, tt := range []struct {
		says   string
		doubts int
	}{
		{"gap 84 2", 0},
		{"light 30 off the window wall", 0},
		{"light 30 off the window wall and 44 off the pantry wall", 4}, // which wall is that, whichever the first is
		{"square nw-se 20-11 ne-sw 21-2", 2},                           // the second is as doubtful as the first
	} {
		say("hanger", tt.says)
		q := j.Knows().Pending["hanger"]
		if q == nil {
			t.Errorf("%q leads to no question", tt.says)
			continue
		}
		if n := read(q.Choices); n != tt.doubts {
			t.Errorf("%q: %d choices lead to a question, want %d", tt.says, n, tt.doubts)
		}
		row, err := json.Marshal(q)
		var again pending.Question
		if err == nil {
			err = json.Unmarshal(row, &again)
		}
		if err != nil || len(again.Choices) != len(q.Choices) || read(again.Choices) != tt.doubts {
			t.Errorf("%q is kept as %s: %v", tt.says, row, err)
		}
	}
}
