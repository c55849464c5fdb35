package joints

import (
	"encoding/binary"
	"math"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/lanes"
	"strapline/calc/work"
)

// solver finds the best boards for a stack.
type solver struct {
	Problem
	k       *lanes.Stack
	stock   []cutting.Stock // Stock, then More
	unit    int64           // divides all totals
	base    int             // butts that no plan can avoid
	lack    int64           // price of the cheapest board of More
	relaxed cutting.Relaxation
	smooth  float64 // see cutting.Demand
	known   map[string]*verdict
}

// verdict is the cutting plan for a multiset of pieces, as far as it has been worked out.
type verdict struct {
	cut cutting.Plan
	err error
}

// price sets the prices of butts and boards. By default a butt costs more than the boards it could save,
// and a board of More costs more than any number of butts; worth, if positive, sets the price of More
// instead.
func (v *solver) price(worth int64) {
	v.unit = max(v.Weight.Board, 1)
	v.stock, v.base = nil, 0
	v.lack = math.MaxInt64
	v.known = map[string]*verdict{}
	var most int64
	for _, s := range append(slices.Clone(v.More), v.Stock...) {
		most = max(most, s.Cost*v.unit)
	}
	for _, s := range v.Stock {
		s.Cost *= v.unit
		v.stock = append(v.stock, s)
	}
	pieces, nodes := int64(1), int64(1)
	for _, l := range v.k.Lanes {
		for _, c := range l.Chains {
			v.base += c.Least - 1
			pieces += int64(c.Least) + 3
			nodes += int64(len(c.Nodes))
		}
	}
	buttCost := most * pieces // more than all the boards that saving one butt could cost
	if v.Weight.Butt > 0 {
		buttCost, v.unit = v.Weight.Butt, 1
	}
	v.k.ButtCost = float64(buttCost)
	missing := min(buttCost*nodes, max(buttCost, (1<<50)/(most*pieces))) // small enough that sums stay exact as float64
	if worth > 0 {
		missing = max(2, buttCost/worth)
	}
	for _, s := range v.More {
		s.Count = cutting.Unlimited
		s.Cost *= missing * v.unit
		v.lack = min(v.lack, s.Cost)
		v.stock = append(v.stock, s)
	}
}

// short reports whether the plan takes boards of More.
func (v *solver) short(p *Plan) bool {
	return slices.ContainsFunc(p.Boards, func(b cutting.Board) bool { return b.Stock >= len(v.Stock) })
}

// again returns the plan recosted at the present prices.
func (v *solver) again(p *Plan) *Plan {
	q := *p
	q.cost = 0
	for _, b := range q.Boards {
		q.cost += v.stock[b.Stock].Cost
	}
	q.total = int64(v.k.ButtCost)*int64(q.excess) + q.cost
	return &q
}

// demand counts the pieces of a path, and its butts above base.
func (v *solver) demand(path []int32) (counts []int, excess int) {
	counts = make([]int, len(v.Items))
	for i, p := range path {
		kd := v.k.Lanes[i].Kind
		items := kd.StandItems
		if int(p) < len(kd.Pats) {
			items = kd.Pats[p].Items
			excess += len(kd.Pats[p].Ends) - kd.Base
		} else {
			excess += kd.StandExcess
		}
		for _, it := range items {
			counts[it]++
		}
	}
	return counts, excess
}

func standsIn(k *lanes.Stack, path []int32) bool {
	for i, p := range path {
		if int(p) == len(k.Lanes[i].Kind.Pats) {
			return true
		}
	}
	return false
}

// judge cuts the pieces out of boards at a cost of at most most, or at any cost if most is 0. Verdicts are
// cached.
func (v *solver) judge(counts []int, most, steps int64) *verdict {
	var b []byte
	for i, n := range counts {
		if n > 0 {
			b = binary.AppendUvarint(binary.AppendUvarint(b, uint64(i)), uint64(n))
		}
	}
	d := v.known[string(b)]
	if d != nil && (d.err != nil || d.cut.Proven() || most > 0 && (d.cut.Bound > most || d.cut.Cost <= most)) {
		return d
	}
	p := cutting.Problem{Stock: v.stock, Most: most}
	var index []int
	for i, n := range counts {
		if n > 0 {
			it := v.Items[i]
			it.Count = n
			p.Items = append(p.Items, it)
			index = append(index, i)
		}
	}
	d = &verdict{}
	v.Work.Part(max(1, min(steps, v.Work.Steps)), func(part *work.Budget) {
		p.Work = part
		d.cut, d.err = cutting.Solve(p)
	})
	for _, b := range d.cut.Boards {
		for _, s := range b.Strips {
			for k, j := range s.Pieces {
				s.Pieces[k] = index[j]
			}
		}
	}
	v.known[string(b)] = d
	return d
}
