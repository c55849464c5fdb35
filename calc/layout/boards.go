package layout

import (
	"encoding/binary"

	"strapline/calc/cutting"
	"strapline/calc/length"
)

// solver finds the best boards for a stack.
type solver struct {
	*site
	k       *stack
	sizes   []size
	stagger length.Length
	prob    cutting.Problem
	unit    int64
	base    int
	relaxed cutting.Relaxation
	known   map[string]*verdict
	trade   trade
}

// trade weighs a butt against the unit of board; the zero value puts butts before any board.
type trade struct{ board, butt int64 }

// verdict is what a multiset of pieces costs, as far as it was asked.
type verdict struct {
	cut cutting.Plan
	err error
}

// price sets the boards' costs: their area in the largest unit that measures them all. Counted
// sizes can also be had beyond the count, at a price above any number of butts.
func (v *solver) price() {
	l, w := v.units()
	scale := max(v.trade.board, 1)
	var most int64
	counted := false
	for _, b := range v.stock {
		c := int64(b.Length/l) * int64(b.Width/w) * scale
		v.prob.Stock = append(v.prob.Stock, cutting.Stock{Length: b.Length, Width: b.Width, Count: b.Count, Cost: c})
		v.unit = gcd(v.unit, c)
		most = max(most, c)
		counted = counted || b.Count >= 0
	}
	pieces := int64(1)
	for _, lane := range v.k.lanes {
		for _, c := range lane.chains {
			v.base += c.least - 1
			pieces += int64(c.least) + 3
		}
	}
	dear := most * pieces // more than all boards that could come of one butt less
	if v.trade.butt > 0 {
		dear = v.trade.butt
		v.unit = gcd(v.unit, dear)
	}
	v.k.dear = float64(dear)
	if counted {
		for _, b := range v.stock {
			if b.Count >= 0 {
				c := int64(b.Length/l) * int64(b.Width/w) * scale
				v.prob.Stock = append(v.prob.Stock, cutting.Stock{Length: b.Length, Width: b.Width, Count: cutting.Unlimited, Cost: c * most * pieces * pieces})
			}
		}
	}
	v.prob.Items = make([]cutting.Item, len(v.sizes))
	for i, z := range v.sizes {
		v.prob.Items[i] = cutting.Item{Length: z.length, Width: z.width}
	}
}

// units are the largest length and width that measure all boards: an area of one is the unit of cost.
func (s *site) units() (l, w length.Length) {
	for _, b := range s.stock {
		l, w = gcd(l, b.Length), gcd(w, b.Width)
	}
	return l, w
}

func gcd[T ~int64](a, b T) T {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// demand counts the pieces of a path, and its butts over the base.
func (v *solver) demand(path []int32) (counts []int, excess int) {
	counts = make([]int, len(v.sizes))
	for i, p := range path {
		kd := v.k.lanes[i].kind
		items := kd.witems
		if int(p) < len(kd.pats) {
			items = kd.pats[p].items
			excess += len(kd.pats[p].ends) - kd.base
		} else {
			excess += kd.wexcess
		}
		for _, it := range items {
			counts[it]++
		}
	}
	return counts, excess
}

func wild(k *stack, path []int32) bool {
	for i, p := range path {
		if int(p) == len(k.lanes[i].kind.pats) {
			return true
		}
	}
	return false
}

// judge cuts the pieces out of boards, for most at most (0 = at any price); what comes out for equal pieces is remembered.
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
	p := cutting.Problem{Stock: v.prob.Stock, Most: most, Steps: max(1, min(steps, v.left))}
	var index []int
	for i, n := range counts {
		if n > 0 {
			it := v.prob.Items[i]
			it.Count = n
			p.Items = append(p.Items, it)
			index = append(index, i)
		}
	}
	d = &verdict{}
	d.cut, d.err = cutting.Solve(p)
	v.left -= d.cut.Steps
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
