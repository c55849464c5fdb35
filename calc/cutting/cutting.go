// Package cutting cuts pieces out of stock boards at the least cost: the
// one-dimensional cutting-stock problem, with several stock lengths, limited or
// unlimited in number, and boards that may be ripped.
//
// A board is used whole (one strip of its full width) or ripped into at most two strips,
// so that each has one factory edge. A strip is cut across into pieces. Gypsum board is
// scored and snapped, so there is no kerf. A piece may be cut from a wider strip.
//
// The linear relaxation is solved by column generation (Gilmore and Gomory, "A linear
// programming approach to the cutting-stock problem", Operations Research 9, 1961).
// The integer solution is then found, or ruled out, by a depth-first search over the
// boards whose pieces are worth almost as much as the board costs.
package cutting

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/work"
)

// Item is a size of piece, and how many are wanted.
type Item struct {
	Length length.Length // positive
	Width  length.Length // 0 in a problem without widths
	Count  int           // 0 or more
}

// Stock is a size of board.
type Stock struct {
	Length length.Length // positive
	Width  length.Length // 0 in a problem without widths
	Count  int           // boards on hand, or Unlimited
	Strip  bool          // already ripped, so only used whole
	Cost   int64         // positive, in any integer unit, usually area; the total is minimized
}

// Unlimited is the Count of a stock size that does not run out.
const Unlimited = -1

// Problem is a cutting problem. Lengths may be in any unit, but the longest board can be at
// most 1<<16 times their greatest common divisor.
type Problem struct {
	Items []Item
	Stock []Stock
	Most  int64        // if positive, the search skips plans that cost more
	Work  *work.Budget // default DefaultSteps
}

// DefaultSteps is enough to prove a problem of a room's size, and ends a hopeless search.
const DefaultSteps = 200_000_000

// ByArea sets the cost of each size to its area, in units of the largest rectangle that
// divides all of them evenly. It returns the sides of that rectangle.
func ByArea(stock []Stock) (long, wide length.Length) {
	for _, s := range stock {
		long, wide = gcd(long, s.Length), gcd(wide, s.Width)
	}
	for i, s := range stock {
		stock[i].Cost = int64(s.Length/long) * int64(s.Width/wide)
	}
	return long, wide
}

// Strip is a strip of a board.
type Strip struct {
	Width  length.Length
	Pieces []int         // indices into Problem.Items, longest first
	Left   length.Length // waste at its end
}

// Board is a stock board and its one or two strips.
type Board struct {
	Stock  int // index into Problem.Stock
	Strips []Strip
}

// Plan is a solution.
type Plan struct {
	Boards []Board
	Cost   int64 // of all boards
	Bound  int64 // proven: no plan costs less
}

// Proven reports whether no plan is cheaper.
func (p Plan) Proven() bool { return p.Cost == p.Bound }

// ErrShort is returned if the stock is not enough for the pieces, or if no plan was found within the
// budget.
var ErrShort = errors.New("not enough boards for the pieces")

// SizeError reports a piece that does not fit any board.
type SizeError struct{ Item Item }

func (e *SizeError) Error() string {
	return fmt.Sprintf("a piece of %d nm x %d nm is larger than every board", e.Item.Length, e.Item.Width)
}

// Solve returns the cheapest plan it finds, with a proven bound.
func Solve(p Problem) (Plan, error) {
	t, err := newTable(p)
	if err != nil {
		return Plan{}, err
	}
	want := make([]int, len(p.Items))
	total := 0
	for i, it := range p.Items {
		want[i] = it.Count
		total += it.Count
	}
	if total == 0 {
		return Plan{}, nil
	}
	best := t.greedy(want)
	if best != nil && p.Most > 0 && cost(best) <= p.Most {
		return Plan{Boards: t.plan(best), Cost: cost(best)}, nil
	}
	fixed := &Wanted{Count: want}
	m := &master{table: t, Demand: Demand{Cheapest: func([]float64) *Wanted { return fixed }}}
	r, mix := m.solve(t.counts(), nil)
	bound := t.roundUp(r.Bound)
	open := func() bool {
		return (best == nil || cost(best) > bound) && (p.Most == 0 || bound <= p.Most && (best == nil || cost(best) > p.Most))
	}
	// A short search for the plan, a tighter bound, and a long search.
	for _, steps := range []int64{t.work.Steps / 200, 0, t.work.Steps} {
		if !open() {
			break
		}
		if steps == 0 {
			m.Enough = func(b float64) bool { return best != nil && t.roundUp(b) >= cost(best) }
			bound = max(bound, t.roundUp(m.branch(r, mix, 40)))
			continue
		}
		top := bound + 64*t.unit
		if best != nil {
			top = cost(best) - t.unit
		}
		if p.Most > 0 {
			top = min(top, p.Most)
		}
		s := t.search(want, r, bound, top, steps)
		bound = s.bound
		if s.boards != nil {
			best = s.boards
		}
	}
	if best == nil {
		return Plan{Bound: bound}, ErrShort
	}
	return Plan{Boards: t.plan(best), Cost: cost(best), Bound: bound}, nil
}

// made is a board and the pieces of its one or two strips.
type made struct {
	stock  int
	cost   int64
	width  [2]int // width classes of the strips, widest first; the second is -1 if the board is used whole
	pieces [2][]int
}

func (b made) rip() bool { return b.width[1] >= 0 }

func cost(bs []made) (c int64) {
	for _, b := range bs {
		c += b.cost
	}
	return c
}

func (t *table) plan(bs []made) []Board {
	out := make([]Board, len(bs))
	for i, b := range bs {
		st := t.p.Stock[b.stock]
		out[i].Stock = b.stock
		for k, w := range b.width {
			if w < 0 || len(b.pieces[k]) == 0 {
				continue
			}
			s := Strip{Width: t.widths[w], Pieces: slices.Clone(b.pieces[k]), Left: st.Length}
			slices.SortStableFunc(s.Pieces, func(a, c int) int {
				return cmp.Compare(t.p.Items[c].Length, t.p.Items[a].Length)
			})
			for _, j := range s.Pieces {
				s.Left -= t.p.Items[j].Length
			}
			out[i].Strips = append(out[i].Strips, s)
		}
		if len(out[i].Strips) == 1 && out[i].Strips[0].Width*2 > st.Width {
			out[i].Strips[0].Width = st.Width
		}
	}
	slices.SortStableFunc(out, func(a, b Board) int {
		return cmp.Or(cmp.Compare(a.Stock, b.Stock), slices.Compare(a.Strips[0].Pieces, b.Strips[0].Pieces))
	})
	return out
}

// roundUp rounds b up to a multiple of the costs' common divisor.
func (t *table) roundUp(b float64) int64 {
	return int64(math.Ceil(max(b, 0)/float64(t.unit)-1e-6)) * t.unit
}
