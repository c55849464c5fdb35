// Package layout plans how boards go on a ceiling or a wall: rows, butt joints, cut sizes, the cut list,
// and a bound on how much better any plan could be.
//
// Rows of boards lie side by side; each row is a chain of pieces from wall to wall. Every butt is centred
// on a support that carries it in that row, butts in neighbouring rows keep the stagger, and pieces come
// out of whole boards or out of the two strips that one board may be ripped into (package cutting).
//
// The best plan has the fewest butts, then the least board area, then the greatest stagger, then the
// fewest different lengths. Counts of boards come before all of that: a plan that the boards on hand
// suffice for is preferred to any other. If they suffice for none, butts are weighed against the boards to
// buy, see buttWorth.
//
// Butts and area are solved together: the chains of the rows by dynamic programming over the stagger
// between neighbours, the boards by column generation. Both share one relaxation, whose bound is returned
// with the layout.
//
// All lengths are exact; x and y are those of the surface. The default rules are common practice in the
// trade, no source, except the 6 in off the corner of an opening: GA-216 for the joints, a county
// residential guide for the distance.
package layout

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"strapline/calc/fasten"
	"strapline/calc/joints"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/work"
)

// Rect is a rectangle on the surface.
type Rect struct{ X, Y, W, H length.Length }

// Surface is a rectangle W (along x) by H (along y) minus its notches, so any rectilinear shape. On a
// ceiling x runs from the west wall and y from the north wall; on a wall x runs along it and y up from the
// floor.
type Surface struct {
	W, H     length.Length
	Notches  []Rect // no surface here: corners, chimneys, bulkheads; boards end at them as at a wall
	Openings []Rect // doors and windows: boards run past and are cut out
	Things   []Rect // lights, ducts, boxes: cut as it hangs; butts keep off
	// Corners are those of a ceiling whose walls are not square, clockwise from north-west; W by H is then
	// the bounding rectangle. Pieces are planned to where the walls are farthest out and then cut to the
	// actual walls. Nil means the rectangle.
	Corners []place.Point
	// Under are straight edges, such as slopes, that limit a wall from above: it ends at the lowest of
	// them or at H.
	Under [][2]place.Point
}

// Support is a strap, joist, stud or channel, by its centre line.
type Support struct {
	At       length.Length // across it
	From, To length.Length // along it; To 0: to the far side
	Face     length.Length // width of its face; 0: wide enough for a joint
	Steel    bool
}

// Stock is a size of board and how many there are (cutting.Unlimited: as many as needed). If the counts
// are not enough, more of the counted sizes can be bought, even of those with a count of 0; Layout.Short
// says how many.
type Stock struct {
	Width, Length length.Length
	Count         int
	Offcut        bool // left from an earlier board: costs nothing and cannot be bought; if narrower than the boards it is a strip
}

// Rules are the crew's numbers. Zero values mean the defaults, see Defaults.
type Rules struct {
	Clear   length.Length // how much shorter a piece is cut at each wall end of a row
	Rip     length.Length // how much narrower a rip is cut than its place
	Sliver  length.Length // a last row narrower than this is shared out with the first
	Short   length.Length // least length of a piece, unless the row is shorter
	Stagger length.Length // between butts of neighbouring rows
	Edge    length.Length // between a butt and an opening's edge
	Round   length.Length // cut sizes are rounded down to this
}

// Defaults returns the usual rules: 1/8 in clear at each end, rips 1/4 in under, no sliver under 6 in, no
// piece under 16 in, 16 in stagger, 6 in off openings, cut to 1/16 in.
func Defaults() Rules {
	return Rules{Clear: length.Inch / 8, Rip: length.Inch / 4, Sliver: 6 * length.Inch, Short: 16 * length.Inch,
		Stagger: 16 * length.Inch, Edge: 6 * length.Inch, Round: length.Sixteenth}
}

// Hung is a piece that is up and stays up.
type Hung struct {
	Row      int           // from 1
	From, To length.Length // along the row
	Cut      length.Length // its length; 0: as long as its place
	Across   length.Length // width of its place when it was hung; 0: that of the row now
}

// Input is everything a plan depends on.
type Input struct {
	Surface  Surface
	Supports []Support
	Lie      place.Axis // direction of the supports
	Along    bool       // boards along the supports; else across them
	Far      bool       // rows count from the far side: the south or east wall, the top of a wall

	Rows []length.Length // widths of the rows, from where they start, if fixed by what hangs; else nil

	Stock   []Stock
	Longest length.Length // longest board that gets into the room; 0 or less: any
	Rules   Rules
	Framing fasten.Where
	Hung    []Hung
	Keep    map[int][]length.Length // by row, from 1, the only places its butts may take, if fixed
}

// Leans reports whether the surface is more than a rectangle with notches, so that ends and rips may need
// slanted cuts.
func (in Input) Leans() bool { return len(in.Surface.Corners)+len(in.Surface.Under) > 0 }

// DefaultSteps keeps a plan under 150 ms, even for rooms of 200 ft by 60 ft. With 25 million, a tenth
// fewer of the random rooms are proven; with 40 million, no more.
const DefaultSteps = 36_000_000

// ErrStopped is returned when the work was cancelled.
var ErrStopped = errors.New("stopped before there was a layout")

// Layout is a plan. Areas are square metres.
type Layout struct {
	Run     place.Axis // direction of the boards' long edges
	Rows    []Row
	Boards  []Stock // boards used, by size, without offcuts
	Short   []Stock // those of them beyond the counts
	Cuts    []Cut
	Butts   int
	Stagger length.Length // least distance of butts in neighbouring rows; 0 if there are no two to compare

	ButtJoint, LongJoint, WallJoint length.Length // lengths to tape; WallJoint is the whole perimeter

	Area, Bought float64
	// No plan has fewer butts than BoundButts, and none with as few butts as this one takes less board
	// than Bound.
	BoundButts int
	Bound      float64
	Proven     bool // of butts and area: no plan from the boards on hand is better

	Notes []Note
	Nests []Nest // boards that can be saved
}

// Waste returns the fraction of the board bought that does not end up on the surface; 0 where clearances
// outweigh it.
func (l *Layout) Waste() float64 {
	if l.Bought == 0 {
		return 0
	}
	return max(0, 1-l.Area/l.Bought)
}

// Row is one row of boards: its extent across the run, and its pieces in order along the run.
type Row struct {
	From, To length.Length
	Width    length.Length // cut width of its widest piece
	Rip      bool
	Pieces   []Piece
	Butts    []Butt
}

// Piece is one piece of board.
type Piece struct {
	ID       string        // "r2.1": row, place in the row
	From, To length.Length // its extent along the run
	Lo, Hi   length.Length // its extent across the run
	Cut      length.Length // length to cut
	Width    length.Length // width to cut; that of the board if it is not ripped
	Rip      bool
	Notches  []Rect // to cut out of it for notches and openings, in surface coordinates
	Hung     bool   // already up, takes no board

	// Set only if the walls lean by more than Taper. Cut and Width then give the rectangle it is cut from.
	Edges [2]length.Length // lengths to cut, along its edges at Lo and at Hi
	Lean  [2]length.Length // how much farther along the run its start, and its end, is at Hi than at Lo
	Ends  [2]length.Length // widths to cut at From and at To
	Off   []Corner         // corners to cut off, where a wall bends within the piece
}

// Corner is a corner cut off a piece: Along its long edge and Across its end.
type Corner struct {
	End           bool // at To, else at From
	Far           bool // at Hi, else at Lo
	Along, Across length.Length
}

// Tapered reports whether its long edges differ in length or its ends are cut on a slant.
func (p Piece) Tapered() bool { return p.Edges != [2]length.Length{} }

// RipTapered reports whether it is wider at one end than at the other.
func (p Piece) RipTapered() bool { return p.Ends != [2]length.Length{} }

// Butt is an end joint.
type Butt struct {
	At      length.Length
	Support int // index into Input.Supports; -1: none (boards along the supports, or hung off a support)
}

// Cut is how one stock board or offcut is cut.
type Cut struct {
	Width, Length length.Length
	Offcut        bool
	Strips        []Strip // one: used whole; two: ripped
}

// Strip is one strip of a board, with its pieces in cutting order, each from what the last one left.
type Strip struct {
	Width  length.Length
	Pieces []string
	Left   length.Length // what remains at the end
	Keep   bool          // long enough for another piece
}

// Plan returns the best layout within the budget and deducts the steps it took; a nil budget means
// DefaultSteps. The same input and steps give the same layout. With no steps left it does not search: it
// returns a layout that keeps the rules, bounded by the sizes alone.
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

// Alternatives returns a few other layouts in the rows of best, the plan of the same input:
//   - the one with the least board from what is on hand, for more butts, and one in between if it is worth it;
//   - if boards are counted, the one with the fewest butts, and what to buy for it;
//   - if best is short of boards, the one that is least short, and the one with the fewest butts.
//
// Their Bound applies to layouts in these rows only. The budget is as for Plan.
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
	there := in // only what is on hand
	there.Stock = slices.DeleteFunc(slices.Clone(in.Stock), func(b Stock) bool { return b.Count == 0 })
	plans := s.rowPlans()
	at := slices.IndexFunc(plans, func(rows []band) bool { // the same rows
		return slices.EqualFunc(rows, best.Rows, func(p band, r Row) bool {
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
	least := 0.0 // proven: the least board of any layout in these rows
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
	add(there, joints.Weight{Board: 100_000, Butt: 1}, 0) // butts only break ties
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

// missing returns the area of the boards beyond the counts.
func (l *Layout) missing() (m2 float64) {
	for _, b := range l.Short {
		m2 += float64(b.Count) * metres(b.Width) * metres(b.Length)
	}
	return m2
}
