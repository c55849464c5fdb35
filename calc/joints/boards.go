package joints

import (
	"encoding/binary"

	"strapline/calc/cutting"
)

// solver finds the best boards for a stack.
type solver struct {
	Problem
	k       *stack
	stock   []cutting.Stock // and beyond: the counted sizes again, as boards that are not there
	unit    int64           // all totals are multiples of
	base    int             // butts that every plan has
	left    int64           // steps
	relaxed cutting.Relaxation
	known   map[string]*verdict
}

// verdict is what a multiset of pieces costs, as far as it was asked.
type verdict struct {
	cut cutting.Plan
	err error
}

// price weighs butts, boards, and boards of counted sizes beyond the count: the
// last are dearer than any number of butts, and a butt, unless told otherwise, than any boards.
func (v *solver) price() {
	v.unit = max(v.Weight.Board, 1)
	var most int64
	for _, s := range v.Stock {
		s.Cost *= v.unit
		most = max(most, s.Cost)
		v.stock = append(v.stock, s)
	}
	pieces := int64(1)
	for _, l := range v.k.lanes {
		for _, c := range l.Chains {
			v.base += c.least - 1
			pieces += int64(c.least) + 3
		}
	}
	dear := most * pieces // more than all boards that could come of one butt less
	if v.Weight.Butt > 0 {
		dear, v.unit = v.Weight.Butt, 1
	}
	v.k.dear = float64(dear)
	for _, s := range v.stock[:len(v.Stock)] {
		if s.Count >= 0 {
			s.Count = cutting.Unlimited
			s.Cost *= most * pieces * pieces
			v.stock = append(v.stock, s)
		}
	}
}

// demand counts the pieces of a path, and its butts over the base.
func (v *solver) demand(path []int32) (counts []int, excess int) {
	counts = make([]int, len(v.Items))
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
	p := cutting.Problem{Stock: v.stock, Most: most, Steps: max(1, min(steps, v.left))}
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
