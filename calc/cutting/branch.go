package cutting

import (
	"math"
	"slices"
)

// node is a subproblem of the branch and bound, with its relaxation.
type node struct {
	rules []rule
	bound float64
	mix   mix
}

// branch raises the root's bound by branch and bound on the numbers of boards per group, which must be
// integers. It solves at most nodes subproblems and returns the least bound among the open ones.
func (m *master) branch(root Relaxation, rootMix mix, nodes int) float64 {
	open := []node{{m.counts(), root.Bound, rootMix}}
	for ; nodes > 0 && m.work.Steps > 0; nodes -= 2 {
		at := 0
		for i, n := range open {
			if n.bound < open[at].bound {
				at = i
			}
		}
		n := &open[at]
		if math.IsInf(n.bound, 1) || m.enough(n.bound) {
			return n.bound
		}
		if m.Look != nil && len(n.mix.choices) > 0 {
			m.Look(slices.MaxFunc(n.mix.choices, func(a, b Choice) int {
				return int(math.Copysign(1, a.Weight-b.Weight))
			}).Wanted)
		}
		parts := m.split(n)
		if parts == nil {
			return n.bound // all numbers are integers
		}
		bound, from := n.bound, n.mix.lp
		open = slices.Delete(open, at, at+1)
		for _, rules := range parts {
			r, mx := m.solve(rules, from)
			open = append(open, node{rules, max(r.Bound, bound), mx})
		}
		if from != nil {
			m.used = append(m.used, from.Release())
		}
	}
	low := math.Inf(1)
	for _, n := range open {
		low = min(low, n.bound)
	}
	return low
}

// split returns the rules of the two subproblems of n, or nil if its numbers of boards are all integers.
func (m *master) split(n *node) [][]rule {
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
	look(group{-1, whole}, sum[0], 2) // totals count double: splitting on them raises the bound most
	look(group{-1, ripped}, sum[1], 2)
	look(group{-1, either}, sum[0]+sum[1], 2)
	if x == 0 {
		return nil
	}
	k := int(math.Floor(x))
	return [][]rule{append(slices.Clone(n.rules), rule{best, false, k}), append(slices.Clone(n.rules), rule{best, true, k + 1})}
}
