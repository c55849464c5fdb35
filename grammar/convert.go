package grammar

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
)

func (s *roomSyntax) entry(l *line) (Entry, error) {
	e := Room{Name: s.Name.Text}
	if l.talkIn(e.Name) != "" || len(strings.Fields(e.Name)) > mostWords {
		return nil, l.refuse(s.Name.Pos, "a name for the room")
	}
	if words.reserved(e.Name) {
		r := l.refuse(s.Name.Pos, "a name that is no word of mine")
		r.Hint = l.canonical(l.with(cut{s.Name.Pos.Offset, s.A.Pos.Offset, e.Name + " room "}))
		return nil, r
	}
	if err := l.sides(&s.A.number, &s.B.number); err != nil {
		return nil, err
	}
	a, err := l.within(&s.A.number, roomSide)
	if err != nil {
		return nil, err
	}
	b, err := l.within(&s.B.number, roomSide)
	if err != nil {
		return nil, err
	}
	if s.ARun == "ns" && s.BRun != "ns" || s.ARun == "" && s.BRun == "ew" {
		a, b = b, a
	} else if s.ARun != "" && s.ARun == s.BRun {
		return nil, l.refuse(s.B.Pos, "one side east-west and one north-south")
	}
	e.EW, e.NS = a, b
	for _, m := range s.More {
		switch {
		case m.High != nil:
			e.High, err = l.within(&m.High.number, roomHeight)
		case m.Tall != nil:
			e.High, err = l.within(&m.Tall.number, roomHeight)
		default:
			var n Notch
			n, err = m.Less.notch(l)
			e.Less = append(e.Less, n)
		}
		if err != nil {
			return nil, err
		}
	}
	return e, nil
}

// bareFeet is the rule for a room's side without a unit: from 48 up it is
// inches, for no room is boarded that is 48 ft long without anybody saying so;
// below it may be feet, and is asked. In a metric job it is mm from 300 up.
const (
	bareFeet   = 48 * length.Inch
	bareMetres = 300 * length.Millimetre
)

// meant is a unit that a bare side may be in.
type meant struct {
	name  string
	times length.Length // what it was read in
	least length.Length // offered from here up
}

// sides asks what "12 x 14" is. Beside a side that is inches for sure, a bare
// one is inches too.
func (l *line) sides(a, b *number) error {
	below, units := bareFeet, []meant{{"feet", 12, roomSide.least}, {"inches", 1, roomSide.least}}
	if l.Units == length.Metric {
		below, units = bareMetres, []meant{{"metres", 1000, roomSide.unlikely}, {"centimetres", 10, roomSide.unlikely}}
	}
	var doubtful []*number
	for _, n := range []*number{a, b} {
		switch single := len(n.Readings) == 1; {
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

func (s *notchSyntax) notch(l *line) (n Notch, err error) {
	if n.EW, err = l.within(&s.A.number, notchSide); err != nil {
		return n, err
	}
	if n.NS, err = l.within(&s.B.number, notchSide); err != nil {
		return n, err
	}
	if s.Corner != "" {
		n.Corner = s.Corner
		return n, nil
	}
	n.Wall, n.OffWall = place.Wall(s.Wall), s.OffWall.Wall
	if across(n.Wall) == across(n.OffWall) {
		return n, l.refuse(s.OffWall.Pos, "a wall round the corner: north 60 off west")
	}
	n.Off, err = l.within(&s.Off.number, distances)
	return n, err
}

// across reports whether distances off the wall run north-south.
func across(w place.Wall) bool { return w == place.North || w == place.South }

// An alias is said so that no talk sounds like it: "north is cold today" and
// "kitchen is a mess" are none.
func (s *aliasSyntax) entry(l *line) (Entry, error) {
	raw := strings.ToLower(strings.TrimRight(l.text, " .!?"))
	said := strings.TrimPrefix(s.Name.Text, "also ")
	sure, want, hint := strings.HasSuffix(raw, " wall"), `a name that ends in "wall"`, words.rows["alias"].Example
	if s.Room != "" {
		sure = strings.HasSuffix(raw, " room") || s.Is == "aka" || strings.Contains(raw, " called ")
		want, hint = `"called" and another name`, s.Room+" is called cook room"
	}
	_, taken := words.phrases[said]
	if !sure || taken || s.Room != "" && words.reserved(said) || said == "" || len(strings.Fields(said)) > 4 || l.talkIn(said) != "" {
		r := l.refuse(s.Name.Pos, want)
		if !l.measure() {
			r.Hint = hint
		}
		return nil, r
	}
	return Alias{Wall: place.Wall(s.Wall), Room: s.Room, Name: said}, nil
}

func (s *supportSyntax) entry(l *line) (Entry, error) {
	if s.One != nil {
		return s.One.support(l, place.SupportKind(s.What))
	}
	e := SupportSet{What: place.SupportKind(s.What)}
	from := s.Pos // where From was said
	var err error
	for _, it := range s.Items {
		switch {
		case it.Run != "":
			e.Run = place.Run(it.Run)
		case it.First != nil:
			e.First, err = l.within(&it.First.number, distances)
			e.From = it.FWall.or(e.From)
			from = it.FWall.at(from)
		case it.At != nil:
			if len(it.And) == 0 && (it.OC || it.AWall == nil && e.Spacing.L == 0 && e.First.L == 0 && it.OC) {
				e.Spacing, err = l.within(&it.At[0].number, spacings)
				break
			}
			all := []*number{&it.At[0].number}
			for _, n := range it.And {
				all = append(all, &n.number)
			}
			for _, n := range all {
				var at length.Said
				if at, err = l.within(n, distances); err != nil {
					return nil, err
				}
				e.At = append(e.At, at)
			}
			e.From = it.AWall.or(e.From)
			from = it.AWall.at(from)
		case it.Space != nil:
			e.Spacing, err = l.within(&it.Space.number, spacings)
		case it.L != nil && it.Is == "thick":
			e.Thick, err = l.within(&it.L.number, thicknesses)
		case it.L != nil && it.Is == "wide":
			e.Wide, err = l.within(&it.L.number, thicknesses)
		case it.L != nil && it.Is == "" && e.Run == "":
			return nil, l.refuse(it.L.Pos, `"oc" behind a spacing, ew or ns before it`)
		case it.L != nil && e.Spacing.L == 0:
			e.Spacing, err = l.within(&it.L.number, spacings)
		case it.L != nil:
			return nil, l.refuse(it.L.Pos, `"first 14 3/8", "thick" or "wide" with it`)
		case it.On != nil:
			e.Surface = it.On.surface()
		}
		if err != nil {
			return nil, err
		}
	}
	if e.Run != "" && e.From != "" && across(e.From) != (e.Run == place.EW) {
		return nil, l.refuse(from, map[place.Run]string{place.EW: "north or south: what runs east-west is measured off one of them",
			place.NS: "west or east: what runs north-south is measured off one of them"}[e.Run])
	}
	if e.At != nil && e.First.L != 0 {
		return nil, l.refuse(s.Pos, `either "first" and a spacing, or "at" and a list`)
	}
	return e, nil
}

func (w *needWall) or(wall place.Wall) place.Wall {
	if w == nil {
		return wall
	}
	return w.Wall
}

func (w *needWall) at(pos lexer.Position) lexer.Position {
	if w == nil {
		return pos
	}
	return w.Pos
}

func (s *whereSyntax) surface() place.Surface {
	if s == nil {
		return ""
	}
	if s.Ceiling {
		return place.Ceiling
	}
	return place.Surface(s.Wall)
}

func (s *oneSupport) support(l *line, what place.SupportKind) (Entry, error) {
	e := SupportFix{What: what, N: s.N.N, Surface: s.On.surface()}
	err := l.counted(&s.N)
	switch {
	case err != nil:
	case s.At != nil:
		e.From = s.From.or("")
		e.At, err = l.within(&s.At.number, distances)
	case s.Stop != nil:
		e.Stops, e.Wall = true, s.Short.or("")
		e.End, err = l.within(&s.Stop.number, distances)
	default:
		e.Wall = s.Wall.or("")
		if e.Start, err = l.within(&s.Start.number, distances); err == nil {
			e.End, err = l.within(&s.End.number, distances)
		}
		if err == nil && e.Start.L >= e.End.L {
			return nil, l.refuse(s.End.Pos, "an end past the start")
		}
	}
	return e, err
}

// counted refuses a support, a row or a note with no such number.
func (l *line) counted(c *count) error {
	if c.N < 1 || c.N > 999_999 {
		return l.refuse(c.Pos, "a number from 1 up")
	}
	return nil
}

func (s *boardSyntax) entry(l *line) (Entry, error) {
	if s.Items == nil {
		return BoardsRun{s.Dir}, nil
	}
	var e Board
	for _, it := range s.Items {
		all := []*number{}
		for _, n := range it.Lengths {
			all = append(all, &n.number)
		}
		for _, n := range it.And {
			all = append(all, &n.number)
		}
		for _, n := range all {
			one, err := l.within(n, boardLengths)
			if err != nil {
				return nil, err
			}
			e.Lengths = append(e.Lengths, one)
		}
		if it.A == nil {
			continue
		}
		slot, b := &e.Thick, boardThickness
		if it.Is == "wide" || it.B == nil && it.Is == "" && e.Thick.L != 0 {
			slot, b = &e.Wide, boardWidths
		}
		var err error
		if *slot, err = l.within(&it.A.number, b); err != nil {
			return nil, err
		}
		if it.B != nil {
			if e.Wide, err = l.within(&it.B.number, boardWidths); err != nil {
				return nil, err
			}
		}
	}
	return e, nil
}

func (s *rowsSyntax) entry(*line) (Entry, error) { return RowsFrom{s.Wall.Wall}, nil }

func (s *valueSyntax) entry(l *line) (Entry, error) {
	if s.What == "screw" {
		v, err := l.within(&s.L.number, screws)
		return Screw{v}, err
	}
	v, err := l.within(&s.L.number, clearances)
	return Clearance{v}, err
}
