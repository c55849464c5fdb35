package grammar

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
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
func (Square) Kind() Kind { return "square" }

func (s *squareSyntax) entry(l *line) (Entry, error) {
	var e Square
	for _, it := range s.Items {
		e.Readings = append(e.Readings, Reading{it.Wall + it.Diag, l.said(&it.L.number, anyLength)})
	}
	return e, nil
}

type squareSyntax struct {
	Items []*squareItem `parser:"'square' @@+"`
}

type squareItem struct {
	Pos  lexer.Position
	Wall string    `parser:"(  @Wall"`
	Diag string    `parser:" | 'diag'? @('nw-se' | 'ne-sw') )"`
	L    needAmong `parser:"@@"`
}

// HowSquare: `how square is it`: what the readings of the room's walls and diagonals show.
type HowSquare struct{}

func (HowSquare) String() string { return "how square is it" }
func (HowSquare) Kind() Kind     { return "howsquare" }

func (s *howSquareSyntax) entry(*line) (Entry, error) { return HowSquare{}, nil }

type howSquareSyntax struct {
	What     string    `parser:"@'howsquare'"`
	Courtesy *courtesy `parser:"@@?"`
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
	return say("missed", e.Name, "at", located{"", e.Fixes, false})
}
func (Missed) Kind() Kind { return "missed" }

func (s *missedSyntax) entry(l *line) (Entry, error) {
	e := Missed{Name: s.Name}
	if s.Said != nil {
		if e.Name = canonicalThing(s.Said.Text); !l.noun(e.Name) {
			if !l.has(lex.Number, "") { // the bus, or a phone call
				return nil, ErrChatter
			}
			return nil, l.refuse(s.Said.Pos, "a noted thing")
		}
	}
	p := where{noSize: true}
	if err := p.read(l, s.Items); err != nil {
		return nil, err
	}
	if p.sized || p.Name != "" || p.Label != "" || p.even || p.paint || p.Surface != "" {
		return nil, l.refuse(s.Pos, words.rows["missed"].Fits)
	}
	e.Fixes = p.Fixes
	return e, nil
}

type missedSyntax struct {
	Pos   lexer.Position
	Name  string       `parser:"'missed' ( 'mark'? @Name"`
	Said  *label       `parser:"| @@ )"`
	Items []*placeItem `parser:"@@*"`
}

var squareKinds = []kind{
	{Command: Command{Kind: "square", Words: []string{"square"}, About: "walls and diagonals as the tape read them: is the room square, and where does the first board go",
		Example: "square north 160 1/2 south 160 3/4 east 141 west 140 7/8 diag nw-se 213 3/4", Metric: "square north 4077 south 4083 east 3581 west 3578 diag nw-se 5429",
		Fits: `a wall or "diag nw-se", and its length, again and again`},
		rule: rule[squareSyntax](), makes: []Entry{Square{}}, talk: func(l *line) bool { return !l.has(lex.Wall, "") && len(l.Tokens) > 2 }},
	{Command: Command{Kind: "howsquare", Words: []string{"how square is it", "how square", "is it square", "how far out of square"}, Talk: []string{"is room square", "is it out of square", "are corners square", "are walls square", "did we check square", "how out of square", "square yet"}, About: "what the readings of the room's walls and diagonals tell: its corners and where the first board goes",
		Example: "how square is it", Fits: `nothing, or "in" and a room`},
		rule: rule[howSquareSyntax](), makes: []Entry{HowSquare{}}, asks: true, ofRoom: true, talk: always},
	{Command: Command{Kind: "missed", Words: []string{"missed"}, About: "the hole made for a covered thing found nothing: where to look next",
		Example: "missed d1 at 27 off west 41 off north", Metric: "missed d1 at 686 off west 1041 off north", Fits: `a noted thing, and "at" and where the hole was made if elsewhere`},
		rule: rule[missedSyntax](), makes: []Entry{Missed{}}, talk: func(l *line) bool { return !l.has(lex.Name, "") && !l.has(lex.Thing, "") && !l.has(lex.Number, "") }},
}
