package grammar_test

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/sentences"
)

// check holds Parse to its promises for any text: an accepted line reads the
// same from its canonical text, in either job; an error is one of the three;
// every choice of a question and every hint is a line.
func check(t *testing.T, text string, c *grammar.Context) {
	line, err := parse.Line(text, c)
	if err == nil {
		if note, ok := line.Entry.(record.Note); ok { // why it is kept is not kept with it
			line.Entry = record.Note{Text: note.Text}
		}
		canon := line.String()
		for _, u := range []length.Units{length.Imperial, length.Metric} {
			other := *c
			other.Units = u
			again, err := parse.Line(canon, &other)
			if err != nil {
				t.Fatalf("%q: its canonical text %q: %v", text, canon, err)
			}
			if diff := cmp.Diff(line, again); diff != "" {
				t.Fatalf("%q: its canonical text %q reads otherwise:\n%s", text, canon, diff)
			}
		}
		return
	}
	if ask, ok := errors.AsType[*grammar.Ask](err); ok {
		if ask.Why == "" || ask.Col < 1 {
			t.Fatalf("%q: asks %+v", text, ask)
		}
		for _, choice := range ask.Choices {
			if _, err := parse.Line(choice.String(), c); errors.Is(err, grammar.ErrChatter) || choice.Label == "" {
				t.Fatalf("%q: choice %+v: %v", text, choice, err)
			}
		}
		return
	}
	if r, ok := errors.AsType[*grammar.Refusal](err); ok {
		if r.Want == "" || r.Col < 1 || r.Col > utf8.RuneCountInString(text)+1 {
			t.Fatalf("%q: refused with %+v", text, r)
		}
		if _, err := parse.Line(r.Hint, c); err != nil {
			t.Fatalf("%q: hint %q: %v", text, r.Hint, err)
		}
		return
	}
	if !errors.Is(err, grammar.ErrChatter) {
		t.Fatalf("%q: %v", text, err)
	}
}

func FuzzRoundTrip(f *testing.F) {
	for _, tt := range accepted {
		f.Add(tt.in, false, false)
	}
	for _, in := range chatter {
		f.Add(in, true, true)
	}
	for _, row := range read.Commands() {
		f.Add(row.Example, true, false)
	}
	for _, in := range []string{"...", "!!", "kitchen:", "hey guys!", "cut it"} {
		f.Add(in, false, false)
	}
	f.Fuzz(func(t *testing.T, text string, metric, asked bool) {
		c := onSite(length.Imperial)
		if metric {
			c.Units = length.Metric
		}
		c.Asked, c.Spoken = asked, d1Spoken
		for _, part := range sentences.Split(text) {
			check(t, part, c)
		}
	})
}

func d1Spoken() grammar.Spoken { return grammar.Spoken{Room: "kitchen", Names: []string{"d1"}} }

// FuzzWords puts lines together from words of the language, which random
// bytes seldom do.
func FuzzWords(f *testing.F) {
	said := strings.Fields(`light lights duct vent box outlet fan junction box hatch blocking backing boot can data low voltage
		26 41 16 3/4 6" 9' 8 5/8 2x4 4x10 84 & 2 12 x by × 660mm 2.5 twenty six three quarters a half strong shy 9:58 9:08 1/2
		off from of on up down along at to edge ctr studs bare board face notch main left right floor ceiling high wide thick
		north east south west window wall ew ns n s strap straps joist stud 3 4 oc first stops lengths less ne row rows r2 d1 d2 a b mark
		over sink sink light reading nook kitchen den bed 2 in before after room is called aka wall window hung boarded finished
		open find where is covered any pipe wire gas who hung log today since status note snag fixed hit undo scratch that strike fix
		not make that job units metric built 1962 help move moved took how far anything what has been am pm 8.15 12.6 snags rated set la l2b zork two ? , : ; + * ( ) # @ - . the and please even x strapline`)
	f.Add([]byte("\x00\x01\x10\x20"), false)
	f.Add([]byte{0, 13, 40, 52, 14, 40, 50}, true)
	f.Fuzz(func(t *testing.T, picks []byte, metric bool) {
		c := onSite(length.Imperial)
		if metric {
			c.Units = length.Metric
		}
		c.Spoken = d1Spoken
		var words []string
		for _, p := range picks[:min(len(picks), 24)] {
			words = append(words, said[int(p)%len(said)])
		}
		for _, part := range sentences.Split(strings.Join(words, " ")) {
			check(t, part, c)
		}
	})
}
