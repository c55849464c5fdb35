package things

import (
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

func (s *runSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	r := run{Route: Route{What: RunWords[s.What], Conduit: s.What == "conduit"}}
	if s.Size != nil {
		if err := r.size(l, &s.Size.Number); err != nil {
			return nil, err
		}
	}
	if err := r.numbered(l, s); err != nil {
		return nil, err
	}
	for i, it := range s.Items {
		var next *runItem
		if i+1 < len(s.Items) {
			next = s.Items[i+1]
		}
		if err := r.item(l, it, next); err != nil {
			return nil, err
		}
	}
	if err := r.finish(l); err != nil {
		return nil, err
	}
	return r.Route, nil
}

type runSyntax struct {
	Size  *numbers.ALength `parser:"( @@ 'in'? )?"`
	What  string           `parser:"@Service"`
	Items []*runItem       `parser:"@@*"`
}

// place reports whether the item is a place, so that it may follow "from".
func (it *runItem) place() bool {
	return it.Num != nil || it.Support != nil || it.OnWhat != nil || it.Where != nil || it.Mark != "" || it.Name != ""
}

// runItem is one part of the path of a run, in the order said.
type runItem struct {
	Pos     lexer.Position
	From    bool                `parser:"  @'off'"`
	Through bool                `parser:"| @'through'"`
	To      bool                `parser:"| ('over' | 'across' | 'up' | 'down')? @'to'"`
	Depth   *numbers.NeedLength `parser:"| 'depth' 'of'? @@"`
	Deep    bool                `parser:"| @('deep' | 'behind') 'board'?"`
	Top     bool                `parser:"| @'on top' Support?"`
	Notched bool                `parser:"| @'notched'"`
	Into    string              `parser:"  ( ('in' | 'into') @Support? )?"`
	Conduit bool                `parser:"| @'conduit'"`
	Inside  bool                `parser:"| ('on' | 'in' | 'inside') (  @'conduit'"`
	OnWhat  *places.SupportN    `parser:"    | @@"`
	On      *places.WhereSyntax `parser:"   | @@"`
	InName  string              `parser:"    | @Name"`
	OnNone  *read.NoSurface     `parser:"    | @@ )"`
	Support *places.SupportN    `parser:"| @@"`
	Where   *places.WhereSyntax `parser:"| @@"`
	Along   *places.SupportN    `parser:"| 'along' @@"`
	Between *places.Pair        `parser:"| 'between' @@"`
	Full    bool                `parser:"| @'full length'"`
	Goes    bool                `parser:"| @('run' | 'runs' | 'running')"`
	Mark    string              `parser:"| ( 'mark' | Thing ) @Name"`
	Name    string              `parser:"| @Name"`
	Num     *places.Distance    `parser:"| @@"`

	taken bool // the number of the support it is notched into
	deep  bool // its "deep" belongs to the number before it
}

// RunWords are the kinds of runs by the words for them.
var RunWords = map[string]string{"pipe": "pipe", "water": "pipe", "pex": "pipe", "plumbing": "pipe",
	"wire": "wire", "cable": "wire", "wiring": "wire", "conduit": "wire", "gas": "gas", "duct run": "duct run", "heat tube": "heat tube"}

// A bare number above these is not a size but a distance whose wall is missing: a drain is 4 in, a duct 14
// in (common practice, no source).
const (
	barePipe = 4 * length.Inch
	bareDuct = 14 * length.Inch
)

var depths = numbers.Bounds{What: "a depth", Most: 24 * length.Inch}

const (
	runPlace = `a place: "strap 2", "40 off west" or a wall`
	runDepth = `one of "depth 3/4", "on top of the straps" and "notched"`
)

// run assembles the items of a route.
type run struct {
	Route
	begun    bool
	implicit bool // no "from": what precedes the first "to" begins it
	notched  bool
	after    bool // "notched" was just said: its depth may follow
	deep     bool // a depth was given
	top      bool
	open     []openLeg
}

// numbered asks what the 1 of "pipe 1" is if there is a run of that name. In "pipe 1: 40 off west" and
// "pipe 1, 3/4: 40 off west", as runs are read back, it is the number we gave.
func (r *run) numbered(l *read.Source, s *runSyntax) error {
	if len(s.Items) == 0 || s.Size != nil || s.Items[0].Num == nil || !s.Items[0].Num.Plain() {
		return nil
	}
	n := &s.Items[0].Num.L.Number
	sized := len(s.Items) > 1 && s.Items[1].Num != nil && s.Items[1].Num.Plain()
	if after := l.Read[n.End:]; strings.HasPrefix(after, ":") || strings.HasPrefix(after, ",") && sized {
		if _, whole := n.Whole(); whole {
			s.Items = s.Items[1:]
			return nil
		}
	}
	name := r.What + " " + n.Raw()
	if l.Name == nil {
		return nil
	}
	if _, ok := n.Whole(); !ok || !l.Name(name) || len(n.Readings) != 1 {
		return nil
	}
	inch := length.Canon(n.Readings[0].L)
	return &grammar.Ask{Col: n.Pos.Column, Word: n.Raw(), Why: fmt.Sprintf("%s: its name, or %s wide?", name, inch), Choices: []grammar.Choice{
		grammar.Reads(name+" again", numbers.Canonical(l, l.With(n.Cut(name+",")))),
		grammar.Reads(inch+" wide", numbers.Canonical(l, l.With(n.Cut(inch+",")))),
	}}
}

func (r *run) item(l *read.Source, it, next *runItem) error {
	after := r.after
	r.after = false
	switch {
	case it.taken:
		r.after = true
	case it.From && r.begun:
		return l.Refuse(it.Pos, `"through" or "to" and the next place`)
	case it.From, it.Through && !r.begun:
		r.begun = true
		r.Points = append(r.Points, nil)
	case it.To && !r.begun:
		r.begun, r.implicit = true, true
		r.Points = append(r.Points, nil, nil)
	case it.To, it.Through:
		if len(r.Points[len(r.Points)-1]) == 0 && !(r.implicit && len(r.Points) == 1) {
			return l.Refuse(it.Pos, runPlace)
		}
		r.Points = append(r.Points, nil)
	case it.Depth != nil:
		return r.depth(l, it.Pos, &it.Depth.Number)
	case it.deep:
	case it.Deep:
		return l.Refuse(it.Pos, `a length before it: 3/4 deep`)
	case it.Top:
		if r.top {
			return l.Refuse(it.Pos, runDepth)
		}
		r.top = true
	case it.Notched:
		if next != nil && it.Into != "" && next.Num != nil && !strings.HasSuffix(strings.ToLower(lastWord(l, next.Pos.Offset)), "s") {
			n, ok := next.Num.L.Whole()
			if !ok || n < 1 || !next.Num.Plain() {
				return l.Refuse(next.Pos, "one strap, then how deep: notched into strap 4, 1/4 deep")
			}
			next.taken = true
			r.Notch = place.Of{Sup: place.SupportKind(it.Into), N: n}
		}
		r.notched, r.after = true, true
	case it.Conduit, it.Inside:
		r.Conduit = true
	case it.On != nil:
		return r.surface(l, it.Pos, it.On)
	case it.OnWhat != nil:
		return r.support(l, it.OnWhat)
	case it.Support != nil:
		return r.support(l, it.Support)
	case it.Along != nil:
		return r.support(l, it.Along)
	case it.Between != nil:
		f, err := it.Between.Fix(l)
		r.add(f)
		return err
	case it.Full:
		r.Full = true
	case it.Where != nil:
		if !r.begun || it.Where.Ceiling || it.Where.Shape+it.Where.Alone != "" {
			return r.surface(l, it.Pos, it.Where)
		}
		r.add(place.Fix{How: place.OffWall, Wall: place.Wall(it.Where.Wall)})
	case it.InName != "" && r.Size != (length.Said{}) && !r.begun && r.Name == "" && lex.Shape(it.InName): // 1/2 in p1
		r.Name = it.InName
	case it.InName != "":
		return l.Refuse(it.Pos, runPlace)
	case it.Mark != "":
		return r.point(l, it.Pos, it.Mark)
	case it.Name != "" && !r.begun && r.Name == "" && (lex.Shape(it.Name) || strings.HasPrefix(it.Name, r.What+" ")):
		r.Name = it.Name
	case it.Name != "":
		return r.point(l, it.Pos, it.Name)
	case it.Num != nil && it.Num.Plain() && (after || next != nil && next.Deep):
		if next != nil && next.Deep {
			next.Deep, next.deep = false, true
		}
		return r.depth(l, it.Pos, &it.Num.L.Number)
	case it.Num != nil:
		return r.number(l, it.Num, next)
	}
	return nil
}

// add adds a fix to the current point, or to what all points share.
func (r *run) add(f place.Fix) {
	if !r.begun {
		r.Shared = append(r.Shared, f)
		return
	}
	last := &r.Points[len(r.Points)-1]
	*last = append(*last, f)
}

func (r *run) support(l *read.Source, s *places.SupportN) error {
	r.add(place.Fix{How: place.OnLine, Of: s.Of(l)})
	return nil
}

// point is at a mark or a noted thing.
func (r *run) point(l *read.Source, pos lexer.Position, name string) error {
	if !r.begun {
		return l.Refuse(pos, `one name, like p1, then "from" and a place`)
	}
	r.add(place.Fix{How: place.DirOf, Dir: place.North, Of: place.Of{Name: strings.TrimPrefix(name, "mark ")}})
	return nil
}

func (r *run) surface(l *read.Source, pos lexer.Position, on *places.WhereSyntax) error {
	switch s := on.Surface(); {
	case r.Surface == "" || strings.HasSuffix(string(s), string(r.Surface)):
		r.Surface = s
	case !strings.HasSuffix(string(r.Surface), string(s)): // "20 up the slope" on the north slope
		return l.Refuse(pos, "one surface")
	}
	return nil
}

func (r *run) depth(l *read.Source, pos lexer.Position, n *numbers.Number) error {
	if r.deep {
		return l.Refuse(pos, "one depth")
	}
	r.deep = true
	r.Depth = numbers.Said(l, n, depths)
	return nil
}

func (r *run) size(l *read.Source, n *numbers.Number) error {
	if r.Size != (length.Said{}) {
		return l.Refuse(n.Pos, "one size")
	}
	if r.Size = numbers.Said(l, n, numbers.Sizes); r.Size.Tag != length.Exact {
		return l.Refuse(n.Pos, "a size without strong or shy")
	}
	return nil
}

// number reads a distance, a depth ("3/4 deep"), the size, the number of a support ("from strap 2 to 7"),
// or a distance whose wall comes later.
func (r *run) number(l *read.Source, d *places.Distance, next *runItem) error {
	if d.B != nil {
		return l.Refuse(d.L.Pos, "one size: its diameter")
	}
	if !r.begun && d.OffWhat() && next != nil && next.place() && lastWord(l, next.Pos.Offset) == "from" { // "duct run 8 from ..."
		d.Off = false
		err := r.number(l, d, nil)
		r.begun, r.Points = true, append(r.Points, nil)
		return err
	}
	if !d.Plain() {
		f := d.Fix(l)
		if r.add(f); f.How == place.Along && f.Wall == "" {
			return l.Refuse(d.L.Pos, fmt.Sprintf("which wall it is from: %s along strap 3 from east", d.L.Raw()))
		}
		return nil
	}
	which := fmt.Sprintf("which wall it is off: %s off west", d.L.Raw())
	if !r.begun {
		most := barePipe
		if r.What == "duct run" {
			most = bareDuct
		}
		if len(r.Shared) > 0 || d.L.Bare() && len(d.L.Readings) == 1 && d.L.Readings[0].L > most {
			return l.Refuse(d.L.Pos, which)
		}
		return r.size(l, &d.L.Number)
	}
	if n, ok := d.L.Whole(); ok && n > 0 {
		before := r.Shared
		if k := len(r.Points) - 2; k > 0 || k == 0 && !r.implicit {
			before = r.Points[k]
		}
		if k := len(before); k > 0 && before[k-1].How == place.OnLine && len(r.Points) > 1 && len(r.Points[len(r.Points)-1]) == 0 {
			of := before[k-1].Of
			of.N = n
			r.add(place.Fix{How: place.OnLine, Of: of})
			return nil
		}
	}
	f := d.Tagged(l, place.Fix{How: place.OffWall, Said: numbers.Said(l, &d.L.Number, numbers.Distances)})
	k := len(r.Points) - 1
	r.open = append(r.open, openLeg{d.L.Pos, k, len(r.Points[k])})
	r.add(f)
	return nil
}

// finish checks that the run has a start and an end, and fills in what was said once for two points.
func (r *run) finish(l *read.Source) error {
	if r.Full && (len(r.Points) > 0 || len(r.Shared) == 0) {
		return l.RefuseEnd("one support or bay to follow, and no other end")
	}
	if r.Full {
		return r.tell(l)
	}
	if len(r.Points) == 0 {
		return l.RefuseEnd(`"from" and "to", each with ` + runPlace)
	}
	last := r.Points[len(r.Points)-1]
	if len(last) == 0 {
		return l.RefuseEnd(runPlace)
	}
	if len(r.Points) == 1 {
		return l.RefuseEnd(`"to" and where it ends`)
	}
	if r.implicit {
		k := len(r.Shared) - len(last)
		if k < 0 || len(r.Shared) == 0 {
			return l.Refuse(l.Tokens[0].Pos, `"from" and where it begins`)
		}
		r.Points[0], r.Shared = slices.Clone(r.Shared[k:]), slices.Clip(r.Shared[:k])
		if k == 0 {
			r.Shared = nil
		}
	}
	for _, o := range r.open {
		like := last[min(o.fix, len(last)-1)]
		if o.leg == len(r.Points)-1 || like.How == place.OnLine || len(r.Points[o.leg]) != len(last) || slices.ContainsFunc(r.open, func(p openLeg) bool { return p.leg == len(r.Points)-1 }) {
			raw := numbers.Number{Pos: o.pos, End: len(o.pos.Filename)}
			return l.Refuse(o.pos, fmt.Sprintf("which wall it is off: %s off west", strings.Fields(raw.Raw())[0]))
		}
		f := r.Points[o.leg][o.fix]
		like.Said = f.Said
		r.Points[o.leg][o.fix] = like
	}
	r.share()
	return r.tell(l)
}

// tell fills in how it lies.
func (r *run) tell(l *read.Source) error {
	switch {
	case r.top && r.notched && r.Notch.N > 0:
		r.How = "top"
	case r.top && (r.deep || r.notched):
		return l.RefuseEnd(runDepth)
	case r.top:
		r.How = "top"
	case r.notched:
		r.How = "notched"
	case r.deep:
		r.How = "depth"
	}
	return nil
}

// share moves what was said only with the first or the last point to what applies to all: "from strap 2 to
// strap 7, 40 off west".
func (r *run) share() {
	if len(r.Shared) > 0 {
		return
	}
	full := -1
	for i, p := range r.Points {
		switch {
		case len(p) == 1:
		case len(p) == 2 && full < 0 && (i == 0 || i == len(r.Points)-1):
			full = i
		default:
			return
		}
	}
	if full < 0 {
		return
	}
	other := r.Points[(full+1)%len(r.Points)][0]
	p := r.Points[full]
	like := slices.IndexFunc(p, func(f place.Fix) bool { return pins(f) == pins(other) })
	if like < 0 || pins(p[1-like]) == pins(other) {
		return
	}
	r.Shared = []place.Fix{p[1-like]}
	r.Points[full] = []place.Fix{p[like]}
}

// openLeg is a number whose wall comes with the last point: "from 20 to 96 off west".
type openLeg struct {
	pos      lexer.Position
	leg, fix int
}

// pins returns which coordinate a fix determines; two fixes of a kind determine the same one.
func pins(f place.Fix) string {
	switch {
	case f.How == place.OnLine, f.How == place.Along:
		return string(f.How)
	case f.How == place.UpFrom, f.How == place.DownTo:
		return "height"
	case f.Dir != "" && f.Dir.Along() == place.X, f.Wall != "" && f.Wall.Along() == place.X:
		return "north-south"
	case f.Dir != "" || f.Wall != "":
		return "east-west"
	}
	return ""
}

// lastWord returns the word that ends before a byte of the line.
func lastWord(l *read.Source, before int) string {
	word := ""
	for _, p := range l.Pieces {
		if p.End <= before && p.Word() {
			word = p.Low
		}
	}
	return word
}

// SizedRun reports whether numbers precede a run: `1/2" pipe p1 ...`.
func SizedRun(l *read.Source) bool {
	i := slices.IndexFunc(l.Tokens, func(t lexer.Token) bool { return t.Type != lex.Number && t.Type != lex.Punct && t.Type != lex.Other })
	return l.Tokens[i].Type == lex.Service
}

var RunKinds = []read.Row{
	{Command: read.Command{Kind: "run", About: "a pipe, wire, gas line, duct run or heat tube behind the board: where it begins, what it goes through, where it ends, how deep",
		Example: "pipe p1 40 off west from strap 2 to strap 7 depth 3/4", Metric: "pipe p1 1016 off west from strap 2 to strap 7 depth 19",
		Fits: `"from" and "to" with a place each ("strap 2", "40 off west"), then "depth 3/4", "on top of the straps", "notched" or "in conduit"`},
		Rule: read.Rule[runSyntax](), Makes: []grammar.Entry{Route{}}},
	{Command: read.Command{Kind: "plate", Words: []string{"plate", "plates", "plated", "nail plate", "nail plates"}, About: "steel plates that are on, over a run",
		Example: "plate p1 straps 3 5 7", Fits: `the run's name, "strap" and the numbers`},
		Rule: read.Rule[plateSyntax](), Makes: []grammar.Entry{Plate{}}, OfRoom: true},
}
