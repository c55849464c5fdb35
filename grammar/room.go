package grammar

import (
	"regexp"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// Room: `room kitchen 13' 4-1/2 x 11' 9 high 8' less 4' x 3' ne`.
type Room struct {
	Name   string
	EW, NS length.Said
	High   length.Said // zero when not said
	Less   []Notch
	Slopes []Slope
}

func (e Room) String() string {
	name := ""
	for w := range strings.FieldsSeq(e.Name) {
		if name = say(name, w); strings.Trim(w, "0123456789") == "" { // bed 2, 13' x 11'
			name += ","
		}
	}
	said := []any{"room", name, e.EW, "x", e.NS, clause{"high", e.High}}
	for _, n := range e.Less {
		at := n.Corner
		if at == "" {
			at = say(n.Wall, n.Off.String(), off(n.OffWall))
		}
		said = append(said, clause{"less", n.EW, "x", n.NS, at})
	}
	for _, s := range e.Slopes {
		said = append(said, clause{s.String()})
	}
	return say(said...)
}
func (Room) Kind() Kind { return "room" }

func (s *roomSyntax) entry(l *line) (Entry, error) {
	e := Room{Name: s.Name.Text}
	if l.talkIn(e.Name) != "" || len(strings.Fields(e.Name)) > lex.MostWords {
		return nil, l.refuse(s.Name.Pos, "a name for the room")
	}
	if reserved(e.Name) {
		r := l.refuse(s.Name.Pos, "a name that is not one of my own words")
		r.Hint = l.canonical(l.with(cut{s.Name.Pos.Offset, s.A.Pos.Offset, e.Name + " room "}))
		return nil, r
	}
	if err := l.roomNumber(s); err != nil {
		return nil, err
	}
	if err := l.sides(&s.A.number, &s.B.number); err != nil {
		return nil, err
	}
	a, b := l.said(&s.A.number, roomSide), l.said(&s.B.number, roomSide)
	if s.ARun == "ns" && s.BRun != "ns" || s.ARun == "" && s.BRun == "ew" {
		a, b = b, a
	} else if s.ARun != "" && s.ARun == s.BRun {
		return nil, l.refuse(s.B.Pos, "one side east-west and one north-south")
	}
	e.EW, e.NS = a, b
	for _, m := range s.More {
		switch {
		case m.High != nil:
			e.High = l.said(&m.High.number, roomHeight)
		case m.Tall != nil:
			e.High = l.said(&m.Tall.number, roomHeight)
		case m.Slope != nil:
			e.Slopes = append(e.Slopes, m.Slope.slope(l))
		default:
			e.Less = append(e.Less, m.Less.notch(l))
		}
	}
	return e, nil
}

// roomNumber asks whether the 7 of "room den 7 200 x 3500" is part of its name, since in a metric job it
// may be 7 200 mm.
func (l *line) roomNumber(s *roomSyntax) error {
	at := strings.LastIndexAny(l.Read[:s.A.Pos.Offset], "123456789")
	if l.Units != length.Metric || at < s.Name.Pos.Offset || strings.TrimSpace(l.Read[at+1:s.A.Pos.Offset]) != "" || wordy(l.Read[at-1]) {
		return nil
	}
	r, k, why := length.Scan(l.Read[at:], l.Units, length.One)
	if len(r) != 1 || why != "" || at+k != s.A.End {
		return nil
	}
	v := length.Said{L: r[0].L}
	said := strings.TrimSpace(l.Text[at:s.A.End])
	return &Ask{Col: s.A.Pos.Column, Word: said, Why: said + ": is its first figure in the room's name?", Choices: []Choice{
		reads(v.String(), l.canonical(l.with(cut{at, s.A.End, v.String()}))),
		reads("room "+s.Name.Text, l.canonical(l.with(cut{at, s.A.Pos.Offset, l.Text[at:at+1] + ", "}))),
	}}
}

type roomSyntax struct {
	Name roomName     `parser:"'room' @@"`
	A    needLength   `parser:"@@"`
	ARun string       `parser:"@Direction?"`
	By   needX        `parser:"@@"`
	B    needLength   `parser:"@@"`
	BRun string       `parser:"@Direction?"`
	More []roomExtras `parser:"@@*"`
}

type roomExtras struct {
	High  *needLength  `parser:"  ('high' | 'height' | 'ceiling') @@"`
	Tall  *oneLength   `parser:"| @@ ('high' | 'ceiling')"`
	Slope *slopeSides  `parser:"| 'slope' @@"`
	Less  *notchSyntax `parser:"| 'less' @@"`
}

// roomName is a new room's name: words, and figures that precede a comma or a complete side.
type roomName struct{ saying }

func (w *roomName) Parse(in *lexer.PeekingLexer) error {
	first := in.Peek().Pos.Offset
	named := func(t *lexer.Token) bool {
		if t.Type == lex.Number && t.Pos.Offset > first {
			rest := t.Pos.Filename[t.Pos.Offset:]
			figures := strings.TrimLeft(rest, "0123456789")
			if len(figures) == len(rest) || len(rest)-len(figures) > 2 {
				return false
			}
			return strings.HasPrefix(figures, ", ") || aside.MatchString(figures) || sideAlone(rest, len(rest)-len(figures), length.Units(t.Value))
		}
		return inLabel(t) || t.Type == lex.Wall || t.Type == lex.Name
	}
	if !w.take(in, named) {
		return missing(in, "a name for the room")
	}
	return nil
}

// aside is a side after the figures of a name: it has a unit (bed 2 10' x 12') or is more than the inches
// of a foot (bed 2 13 4 1/2 x 11 9).
var aside = regexp.MustCompile(`^\s+[0-9]+(?:\.[0-9]+)?\s*(?:['’′]|(?:ft|feet|foot|mm|cm|m)\b)|^\s+(?:1[2-9]|[2-9][0-9]|[0-9]{3,})(?:[^0-9/]|$)`)

// sideAlone reports whether the first figures of s are a side alone, though a number follows them: bed 2
// 160 x 141.
func sideAlone(s string, figures int, u length.Units) bool {
	_, n, _ := length.Scan(s, u, length.One)
	rest := strings.TrimLeft(s[figures:], " ")
	return n == figures && len(rest) < len(s)-figures && rest != "" && '0' <= rest[0] && rest[0] <= '9'
}

// bareFeet and bareMetres are the least sides without a unit that are taken as read. From 48 up a bare
// number is inches, since a room 48 ft long would be given with its unit; below, it may be feet, and is
// asked about. In a metric job it is mm from 300 up.
const (
	bareFeet   = 48 * length.Inch
	bareMetres = 300 * length.Millimetre
)

// leastSide is the least width of a room. Beside a side in feet, a smaller bare number is also feet.
const leastSide = 24 * length.Inch

// inFeet reports whether a side was given in feet, like 14'6 and eleven foot.
func inFeet(n *number) bool {
	return len(n.Readings) == 1 && !n.bare() && n.Readings[0].L >= 2*length.Foot && feetSaid.MatchString(strings.ToLower(n.raw()))
}

var feetSaid = regexp.MustCompile(`['’′]|\d ?(?:ft|foot|feet)|[a-z] (?:ft|foot|feet)`)

// meant is a unit that a bare side may be in.
type meant struct {
	name  string
	times length.Length // what it was read in
	least length.Length // not offered below
}

// sides asks about "12 x 14". Beside a side that is certainly inches, a bare one is inches too.
func (l *line) sides(a, b *number) error {
	below, units := bareFeet, []meant{{"feet", 12, roomSide.least}, {"inches", 1, roomSide.least}}
	if l.Units == length.Metric {
		below, units = bareMetres, []meant{{"metres", 1000, roomSide.unlikely}, {"centimetres", 10, roomSide.unlikely}}
	}
	var doubtful []*number
	for i, n := range []*number{a, b} {
		switch single := len(n.Readings) == 1; {
		case single && l.Units == length.Imperial && n.bare() && n.Readings[0].L < leastSide && inFeet([]*number{b, a}[i]):
			n.Readings[0].L *= 12
		case single && n.bare() && n.Readings[0].L < below:
			doubtful = append(doubtful, n)
		case single && l.Units == length.Imperial && (n.bare() || strings.ContainsAny(n.raw(), "\"”″") && !strings.ContainsAny(n.raw(), "'’′")):
			return nil
		}
	}
	if doubtful == nil {
		return nil
	}
	said := a.raw() + " x " + b.raw()
	ask := &Ask{Col: a.Pos.Column, Word: said}
	var names []string
	for _, unit := range units {
		var cuts []cut
		for _, n := range doubtful {
			if v := n.Readings[0].L * unit.times; unit.least <= v && v <= roomSide.most {
				cuts = append(cuts, n.cut(length.Canon(v)))
			}
		}
		if len(cuts) == len(doubtful) {
			names = append(names, unit.name)
			ask.Choices = append(ask.Choices, reads(unit.name, l.canonical(l.with(cuts...))))
		}
	}
	ask.Why = said + ": " + strings.Join(names, " or ") + "?"
	if names == nil {
		ask.Why = said + ": with its unit, please"
	}
	return ask
}

// Notch is a rectangle missing from a room: in a corner ("ne"), or at a wall, Off its far corner wall. EW
// and NS are its extents in plan.
type Notch struct {
	EW, NS  length.Said
	Corner  string      // "ne" "nw" "se" "sw", or ""
	Wall    place.Wall  // with Corner "": the wall it stands at
	Off     length.Said // with Corner "": the distance from OffWall to its near edge
	OffWall place.Wall
}

type notchSyntax struct {
	A       needAmong   `parser:"@@"`
	By      needX       `parser:"@@"`
	B       needAmong   `parser:"@@"`
	Corner  string      `parser:"(  'in'? @('ne' | 'nw' | 'se' | 'sw') 'corner'?"`
	Wall    string      `parser:" | @Wall"`
	Off     *needLength `parser:"   @@ 'off'"`
	OffWall needWall    `parser:"   @@"`
	None    *noCorner   `parser:" | @@ )"`
}

func (s *notchSyntax) notch(l *line) Notch {
	n := Notch{EW: l.said(&s.A.number, notchSide), NS: l.said(&s.B.number, notchSide), Corner: s.Corner}
	if s.Corner != "" {
		return n
	}
	n.Wall, n.OffWall = place.Wall(s.Wall), s.OffWall.Wall
	if across(n.Wall) == across(n.OffWall) {
		l.fault(l.refuse(s.OffWall.Pos, "a wall round the corner: north 60 off west"))
	}
	n.Off = l.said(&s.Off.number, distances)
	return n
}

// across reports whether distances off the wall run north-south.
func across(w place.Wall) bool { return w == place.North || w == place.South }

// InRoom: `in kitchen`, `kitchen`: the sender is there now.
type InRoom struct{ Name string }

func (e InRoom) String() string { return say("in", e.Name) }
func (InRoom) Kind() Kind       { return "in" }

// Alias: `north is window wall`, `kitchen is cook room`.
type Alias struct {
	Wall place.Wall // "" if Room is named
	Room string
	Name string
}

func (e Alias) String() string {
	if e.Wall != "" {
		return say(e.Wall, "is", e.Name, "wall")
	}
	return say(e.Room, "is called", e.Name)
}
func (Alias) Kind() Kind { return "alias" }

// The words for an alias are chosen so that talk does not match: "north is cold today" and "kitchen is a
// mess" are not aliases.
func (s *aliasSyntax) entry(l *line) (Entry, error) {
	raw := strings.ToLower(strings.TrimRight(l.Text, " .!?"))
	said := strings.TrimPrefix(s.Name.Text, "also ")
	sure, want, hint := strings.HasSuffix(raw, " wall"), `a name that ends in "wall"`, words.rows["alias"].Example
	if s.Room != "" {
		sure = strings.HasSuffix(raw, " room") || s.Is == "aka" || strings.Contains(raw, " called ")
		want, hint = `"called" and another name`, s.Room+" is called cook room"
	}
	_, taken := lex.Phrases[said]
	if !sure || taken || s.Room != "" && reserved(said) || said == "" || len(strings.Fields(said)) > 4 || l.talkIn(said) != "" {
		r := l.refuse(s.Name.Pos, want)
		if !l.measure() {
			r.Hint = hint
		}
		return nil, r
	}
	return Alias{Wall: place.Wall(s.Wall), Room: s.Room, Name: said}, nil
}

type aliasSyntax struct {
	Wall string   `parser:"( @Wall"`
	Room string   `parser:"| @Room )"`
	Is   string   `parser:"@('is' | 'aka')"`
	Name anything `parser:"@@"`
}

// Built: `built 1962`, the year of the house; old ceilings call for cautions.
type Built struct{ Year int }

func (e Built) String() string { return "built " + strconv.Itoa(e.Year) }
func (Built) Kind() Kind       { return "built" }

func (s *builtSyntax) entry(l *line) (Entry, error) {
	if s.Year.N < 1500 || s.Year.N > 2200 {
		return nil, l.refuse(s.Year.Pos, "a year like 1962")
	}
	return Built{s.Year.N}, nil
}

type builtSyntax struct {
	Year count `parser:"'built' 'in'? @@"`
}

// UnitsSet: `units metric`.
type UnitsSet struct{ Units length.Units }

func (e UnitsSet) String() string { return say("units", e.Units) }
func (UnitsSet) Kind() Kind       { return "units" }

func (s *unitsSyntax) entry(l *line) (Entry, error) {
	switch s.Units {
	case "imperial", "inches", "feet", "inch":
		return UnitsSet{length.Imperial}, nil
	case "metric", "mm", "metres", "meters", "millimetres", "millimeters":
		return UnitsSet{length.Metric}, nil
	}
	return nil, l.refuse(l.Tokens[1].Pos, "imperial or metric")
}

type unitsSyntax struct {
	Units string `parser:"'units' @Word"`
}

// Job sets the job's title: `job larkspur upper flat`.
type Job struct{ Title string }

func (e Job) String() string { return "job " + e.Title }
func (Job) Kind() Kind       { return "job" }

var roomKinds = []kind{
	{Command: Command{Kind: "room", Words: []string{"room"}, About: "a room: east-west first, then north-south; its name alone says that you are there now",
		Example: "room kitchen 13' 4 1/2 x 11' 9", Metric: "room kitchen 4075 x 3580", Fits: `a name and two sides with x between, then "high" or "less"`},
		rule: rule[roomSyntax](), makes: []Entry{Room{}}},
	{Command: Command{Kind: "alias", About: "another name for a wall or a room",
		Example: "north is window wall", Fits: `a name that ends in "wall"`},
		rule: rule[aliasSyntax](), makes: []Entry{Alias{}}},
}
