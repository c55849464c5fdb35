package cutting

import (
	"maps"
	"math"
	"slices"
)

// node is a part of the problem, relaxed and still to be split.
type node struct {
	part
	bound float64
	mix   mix
}

// branch splits the problem on the number of boards of a group, which is
// whole, and on the marks of the choice, which it has or has not. The bound is
// the least of those of the parts left; it looks at no more than nodes.
func (m *master) branch(root Relaxation, rootMix mix, nodes int) float64 {
	open := []node{{m.all(), root.Bound, rootMix}}
	for ; nodes > 0 && m.work.Steps > 0; nodes -= 2 {
		at := 0
		for i, n := range open {
			if n.bound < open[at].bound {
				at = i
			}
		}
		n := &open[at]
		if math.IsInf(n.bound, 1) || m.Enough != nil && m.Enough(n.bound) {
			return n.bound
		}
		if m.Look != nil && len(n.mix.choices) > 0 {
			m.Look(slices.MaxFunc(n.mix.choices, func(a, b Choice) int {
				return int(math.Copysign(1, a.Weight-b.Weight))
			}).Wanted)
		}
		parts := m.split(n)
		if parts == nil {
			return n.bound // nothing to split on
		}
		bound := n.bound
		open = slices.Delete(open, at, at+1)
		for _, p := range parts {
			r, mx := m.solve(p)
			open = append(open, node{p, max(r.Bound, bound), mx})
		}
	}
	low := math.Inf(1)
	for _, n := range open {
		low = min(low, n.bound)
	}
	return low
}

// split makes two parts of n, nil when its plan is whole.
func (m *master) split(n *node) []part {
	far := 1e-3
	var best group
	var x float64
	look := func(g group, n, weight float64) {
		if d := weight * math.Abs(n-math.Round(n)); d > far {
			best, x, far = g, n, d
		}
	}
	var sum [2]float64
	for s, u := range n.mix.boards {
		sum[0] += u[0]
		sum[1] += u[1]
		look(group{s, either}, u[0]+u[1], 1)
		look(group{s, whole}, u[0], 1)
		look(group{s, ripped}, u[1], 1)
	}
	look(group{-1, whole}, sum[0], 2) // these say most
	look(group{-1, ripped}, sum[1], 2)
	look(group{-1, either}, sum[0]+sum[1], 2)
	if x > 0 {
		lo, hi := n.part, n.part
		k := int(math.Floor(x))
		lo.rules = append(slices.Clone(n.rules), rule{best, false, k})
		hi.rules = append(slices.Clone(n.rules), rule{best, true, k + 1})
		return []part{lo, hi}
	}
	share := map[int]float64{}
	for _, c := range n.mix.choices {
		for _, mark := range c.Marks {
			share[mark] += c.Weight
		}
	}
	mark := -1
	far = 1e-3
	for _, k := range slices.Sorted(maps.Keys(share)) {
		if d := math.Abs(share[k] - math.Round(share[k])); d > far+1e-9 {
			mark, far = k, d
		}
	}
	if mark < 0 {
		return nil
	}
	has, not := n.part, n.part
	has.with = append(slices.Clone(n.with), mark)
	not.without = append(slices.Clone(n.without), mark)
	return []part{has, not}
}
