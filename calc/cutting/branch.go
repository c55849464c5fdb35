package cutting

import "math"

// node is a relaxation under rules, still to be split.
type node struct {
	rules []rule
	bound float64
	use   [][2]float64
}

// branch splits the relaxation on the number of boards of a group: there
// are whole boards only. The bound is the least of those of the parts left; it looks at no more than nodes.
func (m *master) branch(root Relaxation, use [][2]float64, nodes int) float64 {
	open := []node{{m.counted(), root.Bound, use}}
	for ; nodes > 0 && m.left > 0; nodes -= 2 {
		at := 0
		for i, n := range open {
			if n.bound < open[at].bound {
				at = i
			}
		}
		n := open[at]
		if m.enough != nil && m.enough(n.bound) {
			return n.bound
		}
		g, x := m.split(n.use)
		if x == 0 {
			return n.bound // whole numbers of boards all over: nothing to split on
		}
		open[at] = open[len(open)-1]
		open = open[:len(open)-1]
		for _, least := range []bool{false, true} {
			r := rule{g, least, int(math.Floor(x))}
			if least {
				r.n++
			}
			rules := append(n.rules[:len(n.rules):len(n.rules)], r)
			part, use := m.solve(rules)
			open = append(open, node{rules, max(part.Bound, n.bound), use})
		}
	}
	low := math.Inf(1)
	for _, n := range open {
		low = min(low, n.bound)
	}
	return low
}

// split is the group whose number is furthest from whole, 0 when all are whole.
func (m *master) split(use [][2]float64) (best group, x float64) {
	far := 1e-3
	var sum [2]float64
	look := func(g group, n float64, weight float64) {
		if d := weight * math.Abs(n-math.Round(n)); d > far {
			best, x, far = g, n, d
		}
	}
	for s, u := range use {
		sum[0] += u[0]
		sum[1] += u[1]
		look(group{s, either}, u[0]+u[1], 1)
		look(group{s, whole}, u[0], 1)
		look(group{s, ripped}, u[1], 1)
	}
	look(group{-1, whole}, sum[0], 2) // these say most
	look(group{-1, ripped}, sum[1], 2)
	look(group{-1, either}, sum[0]+sum[1], 2)
	return best, x
}
