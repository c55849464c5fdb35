package things

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// Opening is a rough opening: `door 36 x 80 on north wall 40 off west`,
// `window 36 x 48 on west wall 50 off north 36 up`.
type Opening struct{ Thing }

func (Opening) Kind() grammar.Kind { return "door" }

type openingSyntax struct {
	Pos   lexer.Position
	Items []*places.PlaceItem `parser:"'door' @@*"`
}

func (s *openingSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	what := places.Openings[strings.TrimPrefix(l.Began(), "the ")]
	p := places.Where{What: what}
	for _, it := range s.Items {
		if it.Num != nil && it.Num.Plain() && it.Num.B == nil {
			r := l.Refuse(it.Num.L.Pos, "width x height: 36 x 80")
			r.Hint = read.Words.Rows["door"].Say(l.Units)
			return nil, r
		}
	}
	if err := p.Read(l, s.Items); err != nil {
		return nil, err
	}
	row := read.Words.Rows["door"]
	switch {
	case p.Even, p.Paint:
		return nil, l.Refuse(s.Pos, row.Fits)
	case p.SizeErr != nil:
		return nil, p.SizeErr
	case len(p.Fixes) == 0:
		return nil, l.RefuseEnd(row.Fits)
	}
	if slices.Contains(strings.Fields(p.Label), "sill") {
		return nil, l.RefuseWord("sill", row.Fits)
	}
	if w := l.TalkIn(p.Label); w != "" {
		return nil, l.RefuseWord(w, row.Fits)
	}
	return Opening{Thing{What: what, Size: p.Size, Name: p.Name, Label: p.Label, Surface: p.Surface, Fixes: p.Fixes}}, nil
}

var OpeningKinds = []read.Row{
	{Command: read.Command{Kind: "door", Words: []string{"door", "window", "skylight"}, Talk: openingWords(),
		About: "a rough opening in the framing: width x height, then how far its edges are off a wall, and its sill up", Example: "door 36 x 80 on north wall 40 off west", Metric: "door 920 x 2040 on north wall 1020 off west",
		Fits: `width x height, "on north wall", "40 off west", and of a window "36 up"`},
		Rule: read.Rule[openingSyntax](), Makes: []grammar.Entry{Opening{}},
		Begins: func(l *read.Source, i int) bool { return i >= len(l.Pieces) || l.Pieces[i].Low != "wall" },         // "window wall boarded"
		Chat:   func(l *read.Source) bool { return !l.Has(lex.Number, "") || !l.Measure() && !l.Has(lex.Wall, "") }, // "door code is 2260 now"
	},
}

func openingWords() (all []string) {
	for said, what := range places.Openings {
		if all = append(all, "the "+said); said != what {
			all = append(all, said)
		}
	}
	slices.Sort(all)
	return all
}
