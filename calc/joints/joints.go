// Package joints picks where the butts of neighbouring lanes of boards go, and the boards
// that the pieces between them come out of.
//
// A lane is one row of boards: chains of pieces from end to end, with places in between where a butt may be. Butts of
// neighbouring lanes keep a distance. Of all plans the one with the fewest butts is best, then the one of the least
// cost in boards, then the one whose butts are farthest apart, then the one with the fewest sizes of board.
//
// A lane's possible sets of butts are its patterns. Dynamic programming over the lanes finds the cheapest
// patterns that go together at given prices of the pieces; package cutting finds prices at which no board
// gains; the two make one relaxation, split on numbers of boards until the bound meets the plan or the steps are
// spent. Patterns that are too many to list are stood in for by the cheapest chain that heeds no neighbour, so that the bound holds;
// plans get patterns beyond the list from chains fitted to the lane before, at the prices or to the mix of the relaxation (round).
package joints

import (
	"errors"
	"math"

	"strapline/calc/cutting"
	"strapline/calc/length"
	"strapline/calc/work"
)

// MaxPlaces is how many different places for butts all lanes may have together.
const MaxPlaces = 256

// Chain is a stretch of a lane to be filled with pieces.
type Chain struct {
	Nodes []length.Length // its end, the places for butts in order, its other end
	Item  [][]int32       // node, later node -> item of the piece between, -1 = there is no such piece
	at    []int           // node -> place
	least int             // pieces
}

// Lane is one row. Fixed are butts that are there already; that candidates
// keep off those of the neighbours is left to the caller.
type Lane struct {
	Chains []*Chain
	Fixed  []length.Length
}

// Weight sets a butt against boards: Board is what the unit of cost weighs, Butt what a
// butt does. The zero value puts one butt before any boards.
type Weight struct{ Board, Butt int64 }

// Any is more than the cost of any boards.
const Any = math.MaxInt64

// Problem is what is to be joined. Counts of items are not read.
type Problem struct {
	Lanes   []Lane
	Items   []cutting.Item
	Stock   []cutting.Stock
	More    []cutting.Stock // what can be had where Stock, counted, is not enough; counts are not read
	Stagger length.Length
	Weight  Weight
	// Worth is the cost in boards of More that one butt less is worth, where Stock is not enough; 0 = no
	// number of butts is worth one, Any = a butt is worth any number.
	Worth int64
	Work  *work.Budget
}

// Plan is an answer.
type Plan struct {
	Ends    [][]End         // lane -> its butts
	Boards  []cutting.Board // their pieces are items; a Stock from len(Problem.Stock) on is one of More
	Missing int64           // cost of those of More
	Butts   int             // new ones
	Cost    int64           // of all boards
	Stagger length.Length   // smallest between butts of neighbours, fixed ones too; -1 = no two to compare
	// Proven: no plan has fewer butts than LeastButts, and none with so many costs less than LeastCost.
	LeastButts int
	LeastCost  int64

	counts []int
	excess int   // butts over the base
	cost   int64 // as weighed
	total  int64 // butts and boards as weighed
	bound  int64 // of total
}

var (
	ErrGap   = errors.New("a chain cannot be filled")
	ErrMany  = errors.New("more places for butts than are planned for")
	ErrApart = errors.New("no butts of neighbouring lanes are far enough apart")
)

// Fewest is the least number of pieces that fill the chain, 0 when none do.
func (c *Chain) Fewest() int {
	n := len(c.Nodes)
	best := make([]int, n)
	for j := 1; j < n; j++ {
		for i := range j {
			if c.Item[i][j] >= 0 && (i == 0 || best[i] > 0) && (best[j] == 0 || best[i]+1 < best[j]) {
				best[j] = best[i] + 1
			}
		}
	}
	return best[n-1]
}

// Solve finds the best plan that the work allows.
func Solve(p Problem) (*Plan, error) {
	v := &solver{Problem: p}
	k, err := newStack(p.Lanes, p.Work)
	if err != nil {
		return nil, err
	}
	v.k = k
	k.keep(p.Stagger)
	most := float64(maxPatterns / max(1, len(p.Lanes)/8))
	if !k.join(len(p.Items), most) && k.greedy() == nil {
		return nil, ErrApart
	}
	if v.price(0); p.Worth == Any {
		v.price(Any)
	}
	if p.Weight.Butt > 0 {
		k.relist(2, most)
	}
	out := v.best(nil)
	if out == nil {
		return nil, ErrApart
	}
	if p.Worth < Any && v.short(out) { // more butts may do with what there is
		k.relist(8, most/100)
		out = v.best(out)
		if p.Worth > 0 && v.short(out) {
			v.price(p.Worth)
			out = v.best(v.again(out))
		}
	}
	v.widen(out)
	v.fewerLengths(out)
	v.finish(out)
	return out, nil
}

// First is how many butts a plan has that is found lane after lane, each with the fewest that go with the lane before, whatever
// boards there are; ok is false where that gets stuck.
func First(p Problem) (butts int, ok bool) {
	k, err := newStack(p.Lanes, &work.Budget{})
	if err != nil {
		return 0, false
	}
	k.buttCost = 1
	k.y = make([]float64, len(p.Items))
	k.keep(p.Stagger)
	path := k.greedy()
	for i, at := range path {
		butts += len(k.lanes[i].kind.pats[at].ends)
	}
	return butts, path != nil
}

// finish takes the weights out again.
func (v *solver) finish(p *Plan) {
	buttCost := int64(v.k.buttCost)
	p.Butts = v.base + p.excess
	p.bound = min(p.bound, p.total)
	p.LeastButts = min(p.Butts, v.base+int(p.bound/buttCost))
	p.LeastCost = (p.bound - buttCost*int64(p.LeastButts-v.base)) / max(v.Weight.Board, 1)
	if v.Weight.Butt > 0 { // all butts there can be weigh less than a unit of board, or the bound is of no use
		p.LeastCost = p.bound / v.Weight.Board
	}
	for _, b := range p.Boards {
		if k := b.Stock - len(v.Stock); k >= 0 {
			p.Missing += v.More[k].Cost
			p.Cost += v.More[k].Cost
		} else {
			p.Cost += v.Stock[b.Stock].Cost
		}
	}
}
