package grammar

import (
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/place"
	"strapline/grammar/lex"
)

// Thing: `light 6" over sink 26 off west 41 off north`.
type Thing struct {
	What    string     // canonical kind: light, duct, box, vent, fan, ...
	Size    place.Size // zero if not given
	Name    string     // d1
	Label   string     // "over sink"
	Surface place.Surface
	Fixes   []place.Fix
	// AfterPaint: "after paint": its hole is cut after painting, not while hanging.
	AfterPaint bool
}

// A label precedes the size, since after a number "edge" or "strong" would apply to the number.
func (e Thing) String() string {
	what := e.What
	if e.Name == "" && runsOn(e.What, e.Label) {
		what += ","
	}
	head := say(what, e.Name, e.Label, e.Size)
	if said := strings.Fields(e.Label); len(said) > 1 && !placing[said[0]] {
		head = say(what, e.Name, e.Label, clause{e.Size}) // a comma ends a label of several words
	}
	return say(head, located{e.Surface, e.Fixes, head != e.What}, clause{tail(e.AfterPaint, "after paint")})
}
func (Thing) Kind() Kind { return "thing" }

func (s *thingSyntax) entry(l *line) (Entry, error) {
	p := where{what: s.What}
	if s.Size != nil {
		if s.SizeB == nil && s.Size.bare() { // "2 lights"
			return nil, l.refuse(s.Pos, words.rows["thing"].Fits)
		}
		p.size(l, &s.Size.number, s.SizeB)
	}
	if s.Lead != nil && !idle(s.Lead.Text) {
		p.Label = s.Lead.Text
		if lex.Numeral(p.Label) { // "half wall light"
			return nil, &Ask{Col: s.Lead.Pos.Column, Word: p.Label, Why: fmt.Sprintf("is %q a number? write it in figures", p.Label)}
		}
		if near := Nearest(p.Label, l.roomNames()); near != "" {
			return nil, l.noRoom(s.Lead.Pos.Offset, p.Label)
		}
	}
	if err := p.read(l, s.Items); err != nil {
		return nil, err
	}
	if p.even {
		return s.grid(l, &p)
	}
	if len(p.Fixes) == 0 {
		return nil, l.refuseEnd(words.rows["thing"].Fits)
	}
	if p.sizeErr != nil {
		return nil, p.sizeErr
	}
	if err := l.unfinished(p.Label, s.Pos.Offset); err != nil {
		return nil, err
	}
	if err := l.roomInLabel(p.Label); err != nil {
		return nil, err
	}
	if p.Surface.IsWall() && slices.Contains(strings.Fields(p.Label), "notch") {
		return nil, l.refuseWord("notch", fmt.Sprintf(`the wall of the room, or a notch's by the way it faces: on notch %s face`, place.Wall(p.Surface).Opposite()))
	}
	if len(strings.Fields(p.Label)) > lex.MostWords {
		return nil, l.refuse(s.Pos, fmt.Sprintf("a label of at most %d words", lex.MostWords))
	}
	if w := l.talkIn(p.Label); w != "" {
		return nil, l.refuseWord(w, words.rows["thing"].Fits)
	}
	if p.sizeAsk != nil && p.Name == "" {
		return nil, p.sizeAsk
	}
	return Thing{s.What, p.Size, p.Name, p.Label, p.Surface, p.Fixes, p.paint}, nil
}

type thingSyntax struct {
	Pos   lexer.Position
	Size  *aLength     `parser:"@@?"`
	SizeB *needAmong   `parser:"( 'x' @@ )?"`
	Lead  *lead        `parser:"@@?"`
	What  string       `parser:"@Thing"`
	Items []*placeItem `parser:"@@*"`
}

// runsOn reports whether the label's words would merge with what: "junction" and "box" is one word for a
// thing, a "box fan" is a fan.
func runsOn(what, label string) bool {
	said := strings.Fields(what + " " + label)
	n := len(strings.Fields(what))
	for _, p := range lex.Phrases[said[0]] {
		if k := len(p.Words); k > n && k <= len(said) && slices.Equal(p.Words, said[:k]) {
			return true
		}
	}
	for k := n + 1; k <= min(len(said), n+3); k++ {
		if lex.ThingOf[strings.Join(said[n:k], " ")] != "" {
			return true
		}
	}
	return false
}

// Even: `lights 3 x 2 even`: A columns east-west, B rows north-south.
type Even struct {
	What string
	Size place.Size
	A, B int
}

func (e Even) String() string {
	size := say(e.Size)
	if size != "" {
		size += ","
	}
	return say(lex.Plural(e.What), size, e.A, "x", e.B, "even")
}
func (Even) Kind() Kind { return "even" }

// grid is an even grid of lights.
func (s *thingSyntax) grid(l *line, p *where) (Entry, error) {
	if p.sizeErr != nil {
		return nil, p.sizeErr
	}
	if p.counts == nil || p.Name != "" || p.Label != "" || p.Fixes != nil || p.Surface != "" || p.paint {
		return nil, l.refuse(s.Pos, `"lights 3 x 2 even" and nothing more`)
	}
	a, ok := p.counts.L.whole()
	b, ok2 := p.counts.B.whole()
	if !ok || !ok2 || a < 1 || b < 1 || a > 40 || b > 40 {
		return nil, l.refuse(p.counts.L.Pos, "two counts: 3 x 2")
	}
	return Even{s.What, p.Size, a, b}, nil
}

// Mark: `mark a on strap 4, 22 off east`.
type Mark struct {
	Name    string
	Surface place.Surface
	Fixes   []place.Fix
}

func (e Mark) String() string { return say("mark", e.Name, located{e.Surface, e.Fixes, false}) }
func (Mark) Kind() Kind       { return "mark" }

func (s *markSyntax) entry(l *line) (Entry, error) {
	p := where{noSize: true}
	if err := p.read(l, s.Items); err != nil {
		return nil, err
	}
	switch {
	case p.sized, p.Name != "", p.Label != "", p.even, p.paint:
		return nil, l.refuse(s.Pos, words.rows["mark"].Fits)
	case len(p.Fixes) == 0:
		return nil, l.refuseEnd(`where it is: "on strap 4", "22 off east"`)
	}
	return Mark{s.Name, p.Surface, p.Fixes}, nil
}

type markSyntax struct {
	Pos   lexer.Position
	Name  string       `parser:"'mark' @Name"`
	Items []*placeItem `parser:"@@*"`
}

// Opened: `open d1 d2`: the holes are cut.
type Opened struct{ Names []string }

func (e Opened) String() string { return say("open", strings.Join(e.Names, ", ")) }
func (Opened) Kind() Kind       { return "open" }

func (s *openSyntax) entry(l *line) (Entry, error) {
	list, err := s.Names.known(l, false)
	return Opened{list}, err
}

type openSyntax struct {
	Names names `parser:"'open' @@"`
}

var thingKinds = []kind{
	{Command: Command{Kind: "thing", About: "a thing the board will hide: light, duct, box, vent, fan, speaker, hatch, ...",
		Example: `light 6" over sink 26 off west 41 off north`, Metric: "light 150 over sink 660 off west 1041 off north",
		Fits: `a distance and what it is from ("off west", "south of strap 3", "up"), "on north wall" or "on strap 4"`},
		rule: rule[thingSyntax](), makes: []Entry{Thing{}}},
	{Command: Command{Kind: "even", About: "a grid of lights: columns east-west x rows north-south",
		Example: "lights 3 x 2 even", Fits: `two counts and "even"`},
		makes: []Entry{Even{}}},
	{Command: Command{Kind: "mark", Words: []string{"mark"}, About: "a point of your own to measure from",
		Example: "mark a on strap 4 22 off east", Metric: "mark a on strap 4 560 off east", Fits: `a letter, then where it is`},
		rule: rule[markSyntax](), makes: []Entry{Mark{}}},
}

// roomInLabel refuses a label that says the thing is in a room that is not declared: "smoke alarm in
// hall" is none of the room at hand.
func (l *line) roomInLabel(label string) error {
	words := strings.Fields(label)
	for i, w := range words {
		if i > 0 && words[i-1] == "in" && roomNoun[w] && l.Rooms[w] == "" {
			return l.noRoom(max(strings.Index(lex.Lower(l.Text), " "+w)+1, 0), w)
		}
	}
	return nil
}
