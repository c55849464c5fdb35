package grammar

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
)

func (s *roomSyntax) entry(l *line) (Entry, error) {
	e := Room{Name: s.Name.Text}
	if w := l.talkIn(e.Name); w != "" {
		return nil, l.refuse(s.Name.Pos, "a name for the room")
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
// below it may be feet, and is asked.
const bareFeet = 48 * length.Inch

// sides asks what "12 x 14" is. Beside a side that is sure inches, a bare one
// is inches too.
func (l *line) sides(a, b *number) error {
	if l.Units == length.Metric {
		return l.metres(a, b)
	}
	doubt := func(n *number) bool {
		return n.bare() && len(n.Readings) == 1 && n.Readings[0].L < bareFeet
	}
	sure := func(n *number) bool {
		return len(n.Readings) == 1 && !doubt(n) && (n.bare() || !strings.ContainsAny(n.raw(), "'fF’′`"))
	}
	if !doubt(a) && !doubt(b) || doubt(a) && sure(b) || doubt(b) && sure(a) {
		return nil
	}
	ask := &Ask{Col: a.Pos.Column, Word: a.raw() + " x " + b.raw(), Why: a.raw() + " x " + b.raw() + ": feet or inches?"}
	for _, unit := range []string{"'", `"`} {
		cuts := []cut{}
		for _, n := range []*number{a, b} {
			if doubt(n) {
				cuts = append(cuts, cut{n.Pos.Offset, n.Pos.Offset + len(n.raw()), l.withUnit(n, unit)})
			}
		}
		ask.Choices = append(ask.Choices, Choice{map[string]string{"'": "feet", `"`: "inches"}[unit], l.canonical(l.with(cuts...))})
	}
	return ask
}

// withUnit is the bare number n read in feet or in inches, exactly.
func (l *line) withUnit(n *number, unit string) string {
	v := n.Readings[0].L
	if unit == "'" {
		v *= 12
	}
	return length.Canon(v)
}

// metres asks about sides like 4 x 3 in a metric job: nobody's room is 4 mm.
func (l *line) metres(a, b *number) error {
	doubt := func(n *number) bool {
		return n.bare() && len(n.Readings) == 1 && n.Readings[0].L < 300*length.Millimetre
	}
	if !doubt(a) && !doubt(b) {
		return nil
	}
	ask := &Ask{Col: a.Pos.Column, Word: a.raw() + " x " + b.raw(), Why: a.raw() + " x " + b.raw() + ": metres?"}
	for _, unit := range []struct {
		name string
		l    length.Length
	}{{"metres", 1000}, {"centimetres", 10}} {
		var cuts []cut
		for _, n := range []*number{a, b} {
			if doubt(n) {
				cuts = append(cuts, cut{n.Pos.Offset, n.Pos.Offset + len(n.raw()), length.Canon(n.Readings[0].L * unit.l)})
			}
		}
		ask.Choices = append(ask.Choices, Choice{unit.name, l.canonical(l.with(cuts...))})
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
	n.Wall, n.OffWall = Wall(s.Wall), s.OffWall.Wall
	if across(n.Wall) == across(n.OffWall) {
		return n, l.refuse(s.OffWall.Pos, "a wall round the corner: north 60 off west")
	}
	n.Off, err = l.within(&s.Off.number, distances)
	return n, err
}

// across reports whether distances off the wall run north-south.
func across(w Wall) bool { return w == North || w == South }

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
	_, wall := words.phrases[said]
	if !sure || wall || said == "" || len(strings.Fields(said)) > 4 || l.talkIn(said) != "" {
		r := l.refuse(s.Name.Pos, want)
		r.Hint = hint
		return nil, r
	}
	return Alias{Wall: Wall(s.Wall), Room: s.Room, Name: said}, nil
}

func (s *supportSyntax) entry(l *line) (Entry, error) {
	if s.One != nil {
		return s.One.support(l, SupportKind(s.What))
	}
	e := SupportSet{What: SupportKind(s.What)}
	from := s.Pos // where From was said
	var err error
	for _, it := range s.Items {
		switch {
		case it.Run != "":
			e.Run = Run(it.Run)
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
				var at Len
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
	if e.Run != "" && e.From != "" && across(e.From) != (e.Run == EW) {
		return nil, l.refuse(from, map[Run]string{EW: "north or south: what runs east-west is measured off one of them",
			NS: "west or east: what runs north-south is measured off one of them"}[e.Run])
	}
	if e.At != nil && e.First.L != 0 {
		return nil, l.refuse(s.Pos, `either "first" and a spacing, or "at" and a list`)
	}
	return e, nil
}

func (w *needWall) or(wall Wall) Wall {
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

func (s *whereSyntax) surface() Surface {
	if s == nil {
		return ""
	}
	if s.Ceiling {
		return Ceiling
	}
	return Surface(s.Wall)
}

func (s *oneSupport) support(l *line, what SupportKind) (Entry, error) {
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

func (s *gapSyntax) entry(l *line) (Entry, error) {
	if s.B != nil {
		if err := l.oneOrTwo(&s.A.number, &s.B.number); err != nil {
			return nil, err
		}
	}
	a, err := l.within(&s.A.number, distances)
	if err != nil || s.B == nil {
		return Gap{A: a}, err
	}
	b, err := l.within(&s.B.number, distances)
	return Gap{a, b}, err
}

func (s *hungSyntax) entry(l *line) (Entry, error) {
	var e Hung
	for _, it := range s.Items {
		switch {
		case it.Row != nil:
			if err := l.counted(it.Row); err != nil {
				return nil, err
			}
			e.Row = it.Row.N
		case it.Short != "":
			n, err := strconv.Atoi(strings.TrimPrefix(it.Short, "r"))
			if err != nil || n < 1 || !strings.HasPrefix(it.Short, "r") {
				return nil, l.refuse(it.Pos, "a row: row 2")
			}
			e.Row = n
		case it.Cut != nil:
			cut, err := it.Cut.known(l)
			if err != nil {
				return nil, err
			}
			e.Cut = cut
		case it.Run != "":
			e.Run = Run(it.Run)
		case it.On != nil:
			e.Surface = it.On.surface()
		default:
			if err := l.feetOrInches(&it.L.number); err != nil {
				return nil, err
			}
			piece, err := l.within(&it.L.number, pieceLengths)
			if err != nil {
				return nil, err
			}
			e.Pieces = append(e.Pieces, piece)
		}
	}
	if e.Row == 0 {
		if e.Pieces == nil && e.Cut == nil && e.Run == "" && e.Surface != "" {
			return UpAll{e.Surface}, nil
		}
		return nil, l.refuseEnd("which row: row 2")
	}
	return e, nil
}

// feetOrInches asks about a piece that was said by a bare stock length.
func (l *line) feetOrInches(n *number) error {
	v, ok := n.whole()
	if !ok || l.Units == length.Metric || !slices.Contains(stockFeet, v) {
		return nil
	}
	ask := &Ask{Col: n.Pos.Column, Word: n.raw(), Why: fmt.Sprintf("%d: feet or inches?", v)}
	for _, unit := range []length.Length{length.Foot, length.Inch} {
		one := length.Length(v) * unit
		ask.Choices = append(ask.Choices, Choice{fmt.Sprintf("%d %s", v, map[length.Length]string{length.Foot: "ft", length.Inch: "in"}[unit]),
			l.canonical(l.with(cut{n.Pos.Offset, n.Pos.Offset + len(n.raw()), length.Canon(one)}))})
	}
	return ask
}

// stockFeet are the lengths boards are sold in, in feet: common practice, no source.
var stockFeet = []int{8, 9, 10, 12, 14, 16}

func (s *rowSyntax) entry(l *line) (Entry, error) {
	e := Hung{Row: s.Row.N, Run: Run(s.Run), Surface: s.On.surface()}
	err := l.counted(&s.Row)
	if err == nil && s.Cut != nil {
		e.Cut, err = s.Cut.known(l)
	}
	return e, err
}

func (s *surfaceSyntax) entry(l *line) (Entry, error) {
	where := Surface(s.Wall)
	if s.Ceiling {
		where = Ceiling
	}
	switch {
	case s.Up:
		return UpAll{where}, nil
	case s.Ceiling:
		return nil, l.refuse(s.Pos, `"ceiling up"`)
	case s.Finished:
		return Boarded{Wall: Wall(s.Wall), Finished: true}, nil
	}
	return boarded(l, Wall(s.Wall), s.Thick)
}

func (s *boardedSyntax) entry(l *line) (Entry, error) { return boarded(l, s.Wall.Wall, s.Thick) }

func boarded(l *line, w Wall, thick *oneLength) (Entry, error) {
	e := Boarded{Wall: w}
	var err error
	if thick != nil {
		e.Thick, err = l.within(&thick.number, boardThickness)
	}
	return e, err
}

func (s *openSyntax) entry(l *line) (Entry, error) {
	list, err := s.Names.known(l)
	return Opened{list}, err
}

// known returns the names, each of which must have a noun that was or may be noted.
func (w *names) known(l *line) ([]string, error) {
	var list []string
	for _, s := range w.List {
		if s.First != tName && !l.noun(s.Text) {
			return nil, l.refuse(s.Pos, "the name of a noted thing")
		}
		list = append(list, s.Text)
	}
	return list, nil
}

// noun reports whether said names something that a person may have noted: at
// most four words, none of them talk, one of them a thing or a declared name.
func (l *line) noun(said string) bool {
	fields := strings.Fields(said)
	if len(fields) == 0 || len(fields) > 5 || l.talkIn(said) != "" {
		return false
	}
	if l.Name != nil && l.Name(said) {
		return true
	}
	for i, f := range fields {
		if words.thing[f] != "" || shape(f) || l.Name != nil && l.Name(f) || i > 0 && words.thing[fields[i-1]+" "+f] != "" {
			return true
		}
	}
	return false
}

// talkIn returns the first word of ordinary talk in said.
func (l *line) talkIn(said string) string {
	for _, w := range strings.Fields(said) {
		if words.talk[w] {
			return w
		}
	}
	return ""
}

func (s *findSyntax) entry(l *line) (Entry, error) {
	switch {
	case s.What == nil:
		return Find{s.Mark}, nil
	case l.noun(s.What.Text), support.MatchString(s.What.Text):
		return Find{s.What.Text}, nil
	}
	return nil, l.refuse(s.What.Pos, "a noted thing")
}

var support = regexp.MustCompile(`^(strap|joist|stud|channel) [1-9][0-9]{0,2}$`)

func (s *askSyntax) entry(*line) (Entry, error) {
	if s.What == "status" {
		return Status{}, nil
	}
	return Covered{}, nil
}

func (s *anySyntax) entry(l *line) (Entry, error) {
	e := AnyOver{What: s.What}
	if s.Row != nil {
		if err := l.counted(s.Row); err != nil {
			return nil, err
		}
		e.Row = s.Row.N
	}
	return e, nil
}

func (s *whoSyntax) entry(l *line) (Entry, error) {
	e := Who{Surface: s.On.surface()}
	if s.Row != nil {
		if err := l.counted(s.Row); err != nil {
			return nil, err
		}
		e.Row = s.Row.N
	}
	if e == (Who{}) && l.Room == "" {
		return nil, l.refuseEnd("a row, the ceiling or a wall")
	}
	return e, nil
}

func (s *logSyntax) entry(l *line) (Entry, error) {
	var e Log
	for _, it := range s.Items {
		switch {
		case it.Today:
			e.Today = true
		case it.Since != nil:
			if err := l.counted(it.Since); err != nil {
				return nil, err
			}
			e.Since = it.Since.N
		case e.Of != "":
			return nil, l.refuse(it.Pos, "one person or one thing")
		case it.Of != "":
			e.Of = it.Of
		default:
			// A person's name may be any word, but not a sentence.
			if n := len(strings.Fields(it.Who.Text)); n > 1 && !l.noun(it.Who.Text) || l.talkIn(it.Who.Text) != "" || it.Who.Text == "in" || it.Who.Text == "out" {
				return nil, l.refuse(it.Pos, words.rows["log"].Fits)
			}
			e.Of = it.Who.Text
		}
	}
	return e, nil
}

func (s *textSyntax) entry(l *line) (Entry, error) {
	switch s.What {
	case "note":
		return Note{s.Text}, nil
	case "job":
		title := strings.ToLower(strings.Join(strings.Fields(s.Text), " "))
		if l.talkIn(plain(title)) != "" || plain(title) == "" || len(title) > 80 {
			return nil, l.refuse(l.tokens[1].Pos, "a title")
		}
		return Job{title}, nil
	}
	said := strings.Fields(strings.ToLower(strings.TrimRight(s.Text, ".!")))
	if len(said) >= 2 && (said[len(said)-1] == "fixed" || said[len(said)-1] == "done") && (len(said) == 2 || len(said) == 3 && said[1] == "is") {
		if n, err := strconv.Atoi(strings.TrimPrefix(said[0], "#")); err == nil && n > 0 {
			return Snag{Fixed: n}, nil
		}
	}
	if len(said) == 1 && (said[0] == "list" || said[0] == "lists") {
		return nil, l.refuse(l.tokens[1].Pos, "what is wrong")
	}
	return Snag{Text: s.Text}, nil
}

func (s *hitSyntax) entry(l *line) (Entry, error) {
	all := append([]string{s.What}, s.More...)
	kinds := map[string]string{"water": "water", "pipe": "water", "pex": "water", "plumbing": "water",
		"cable": "cable", "wire": "cable", "wiring": "cable", "conduit": "cable", "electric": "cable", "power": "cable", "gas": "gas"}
	what := ""
	for _, w := range all {
		switch k := kinds[w]; {
		case k == "gas", what == "":
			what = k
		case k == "" && w != "line" && w != "main" && w != "something" && w != "live":
			return nil, l.refuse(s.Pos, "water, cable or gas")
		}
	}
	if what == "" {
		return nil, l.refuse(s.Pos, "water, cable or gas")
	}
	return Hit{what}, nil
}

func (s *undoSyntax) entry(l *line) (Entry, error) {
	if s.Swap == nil {
		return Undo{}, nil
	}
	return s.Swap.swap(l)
}

func (s *strikeSyntax) entry(l *line) (Entry, error) { return Strike{s.Seq.N}, l.counted(&s.Seq) }

func (s *swapSyntax) entry(l *line) (Entry, error) {
	switch {
	case s.Right != nil:
		return s.Right.swap(l)
	case s.Wrong != nil:
		return l.swap(&s.Then.number, &s.Wrong.number)
	case s.Not != nil:
		return l.swap(&s.New.number, &s.Not.number)
	}
	v, err := l.within(&s.New.number, anyLength)
	return Swap{New: v}, err
}

func (s *rightSyntax) swap(l *line) (Entry, error) { return l.swap(&s.New.number, &s.Old.number) }

func (l *line) swap(right, wrong *number) (Entry, error) {
	a, err := l.within(right, anyLength)
	if err != nil {
		return nil, err
	}
	b, err := l.within(wrong, anyLength)
	return Swap{a, b}, err
}

func (s *unitsSyntax) entry(l *line) (Entry, error) {
	switch s.Units {
	case "imperial", "inches", "feet", "inch":
		return UnitsSet{length.Imperial}, nil
	case "metric", "mm", "metres", "meters", "millimetres", "millimeters":
		return UnitsSet{length.Metric}, nil
	}
	return nil, l.refuse(l.tokens[1].Pos, "imperial or metric")
}

func (s *builtSyntax) entry(l *line) (Entry, error) {
	if s.Year.N < 1500 || s.Year.N > 2200 {
		return nil, l.refuse(s.Year.Pos, "a year like 1962")
	}
	return Built{s.Year.N}, nil
}

func (s *helpSyntax) entry(l *line) (Entry, error) {
	if s.Topic == nil {
		return Help{}, nil
	}
	if len(Topic(s.Topic.Text)) == 0 {
		return nil, l.refuse(s.Topic.Pos, "one word of the list")
	}
	return Help{s.Topic.Text}, nil
}

func (s *bareSyntax) entry(l *line) (Entry, error) {
	v, err := l.within(&s.L.number, anyLength)
	return Bare{v}, err
}
