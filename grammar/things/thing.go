package things

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
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
	if e.Name == "" && RunsOn(e.What, e.Label) {
		what += ","
	}
	head := canon.Say(what, e.Name, e.Label, e.Size)
	if said := strings.Fields(e.Label); len(said) > 1 && !numbers.Placing[said[0]] {
		head = canon.Say(what, e.Name, e.Label, canon.Clause{e.Size}) // a comma ends a label of several words
	}
	return canon.Say(head, canon.Located{On: e.Surface, Fixes: e.Fixes, Comma: head != e.What}, canon.Clause{canon.Tail(e.AfterPaint, "after paint")})
}
func (Thing) Kind() grammar.Kind { return "thing" }

func (s *thingSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	p := places.Where{What: s.What}
	if s.Size != nil {
		if s.SizeB == nil && s.Size.Bare() { // "2 lights"
			return nil, l.Refuse(s.Pos, read.Words.Rows["thing"].Fits)
		}
		p.SetSize(l, &s.Size.Number, s.SizeB)
	}
	if s.Lead != nil && !places.Idle(s.Lead.Text) {
		p.Label = s.Lead.Text
		if lex.Numeral(p.Label) { // "half wall light"
			return nil, &grammar.Ask{Col: s.Lead.Pos.Column, Word: p.Label, Why: fmt.Sprintf("is %q a number? write it in figures", p.Label)}
		}
		if near := grammar.Nearest(p.Label, l.RoomNames()); near != "" {
			return nil, l.NoRoom(s.Lead.Pos.Offset, p.Label)
		}
	}
	if err := p.Read(l, s.Items); err != nil {
		return nil, err
	}
	if p.Even {
		return s.grid(l, &p)
	}
	if len(p.Fixes) == 0 {
		return nil, l.RefuseEnd(read.Words.Rows["thing"].Fits)
	}
	if p.SizeErr != nil {
		return nil, p.SizeErr
	}
	if err := numbers.Unfinished(l, p.Label, s.Pos.Offset); err != nil {
		return nil, err
	}
	if err := l.RoomInLabel(p.Label); err != nil {
		return nil, err
	}
	if p.Surface.IsWall() && slices.Contains(strings.Fields(p.Label), "notch") {
		return nil, l.RefuseWord("notch", fmt.Sprintf(`the wall of the room, or a notch's by the way it faces: on notch %s face`, place.Wall(p.Surface).Opposite()))
	}
	if len(strings.Fields(p.Label)) > lex.MostWords {
		return nil, l.Refuse(s.Pos, fmt.Sprintf("a label of at most %d words", lex.MostWords))
	}
	if w := l.TalkIn(p.Label); w != "" {
		return nil, l.RefuseWord(w, read.Words.Rows["thing"].Fits)
	}
	if p.Sized && feetAnd.MatchString(l.Text) { // "cans 2 foot and 40 off the north"
		return nil, l.Refuse(s.Pos, read.Words.Rows["thing"].Fits)
	}
	for _, w := range strings.Fields(p.Label) {
		if apart[w] || w == "round" && p.SizeAsk != nil {
			return nil, l.RefuseWord(w, read.Words.Rows["thing"].Fits)
		}
	}
	if p.SizeAsk != nil && p.Name == "" {
		return nil, p.SizeAsk
	}
	if n := len(p.Fixes); n > 3 && n%2 == 0 && !slices.ContainsFunc(p.Fixes, func(f place.Fix) bool { return f.How != place.OffWall }) {
		return nil, l.RefuseEnd("one thing a line") // several
	}
	return Thing{s.What, p.Size, p.Name, p.Label, p.Surface, p.Fixes, p.Paint}, nil
}

// apart are words of several things, or of the middle, which are no part of a name.
var apart = lex.Set("both", "each", "either", "pair", "couple", "every", "mid", "sill", "dead", "smack")

// feetAnd matches a length in feet in a list, which is no size.
var feetAnd = regexp.MustCompile(`(?i)\d ?(?:'|’|′|ft|foot|feet) and \d`)

type thingSyntax struct {
	Pos   lexer.Position
	Size  *numbers.ALength    `parser:"@@?"`
	SizeB *numbers.NeedAmong  `parser:"( 'x' @@ )?"`
	Lead  *read.Lead          `parser:"@@?"`
	What  string              `parser:"@Thing"`
	Items []*places.PlaceItem `parser:"@@*"`
}

// RunsOn reports whether the label's words would merge with what: "junction" and "box" is one word for a
// thing, a "box fan" is a fan.
func RunsOn(what, label string) bool {
	said := strings.Fields(what + " " + label)
	n := len(strings.Fields(what))
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
	size := canon.Say(e.Size)
	if size != "" {
		size += ","
	}
	return canon.Say(lex.Plural(e.What), size, e.A, "x", e.B, "even")
}
func (Even) Kind() grammar.Kind { return "even" }

// grid is an even grid of lights.
func (s *thingSyntax) grid(l *read.Source, p *places.Where) (grammar.Entry, error) {
	if p.SizeErr != nil {
		return nil, p.SizeErr
	}
	if p.Counts == nil || p.Name != "" || p.Label != "" || p.Fixes != nil || p.Surface != "" || p.Paint {
		return nil, l.Refuse(s.Pos, `"lights 3 x 2 even" and nothing more`)
	}
	a, ok := p.Counts.L.Whole()
	b, ok2 := p.Counts.B.Whole()
	if !ok || !ok2 || a < 1 || b < 1 || a > 40 || b > 40 {
		return nil, l.Refuse(p.Counts.L.Pos, "two counts: 3 x 2")
	}
	return Even{s.What, p.Size, a, b}, nil
}

// Mark: `mark a on strap 4, 22 off east`.
type Mark struct {
	Name    string
	Surface place.Surface
	Fixes   []place.Fix
}

func (e Mark) String() string {
	return canon.Say("mark", e.Name, canon.Located{On: e.Surface, Fixes: e.Fixes, Comma: false})
}
func (Mark) Kind() grammar.Kind { return "mark" }

func (s *markSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	p := places.Where{NoSize: true}
	if err := p.Read(l, s.Items); err != nil {
		return nil, err
	}
	switch {
	case p.Sized, p.Name != "", p.Label != "", p.Even, p.Paint:
		return nil, l.Refuse(s.Pos, read.Words.Rows["mark"].Fits)
	case len(p.Fixes) == 0:
		return nil, l.RefuseEnd(`where it is: "on strap 4", "22 off east"`)
	}
	return Mark{s.Name, p.Surface, p.Fixes}, nil
}

type markSyntax struct {
	Pos   lexer.Position
	Name  string              `parser:"'mark' @Name"`
	Items []*places.PlaceItem `parser:"@@*"`
}

// Opened: `open d1 d2`: the holes are cut. `buried d1 d2`: board is over them, and they are not.
type Opened struct {
	Names []string
	Not   bool `json:",omitempty"`
}

func (e Opened) String() string {
	return canon.Say(map[bool]string{false: "open", true: "buried"}[e.Not], strings.Join(e.Names, ", "))
}
func (Opened) Kind() grammar.Kind { return "open" }

func (s *OpenSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	list, err := s.Names.Known(l, false)
	return Opened{list, l.Began() == "buried"}, err
}

type OpenSyntax struct {
	Names read.Names `parser:"'open' @@"`
}

var ThingKinds = []read.Row{
	{Command: read.Command{Kind: "thing", About: "a thing the board will hide: light, duct, box, vent, fan, speaker, hatch, ...",
		Example: `light 6" over sink 26 off west 41 off north`, Metric: "light 150 over sink 660 off west 1041 off north",
		Fits: `a distance and what it is from ("off west", "south of strap 3", "up"), "on north wall" or "on strap 4"`},
		Rule: read.Rule[thingSyntax](), Makes: []grammar.Entry{Thing{}}},
	{Command: read.Command{Kind: "even", About: "a grid of lights: columns east-west x rows north-south",
		Example: "lights 3 x 2 even", Fits: `two counts and "even"`},
		Makes: []grammar.Entry{Even{}}},
	{Command: read.Command{Kind: "mark", Words: []string{"mark"}, About: "a point of your own to measure from",
		Example: "mark a on strap 4 22 off east", Metric: "mark a on strap 4 560 off east", Fits: `a letter, then where it is`},
		Rule: read.Rule[markSyntax](), Makes: []grammar.Entry{Mark{}}},
}
