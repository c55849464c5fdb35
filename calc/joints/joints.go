// Package joints chooses where the butts go in neighbouring lanes of boards, and which boards the pieces
// between them are cut from.
//
// A lane is a row of boards: chains of pieces from end to end, with places in between where a butt may go.
// Butts of neighbouring lanes keep a minimum distance, the stagger. The best plan has the fewest butts,
// then the least cost of boards, then the greatest stagger, then the fewest sizes of board.
//
// The possible sets of butts of a lane are its patterns. Dynamic programming over the lanes finds the
// cheapest compatible patterns at given prices of the pieces. Package cutting finds prices at which no
// board gains. Together they solve one relaxation, which is branched on numbers of boards until the bound
// meets the plan or the steps are used up. Where there are too many patterns to list, a stand-in, the
// cheapest chain regardless of the neighbours, keeps the bound valid. Plans may also use unlisted
// patterns, from chains fitted to the previous lane, either at the prices or to match the mix of the
// relaxation (round).
package joints

import (
	"errors"
	"math"

	"strapline/calc/cutting"
	"strapline/calc/lanes"
	"strapline/calc/length"
	"strapline/calc/work"
)

// MaxPlaces is the maximum number of different places for butts in all lanes.
const MaxPlaces = lanes.MaxPlaces

type (
	Chain = lanes.Chain // a stretch of a lane to be filled with pieces
	Lane  = lanes.Lane  // a row
	End   = lanes.End   // a butt
)

// Weight weighs butts against boards: Board is the weight of one unit of cost, Butt that of one butt. The
// zero value puts a butt above any boards.
type Weight struct{ Board, Butt int64 }

// Any exceeds the cost of any boards.
const Any = math.MaxInt64

// Problem is the problem to solve. The counts of Items are ignored.
type Problem struct {
	Lanes   []Lane
	Items   []cutting.Item
	Stock   []cutting.Stock
	More    []cutting.Stock // boards that can be bought if Stock is not enough; counts are ignored
	Stagger length.Length   // least distance between butts of neighbouring lanes
	Weight  Weight
	// Worth is the cost in boards of More that saving one butt is worth, if Stock is not enough. With 0,
	// no number of butts is worth a board of More; with Any, one butt is worth any number of them.
	Worth int64
	Work  *work.Budget
}

// Plan is a solution.
type Plan struct {
	Ends    [][]End         // butts, by lane
	Boards  []cutting.Board // pieces are indices of Items; a Stock from len(Problem.Stock) on is one of More
	Missing int64           // cost of the boards of More
	Butts   int             // without the fixed ones
	Cost    int64           // of all boards
	Stagger length.Length   // least distance between butts of neighbouring lanes, including fixed ones; -1 if there are none
	// Proven: no plan has fewer butts than LeastButts, and none with that many costs less than LeastCost.
	LeastButts int
	LeastCost  int64

	counts []int
	excess int   // butts above base
	cost   int64 // of boards, weighted
	total  int64 // of butts and boards, weighted
	bound  int64 // lower bound of total
}

var (
	ErrGap   = lanes.ErrGap
	ErrMany  = lanes.ErrMany
	ErrApart = errors.New("no butts of neighbouring lanes are far enough apart")
)

// steady is the [cutting.Demand.Smooth] of the first relaxation. Of 79 random rooms of calc/layout
// 71 were proven with it and 65 without; 0.5 and 0.85 proved fewer.
const steady = 0.7

// Solve returns the best plan it finds within the budget.
func Solve(p Problem) (*Plan, error) {
	v := &solver{Problem: p, smooth: steady}
	k, err := lanes.NewStack(p.Lanes, p.Work)
	if err != nil {
		return nil, err
	}
	v.k = k
	k.Keep(p.Stagger)
	// List no more patterns than the budget lets it look through.
	most := float64(max(400, min(lanes.MaxPatterns, p.Work.Steps/1000)) / int64(max(1, len(p.Lanes)/8)))
	if !k.Join(len(p.Items), most) && k.Greedy() == nil {
		return nil, ErrApart
	}
	if v.price(0); p.Worth == Any {
		v.price(Any)
	}
	if p.Weight.Butt > 0 {
		k.Relist(2, most)
	}
	start := v.Work.Steps
	out := v.best(nil)
	if out == nil {
		return nil, ErrApart
	}
	if bound := out.bound; bound < out.total && v.Work.Steps > start/2 && !v.short(out) { // without smoothing the prices differ, and may lead to a better plan
		v.smooth = 0
		out = v.best(out)
		out.bound = max(out.bound, bound)
	}
	if p.Worth < Any && v.short(out) { // more butts may make the stock suffice
		k.Relist(8, most/100)
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

// First returns the number of butts of a greedy plan: lane by lane, the fewest butts compatible with the
// previous lane, regardless of boards. ok is false if it gets stuck.
func First(p Problem) (butts int, ok bool) {
	k, err := lanes.NewStack(p.Lanes, &work.Budget{})
	if err != nil {
		return 0, false
	}
	k.ButtCost = 1
	k.Y = make([]float64, len(p.Items))
	k.Keep(p.Stagger)
	path := k.Greedy()
	for i, at := range path {
		butts += len(k.Lanes[i].Kind.Pats[at].Ends)
	}
	return butts, path != nil
}

// finish converts weighted totals back to butts and costs.
func (v *solver) finish(p *Plan) {
	buttCost := int64(v.k.ButtCost)
	p.Butts = v.base + p.excess
	p.bound = min(p.bound, p.total)
	p.LeastButts = min(p.Butts, v.base+int(p.bound/buttCost))
	p.LeastCost = (p.bound - buttCost*int64(p.LeastButts-v.base)) / max(v.Weight.Board, 1)
	if v.Weight.Butt > 0 { // the bound on the cost is only useful if all butts together weigh less than a unit of board
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
