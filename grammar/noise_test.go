package grammar_test

import (
	"errors"
	"hash/crc32"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/read"
)

// TestNoise puts words that carry nothing before, behind and into lines of the conversations that a rule reads, and writes
// them with other signs: what is read, or asked about first, has to stay the same.
func TestNoise(t *testing.T) {
	t.Parallel()
	c := &grammar.Context{Units: length.Imperial, MaxWords: 1, EW: 170 * length.Inch, NS: 141 * length.Inch,
		Rooms: map[string]string{"kitchen": "kitchen", "den": "den", "hall": "hall"}, Walls: map[string]place.Wall{"window": place.North},
		Name:  func(s string) bool { return slices.Contains([]string{"l1", "l2", "d1", "p1"}, s) },
		Noun:  func(w string) bool { return slices.Contains([]string{"light", "duct", "pipe"}, w) },
		Sides: func(string) (length.Length, length.Length) { return 170 * length.Inch, 141 * length.Inch }}
	files, err := filepath.Glob("../testdata/*.chat")
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, f := range files {
		if strings.HasSuffix(f, "spanish.chat") { // the words are English ones
			continue
		}
		raw, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for l := range strings.Lines(string(raw)) {
			who, said, ok := strings.Cut(strings.TrimSpace(l), "> ")
			if !ok || strings.ContainsAny(who, "|#") || strings.Contains(said, " > ") || len(strings.Fields(said)) < 3 {
				continue
			}
			if got, err := parse.Line(said, c); err == nil {
				if row := read.Words.Rows[got.Entry.Kind()]; row == nil || row.Text {
					continue
				}
				lines = append(lines, said)
			}
		}
	}
	slices.Sort(lines)
	lines = slices.Compact(lines)
	tried, lost := 0, map[string][]string{}
	for _, said := range lines {
		if h := crc32.ChecksumIEEE([]byte(said)); h%11 != 0 { // which ones does not depend on the others
			continue
		}
		plain, err := parse.Line(said, c)
		if err != nil {
			t.Fatal(err)
		}
		noisy := []string{"hey guys " + said, "so " + said, "boss, " + said, "morning all. " + said, said + " thanks", said + " btw", said + ", finally", said + " like we said",
			said + ".", said + "!!", said + "...", strings.ReplaceAll(said, " ", "  "), strings.ToUpper(said), strings.ToUpper(said[:1]) + said[1:], strings.NewReplacer("'", "’", `"`, "”").Replace(said)}
		words := strings.Fields(said)
		for i := 1; i < len(words); i++ {
			noisy = append(noisy, strings.Join(slices.Insert(slices.Clone(words), i, "um"), " "))
		}
		for _, text := range noisy {
			tried++
			got, err := parse.Line(text, c)
			ask, asks := errors.AsType[*grammar.Ask](err)
			switch {
			case err == nil && got.Entry.String() == plain.Entry.String(),
				asks && len(ask.Choices) > 0 && slices.ContainsFunc(ask.Choices[0].Lines, func(l grammar.Line) bool { return l.Entry.String() == plain.Entry.String() }):
			case err == nil && got.Entry.Kind() != "note":
				lost["read otherwise"] = append(lost["read otherwise"], text+" => "+got.Entry.String())
			default:
				lost["not read"] = append(lost["not read"], text)
			}
		}
	}
	for how, most := range map[string]int{"read otherwise": tried / 500, "not read": tried / 500} {
		if all := lost[how]; len(all) > most {
			t.Errorf("of %d lines with words that carry nothing %d were %s:\n%s", tried, len(all), how, strings.Join(all, "\n"))
		}
	}
	t.Logf("%d lines: %d not read, %d read otherwise", tried, len(lost["not read"]), len(lost["read otherwise"]))
}

// TestNoiseLeft: what says something is not left out, and a fault is shown where it was typed.
func TestNoiseLeft(t *testing.T) {
	if got, err := parse.Line("new job, the yellow house on the corner", &grammar.Context{}); err == nil && got.Entry.Kind() == "job" {
		t.Errorf("a new job: %s", got)
	}
	said := "hey guys light 6\" 26 off wset 41 off north"
	_, err := parse.Line(said, &grammar.Context{})
	if r, ok := errors.AsType[*grammar.Refusal](err); !ok || r.Col != 1+strings.Index(said, "wset") {
		t.Errorf("%q: %v", said, err)
	}
	for _, said := range []string{"got a camera at 60 off the west and 130 from the north, 4 inch", "window's on the west wall so call that the window wall"} {
		plain, err := parse.Line(said, &grammar.Context{})
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{strings.ToUpper(said), strings.ReplaceAll(said, "'", "’")} {
			if got, err := parse.Line(text, &grammar.Context{}); err != nil || got.String() != plain.String() {
				t.Errorf("%q: %q, %v, want %q", text, got, err, plain)
			}
		}
	}
}
