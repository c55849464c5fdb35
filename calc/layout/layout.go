// Package layout plans how boards go on a ceiling or a wall: rows, butt joints,
// cut sizes, the cut list, and what is proven of it.
//
// Rows of boards lie side by side; each row is a chain of pieces from wall to
// wall. Every butt is centred on a support that is there at that row; butts in
// neighbouring rows keep the stagger; pieces come out of whole boards or out
// of the two strips that one board may be ripped into (package cutting). Of all such
// plans the one with the fewest butts is taken, of these the one with the least
// board area, then the widest smallest stagger, then the fewest different lengths. Counted boards come before all: a plan
// for which they are enough is taken before any other. Where they are enough for none, butts and what is to be fetched
// are weighed against each other, see buttWorth.
//
// Butts and area are solved together: the rows' chains by dynamic programming over the
// stagger between neighbours, the boards by column generation, and the two meet in one
// relaxation whose bound is given with the answer.
//
// All lengths are exact; x and y are those of the surface. The rules' default
// values are common practice in the trade, no source, but for the 6 in off an opening's corner:
// joints at openings after GA-216, distance from a county residential guide.
package layout

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"strapline/calc/joints"
	"strapline/calc/length"
	"strapline/calc/work"
)

// Axis is a direction on the surface.
type Axis int

const (
	X Axis = iota // along x: east-west on a ceiling, along a wall
	Y             // along y: north-south on a ceiling, up a wall
)

func (a Axis) across() Axis { return 1 - a }

// Rect is a rectangle on the surface.
type Rect struct{ X, Y, W, H length.Length }

// Surface is a rectangle W (along x) by H (along y) less its notches: any
// rectilinear shape. On a ceiling x runs from the west wall and y from the north wall, on a wall x
// along it and y up from the floor.
type Surface struct {
	W, H     length.Length
	Notches  []Rect // no surface here: corners, chimneys, bulkheads; boards end at them as at a wall
	Openings []Rect // doors and windows: boards run past and are cut out
	Things   []Rect // lights, ducts, boxes: cut as it hangs; butts keep off
	// Corners of a ceiling whose walls are not at right angles, clockwise from north-west; W by H is the rectangle about them.
	// Pieces are planned to where the walls are farthest out and cut to the walls as they stand. None: the rectangle.
	Corners []Point
	// Under are straight edges over a surface that stands, such as slopes that come down to it: it ends at the lowest of them and at H.
	Under [][2]Point
}

// Support is a strap, joist, stud or channel, by its centre line.
type Support struct {
	At       length.Length // across it
	From, To length.Length // along it; To 0 = it runs to the far side
	Face     length.Length // width of its face; 0 = wide enough
	Steel    bool
}

// Stock is a size of board and how many there are (cutting.Unlimited: as many as wanted). Counted sizes, 0 too, can be
// had beyond their count where the counts are not enough; what is then taken is Layout.Short.
type Stock struct {
	Width, Length length.Length
	Count         int
	Offcut        bool // left of a board that was taken before: costs nothing, no more is to be had; one that is narrower than the boards is a strip
}

// Rules are the crew's numbers. A zero value means the default, see Defaults.
type Rules struct {
	Clear   length.Length // each wall end of a row is cut this much short
	Rip     length.Length // a ripped row is cut this much under its place
	Sliver  length.Length // a last row narrower than this is shared with the first
	Short   length.Length // no piece is shorter, unless the row is
	Stagger length.Length // between butts of neighbouring rows
	Edge    length.Length // between a butt and an opening's edge
	Round   length.Length // cut sizes are rounded down to this
}

// Defaults is the rules as crews hold them: 1/8 in clear at each end, rips 1/4 in under,
// no sliver under 6 in, no piece under 16 in, 16 in stagger, 6 in off openings, cut to 1/16 in.
func Defaults() Rules {
	return Rules{Clear: length.Inch / 8, Rip: length.Inch / 4, Sliver: 6 * length.Inch, Short: 16 * length.Inch,
		Stagger: 16 * length.Inch, Edge: 6 * length.Inch, Round: length.Sixteenth}
}

// Hung is a piece that is up and stays.
type Hung struct {
	Row      int           // from 1, as the rows are counted
	From, To length.Length // along the row
	Cut      length.Length // its length; 0 = that of its place
	Across   length.Length // the width of its place when it was hung; 0 = of the row now
}

// Input is all a plan depends on.
type Input struct {
	Surface  Surface
	Supports []Support
	Lie      Axis // the supports lie along this axis
	Along    bool // boards along the supports; else across them
	Far      bool // rows count from the far side: the south or east wall, the top of a wall

	Rows []length.Length // the rows' widths across, from where they start, when they are settled (by what hangs); else nil

	Stock   []Stock
	Longest length.Length // longest board that gets in; 0 or less = any
	Rules   Rules
	Framing Framing
	Hung    []Hung
	Keep    map[int][]length.Length // row, from 1 -> the only places for its butts, where they are settled
}

// Leans reports whether the surface is no rectangle less notches, so that ends and rips may be cut on the slant.
func (in Input) Leans() bool { return len(in.Surface.Corners)+len(in.Surface.Under) > 0 }

// DefaultSteps keeps a plan under 150 ms, in rooms of 200 ft by 60 ft too. With 25 million a tenth fewer of the random rooms
// are proven, with 40 million as many.
const DefaultSteps = 36_000_000

// ErrStopped is all that comes of work that was stopped.
var ErrStopped = errors.New("stopped before there was a layout")

// Layout is a plan. Areas are square metres.
type Layout struct {
	Run     Axis // the boards' long edges
	Rows    []Row
	Boards  []Stock // what is used, by size, without offcuts; Count is how many
	Short   []Stock // what of it is beyond the counts
	Cuts    []Cut
	Butts   int
	Stagger length.Length // smallest between butts of neighbouring rows, 0 = no two to compare

	ButtJoint, LongJoint, WallJoint length.Length // joint to tape; WallJoint is all round

	Area, Bought float64
	// No plan has fewer butts than BoundButts, and none with as few butts as this one takes less board than Bound.
	BoundButts int
	Bound      float64
	Proven     bool // of butts and area: no plan of the boards there are is better

	Notes []Note
}

// Waste is the part of the board bought that does not end up on the surface; none where clearances make up for more.
func (l *Layout) Waste() float64 {
	if l.Bought == 0 {
		return 0
	}
	return max(0, 1-l.Area/l.Bought)
}

// Row is one row of boards: its place on the surface across the run, and its pieces in order along the run.
type Row struct {
	From, To length.Length
	Width    length.Length // as cut: of its widest piece
	Rip      bool
	Pieces   []Piece
	Butts    []Butt
}

// Piece is one piece of board.
type Piece struct {
	ID       string        // "r2.1": row, place in the row
	From, To length.Length // its place along the run
	Lo, Hi   length.Length // its place across the run
	Cut      length.Length // length to cut
	Width    length.Length // width to cut; the board's own when it is not ripped
	Rip      bool
	Notches  []Rect // to cut out of it for notches and openings, on the surface
	Hung     bool   // was up already, takes no board

	// Where the walls lean by more than Taper; else zero. Cut and Width are then what it comes out of.
	Edges [2]length.Length // lengths to cut along its edge at Lo and at Hi
	Lean  [2]length.Length // how much farther along the run its start, and its end, is at Hi than at Lo
	Ends  [2]length.Length // widths to cut at From and at To
	Off   []Corner         // corners to cut off, where a wall runs in between two of its own
}

// Corner is the corner of a piece that is cut off: Along its long edge and Across its end.
type Corner struct {
	End           bool // at To, else at From
	Far           bool // at Hi, else at Lo
	Along, Across length.Length
}

// Tapered reports whether its two edges differ or its ends are cut on the slant.
func (p Piece) Tapered() bool { return p.Edges != [2]length.Length{} }

// RipTapered reports whether its two ends are of different widths.
func (p Piece) RipTapered() bool { return p.Ends != [2]length.Length{} }

// Butt is an end joint.
type Butt struct {
	At      length.Length
	Support int // index of Input.Supports, -1 = none (boards along the supports, or hung so)
}

// Cut is what one stock board or offcut is cut into.
type Cut struct {
	Width, Length length.Length
	Offcut        bool
	Strips        []Strip // one: used whole; two: ripped
}

// Strip is one strip of a board, its pieces in cutting order: each after the first comes out of the offcut.
type Strip struct {
	Width  length.Length
	Pieces []string
	Left   length.Length // what is over at the end
	Keep   bool          // long enough to be a piece
}

// Plan is the best layout that the work allows, and takes off the steps that it needed; nil allows DefaultSteps. The same input
// and steps give the same layout. With no steps left nothing is searched: it is a layout by the rules, with the bound that the sizes alone give.
func Plan(in Input, b *work.Budget) (l *Layout, err error) {
	b = cmp.Or(b, &work.Budget{Steps: DefaultSteps})
	if !b.Do(func() { l, err = best(in.Canonical(), b) }) {
		return nil, ErrStopped
	}
	return l, err
}

func best(in Input, b *work.Budget) (*Layout, error) {
	s, err := newSite(in)
	if err != nil {
		return nil, err
	}
	plans := s.rowPlans()
	if plans == nil && in.Along && in.Rows == nil {
		return nil, s.missing()
	}
	if plans == nil {
		return nil, &Problem{Kind: BadSize}
	}
	var solved []*plan
	for i, rows := range plans {
		b.Part(b.Steps/int64(len(plans)-i), func(part *work.Budget) {
			p, why := s.solve(rows, joints.Weight{}, buttWorth, part)
			if why != nil {
				err = why
				return
			}
			solved = append(solved, p)
		})
	}
	if solved == nil {
		return nil, err
	}
	best := solved[0]
	for _, p := range solved {
		if p.better(best) {
			best = p
		}
	}
	out := s.layout(best)
	s.bounds(best, solved, out)
	return out, nil
}

// Alternatives are a few other layouts in the rows of best, the plan of the same input: for more butts, the one that takes the
// least board there is, and what lies between if it is worth it; where boards are counted, the one with the fewest butts and
// what is to be fetched for it. Where best is short of boards, the one that is short of least, and the one with the fewest
// butts. Their Bound is what no layout in these rows can do with less than. The work is as for Plan.
func Alternatives(in Input, best *Layout, b *work.Budget) (out []*Layout, err error) {
	b = cmp.Or(b, &work.Budget{Steps: DefaultSteps})
	if len(in.Hung) > 0 {
		return nil, nil
	}
	if !b.Do(func() { out = others(in.Canonical(), best, b) }) {
		return nil, ErrStopped
	}
	return out, nil
}

func others(in Input, best *Layout, b *work.Budget) []*Layout {
	s, err := newSite(in)
	if err != nil {
		return nil
	}
	there := in // what there is alone
	there.Stock = slices.DeleteFunc(slices.Clone(in.Stock), func(b Stock) bool { return b.Count == 0 })
	plans := s.rowPlans()
	at := slices.IndexFunc(plans, func(rows []place) bool { // the same rows
		return slices.EqualFunc(rows, best.Rows, func(p place, r Row) bool {
			v := s.backSpan(p.v)
			return v.lo == r.From && v.hi == r.To
		})
	})
	if at < 0 {
		return nil
	}
	board := func(l *Layout) float64 { return l.Bought }
	if len(best.Short) > 0 {
		board = (*Layout).missing
	}
	least := 0.0 // proven of the board any layout in these rows takes
	var out []*Layout
	share := b.Steps / 4
	add := func(in Input, w joints.Weight, worth float64) {
		s, err := newSite(in)
		if err != nil {
			return
		}
		var p *plan
		b.Part(share, func(part *work.Budget) { p, err = s.solve(plans[at], w, worth, part) })
		if err != nil {
			return
		}
		if w.Butt == 1 {
			_, cover := s.plain(p, p.most())
			least = s.area(max(cover, p.LeastCost))
		}
		l := s.layout(p)
		if l.BoundButts, l.Bound = min(best.BoundButts, l.Butts), least; len(l.Short) > 0 {
			l.Bound = 0
		}
		beats := func(a, b *Layout) bool { return a.Butts <= b.Butts && board(a) <= board(b)+1e-6 }
		fetch := len(l.Short) > 0 && len(best.Short) == 0
		if beats(best, l) || fetch && l.Butts >= best.Butts || l.Stagger < min(best.Stagger, s.rules.Stagger) || slices.ContainsFunc(out, func(o *Layout) bool { return beats(o, l) }) {
			return
		}
		out = slices.DeleteFunc(out, func(o *Layout) bool { return beats(l, o) })
		out = append(out, l)
	}
	if len(best.Short) > 0 {
		add(in, joints.Weight{}, 0)
		add(in, joints.Weight{}, math.Inf(1))
		return out
	}
	add(there, joints.Weight{Board: 100_000, Butt: 1}, 0) // a butt counts only between equals
	if len(out) > 0 {
		l := out[0]
		saved := s.cost(best.Bought-l.Bought, math.Round)
		if more := int64(l.Butts - best.Butts); more > 0 && saved > 0 {
			add(there, joints.Weight{Board: 1000, Butt: 1000 * saved / more}, 0)
		}
	}
	if s.there < len(s.stock) {
		add(in, joints.Weight{}, math.Inf(1))
	}
	return out
}

// missing is the area of the boards beyond the counts.
func (l *Layout) missing() (m2 float64) {
	for _, b := range l.Short {
		m2 += float64(b.Count) * metres(b.Width) * metres(b.Length)
	}
	return m2
}
