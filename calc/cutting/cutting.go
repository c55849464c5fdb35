// Package cutting cuts pieces out of stock boards for the least cost: the
// cutting-stock problem in one dimension, with several stock lengths, counted
// or not, and boards that may be ripped.
//
// A board is used whole (one strip, its full width) or ripped into two strips,
// no more: each has one factory edge. A strip is snapped across into pieces one
// after the other; gypsum board is scored and snapped, so no saw kerf is taken off. A
// piece may come out of a wider strip.
//
// The relaxation is solved by column generation (Gilmore and Gomory, "A linear
// programming approach to the cutting-stock problem", Operations Research 9,
// 1961); the whole boards are then found, and the rest proven away, by a depth-first
// search over the boards whose pieces are worth nearly what the board costs.
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

// Item is a size of piece and how many are wanted.
type Item struct {
	Length length.Length // above 0
	Width  length.Length // 0 in an instance where width plays no part
	Count  int           // 0 or more
}

// Stock is a size of board.
type Stock struct {
	Length length.Length // above 0
	Width  length.Length // 0 in an instance where width plays no part
	Count  int           // boards there are; Unlimited when more can be had
	Strip  bool          // was ripped already: used whole only
	Cost   int64         // above 0: what is kept least, in any whole unit (area, usually)
}

// Unlimited is the Count of a stock size that does not run out.
const Unlimited = -1

// Problem is what to cut out of what. Lengths of any unit do, as long as their greatest
// common measure goes no more than 1<<16 times into the longest board.
type Problem struct {
	Items []Item
	Stock []Stock
	Most  int64        // above 0: a plan that costs more is of no use, and is not looked for
	Work  *work.Budget // nil = DefaultSteps
}

// DefaultSteps lets a problem of a room's size be proven and ends a hopeless search.
const DefaultSteps = 200_000_000

// ByArea sets each size's cost to its area, in the largest rectangle that measures all of them, whose sides it returns.
func ByArea(stock []Stock) (long, wide length.Length) {
	for _, s := range stock {
		long, wide = gcd(long, s.Length), gcd(wide, s.Width)
	}
	for i, s := range stock {
		stock[i].Cost = int64(s.Length/long) * int64(s.Width/wide)
	}
	return long, wide
}

// Strip is one strip of a board.
type Strip struct {
	Width  length.Length
	Pieces []int         // indexes of Problem.Items, longest first
	Left   length.Length // what is over at its end
}

// Board is one stock board and the one or two strips it is used as.
type Board struct {
	Stock  int // index of Problem.Stock
	Strips []Strip
}

// Plan is an answer.
type Plan struct {
	Boards []Board
	Cost   int64 // of all boards
	Bound  int64 // proven: no plan costs less
}

// Proven says that no plan is better.
func (p Plan) Proven() bool { return p.Cost == p.Bound }

// ErrShort says that the counted stock does not hold the pieces, or was not
// found to in the steps allowed.
var ErrShort = errors.New("not enough boards for the pieces")

// SizeError names a piece that is longer or wider than every board.
type SizeError struct{ Item Item }

func (e *SizeError) Error() string {
	return fmt.Sprintf("a piece of %d nm x %d nm is larger than every board", e.Item.Length, e.Item.Width)
}

// Solve returns the cheapest plan it finds and what is proven of it.
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
	fixed := &Wanted{Count: want}
	m := &master{table: t, Demand: Demand{Cheapest: func([]float64) *Wanted { return fixed }}}
	r, mix := m.solve(t.counts())
	bound := t.roundUp(r.Bound)
	open := func() bool {
		return (best == nil || cost(best) > bound) && (p.Most == 0 || bound <= p.Most && (best == nil || cost(best) > p.Most))
	}
	// A short look for the plan, a sharper bound, and a long look.
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
		return Plan{}, ErrShort
	}
	return Plan{Boards: t.plan(best), Cost: cost(best), Bound: bound}, nil
}

// made is a board cut into the pieces of two strips; the second is empty when
// the board is used whole.
type made struct {
	stock  int
	cost   int64
	width  [2]int // classes of width, widest first; -1 = none
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

// roundUp is the least cost that whole boards can come to and that is not under b.
func (t *table) roundUp(b float64) int64 {
	return int64(math.Ceil(max(b, 0)/float64(t.unit)-1e-6)) * t.unit
}
