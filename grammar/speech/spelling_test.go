package speech_test

import (
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	_ "strapline/grammar/parse" // its words
	"strapline/grammar/read"
	"strapline/grammar/speech"
)

// A word of the work is no slip for itself: put right again and again, it would keep a line from ever being read.
func TestRespelt(t *testing.T) {
	for said, want := range map[string]string{
		"16 on the slopes because of the insulation": "16 on the slopes because of the insulation",
		"2 sheets of plywood by the drywall":         "2 sheets of plywood by the drywall",
		"the cieling hite is 94":                     "the ceiling height is 94",
	} {
		got, _ := speech.Respelt(read.CutLine(said, &grammar.Context{Units: length.Imperial}))
		if got != want {
			t.Errorf("%q: got %q, want %q", said, got, want)
		}
		if again, n := speech.Respelt(read.CutLine(got, &grammar.Context{Units: length.Imperial})); n > 0 {
			t.Errorf("%q: put right to %q, and once more to %q", said, got, again)
		}
	}
}
