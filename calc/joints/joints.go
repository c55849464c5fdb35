// Package joints chooses the places of butts in neighbouring lanes of boards, and the boards
// that the pieces between them are cut from.
//
// A lane is a row of boards: chains of pieces from end to end, with places in between where a
// butt may be. Butts of neighbouring lanes keep a distance. The best plan has the fewest
// butts, then the least cost of boards, then the greatest distance of butts, then the fewest
// sizes of board.
//
// The possible sets of butts of a lane are its patterns. Dynamic programming over the lanes
// finds the cheapest compatible patterns for given prices of the pieces. Package cutting finds
// prices at which no board gains. Together they solve one relaxation, which is branched on
// numbers of boards until the bound meets the plan or the steps are used up. If there are too
// many patterns to list, a stand-in, the cheapest chain regardless of the neighbours, keeps
// the bound valid. Plans also get unlisted patterns, from chains that fit the previous lane,
// either at the prices or to match the mix of the relaxation (round).
package joints

import (
	"errors"
	"math"

	"strapline/calc/cutting"
	"strapline/calc/length"
	"strapline/calc/work"
)

// MaxPlaces is the maximum number of different places for butts in all lanes.
const MaxPlaces = 256

// Chain is a stretch of a lane to be filled with pieces.
type Chain struct {
	Nodes []length.Length // its start, the places for butts in order, and its end
	Item  [][]int32       // by node and later node, the item of the piece between; -1 if there is none
	at    []int           // place, by node
	least int             // the fewest pieces
}

// Lane is a row. Fixed are its existing butts. The caller must leave out places too close to
// the fixed butts of neighbours.
type Lane struct {
	Chains []*Chain
	Fixed  []length.Length
}

// Weight weighs butts against boards: Board is the weight of a unit of cost, Butt that of a
// butt. With the zero value a butt outweighs any boards.
type Weight struct{ Board, Butt int64 }

// Any is more than the cost of any boards.
const Any = math.MaxInt64

// Problem is the problem to solve. The counts of Items are ignored.
type Problem struct {
	Lanes   []Lane
	Items   []cutting.Item
	Stock   []cutting.Stock
	More    []cutting.Stock // boards that can be fetched if Stock is not enough; counts are ignored
	Stagger length.Length   // least distance between butts of neighbouring lanes
	Weight  Weight
	// Worth is how much cost in boards of More a butt less is worth, if Stock is not enough. With
	// 0 no number of butts is worth a board of More; with Any a butt is worth any number of them.
	Worth int64
	Work  *work.Budget
}

// Plan is a solution.
type Plan struct {
	Ends    [][]End         // butts, by lane
	Boards  []cutting.Board // pieces are indices of Items; a Stock from len(Problem.Stock) on is one of More
	Missing int64           // cost of the boards of More
	Butts   int             // new butts
	Cost    int64           // of all boards
	Stagger length.Length   // least distance between butts of neighbouring lanes, including fixed ones; -1 if there are none
	// Proven: no plan has fewer butts than LeastButts, and none with so many costs less than LeastCost.
	LeastButts int
	LeastCost  int64

	counts []int
	excess int   // butts in excess of base
	cost   int64 // of boards, weighted
	total  int64 // of butts and boards, weighted
	bound  int64 // lower bound of total
}

var (
	ErrGap   = errors.New("a chain cannot be filled")
	ErrMany  = errors.New("more places for butts than are planned for")
	ErrApart = errors.New("no butts of neighbouring lanes are far enough apart")
)

// Fewest is the least number of pieces that fill the chain, 0 if it cannot be filled.
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

// steady is the [cutting.Demand.Smooth] of the first relaxation. Of 79 random rooms of calc/layout
// 71 were proven with it and 65 without; 0.5 and 0.85 proved fewer.
const steady = 0.7

// Solve finds the best plan it can within the budget.
func Solve(p Problem) (*Plan, error) {
	v := &solver{Problem: p, smooth: steady}
	k, err := newStack(p.Lanes, p.Work)
	if err != nil {
		return nil, err
	}
	v.k = k
	k.keep(p.Stagger)
	// No more patterns are listed than there is work to look through.
	most := float64(max(400, min(maxPatterns, p.Work.Steps/1000)) / int64(max(1, len(p.Lanes)/8)))
	if !k.join(len(p.Items), most) && k.greedy() == nil {
		return nil, ErrApart
	}
	if v.price(0); p.Worth == Any {
		v.price(Any)
	}
	if p.Weight.Butt > 0 {
		k.relist(2, most)
	}
	start := v.Work.Steps
	out := v.best(nil)
	if out == nil {
		return nil, ErrApart
	}
	if bound := out.bound; bound < out.total && v.Work.Steps > start/2 && !v.short(out) { // other prices, other plans
		v.smooth = 0
		out = v.best(out)
		out.bound = max(out.bound, bound)
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

// First is the number of butts of a greedy plan: lane by lane, the fewest butts compatible with
// the previous lane, regardless of boards. ok is false if that gets stuck.
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

// finish converts weighted totals back to butts and costs.
func (v *solver) finish(p *Plan) {
	buttCost := int64(v.k.buttCost)
	p.Butts = v.base + p.excess
	p.bound = min(p.bound, p.total)
	p.LeastButts = min(p.Butts, v.base+int(p.bound/buttCost))
	p.LeastCost = (p.bound - buttCost*int64(p.LeastButts-v.base)) / max(v.Weight.Board, 1)
	if v.Weight.Butt > 0 { // useful only if all butts together weigh less than a unit of board
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
