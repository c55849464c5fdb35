package grammar

import (
	"reflect"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// Slope: `slope north 8' to 4' over 5'`: the ceiling comes down to Wall from High to Low, over a distance
// Over in plan. Over zero means from wall to wall.
type Slope struct {
	Wall            place.Wall
	High, Low, Over length.Said
}

func (e Slope) String() string {
	return say("slope", e.Wall, e.High, "to", e.Low, some("over", e.Over))
}
func (Slope) Kind() Kind { return "slope" }

func (s *slopeSyntax) entry(l *line) (Entry, error) {
	if s.Up {
		return UpAll{"slope"}, nil
	}
	return s.Of.slope(l), nil
}

// slopeSyntax is also the end of a room: `room stair 12' x 8' slope north 7' to 4'`.
type slopeSyntax struct {
	Up bool        `parser:"'slope' ( @('up' | 'hung')"`
	Of *slopeSides `parser:"| @@ )"`
}

type slopeSides struct {
	Wall needWall    `parser:"('to' | 'down')* @@"`
	High needAmong   `parser:"'off'? @@"`
	Low  needAmong   `parser:"('to' | 'down')* @@"`
	Over *needLength `parser:"( ('over' | 'in') @@ )?"`
}

func (s *slopeSides) slope(l *line) Slope {
	e := Slope{Wall: s.Wall.Wall, High: l.said(&s.High.number, roomHeight), Low: l.said(&s.Low.number, lowEdge)}
	if s.Over != nil {
		e.Over = l.said(&s.Over.number, roomSide)
	}
	return e
}

// lowEdge has the bounds of the low edge of a slope, which may be on the floor.
var lowEdge = bounds{what: "a slope's low edge", most: 40 * length.Foot, scaled: true}

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
		return say(head, e.Wide, "x", e.Drop.String()+",", e.Off, "off", e.Wall)
	}
	return say(head, e.Wide, "x", e.Drop, "along", e.Wall)
}
func (Bulkhead) Kind() Kind { return "bulkhead" }

func (s *bulkheadSyntax) entry(l *line) (Entry, error) {
	var e Bulkhead
	e.N = max(slices.Index(place.Ordinals[:], l.Pieces[l.begin].Low), 0)
	for _, it := range s.Items {
		switch {
		case it.Up:
			return UpAll{place.Surface(place.Bottom)}, nil
		case it.A != nil && it.B != nil:
			e.Wide, e.Drop = l.said(&it.A.number, boxing), l.said(&it.B.number, boxing)
			if it.First == "deep" || it.First == "down" {
				e.Wide, e.Drop = e.Drop, e.Wide
			}
		case it.A != nil:
			e.Off, e.Wall = l.said(&it.A.number, distances), place.Wall(it.Off)
		default:
			e.Wall = place.Wall(it.Wall)
		}
	}
	switch {
	case e.Wide.L == 0 || e.Drop.L == 0:
		return nil, l.refuseEnd(`how wide and how far down: "16 x 12"`)
	case e.Wall == "":
		return nil, l.refuseEnd(`"along" and a wall, or a distance off one: 60 off north`)
	}
	return e, nil
}

// boxing has the bounds of the side of a bulkhead.
var boxing = bounds{what: "a bulkhead's side", least: 2 * length.Inch, most: 8 * length.Foot}

type bulkheadSyntax struct {
	Items []*bulkheadItem `parser:"'bulkhead' @@*"`
}

type bulkheadItem struct {
	Pos   lexer.Position
	Up    bool       `parser:"  @('up' | 'hung')"`
	A     *needAmong `parser:"| (?= Number) @@"`
	First string     `parser:"  @('wide' | 'deep' | 'down')?"`
	B     *needAmong `parser:"  ( 'x' @@ ('wide' | 'deep' | 'down')?"`
	Off   string     `parser:"  | 'off' @Wall )"`
	Wall  string     `parser:"| ('along' | 'on')? @Wall"`
}

// Resolve returns the entry with its surface replaced by f of it. Entries without a surface are unchanged.
func Resolve(e Entry, f func(place.Surface) place.Surface) Entry {
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
	return moved.Interface().(Entry)
}

// surface is the surface said: the ceiling, a wall, a slope or a part of a bulkhead. A slope or bulkhead
// without its wall is found later, in the room.
func (s *whereSyntax) surface() place.Surface {
	switch {
	case s == nil:
		return ""
	case s.Ceiling:
		return place.Ceiling
	}
	if s.Face != "" {
		return place.Surface(s.Face)
	}
	shape := s.Shape + s.Alone
	if shape == "bulkhead" {
		shape = place.Bottom
	}
	return place.Surface(strings.TrimSpace(s.Wall + " " + shape))
}

// whereSyntax is a surface. A wall alone may be one, or what a distance is off.
type whereSyntax struct {
	Pos     lexer.Position
	Ceiling bool   `parser:"( @'ceiling'"`
	Wall    string `parser:"| @Wall"`
	Shape   string `parser:"  @('slope' | 'bulkhead' | 'bulkhead bottom' | 'bulkhead face' | 'bulkhead back')?"`
	Face    string `parser:"| @Face"`
	Alone   string `parser:"| @('slope' | 'bulkhead' | 'bulkhead bottom' | 'bulkhead face' | 'bulkhead back') )"`
}

// WallsFirst: `walls first`: the walls of the room are boarded before its ceiling.
type WallsFirst struct{}

func (WallsFirst) String() string { return "walls first" }
func (WallsFirst) Kind() Kind     { return "wallsfirst" }

// CeilingFirst: `ceiling first`: it goes up before the walls, as usual.
type CeilingFirst struct{}

func (CeilingFirst) String() string { return "ceiling first" }
func (CeilingFirst) Kind() Kind     { return "ceilingfirst" }

func (s *firstSyntax) entry(*line) (Entry, error) {
	if s.What == "wallsfirst" {
		return WallsFirst{}, nil
	}
	return CeilingFirst{}, nil
}

type firstSyntax struct {
	What string `parser:"@('wallsfirst' | 'ceilingfirst')"`
	Up   bool   `parser:"@'up'?"`
}

var shapeKinds = []kind{
	{Command: Command{Kind: "wallsfirst", Words: []string{"walls first"}, Talk: []string{"walls go first", "walls before ceiling", "hang walls first", "board walls first", "doing walls first", "do walls first", "walls go up first", "ceiling last"}, About: "the walls of the room are boarded before its ceiling, which then goes between them",
		Example: "walls first", Fits: `nothing, or "in" and a room`},
		rule: rule[firstSyntax](), makes: []Entry{WallsFirst{}}, ofRoom: true, talk: always},
	{Command: Command{Kind: "ceilingfirst", Words: []string{"ceiling first"}, Talk: []string{"ceiling goes first", "ceiling before walls", "hang ceiling first", "board ceiling first", "lid first", "walls last"}, About: "the ceiling of the room is boarded before its walls, as is usual",
		Example: "ceiling first", Fits: `nothing, or "in" and a room`},
		rule: rule[firstSyntax](), makes: []Entry{CeilingFirst{}}, ofRoom: true, talk: always},
	{Command: Command{Kind: "slope", Words: []string{"slope"}, About: "a ceiling that comes down to a wall: how high at its top and at its low edge, and over how much of the plan",
		Example: "slope north 8' to 4' over 5'", Metric: "slope north 2400 to 1200 over 1500", Fits: `a wall, its two heights with "to" between, then "over" and how far`},
		rule: rule[slopeSyntax](), makes: []Entry{Slope{}}},
	{Command: Command{Kind: "bulkhead", Words: []string{"bulkhead", "second bulkhead", "third bulkhead"}, Talk: []string{"soffit", "dropped soffit", "boxed duct"}, About: "a boxed part under the ceiling: how wide, how far down, along which wall",
		Example: "bulkhead 16 x 12 along north", Metric: "bulkhead 400 x 300 along north", Fits: `"16 x 12" (wide x down), then "along north" or "60 off north"`},
		rule: rule[bulkheadSyntax](), makes: []Entry{Bulkhead{}},
		begins: func(l *line, i int) bool { // "bulkhead face up"
			sym, _ := l.PhraseAt(l.begin, lex.Phrases)
			return sym.Value == "bulkhead" || sym.Type == 0
		},
	},
}
