package rooms

import (
	"slices"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
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
	for _, part := range []canon.Clause{{e.Spacing, "oc"}, {"first", e.First, canon.Off(e.From)}, {"at", e.At, canon.Off(e.From)}, {e.Thick, "thick"}, {e.Wide, "wide"}} {
		if part.Empty() {
			continue
		}
		if len(said) == 2 { // a comma from the first number on
			said = append(said, []any(part)...)
		} else {
			said = append(said, part)
		}
	}
	return canon.Say(append(said, canon.Clause{e.Surface})...)
}
func (SupportSet) Kind() grammar.Kind { return "supports" }

func (s *supportSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.One != nil {
		return s.One.support(l, place.SupportKind(s.What)), nil
	}
	e := SupportSet{What: place.SupportKind(s.What)}
	from := s.Pos // where From was said
	once := func(was length.Said, n *numbers.Number, b numbers.Bounds) length.Said {
		if was != (length.Said{}) {
			numbers.Fault(l, l.Refuse(n.Pos, "each length once"))
		}
		return numbers.Said(l, n, b)
	}
	for _, it := range s.Items {
		switch {
		case it.Run != "":
			e.Run = place.Direction(it.Run)
		case it.First != nil:
			numbers.FirstOne(l, &it.First.Number)
			e.First = once(e.First, &it.First.Number, numbers.Distances)
			e.From = it.FWall.Or(e.From)
			from = it.FWall.At(from)
		case it.At != nil:
			if len(it.And) == 0 && (it.OC || it.AWall == nil && onCentre(l, &it.At[0].Number)) {
				e.Spacing = once(e.Spacing, &it.At[0].Number, numbers.Spacings)
				break
			}
			all := []*numbers.Number{&it.At[0].Number}
			for _, n := range it.And {
				all = append(all, &n.Number)
			}
			numbers.Thousands(l, all)
			for _, n := range all {
				e.At = append(e.At, numbers.Said(l, n, numbers.Distances))
			}
			e.From = it.AWall.Or(e.From)
			from = it.AWall.At(from)
		case it.Space != nil:
			e.Spacing = once(e.Spacing, &it.Space.Number, numbers.Spacings)
		case it.L != nil && it.Is == "thick":
			e.Thick = once(e.Thick, &it.L.Number, numbers.Thicknesses)
		case it.L != nil && it.Is == "wide":
			e.Wide = once(e.Wide, &it.L.Number, numbers.Thicknesses)
		case it.L != nil && it.Is == "" && e.Run == "":
			return nil, l.Refuse(it.L.Pos, `"oc" behind a spacing, ew or ns before it`)
		case it.L != nil && e.Spacing.L == 0:
			e.Spacing = once(e.Spacing, &it.L.Number, numbers.Spacings)
		case it.L != nil:
			return nil, l.Refuse(it.L.Pos, `"first", "thick" or "wide" with it`)
		case it.On != nil:
			e.Surface = it.On.Surface()
		}
	}
	if e.Run != "" && e.From != "" && e.From.EastWest() == (e.Run == place.EW) {
		return nil, l.Refuse(from, map[place.Direction]string{place.EW: "north or south: what runs east-west is measured off one of them",
			place.NS: "west or east: what runs north-south is measured off one of them"}[e.Run])
	}
	if e.Run == "" && e.From != "" && (e.First.L != 0 || e.At != nil) && s.What != "studs" && e.Surface == "" { // the wall implies the direction
		if e.Run = place.NS; e.From.Along() == place.X {
			e.Run = place.EW
		}
	}
	if e.At != nil && e.First.L != 0 {
		return nil, l.Refuse(s.Pos, `either "first" and a spacing, or "at" and a list`)
	}
	return e, nil
}

// UsualSpacings are those that a crew gives as a bare number, "straps ns at 16" (common practice, no
// source).
var UsualSpacings = map[length.Units][]length.Length{
	length.Imperial: {12 * length.Inch, 16 * length.Inch, 96 * length.Inch / 5, 24 * length.Inch},
	length.Metric:   {300 * length.Millimetre, 400 * length.Millimetre, 450 * length.Millimetre, 600 * length.Millimetre},
}

// onCentre reports whether a bare number after "at" is a spacing, not a place.
func onCentre(l *read.Source, n *numbers.Number) bool {
	return len(n.Readings) == 1 && n.Why == "" && slices.Contains(UsualSpacings[l.Units], n.Readings[0].L)
}

type supportSyntax struct {
	Pos   lexer.Position
	What  string         `parser:"@Support"`
	One   *oneSupport    `parser:"(  (?= Number ('at' | 'off' | 'stops' | 'ends')) @@"`
	Items []*supportItem `parser:" | @@+ )"`
}

type supportItem struct {
	Run   string               `parser:"  ('run' | 'runs' | 'running')? @Direction"`
	First *numbers.NeedLength  `parser:"| 'first' 'at'? @@"`
	FWall *places.NeedWall     `parser:"  ('off' @@)?"`
	At    []*numbers.NeedAmong `parser:"| 'at' @@"`
	And   []*numbers.ALength   `parser:"  @@*"`
	OC    bool                 `parser:"  ( @'oc'"`
	AWall *places.NeedWall     `parser:"  | 'off' @@ )?"`
	Space *numbers.NeedLength  `parser:"| ('@' | 'every') @@ 'oc'?"`
	L     *numbers.ALength     `parser:"| @@"`
	Is    string               `parser:"  @('oc' | 'thick' | 'wide')?"`
	On    *places.WhereSyntax  `parser:"| 'on'? @@"`
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
	one := canon.Say(e.What.One(), e.N)
	switch {
	case e.Stops:
		return canon.Say(one, "stops", e.End, canon.Off(e.Wall), canon.Clause{e.Surface})
	case e.End != (length.Said{}):
		return canon.Say(one, "from", e.Start.String(), "to", e.End, canon.Off(e.Wall), canon.Clause{e.Surface})
	}
	return canon.Say(one, "at", e.At.String(), canon.Off(e.From), canon.Clause{e.Surface})
}
func (SupportFix) Kind() grammar.Kind { return "support" }

func (s *oneSupport) support(l *read.Source, what place.SupportKind) grammar.Entry {
	e := SupportFix{What: what, N: numbers.Counted(l, &s.N), Surface: s.On.Surface()}
	switch {
	case s.At != nil:
		e.At, e.From = numbers.Said(l, &s.At.Number, numbers.Distances), s.From.Or("")
	case s.Stop != nil:
		e.Stops, e.Wall, e.End = true, s.Short.Or(""), numbers.Said(l, &s.Stop.Number, numbers.Distances)
	default:
		e.Start, e.End, e.Wall = numbers.Said(l, &s.Start.Number, numbers.Distances), numbers.Said(l, &s.End.Number, numbers.Distances), s.Wall.Or("")
		if e.Start.L >= e.End.L {
			numbers.Fault(l, l.Refuse(s.End.Pos, "an end past the start"))
		}
	}
	return e
}

type oneSupport struct {
	N     numbers.Count       `parser:"@@"`
	At    *numbers.NeedLength `parser:"( 'at' @@"`
	From  *places.NeedWall    `parser:"  ('off' @@)?"`
	Start *numbers.NeedAmong  `parser:"| 'off' @@"`
	End   *numbers.NeedAmong  `parser:"  'to' @@"`
	Wall  *places.NeedWall    `parser:"  'off' @@"`
	Stop  *numbers.NeedLength `parser:"| ('stops' | 'ends') 'at'? @@"`
	Short *places.NeedWall    `parser:"  'off' @@ )"`
	On    *places.WhereSyntax `parser:"( 'on'? @@ )?"`
}

var SupportKinds = []read.Row{
	{Command: read.Command{Kind: "supports", About: "straps, joists, studs or channels: which way they run and where",
		Example: "straps ew 16 oc first 14 3/8 off north", Metric: "straps ew 400 oc first 365 off north",
		Fits: `ew or ns, a spacing and "oc", "first" and a distance, or "at" and a list`},
		Makes: []grammar.Entry{SupportSet{}}},
	{Command: read.Command{Kind: "support", About: "one support where it really is",
		Example: "strap 4 at 57 1/4", Metric: "strap 4 at 1455", Fits: `"at" and a distance, "from" and "to" off a wall, or "stops" and how far off a wall`},
		Rule: read.Rule[supportSyntax](), Makes: []grammar.Entry{SupportFix{}}},
}
