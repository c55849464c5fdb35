package grammar_test

import (
	"errors"
	"testing"

	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/record"
)

// TestAsksNotes: a question about the job that no rule and no sorting answers is looked for in the notes, by
// the words that tell what it is about.
func TestAsksNotes(t *testing.T) {
	for _, tt := range []struct{ in, means string }{
		{"notes on the shutoff above the laundry", "notes on shutoff laundry"},
		{"gotta get at the shutoff above the laundry. didnt somebody write down where it was", "notes on shutoff laundry"},
		{"which one, supply or drain, and does it go toward the powder room or away", "notes on supply drain toward powder"},
		{"did the plumber ever say his test passed", "notes on plumber test passed"},
		{"theres romex near there isnt there", "list wires"},
		{"who signed off the garage ceiling as all cut out? what day was that", "notes on signed garage ceiling cut"},
		{"kitchen: who signed off the lid", "kitchen: notes on signed lid"},
	} {
		line, err := parse.Line(tt.in, flat())
		if got := line.String(); err != nil || got != tt.means {
			t.Errorf("%q: got %q, %v, want %q", tt.in, got, err, tt.means)
		}
	}
}

// TestNeverDeaf: a question about the job gets an answer, or is asked back, in whatever words; it never gets
// a column number and never silence.
func TestNeverDeaf(t *testing.T) {
	for _, in := range lines(t, "asked.txt") {
		line, err := parse.Line(in, flat())
		if r, refused := errors.AsType[*grammar.Refusal](err); refused || errors.Is(err, grammar.ErrChatter) {
			t.Errorf("%q: %v, %v", in, err, r)
		}
		if note, kept := line.Entry.(record.Note); err == nil && kept {
			t.Errorf("%q is kept as a note: %s", in, note.Text)
		}
	}
}
