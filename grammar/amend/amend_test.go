package amend_test

import (
	"slices"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/amend"
	"strapline/grammar/parse"
	"strapline/grammar/record"
)

// it is a context in which what is asked about can be spoken of.
var it = &grammar.Context{Units: length.Imperial, Name: func(s string) bool { return s == record.It }, MaxWords: 1, Rooms: map[string]string{"den": "den"}, Last: grammar.Last{Name: record.It, Now: true}}

// TestEntry: what a correction makes of an entry, in order.
func TestEntry(t *testing.T) {
	for _, tt := range []struct {
		entry, by string
		want      []string
	}{
		{"light 26 off west 41 off north", "28 not 26", []string{`light 28" off west, 41" off north`}},
		{"light 26 off west 41 off north", "28 not 27", nil},
		{"light 26 off west 41 off north", "*28", []string{`light 28" off west, 41" off north`, `light 26" off west, 28" off north`}},
		{"light 4\" 26 off west 41 off north", "6 not 4", []string{`light 6", 26" off west, 41" off north`}},
		{"light 26 off west", "fix it 40 off north", []string{`light 26" off west, 40" off north`}},
		{"light 26 off west", "fix it 40 off east", []string{`light 40" off east`}},
		{"light 26 off west 41 off north", "fix it 3 east of it", []string{`light 29" off west, 41" off north`}},
		{"light 26 off west 41 off south", "fix it 3 south of it", []string{`light 26" off west, 38" off south`}},
		{"light 2 off west 41 off south", "fix it 3 west of it", nil}, // it would be in the wall
		{"light 26 off west 3 south of strap 2", "fix it 3 south of it", nil},
		{"box 2x4 on north wall 52 off west 16 up", "fix it 18 up", []string{`box 2" x 4", on north wall, 52" off west, 18" up`}},
		{"box 2x4 on north wall 52 off west 16 up", "instead east", []string{`box 2" x 4", on north wall, 52" off east, 16" up`, `box 2" x 4", on east wall, 52" off west, 16" up`}},
		{"light 26 off west 41 off north", "instead east not west", []string{`light 26" off east, 41" off north`}},
		{"light 26 off west 41 off north", "instead fan", []string{`fan 26" off west, 41" off north`}},
		{"light 26 off west", "instead edge", []string{`light 26" off west to edge`}},
		{"light 26 off west 41 off north", "other way round", []string{`light 41" off west, 26" off north`, `light 26" off east, 41" off north`, `light 26" off west, 41" off south`, `light 26" off east, 41" off south`}},
		{"light 26 off west", "wrong wall", []string{`light 26" off east`}},
		{"straps ew 16 oc first 14", "other way round", []string{`straps ns 16" oc, first 14"`}},
		{"room den 13' x 11'", "other way round", []string{`room den 132" x 156"`}},
		{"hung row 3", "instead row 2", []string{"hung row 2"}},
		{"pipe 22 off north from 0 off west to 0 off east", "fix it 26 off north", []string{`pipe 26" off north from 0" off west to 0" off east`}},
		{"pipe from 22 off north 0 off west to 22 off north 0 off east", "fix it 26 off north", []string{`pipe from 26" off north, 0" off west to 26" off north, 0" off east`}},
		{"delivered 22 x 12' 10 x 8'", "24 not 22", []string{`delivered 24 x 144", 10 x 96"`}},
		{"hung row 3", "*29", nil},
	} {
		e, err := parse.Line(tt.entry, it)
		if err != nil {
			t.Errorf("%q: %v", tt.entry, err)
			continue
		}
		by, err := parse.Line(tt.by, it)
		if err != nil {
			t.Errorf("%q: %v", tt.by, err)
			continue
		}
		was := e.Entry.String()
		var got []string
		for _, a := range amend.Entry(e.Entry, by.Entry, length.Imperial) {
			got = append(got, a.String())
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%q, %q:\n got %q\nwant %q", tt.entry, tt.by, got, tt.want)
		}
		if e.Entry.String() != was {
			t.Errorf("%q, %q: the entry itself is now %s", tt.entry, tt.by, e.Entry)
		}
	}
}

// TestLikely: nobody misreads a depth as a distance off a wall.
func TestLikely(t *testing.T) {
	e, err := parse.Line("pipe 40 off west from strap 1 to strap 3 depth 3/4", it)
	by, berr := parse.Line("*44", it)
	if err != nil || berr != nil {
		t.Fatal(err, berr)
	}
	all := amend.Entry(e.Entry, by.Entry, length.Imperial)
	got := amend.Likely(e.Entry, all)
	if want := `pipe 44" off west from strap 1 to strap 3, depth 3/4"`; len(all) != 2 || len(got) != 1 || got[0].String() != want {
		t.Errorf("got %v of %v, want %s", got, all, want)
	}
}
