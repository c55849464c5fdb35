package grammar_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/read"
)

func TestAnswers(t *testing.T) {
	asked := onSite(length.Imperial)
	asked.Asked = true
	for _, tt := range []struct{ in, canon string }{
		{"1", "1"}, {"2.", "2"}, {"(3)", "3"}, {"#2", "2"}, {"3)", "3"},
		{"2 please", "2"}, {"two", "2"}, {"number 3", "3"}, {"the second one", "2"}, {"2nd", "2"}, {"Two, please!", "2"},
		{"84", `84"`}, {"84 1/2", `84-1/2"`}, {"9' 8 5/8", `116-5/8"`},
	} {
		line, err := parse.Line(tt.in, asked)
		if err != nil || line.String() != tt.canon {
			t.Errorf("asked: %q: got %v, %v", tt.in, line, err)
		}
		if _, err := parse.Line(tt.in, onSite(length.Imperial)); !errors.Is(err, grammar.ErrChatter) {
			t.Errorf("not asked: %q: got %v, want chatter", tt.in, err)
		}
	}
	// The rest of a line that was asked for is no chatter.
	for _, in := range []string{"west", "stairs wall, ctr, studs", "26 off west", "30 north", "north 30", "off west", "off the left", "26 off est"} {
		if _, err := parse.Line(in, asked); err == nil || errors.Is(err, grammar.ErrChatter) {
			t.Errorf("asked: %q: got %v", in, err)
		}
	}
}

func TestAsks(t *testing.T) {
	const metric = length.Metric
	for _, tt := range []struct {
		in, word string
		choices  []string
		units    length.Units
	}{
		{"gap 12.6", "12.6", []string{`gap 12-5/8"`, `gap 12-3/4"`, `gap 150"`}, ""},
		{"gap 2400.5", "2400.5", []string{`gap 2400.5 mm`, `gap 24005 mm`}, metric},
		{"room pantry 4 x 3", "4 x 3", []string{"room pantry 4000 mm x 3000 mm"}, metric},
		{"room pantry 240 x 180", "240 x 180", []string{"room pantry 2400 mm x 1800 mm"}, metric},
		{"room pantry 420 x 3", "420 x 3", []string{"room pantry 420 mm x 3000 mm"}, metric},
		{"hung 20000 row 2", "20000", nil, metric},
		{"room pantry 12 x 14", "12 x 14", []string{`room pantry 144" x 168"`, `room pantry 12" x 14"`}, ""},
		{"room pantry 12' x 26", "12' x 26", []string{`room pantry 144" x 312"`, `room pantry 144" x 26"`}, ""},
		{"hung 12 row 2", "12", []string{`hung 144" row 2`, `hung 12" row 2`}, ""},
		{"gap 9 8 5/8", "9 8 5/8", []string{`gap 116-5/8"`, `gap 9", 8-5/8"`}, ""},
		{"light 9 8 1/2 off west", "9 8 1/2", []string{`light 116-1/2" off west`, `light 9,  8 1/2 off west`}, ""},
		{"light 2 26 off west 41 off north", "2", []string{`light l2, 26" off west, 41" off north`, `light 2", 26" off west, 41" off north`}, ""},
		{"light 4 over sink 26 off west", "4", []string{`light l4 over sink, 26" off west`, `light over sink 4", 26" off west`}, ""},
		{"light 26 off west 84 & 2 off north", "84 & 2", []string{
			`light 26" off west, 84-1/2" off north`, `light 26" off west, 84-1/4" off north`, `light 26" off west, 84-1/8" off north`}, ""},
		// The second doubt stays as typed and is asked next.
		{"kitchen: light 84 & 2 off west 84 & 2 off north", "84 & 2", []string{
			`kitchen: light 84-1/2" off west 84 & 2 off north`, `kitchen: light 84-1/4" off west 84 & 2 off north`, `kitchen: light 84-1/8" off west 84 & 2 off north`}, ""},
		{"hung 200 row 2", "200", nil, ""},
		{"gap 4255", "4255", []string{"gap 4255 mm"}, ""},
		{"gap 1 200", "1 200", []string{"gap 1200 mm", "gap 1 mm, 200 mm"}, metric},
		{"straps ns at 400 1 200 off west", "1 200", []string{"straps ns at 400 mm, 1200 mm off west", "straps ns at 400 mm, 1 mm, 200 mm off west"}, metric},
		{"room pantry 7 200 x 3500", "7 200", []string{"room pantry 7200 mm x 3500 mm", "room pantry 7,  200 x 3500"}, metric},
		{"straps ns 16 oc first one twelve and a half off west", "one twelve and a half",
			[]string{`straps ns 16" oc, first 12-1/2" off west`, `straps ns 16" oc, first 112-1/2" off west`}, ""},
		{"light first one twelve and a half off west", "one twelve and a half", []string{`light first, 112-1/2" off west`, `light first, 12-1/2" off west`}, ""},
		{"light big one ten off west", "one ten", []string{`light big, 22" off west`, `light big, 110" off west`, `light big, 10" off west`}, ""},
		{"straps ns 16 oc first one 12 1/2 off west", "one 12 1/2", []string{`straps ns 16" oc, first 12-1/2" off west`}, ""},
		{"light one fifty three off west", "one fifty three", []string{`light 153" off west`, `light 53" off west`}, ""},
		{"vent thirty ate x 10 18 south of mark a", "thirty ate", []string{`vent 30" x 10", 18" south of mark a`}, ""}, // 38 is no size
		{"pipe p1 40 off west from strap 2 to strap 7 depth ten eight", "ten eight", []string{`pipe p1 40" off west from strap 2 to strap 7, depth 10-1/2"`}, ""},
		{"light 26 ish off west 41 off north", "26 ish", []string{`light 26" off west, 41" off north`}, ""},
		{"light about 26 off west 41 off north", "about 26", []string{`light 26" off west, 41" off north`}, ""},
		{"light 26 off west 41 +/- 1/8 off north", "41 +/- 1/8", []string{`light 26" off west, 41" off north`}, ""},
		{"strap 4 at ~57", "~57", []string{`strap 4 at 57"`}, ""},
		// A word that may be a number is no part of a name.
		{"light f ate ninety off west 41 off north", "ate", nil, ""},
		{"light f ate, ninety off west 41 off north", "ate", nil, ""},
		{"light won ninety off west 41 off north", "won", nil, ""},
		{"light over tub tin 26 off west 41 off north", "tin", nil, ""},
		{"light f half 26 off west 41 off north", "half", nil, ""},
		{"light foty six off west 41 off north", "foty", nil, ""},
		{"light point 375 off west 41 off north", "point", nil, ""},
		{"light d1 and a half off west 41 off north", "a half", nil, ""},
		{`light d1 6 ate 26 off west 41 off north`, "ate", nil, ""},
		{"room f ate 13' x 11'", "ate", nil, ""},
		{"box 40 26 off west 41 off north", "40", nil, ""},
		{"light 26 5/9 off west", "26 5/9", nil, ""},
	} {
		_, err := parse.Line(tt.in, onSite(tt.units))
		ask, ok := errors.AsType[*grammar.Ask](err)
		if !ok {
			t.Errorf("%q: got %v, want a question", tt.in, err)
			continue
		}
		var got []string
		for _, c := range ask.Choices {
			got = append(got, c.String())
			if c.Label == "" {
				t.Errorf("%q: choice %q has no label", tt.in, c.String())
			}
			if short, _, _ := strings.Cut(c.Label, " ("); strings.HasPrefix(tt.in, "gap ") && strings.ContainsAny(short, "0123456789") {
				if line, err := parse.Line("gap "+strings.Replace(short, " and ", ", ", 1), onSite(tt.units)); err != nil || line.String() != c.String() {
					t.Errorf("%q: the label %q reads as %s, %v; it stands for %s", tt.in, c.Label, line, err, c.String())
				}
			}
		}
		if ask.Word != tt.word || ask.Why == "" || !slices.Equal(got, tt.choices) {
			t.Errorf("%q: asks about %q, why %q\n got %q\nwant %q", tt.in, ask.Word, ask.Why, got, tt.choices)
		}
	}
}

// TestTopic: help of a word tells of that word alone.
func TestTopic(t *testing.T) {
	for _, tt := range []struct {
		word string
		want []grammar.Kind
	}{
		{"strap", []grammar.Kind{"support"}},
		{"light", []grammar.Kind{"thing"}},
		{"pipe", []grammar.Kind{"run"}},
		{"snags", []grammar.Kind{"snags"}},
		{"zork", nil},
	} {
		var got []grammar.Kind
		for _, row := range read.Topic(tt.word) {
			got = append(got, row.Kind)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("help %s tells of %v, want %v", tt.word, got, tt.want)
		}
	}
}
