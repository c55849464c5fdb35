package grammar_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// TestLinesAreKept: what is kept with an open question is the line itself. Every
// type of entry comes back from its JSON as it was.
func TestLinesAreKept(t *testing.T) {
	seen := map[string]bool{}
	asked := onSite(length.Imperial)
	asked.Asked = true
	keep := func(in string, c *grammar.Context) {
		line, err := parse.Line(in, c)
		if err != nil {
			t.Fatalf("%q: %v", in, err)
		}
		seen[reflect.TypeOf(line.Entry).Name()] = true
		data, err := json.Marshal(line)
		if err != nil {
			t.Fatal(err)
		}
		var got grammar.Line
		if err := json.Unmarshal(data, &got); err != nil || !cmp.Equal(got, line) {
			t.Errorf("%q: %v\n%s", in, err, cmp.Diff(line, got))
		}
	}
	for _, tt := range accepted {
		keep(tt.in, onSite(length.Imperial))
	}
	for _, row := range read.Commands() {
		keep(row.Example, &grammar.Context{})
	}
	keep("1", asked)
	keep("84 1/2", asked)
	for _, name := range grammar.EntryTypes() {
		if !seen[name] && name != "Doubtful" { // a choice's line, see bot/job
			t.Errorf("no line of the tests and no example makes a %s", name)
		}
	}
	for _, in := range []string{`{"is":"Zork","entry":{}}`, `{"is":"Thing","entry":[]}`, `[]`} {
		var got grammar.Line
		if err := json.Unmarshal([]byte(in), &got); err == nil {
			t.Errorf("%s was taken for %v", in, got)
		}
	}
}

func TestChoicesAreLines(t *testing.T) {
	_, err := parse.Line("gap 84 2", onSite(length.Imperial))
	ask, ok := errors.AsType[*grammar.Ask](err)
	if !ok || len(ask.Choices) != 4 {
		t.Fatalf("got %v", err)
	}
	for _, c := range ask.Choices {
		if len(c.Lines) != 1 || c.Text != "" {
			t.Errorf("choice %q is %+v", c.Label, c)
		}
	}
}

// TestFixesReadBack: a distance as the read-back prints it, typed again, is the
// same distance: in a light on the ceiling, in a mark and in a fix.
func TestFixesReadBack(t *testing.T) {
	lengths := rapid.Custom(func(t *rapid.T) length.Said {
		said := length.Said{L: length.Length(rapid.Int64Range(0, 200*12*64).Draw(t, "64ths")) * length.SixtyFourth}
		said.Tag = rapid.SampledFrom([]length.Tag{length.Exact, length.Strong, length.Shy}).Draw(t, "tag")
		return said
	})
	of := rapid.Custom(func(t *rapid.T) place.Of {
		if rapid.Bool().Draw(t, "support") {
			return place.Of{Sup: rapid.SampledFrom(place.SupportKinds[:]).Draw(t, "kind"), N: rapid.IntRange(1, 60).Draw(t, "n"), Edge: rapid.Bool().Draw(t, "edge")}
		}
		return place.Of{Name: rapid.SampledFrom([]string{"d1", "l1", "sink light"}).Draw(t, "name")}
	})
	fixes := rapid.Custom(func(t *rapid.T) place.Fix {
		wall := rapid.SampledFrom(place.Walls[:])
		f := place.Fix{How: rapid.SampledFrom([]place.How{place.OffWall, place.DirOf, place.UpFrom, place.DownTo, place.OnLine, place.Along}).Draw(t, "how")}
		if f.How != place.OnLine {
			f.Said, f.ToEdge = lengths.Draw(t, "length"), rapid.Bool().Draw(t, "to edge")
		}
		switch f.How {
		case place.OffWall:
			f.Wall, f.Face = wall.Draw(t, "wall"), rapid.SampledFrom([]place.Face{"", place.Framing, place.BoardFace}).Draw(t, "face")
			f.Notch = rapid.Bool().Draw(t, "notch")
			f.Main = !f.Notch && rapid.Bool().Draw(t, "main")
		case place.DirOf:
			f.Dir, f.Of = wall.Draw(t, "dir"), of.Draw(t, "of")
		case place.OnLine, place.Along:
			for f.Of = of.Draw(t, "of"); f.Sup == ""; f.Of = of.Draw(t, "of") {
			}
			if f.How == place.Along {
				f.Wall = wall.Draw(t, "from")
			}
		}
		return f
	})
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOfN(fixes, 1, 3).Draw(t, "fixes")
		for _, want := range []grammar.Entry{things.Thing{What: "light", Fixes: all}, things.Mark{Name: "b", Fixes: all}, record.Refix{Name: "d1", Fixes: all}} {
			line, err := parse.Line(want.String(), onSite(length.Imperial))
			if err != nil {
				t.Fatalf("%s: %v", want, err)
			}
			if diff := cmp.Diff(grammar.Line{Entry: want}, line); diff != "" {
				t.Fatalf("%s:\n%s", want, diff)
			}
		}
	})
}
