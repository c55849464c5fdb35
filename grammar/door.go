package grammar

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar/lex"
)

// Opening is a rough opening: `door 36 x 80 on north wall 40 off west`,
// `window 36 x 48 on west wall 50 off north 36 up`.
type Opening struct{ Thing }

func (Opening) Kind() Kind { return "door" }

type openingSyntax struct {
	Pos   lexer.Position
	Items []*placeItem `parser:"'door' @@*"`
}

func (s *openingSyntax) entry(l *line) (Entry, error) {
	what := openings[strings.TrimPrefix(l.began(), "the ")]
	p := where{what: what}
	for _, it := range s.Items {
		if it.Num != nil && it.Num.plain() && it.Num.B == nil {
			r := l.refuse(it.Num.L.Pos, "width x height: 36 x 80")
			r.Hint = words.rows["door"].Say(l.Units)
			return nil, r
		}
	}
	if err := p.read(l, s.Items); err != nil {
		return nil, err
	}
	row := words.rows["door"]
	switch {
	case p.even, p.paint:
		return nil, l.refuse(s.Pos, row.Fits)
	case p.sizeErr != nil:
		return nil, p.sizeErr
	case len(p.Fixes) == 0:
		return nil, l.refuseEnd(row.Fits)
	}
	if w := l.talkIn(p.Label); w != "" {
		return nil, l.refuseWord(w, row.Fits)
	}
	return Opening{Thing{What: what, Size: p.Size, Name: p.Name, Label: p.Label, Surface: p.Surface, Fixes: p.Fixes}}, nil
}

// openings maps the starts of lines about openings in the framing to their kinds.
var openings = map[string]string{
	"door": "door", "doorway": "door", "door opening": "door", "door rough opening": "door", "patio door": "door", "sliding door": "door", "garage door": "door", "closet door": "door",
	"window": "window", "window opening": "window", "window rough opening": "window",
	"skylight": "skylight", "skylight opening": "skylight",
}

// isOpening reports whether a thing of that kind is a rough opening.
func isOpening(what string) bool { return openings[what] == what && what != "" }

var openingKinds = []kind{
	{Command: Command{Kind: "door", Words: []string{"door", "window", "skylight"}, Talk: openingWords(),
		About: "a rough opening in the framing: width x height, then how far its edges are off a wall, and its sill up", Example: "door 36 x 80 on north wall 40 off west", Metric: "door 920 x 2040 on north wall 1020 off west",
		Fits: `width x height, "on north wall", "40 off west", and of a window "36 up"`},
		rule: rule[openingSyntax](), makes: []Entry{Opening{}},
		begins: func(l *line, i int) bool { return i >= len(l.Pieces) || l.Pieces[i].Low != "wall" },         // "window wall boarded"
		talk:   func(l *line) bool { return !l.has(lex.Number, "") || !l.measure() && !l.has(lex.Wall, "") }, // "door code is 2260 now"
	},
}

func openingWords() (all []string) {
	for said, what := range openings {
		if all = append(all, "the "+said); said != what {
			all = append(all, said)
		}
	}
	slices.Sort(all)
	return all
}
