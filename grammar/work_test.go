package grammar_test

import (
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/read"
	"strapline/grammar/sentences"
)

// TestWorkIsBounded: however long a text is and whatever it repeats, it takes no more than some readings: of a line, to
// find other words for it, and of a message, to find where it is cut. Counted and not timed.
func TestWorkIsBounded(t *testing.T) {
	nested, anew, n := read.Nested, read.Anew, 0
	defer func() { read.Nested, read.Anew = nested, anew }()
	read.Nested = func(text string, c *grammar.Context) (grammar.Line, error) { n++; return nested(text, c) }
	read.Anew = func(text string, c *grammar.Context) (grammar.Line, error) { n++; return anew(text, c) }
	const (
		mostOfLine    = 500 // as are begun: the last of them come to nothing
		mostOfMessage = 24  // the most found is 17
	)
	for _, of := range []string{
		"and the fan is 30 off the spare wall,", "smoke alarm is 20 off the spare wall and 30 off the stove side,", "light, fan, box,", "the front wall", "no wait 14 off west", "is it 12", "cut 30 not 40.", "rows 1 2 3 up.", "sorry", "joists 16 oc.", "north 3", "{}",
		"we saw a light 26 so 30 and before 12 for it",
	} {
		for _, times := range []int{1, 3, 12, 40} {
			c, text := onSite(length.Imperial), strings.TrimSpace(strings.Repeat(of+" ", times))
			n = 0
			if parse.Line(text, c); n > mostOfLine {
				t.Errorf("%d times %q: %d readings of the line", times, of, n)
			}
			readings, seen := 0, map[string]bool{}
			sentences.Cut(text, func() map[string]string { return c.Rooms }, func(part string) (grammar.Line, error) {
				if readings++; seen[part] {
					t.Errorf("%d times %q: %q is read twice", times, of, part)
				}
				seen[part] = true
				return grammar.Line{}, grammar.ErrChatter // so that it looks on
			})
			if readings > mostOfMessage {
				t.Errorf("%d times %q: %d readings of the message", times, of, readings)
			}
		}
	}
}
