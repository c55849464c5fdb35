package rooms

import (
	"strings"

	"reflect"
	"slices"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// Slope: `slope north 8' to 4' over 5'`: the ceiling comes down to Wall from High to Low, over a distance
// Over in plan. Over zero means from wall to wall, High zero that its top was not said.
type Slope struct {
	Wall            place.Wall
	High, Low, Over length.Said
}

func (e Slope) String() string {
	return canon.Say("slope", e.Wall, e.High, "to", e.Low, canon.Some("over", e.Over))
}
func (Slope) Kind() grammar.Kind { return "slope" }

func (s *slopeSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.Up {
		return boards.UpAll{Surface: "slope"}, nil
	}
	return s.Of.slope(l), nil
}

// slopeSyntax is also the end of a room: `room stair 12' x 8' slope north 7' to 4'`.
type slopeSyntax struct {
	Up bool        `parser:"'slope' ( @('up' | 'hung')"`
	Of *slopeSides `parser:"| @@ )"`
}

type slopeSides struct {
	Wall places.NeedWall     `parser:"('to' | 'down')* @@"`
	High *numbers.NeedAmong  `parser:"( (?! 'to') 'off'? @@ )?"`
	Low  numbers.NeedAmong   `parser:"('to' | 'down')* @@"`
	Over *numbers.NeedLength `parser:"( ('over' | 'in') @@ )?"`
	Top  *numbers.NeedLength `parser:"( 'high' @@ )?"` // the answer to how high it is
}

func (s *slopeSides) slope(l *read.Source) Slope {
	e := Slope{Wall: s.Wall.Wall, Low: numbers.Said(l, &s.Low.Number, lowEdge)}
	switch {
	case s.High != nil:
		e.High = numbers.Said(l, &s.High.Number, numbers.RoomHeight)
	case s.Top != nil:
		e.High = numbers.Said(l, &s.Top.Number, numbers.RoomHeight)
	}
	if s.Over != nil {
		e.Over = numbers.Said(l, &s.Over.Number, numbers.RoomSide)
	}
	return e
}

// lowEdge has the bounds of the low edge of a slope, which may be on the floor.
var lowEdge = numbers.Bounds{What: "a slope's low edge", Most: 40 * length.Foot, Scaled: true}

// Bulkhead: `bulkhead 16 x 12 along north wall`, `bulkhead 16 x 12 60 off north`: Wide across and Drop
// deep, tight along Wall or Off it.
type Bulkhead struct {
	N          int // of those along its wall, an index of [place.Ordinals]
	Wide, Drop length.Said
	Wall       place.Wall
	Off        length.Said
}

func (e Bulkhead) String() string {
	head := place.Nth(e.N, "bulkhead")
	if e.Off.L != 0 {
		return canon.Say(head, e.Wide, "x", e.Drop.String()+",", e.Off, "off", e.Wall)
	}
	return canon.Say(head, e.Wide, "x", e.Drop, "along", e.Wall)
}
func (Bulkhead) Kind() grammar.Kind { return "bulkhead" }

func (s *bulkheadSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	var e Bulkhead
	e.N = max(slices.Index(place.Ordinals[:], l.Pieces[l.Begin].Low), 0)
	for _, it := range s.Items {
		switch {
		case it.Up:
			return boards.UpAll{Surface: place.Surface(place.Bottom)}, nil
		case it.A != nil && it.B != nil:
			e.Wide, e.Drop = numbers.Said(l, &it.A.Number, boxing), numbers.Said(l, &it.B.Number, boxing)
			if it.First == "deep" || it.First == "down" {
				e.Wide, e.Drop = e.Drop, e.Wide
			}
		case it.A != nil:
			e.Off, e.Wall = numbers.Said(l, &it.A.Number, numbers.Distances), place.Wall(it.Off)
		default:
			e.Wall = place.Wall(it.Wall)
		}
	}
	switch {
	case e.Wide.L == 0 || e.Drop.L == 0:
		return nil, l.RefuseEnd(`how wide and how far down: "16 x 12"`)
	case e.Wall == "":
		return nil, l.RefuseEnd(`"along" and a wall, or a distance off one: 60 off north`)
	}
	return e, nil
}

// boxing has the bounds of the side of a bulkhead.
var boxing = numbers.Bounds{What: "a bulkhead's side", Least: 2 * length.Inch, Most: 8 * length.Foot}

type bulkheadSyntax struct {
	Items []*bulkheadItem `parser:"'bulkhead' @@*"`
}

type bulkheadItem struct {
	Pos   lexer.Position
	Up    bool               `parser:"  @('up' | 'hung')"`
	A     *numbers.NeedAmong `parser:"| (?= Number) @@"`
	First string             `parser:"  @('wide' | 'deep' | 'down')?"`
	B     *numbers.NeedAmong `parser:"  ( 'x' @@ ('wide' | 'deep' | 'down')?"`
	Off   string             `parser:"  | 'off' @Wall )"`
	Wall  string             `parser:"| ('along' | 'on')? @Wall"`
}

// Resolve returns the entry with its surface replaced by f of it. Entries without a surface are unchanged.
func Resolve(e grammar.Entry, f func(place.Surface) place.Surface) grammar.Entry {
	at := reflect.ValueOf(e).FieldByName("Surface")
	if !at.IsValid() {
		return e
	}
	s := f(place.Surface(at.String()))
	if string(s) == at.String() {
		return e
	}
	moved := reflect.New(reflect.TypeOf(e)).Elem()
	moved.Set(reflect.ValueOf(e))
	moved.FieldByName("Surface").SetString(string(s))
	return moved.Interface().(grammar.Entry)
}

// WallsFirst: `walls first`: the walls of the room are boarded before its ceiling.
type WallsFirst struct{}

func (WallsFirst) String() string     { return "walls first" }
func (WallsFirst) Kind() grammar.Kind { return "wallsfirst" }

// CeilingFirst: `ceiling first`: it goes up before the walls, as usual.
type CeilingFirst struct{}

func (CeilingFirst) String() string     { return "ceiling first" }
func (CeilingFirst) Kind() grammar.Kind { return "ceilingfirst" }

// WhichFirst: `what goes up first`, `top or bottom first` (on a wall).
type WhichFirst struct{ Wall bool }

func (e WhichFirst) String() string {
	if e.Wall {
		return "top or bottom first"
	}
	return "what goes up first"
}
func (WhichFirst) Kind() grammar.Kind { return "whichfirst" }

func (s *whichFirstSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	return WhichFirst{Wall: strings.Contains(l.Began(), "bottom")}, nil
}

type whichFirstSyntax struct {
	What string `parser:"@'whichfirst'"`
}

func (s *firstSyntax) Entry(*read.Source) (grammar.Entry, error) {
	if s.What == "wallsfirst" {
		return WallsFirst{}, nil
	}
	return CeilingFirst{}, nil
}

type firstSyntax struct {
	What string `parser:"@('wallsfirst' | 'ceilingfirst')"`
	Up   bool   `parser:"@'up'?"`
}

var ShapeKinds = []read.Row{
	{Command: read.Command{Kind: "wallsfirst", Words: []string{"walls first"}, Talk: []string{"walls go first", "walls before ceiling", "hang walls first", "board walls first", "doing walls first", "do walls first", "walls go up first", "ceiling last"}, About: "the walls of the room are boarded before its ceiling, which then goes between them",
		Example: "walls first", Fits: `nothing, or "in" and a room`},
		Rule: read.Rule[firstSyntax](), Makes: []grammar.Entry{WallsFirst{}}, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "ceilingfirst", Words: []string{"ceiling first"}, Talk: []string{"ceiling goes first", "ceiling before walls", "hang ceiling first", "board ceiling first", "lid first", "walls last"}, About: "the ceiling of the room is boarded before its walls, as is usual",
		Example: "ceiling first", Fits: `nothing, or "in" and a room`},
		Rule: read.Rule[firstSyntax](), Makes: []grammar.Entry{CeilingFirst{}}, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "whichfirst", Words: []string{"what goes up first", "top or bottom first"}, About: "whether the ceiling or the walls go up first, and which row of a wall",
		Example: "what goes up first", Fits: `nothing, or "in" and a room`},
		Rule: read.Rule[whichFirstSyntax](), Makes: []grammar.Entry{WhichFirst{}}, Asks: true, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "slope", Words: []string{"slope"}, About: "a ceiling that comes down to a wall: how high at its top and at its low edge, and over how much of the plan",
		Example: "slope north 8' to 4' over 5'", Metric: "slope north 2400 to 1200 over 1500", Fits: `a wall, its two heights with "to" between, then "over" and how far`},
		Rule: read.Rule[slopeSyntax](), Makes: []grammar.Entry{Slope{}}},
	{Command: read.Command{Kind: "bulkhead", Words: []string{"bulkhead", "second bulkhead", "third bulkhead"}, Talk: []string{"soffit", "dropped soffit", "boxed duct"}, About: "a boxed part under the ceiling: how wide, how far down, along which wall",
		Example: "bulkhead 16 x 12 along north", Metric: "bulkhead 400 x 300 along north", Fits: `"16 x 12" (wide x down), then "along north" or "60 off north"`},
		Rule: read.Rule[bulkheadSyntax](), Makes: []grammar.Entry{Bulkhead{}},
		Begins: func(l *read.Source, i int) bool { // "bulkhead face up"
			sym, _ := l.PhraseAt(l.Begin, lex.Phrases)
			return sym.Value == "bulkhead" || sym.Type == 0
		},
	},
}
