package grammar

import (
	"slices"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
)

// SupportSet: `straps ew 16 oc first 14-3/8 off north`,
// `straps ns at 9-1/2, 25-1/4 off west`, `straps 5/8 thick`, `studs ... on north wall`.
type SupportSet struct {
	What        place.SupportKind
	Surface     place.Surface
	Run         place.Direction // "" if only Thick or Wide is given, and on walls (studs are vertical)
	Spacing     length.Said
	First       length.Said
	At          []length.Said
	From        place.Wall  // the wall First and At are measured from; "" means north or west by Run
	Thick, Wide length.Said // zero if not given
}

func (e SupportSet) String() string {
	said := []any{e.What, e.Run}
	for _, part := range []clause{{e.Spacing, "oc"}, {"first", e.First, off(e.From)}, {"at", e.At, off(e.From)}, {e.Thick, "thick"}, {e.Wide, "wide"}} {
		if part.empty() {
			continue
		}
		if len(said) == 2 { // a comma from the first number on
			said = append(said, []any(part)...)
		} else {
			said = append(said, part)
		}
	}
	return say(append(said, clause{e.Surface})...)
}
func (SupportSet) Kind() Kind { return "supports" }

func (s *supportSyntax) entry(l *line) (Entry, error) {
	if s.One != nil {
		return s.One.support(l, place.SupportKind(s.What)), nil
	}
	e := SupportSet{What: place.SupportKind(s.What)}
	from := s.Pos // where From was said
	once := func(was length.Said, n *number, b bounds) length.Said {
		if was != (length.Said{}) {
			l.fault(l.refuse(n.Pos, "each length once"))
		}
		return l.said(n, b)
	}
	for _, it := range s.Items {
		switch {
		case it.Run != "":
			e.Run = place.Direction(it.Run)
		case it.First != nil:
			l.firstOne(&it.First.number)
			e.First = once(e.First, &it.First.number, distances)
			e.From = it.FWall.or(e.From)
			from = it.FWall.at(from)
		case it.At != nil:
			if len(it.And) == 0 && (it.OC || it.AWall == nil && l.onCentre(&it.At[0].number)) {
				e.Spacing = once(e.Spacing, &it.At[0].number, spacings)
				break
			}
			all := []*number{&it.At[0].number}
			for _, n := range it.And {
				all = append(all, &n.number)
			}
			l.thousands(all)
			for _, n := range all {
				e.At = append(e.At, l.said(n, distances))
			}
			e.From = it.AWall.or(e.From)
			from = it.AWall.at(from)
		case it.Space != nil:
			e.Spacing = once(e.Spacing, &it.Space.number, spacings)
		case it.L != nil && it.Is == "thick":
			e.Thick = once(e.Thick, &it.L.number, thicknesses)
		case it.L != nil && it.Is == "wide":
			e.Wide = once(e.Wide, &it.L.number, thicknesses)
		case it.L != nil && it.Is == "" && e.Run == "":
			return nil, l.refuse(it.L.Pos, `"oc" behind a spacing, ew or ns before it`)
		case it.L != nil && e.Spacing.L == 0:
			e.Spacing = once(e.Spacing, &it.L.number, spacings)
		case it.L != nil:
			return nil, l.refuse(it.L.Pos, `"first 14 3/8", "thick" or "wide" with it`)
		case it.On != nil:
			e.Surface = it.On.surface()
		}
	}
	if e.Run != "" && e.From != "" && across(e.From) != (e.Run == place.EW) {
		return nil, l.refuse(from, map[place.Direction]string{place.EW: "north or south: what runs east-west is measured off one of them",
			place.NS: "west or east: what runs north-south is measured off one of them"}[e.Run])
	}
	if e.Run == "" && e.From != "" && (e.First.L != 0 || e.At != nil) && s.What != "studs" && e.Surface == "" { // the wall implies the direction
		if e.Run = place.NS; across(e.From) {
			e.Run = place.EW
		}
	}
	if e.At != nil && e.First.L != 0 {
		return nil, l.refuse(s.Pos, `either "first" and a spacing, or "at" and a list`)
	}
	return e, nil
}

// usualSpacings are those that a crew gives as a bare number, "straps ns at 16" (common practice, no
// source).
var usualSpacings = map[length.Units][]length.Length{
	length.Imperial: {12 * length.Inch, 16 * length.Inch, 24 * length.Inch},
	length.Metric:   {300 * length.Millimetre, 400 * length.Millimetre, 450 * length.Millimetre, 600 * length.Millimetre},
}

// onCentre reports whether a bare number after "at" is a spacing, not a place.
func (l *line) onCentre(n *number) bool {
	return len(n.Readings) == 1 && n.Why == "" && slices.Contains(usualSpacings[l.Units], n.Readings[0].L)
}

type supportSyntax struct {
	Pos   lexer.Position
	What  string         `parser:"@Support"`
	One   *oneSupport    `parser:"(  (?= Number ('at' | 'off' | 'stops' | 'ends')) @@"`
	Items []*supportItem `parser:" | @@+ )"`
}

type supportItem struct {
	Run   string       `parser:"  ('run' | 'runs' | 'running')? @Direction"`
	First *needLength  `parser:"| 'first' 'at'? @@"`
	FWall *needWall    `parser:"  ('off' @@)?"`
	At    []*needAmong `parser:"| 'at' @@"`
	And   []*aLength   `parser:"  @@*"`
	OC    bool         `parser:"  ( @'oc'"`
	AWall *needWall    `parser:"  | 'off' @@ )?"`
	Space *needLength  `parser:"| ('@' | 'every') @@ 'oc'?"`
	L     *aLength     `parser:"| @@"`
	Is    string       `parser:"  @('oc' | 'thick' | 'wide')?"`
	On    *whereSyntax `parser:"| 'on'? @@"`
}

// SupportFix: `strap 4 at 57-1/4`, `strap 4 from 20 to 96 off west`,
// `strap 4 stops 38 off east`.
type SupportFix struct {
	What       place.SupportKind
	N          int
	Surface    place.Surface
	At         length.Said // zero if not given
	From       place.Wall  // of At, if repeated
	Start, End length.Said // extents along the support, from Wall; Start zero with "stops"
	Wall       place.Wall  // the wall Start/End are measured from; for "stops": the wall it stops short of
	Stops      bool
}

func (e SupportFix) String() string {
	one := say(e.What.One(), e.N)
	switch {
	case e.Stops:
		return say(one, "stops", e.End, off(e.Wall), clause{e.Surface})
	case e.End != (length.Said{}):
		return say(one, "from", e.Start.String(), "to", e.End, off(e.Wall), clause{e.Surface})
	}
	return say(one, "at", e.At.String(), off(e.From), clause{e.Surface})
}
func (SupportFix) Kind() Kind { return "support" }

func (s *oneSupport) support(l *line, what place.SupportKind) Entry {
	e := SupportFix{What: what, N: l.counted(&s.N), Surface: s.On.surface()}
	switch {
	case s.At != nil:
		e.At, e.From = l.said(&s.At.number, distances), s.From.or("")
	case s.Stop != nil:
		e.Stops, e.Wall, e.End = true, s.Short.or(""), l.said(&s.Stop.number, distances)
	default:
		e.Start, e.End, e.Wall = l.said(&s.Start.number, distances), l.said(&s.End.number, distances), s.Wall.or("")
		if e.Start.L >= e.End.L {
			l.fault(l.refuse(s.End.Pos, "an end past the start"))
		}
	}
	return e
}

type oneSupport struct {
	N     count        `parser:"@@"`
	At    *needLength  `parser:"( 'at' @@"`
	From  *needWall    `parser:"  ('off' @@)?"`
	Start *needAmong   `parser:"| 'off' @@"`
	End   *needAmong   `parser:"  'to' @@"`
	Wall  *needWall    `parser:"  'off' @@"`
	Stop  *needLength  `parser:"| ('stops' | 'ends') 'at'? @@"`
	Short *needWall    `parser:"  'off' @@ )"`
	On    *whereSyntax `parser:"( 'on'? @@ )?"`
}

func (s *supportN) of(l *line) place.Of {
	return place.Of{Sup: place.SupportKind(s.What), N: l.counted(&s.N), Edge: s.Edge}
}

type supportN struct {
	What string `parser:"@Support"`
	N    count  `parser:"@@"`
	Edge bool   `parser:"@'edge'?"`
}

var supportKinds = []kind{
	{Command: Command{Kind: "supports", About: "straps, joists, studs or channels: which way they run and where",
		Example: "straps ew 16 oc first 14 3/8 off north", Metric: "straps ew 400 oc first 365 off north",
		Fits: `ew or ns, a spacing and "oc", "first" and a distance, or "at" and a list`},
		makes: []Entry{SupportSet{}}},
	{Command: Command{Kind: "support", About: "one support where it really is",
		Example: "strap 4 at 57 1/4", Metric: "strap 4 at 1455", Fits: `"at" and a distance, "from" and "to" off a wall, or "stops" and how far off a wall`},
		rule: rule[supportSyntax](), makes: []Entry{SupportFix{}}},
}
