package grammar_test

import (
	"errors"
	"os"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
)

// flat is a job with rooms and things, as those of testdata.
func flat() *grammar.Context {
	named, noted := map[string]bool{}, map[string]bool{}
	for _, n := range strings.Split("d1, d2, l1, l3, p1, a, over sink, light over sink, sink light, light 1, light 2, fan, over tub, fan over tub, junction box 1", ", ") {
		named[n] = true
	}
	for _, n := range strings.Fields("d1 d2 l1 l3 light duct fan over sink tub hood junction box 1 2") {
		noted[n] = true
	}
	return &grammar.Context{
		Units: length.Imperial,
		Rooms: map[string]string{"kitchen": "kitchen", "den": "den", "hall": "hall", "cook room": "kitchen"},
		Walls: map[string]place.Wall{"window": place.North, "stairs": place.East},
		Name:  func(words string) bool { return named[words] }, MaxWords: 3,
		Noun: func(word string) bool { return noted[word] },
	}
}

// lines are those of a file of testdata but for what begins with #.
func lines(t *testing.T, file string) (all []string) {
	t.Helper()
	b, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(b)) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			all = append(all, line)
		}
	}
	if len(all) < 300 {
		t.Errorf("%s: %d lines, want 300", file, len(all))
	}
	return all
}

// TestSilence: nothing of the talk of a site is answered.
func TestSilence(t *testing.T) {
	for _, in := range lines(t, "chatter.txt") {
		if line, err := grammar.Parse(in, flat()); !errors.Is(err, grammar.ErrChatter) {
			t.Errorf("%q: %v, %v, want silence", in, line.Entry, err)
		}
	}
}

// TestHeard: everything told or asked of the job is read, asked about or
// refused, every time.
func TestHeard(t *testing.T) {
	for _, in := range lines(t, "heard.txt") {
		line, err := grammar.Parse(in, flat())
		if errors.Is(err, grammar.ErrChatter) {
			t.Errorf("%q: silence", in)
		}
		r, refused := errors.AsType[*grammar.Refusal](err)
		if refused && (r.Once || strings.Contains(r.Want, "a thing, a wall, a row")) {
			t.Errorf("%q: %v", in, err)
		}
		if testing.Verbose() {
			e := ""
			if err == nil {
				e = line.String()
			}
			t.Logf("%-55s %s %v", in, e, err)
		}
	}
}
