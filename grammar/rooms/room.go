package rooms

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/topic"
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
		if name = canon.Say(name, w); strings.Trim(w, "0123456789") == "" { // bed 2, 13' x 11'
			name += ","
		}
	}
	said := []any{"room", name, e.EW, "x", e.NS, canon.Clause{"high", e.High}}
	for _, n := range e.Less {
		at := n.Corner
		if at == "" {
			at = canon.Say(n.Wall, n.Off.String(), canon.Off(n.OffWall))
		}
		said = append(said, canon.Clause{"less", n.EW, "x", n.NS, at})
	}
	for _, s := range e.Slopes {
		said = append(said, canon.Clause{s.String()})
	}
	return canon.Say(said...)
}
func (Room) Kind() grammar.Kind { return "room" }

func (s *roomSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Room{Name: s.Name.Text}
	if l.TalkIn(e.Name) != "" || len(strings.Fields(e.Name)) > lex.MostWords {
		return nil, l.Refuse(s.Name.Pos, "a name for the room")
	}
	if read.Reserved(e.Name) {
		r := l.Refuse(s.Name.Pos, "a name that is not one of my own words")
		r.Hint = numbers.Canonical(l, l.With(read.Edit{From: s.Name.Pos.Offset, To: s.A.Pos.Offset, Text: e.Name + " room "}))
		return nil, r
	}
	if err := roomNumber(l, s); err != nil {
		return nil, err
	}
	if err := sides(l, &s.A.Number, &s.B.Number); err != nil {
		return nil, err
	}
	a, b := numbers.Said(l, &s.A.Number, numbers.RoomSide), numbers.Said(l, &s.B.Number, numbers.RoomSide)
	if s.ARun == "ns" && s.BRun != "ns" || s.ARun == "" && s.BRun == "ew" {
		a, b = b, a
	} else if s.ARun != "" && s.ARun == s.BRun {
		return nil, l.Refuse(s.B.Pos, "one side east-west and one north-south")
	}
	e.EW, e.NS = a, b
	for _, m := range s.More {
		switch {
		case m.High != nil:
			e.High = numbers.Said(l, &m.High.Number, numbers.RoomHeight)
		case m.Tall != nil:
			e.High = numbers.Said(l, &m.Tall.Number, numbers.RoomHeight)
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
func roomNumber(l *read.Source, s *roomSyntax) error {
	at := strings.LastIndexAny(l.Read[:s.A.Pos.Offset], "123456789")
	if l.Units != length.Metric || at < s.Name.Pos.Offset || strings.TrimSpace(l.Read[at+1:s.A.Pos.Offset]) != "" || read.Wordy(l.Read[at-1]) {
		return nil
	}
	r, k, why := measure.Scan(l.Read[at:], l.Units, measure.One)
	if len(r) != 1 || why != "" || at+k != s.A.End {
		return nil
	}
	v := length.Said{L: r[0].L}
	said := strings.TrimSpace(l.Text[at:s.A.End])
	return &grammar.Ask{Col: s.A.Pos.Column, Word: said, Why: said + ": is its first figure in the room's name?", Choices: []grammar.Choice{
		grammar.Reads(v.String(), numbers.Canonical(l, l.With(read.Edit{From: at, To: s.A.End, Text: v.String()}))),
		grammar.Reads("room "+s.Name.Text, numbers.Canonical(l, l.With(read.Edit{From: at, To: s.A.Pos.Offset, Text: l.Text[at:at+1] + ", "}))),
	}}
}

type roomSyntax struct {
	Name roomName           `parser:"'room' @@"`
	A    numbers.NeedLength `parser:"@@"`
	ARun string             `parser:"@Direction?"`
	By   read.NeedX         `parser:"@@"`
	B    numbers.NeedLength `parser:"@@"`
	BRun string             `parser:"@Direction?"`
	More []roomExtras       `parser:"@@*"`
}

type roomExtras struct {
	High  *numbers.NeedLength `parser:"  ('high' | 'height' | 'ceiling') @@"`
	Tall  *numbers.OneLength  `parser:"| @@ ('high' | 'ceiling')"`
	Slope *slopeSides         `parser:"| 'slope' @@"`
	Less  *notchSyntax        `parser:"| 'less' @@"`
}

// roomName is a new room's name: words, and figures that precede a comma or a complete side.
type roomName struct{ read.Saying }

func (w *roomName) Parse(in *lexer.PeekingLexer) error {
	first := in.Peek().Pos.Offset
	named := func(t *lexer.Token) bool {
		if t.Type == lex.Number && t.Pos.Offset > first {
			rest := t.Pos.Filename[t.Pos.Offset:]
			figures := strings.TrimLeft(rest, "0123456789")
			if len(figures) == len(rest) || len(rest)-len(figures) > 2 {
				return false
			}
			next, _, _ := strings.Cut(strings.TrimPrefix(figures, " "), " ")
			return strings.HasPrefix(figures, ", ") || topic.RoomNoun[lex.Lower(next)] || // unit 3 bath
				aside.MatchString(figures) || sideAlone(rest, len(rest)-len(figures), length.Units(t.Value))
		}
		return read.InLabel(t) || t.Type == lex.Wall || t.Type == lex.Name
	}
	if !w.Take(in, named) {
		return read.Missing(in, "a name for the room")
	}
	return nil
}

// aside is a side after the figures of a name: it has a unit (bed 2 10' x 12') or is more than the inches
// of a foot (bed 2 13 4 1/2 x 11 9).
var aside = regexp.MustCompile(`^\s+[0-9]+(?:\.[0-9]+)?\s*(?:['’′]|(?:ft|feet|foot|mm|cm|m)\b)|^\s+(?:1[2-9]|[2-9][0-9]|[0-9]{3,})(?:[^0-9/]|$)`)

// sideAlone reports whether the first figures of s are a side alone, though a number follows them: bed 2
// 160 x 141.
func sideAlone(s string, figures int, u length.Units) bool {
	_, n, _ := measure.Scan(s, u, measure.One)
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

// hallInches is from where a bare number beside a side in feet is rather the inches of a hall (an assumption); it is asked.
const hallInches = 30 * length.Inch

// leastSide is the least width of a room. Beside a side in feet, a smaller bare number is also feet.
const leastSide = 24 * length.Inch

// inFeet reports whether a side was given in feet, like 14'6, eleven foot and 11-2, which as a room's side is
// not 11-1/2 inches.
func inFeet(n *numbers.Number) bool {
	feet := 0
	for _, r := range n.Readings {
		if r.L >= leastSide {
			feet++
		}
	}
	return feet == 1 && (!n.Bare() || strings.Contains(n.Raw(), "-")) && feetSaid.MatchString(strings.ToLower(n.Raw()))
}

var feetSaid = regexp.MustCompile(`['’′]|^\d{1,2}-\d{1,2}(?:$|[^\d/])|\d ?(?:ft|foot|feet)|[a-z] (?:ft|foot|feet)`)

// meant is a unit that a bare side may be in.
type meant struct {
	name  string
	times length.Length // what it was read in
	least length.Length // not offered below
}

// sides asks about "12 x 14". Beside a side that is certainly inches, a bare one is inches too.
func sides(l *read.Source, a, b *numbers.Number) error {
	below, units := bareFeet, []meant{{"feet", 12, numbers.RoomSide.Least}, {"inches", 1, numbers.RoomSide.Least}}
	if l.Units == length.Metric {
		below, units = bareMetres, []meant{{"metres", 1000, numbers.RoomSide.Unlikely}, {"centimetres", 10, numbers.RoomSide.Unlikely}}
	}
	var doubtful []*numbers.Number
	for i, n := range []*numbers.Number{a, b} {
		other := []*numbers.Number{b, a}[i]
		switch single := len(n.Readings) == 1; {
		case single && l.Units == length.Imperial && n.Bare() && n.Readings[0].L >= 300*length.Inch && strings.HasSuffix(strings.ToLower(other.Raw()), "mm"): // 1680 beside 2430 mm
			n.Readings[0].L = n.Readings[0].L / length.Inch * length.Millimetre
		case single && l.Units == length.Imperial && n.Bare() && n.Readings[0].L < leastSide && inFeet(other):
			n.Readings[0].L *= 12
		case single && n.Bare() && n.Readings[0].L < below:
			doubtful = append(doubtful, n)
		case single && l.Units == length.Imperial && (n.Bare() || strings.ContainsAny(n.Raw(), "\"”″") && !strings.ContainsAny(n.Raw(), "'’′")):
			return nil
		}
	}
	if doubtful == nil {
		return nil
	}
	if len(doubtful) == 1 && l.Units == length.Imperial && doubtful[0].Readings[0].L >= hallInches { // 42 beside 17'6 is hardly 42 ft
		slices.Reverse(units)
	}
	said := a.Raw() + " x " + b.Raw()
	ask := &grammar.Ask{Col: a.Pos.Column, Word: said}
	var names []string
	for _, unit := range units {
		var cuts []read.Edit
		for _, n := range doubtful {
			if v := n.Readings[0].L * unit.times; unit.least <= v && v <= numbers.RoomSide.Most {
				cuts = append(cuts, n.Cut(length.Canon(v)))
			}
		}
		if len(cuts) == len(doubtful) {
			names = append(names, unit.name)
			ask.Choices = append(ask.Choices, grammar.Reads(unit.name, numbers.Canonical(l, l.With(cuts...))))
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
	A       numbers.NeedAmong   `parser:"@@"`
	By      read.NeedX          `parser:"@@"`
	B       numbers.NeedAmong   `parser:"@@"`
	Corner  string              `parser:"(  'in'? @('ne' | 'nw' | 'se' | 'sw') 'corner'?"`
	Wall    string              `parser:" | @Wall"`
	Off     *numbers.NeedLength `parser:"   @@ 'off'"`
	OffWall places.NeedWall     `parser:"   @@"`
	None    *read.NoCorner      `parser:" | @@ )"`
}

func (s *notchSyntax) notch(l *read.Source) Notch {
	n := Notch{EW: numbers.Said(l, &s.A.Number, numbers.NotchSide), NS: numbers.Said(l, &s.B.Number, numbers.NotchSide), Corner: s.Corner}
	if s.Corner != "" {
		return n
	}
	n.Wall, n.OffWall = place.Wall(s.Wall), s.OffWall.Wall
	if n.Wall.Along() == n.OffWall.Along() {
		numbers.Fault(l, l.Refuse(s.OffWall.Pos, "a wall round the corner: north 60 off west"))
	}
	n.Off = numbers.Said(l, &s.Off.Number, numbers.Distances)
	return n
}

// InRoom: `in kitchen`, `kitchen`: the sender is there now.
type InRoom struct{ Name string }

func (e InRoom) String() string   { return canon.Say("in", e.Name) }
func (InRoom) Kind() grammar.Kind { return "in" }

// Alias: `north is window wall`, `kitchen is cook room`.
type Alias struct {
	Wall place.Wall // "" if Room is named
	Room string
	Name string
}

func (e Alias) String() string {
	if e.Wall != "" {
		return canon.Say(e.Wall, "is", e.Name, "wall")
	}
	return canon.Say(e.Room, "is called", e.Name)
}
func (Alias) Kind() grammar.Kind { return "alias" }

// The words for an alias are chosen so that talk does not match: "north is cold today" and "kitchen is a
// mess" are not aliases.
func (s *aliasSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	raw := strings.ToLower(strings.TrimRight(l.Text, " .!?"))
	said := strings.TrimPrefix(s.Name.Text, "also ")
	sure, want, hint := strings.HasSuffix(raw, " wall"), `a name that ends in "wall"`, read.Words.Rows["alias"].Example
	if s.Room != "" {
		sure = strings.HasSuffix(raw, " room") || s.Is == "aka" || strings.Contains(raw, " called ")
		want, hint = `"called" and another name`, s.Room+" is called cook room"
	}
	sym := lex.Phrases.Whole(said)
	taken := sym != (lex.Symbol{}) && sym.Type != lex.Thing && sym.Type != lex.Service || strings.Contains(s.Name.Raw, ",") // "window wall, west is robe wall"
	if !sure || taken || s.Room != "" && read.Reserved(said) || said == "" || len(strings.Fields(said)) > 4 || l.TalkIn(said) != "" {
		r := l.Refuse(s.Name.Pos, want)
		if !l.Measure() {
			r.Hint = hint
		}
		return nil, r
	}
	return Alias{Wall: place.Wall(s.Wall), Room: s.Room, Name: said}, nil
}

type aliasSyntax struct {
	Wall string        `parser:"( @Wall"`
	Room string        `parser:"| @Room )"`
	Is   string        `parser:"@('is' | 'aka')"`
	Name read.Anything `parser:"@@"`
}

// Built: `built 1962`, the year of the house; old ceilings call for cautions.
type Built struct{ Year int }

func (e Built) String() string   { return "built " + strconv.Itoa(e.Year) }
func (Built) Kind() grammar.Kind { return "built" }

func (s *BuiltSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.Year.N < 1500 || s.Year.N > 2200 {
		return nil, l.Refuse(s.Year.Pos, "a year like 1962")
	}
	return Built{s.Year.N}, nil
}

type BuiltSyntax struct {
	Year numbers.Count `parser:"'built' 'in'? @@"`
}

// UnitsSet: `units metric`.
type UnitsSet struct{ Units length.Units }

func (e UnitsSet) String() string   { return canon.Say("units", e.Units) }
func (UnitsSet) Kind() grammar.Kind { return "units" }

func (s *UnitsSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	return nil, l.Refuse(l.Tokens[1].Pos, "imperial or metric")
}

type UnitsSyntax struct {
	Units string `parser:"'units' @Word"`
}

// Job sets the job's title: `job larkspur upper flat`.
type Job struct{ Title string }

func (e Job) String() string   { return "job " + e.Title }
func (Job) Kind() grammar.Kind { return "job" }

var RoomKinds = []read.Row{
	{Command: read.Command{Kind: "room", Words: []string{"room"}, About: "a room: east-west first, then north-south; its name alone says that you are there now",
		Example: "room kitchen 13' 4 1/2 x 11' 9", Metric: "room kitchen 4075 x 3580", Fits: `a name and two sides with x between, then "high" or "less"`},
		Rule: read.Rule[roomSyntax](), Makes: []grammar.Entry{Room{}}},
	{Command: read.Command{Kind: "alias", About: "another name for a wall or a room",
		Example: "north is window wall", Fits: `a name that ends in "wall"`},
		Rule: read.Rule[aliasSyntax](), Makes: []grammar.Entry{Alias{}}},
}
