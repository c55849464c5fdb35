package rooms

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// Square: `square north 160 1/2 south 160 3/4 east 141 west 140 7/8 diag nw-se 213 3/4`:
// walls and diagonals as the tape read them.
type Square struct{ Readings []Reading }

// Reading is one line read once: a wall, or the diagonal "nw-se" or "ne-sw".
type Reading struct {
	Line string
	L    length.Said
}

func (e Square) String() string {
	head := "square"
	for i, r := range e.Readings {
		if i > 0 {
			head += ","
		}
		if strings.Contains(r.Line, "-") {
			head += " diag"
		}
		head += " " + r.Line + " " + r.L.String()
	}
	return head
}
func (Square) Kind() grammar.Kind { return "square" }

func (s *squareSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	var e Square
	for _, it := range s.Items {
		e.Readings = append(e.Readings, Reading{it.Wall + it.Diag, numbers.Said(l, &it.L.Number, numbers.AnyLength)})
	}
	return e, nil
}

type squareSyntax struct {
	Items []*squareItem `parser:"'square' @@+"`
}

type squareItem struct {
	Pos  lexer.Position
	Wall string            `parser:"(  @Wall"`
	Diag string            `parser:" | 'diag'? @('nw-se' | 'ne-sw') )"`
	L    numbers.NeedAmong `parser:"@@"`
}

// HowSquare: `how square is it`: what the readings of the room's walls and diagonals show.
type HowSquare struct{}

func (HowSquare) String() string     { return "how square is it" }
func (HowSquare) Kind() grammar.Kind { return "howsquare" }

func (s *howSquareSyntax) Entry(*read.Source) (grammar.Entry, error) { return HowSquare{}, nil }

type howSquareSyntax struct {
	What     string         `parser:"@'howsquare'"`
	Courtesy *read.Courtesy `parser:"@@?"`
}

// Missed: `missed d1`, `missed d1 at 27 off west 41 off north`: the hole made for it found nothing.
type Missed struct {
	Name  string
	Fixes []place.Fix // where the hole was actually made; none: at the noted place
}

func (e Missed) String() string {
	if len(e.Fixes) == 0 {
		return "missed " + e.Name
	}
	return canon.Say("missed", e.Name, "at", canon.Located{On: "", Fixes: e.Fixes, Comma: false})
}
func (Missed) Kind() grammar.Kind { return "missed" }

func (s *missedSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Missed{Name: s.Name}
	if s.Said != nil {
		if e.Name = grammar.CanonicalThing(s.Said.Text); !l.MayName(e.Name) {
			if !l.Has(lex.Number, "") { // the bus, or a phone call
				return nil, grammar.ErrChatter
			}
			return nil, l.Refuse(s.Said.Pos, "a noted thing")
		}
	}
	p := places.Where{NoSize: true}
	if err := p.Read(l, s.Items); err != nil {
		return nil, err
	}
	if p.Sized || p.Name != "" || p.Label != "" || p.Even || p.Paint || p.Surface != "" {
		return nil, l.Refuse(s.Pos, read.Words.Rows["missed"].Fits)
	}
	e.Fixes = p.Fixes
	return e, nil
}

type missedSyntax struct {
	Pos   lexer.Position
	Name  string              `parser:"'missed' ( 'mark'? @Name"`
	Said  *read.Label         `parser:"| @@ )"`
	Items []*places.PlaceItem `parser:"@@*"`
}

var SquareKinds = []read.Row{
	{Command: read.Command{Kind: "square", Words: []string{"square"}, About: "walls and diagonals as the tape read them: is the room square, and where does the first board go",
		Example: "square north 160 1/2 south 160 3/4 east 141 west 140 7/8 diag nw-se 213 3/4", Metric: "square north 4077 south 4083 east 3581 west 3578 diag nw-se 5429",
		Fits: `a wall or "diag nw-se", and its length, again and again`},
		Rule: read.Rule[squareSyntax](), Makes: []grammar.Entry{Square{}}, Chat: func(l *read.Source) bool { return !l.Has(lex.Wall, "") && len(l.Tokens) > 2 }},
	{Command: read.Command{Kind: "howsquare", Words: []string{"how square is it", "how square", "is it square", "how far out of square"}, About: "what the readings of the room's walls and diagonals tell: its corners and where the first board goes",
		Example: "how square is it", Fits: `nothing, or "in" and a room`},
		Rule: read.Rule[howSquareSyntax](), Makes: []grammar.Entry{HowSquare{}}, Asks: true, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "missed", Words: []string{"missed"}, About: "the hole made for a covered thing found nothing: where to look next",
		Example: "missed d1 at 27 off west 41 off north", Metric: "missed d1 at 686 off west 1041 off north", Fits: `a noted thing, and "at" and where the hole was made if elsewhere`},
		Rule: read.Rule[missedSyntax](), Makes: []grammar.Entry{Missed{}}, Chat: func(l *read.Source) bool {
			return !l.Has(lex.Name, "") && !l.Has(lex.Thing, "") && !l.Has(lex.Number, "")
		}},
}
