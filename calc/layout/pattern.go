package layout

import (
	"math"
	"slices"
)

// bits is a set of butt positions.
type bits [maxSupports / 64]uint64

func (b *bits) add(i int)     { b[i/64] |= 1 << (i % 64) }
func (b *bits) union(o *bits) { b[0] |= o[0]; b[1] |= o[1]; b[2] |= o[2]; b[3] |= o[3] }
func (b *bits) meets(o *bits) bool {
	return b[0]&o[0]|b[1]&o[1]|b[2]&o[2]|b[3]&o[3] != 0
}

// pattern is one way to fill a lane: where its butts are and its pieces.
type pattern struct {
	mask  bits // its butts
	near  bits // positions too near to one of them for a neighbour
	ends  []end
	items []int32
}

// end is a butt: a node of a chain.
type end struct{ chain, node int16 }

// kind is what equal lanes share: their chains and patterns.
type kind struct {
	chains []*chain
	pats   []pattern
	base   int // butts at least
	// wild is an excess of butts from which on patterns are not listed. A stand-in that clashes with
	// nothing takes their place in bounds.
	wild    int
	cost    []float64 // of pats at the last prices
	wcost   float64   // of the stand-in, its pieces and its excess
	witems  []int32
	wexcess int
}

// maxPatterns keeps a kind within its share of time and memory.
const maxPatterns = 12_000

// list enumerates the kind's patterns with up to excess butts more than it needs.
func (k *kind) list(excess int, steps *int64) {
	k.pats = k.pats[:0]
	k.base = 0
	for _, c := range k.chains {
		k.base += c.least - 1
	}
	k.wild = excess + 1
	for e := range excess + 1 {
		before := len(k.pats)
		l := &lister{k: k, steps: steps}
		l.chain(0, e)
		if l.full {
			k.wild = e
			if e > 0 {
				k.pats = k.pats[:before]
			}
			return
		}
	}
}

type lister struct {
	k     *kind
	steps *int64
	at    pattern
	full  bool
}

// chain goes on with chain i and exactly spare pieces more than needed in all that follow.
func (l *lister) chain(i, spare int) {
	if i == len(l.k.chains) {
		if spare == 0 {
			p := l.at
			p.ends, p.items = slices.Clone(p.ends), slices.Clone(p.items)
			l.k.pats = append(l.k.pats, p)
			l.full = l.full || len(l.k.pats) >= maxPatterns
		}
		return
	}
	c := l.k.chains[i]
	for e := range spare + 1 {
		if i == len(l.k.chains)-1 && e < spare {
			continue
		}
		can := c.reach(c.least + e)
		l.node(i, 0, c.least+e, spare-e, can)
	}
}

// reach[n][i]: the chain can be finished from node i with exactly n pieces.
func (c *chain) reach(most int) [][]bool {
	n := len(c.nodes)
	can := make([][]bool, most+1)
	for k := range can {
		can[k] = make([]bool, n)
		can[k][n-1] = k == 0
		for i := 0; k > 0 && i < n; i++ {
			for j := i + 1; j < n && !can[k][i]; j++ {
				can[k][i] = c.item[i][j] >= 0 && can[k-1][j]
			}
		}
	}
	return can
}

func (l *lister) node(i, from, pieces, spare int, can [][]bool) {
	c := l.k.chains[i]
	*l.steps -= 50
	if l.full || *l.steps < 0 {
		l.full = true
		return
	}
	if pieces == 0 {
		l.chain(i+1, spare)
		return
	}
	if !can[pieces][from] {
		return
	}
	for j := from + 1; j < len(c.nodes); j++ {
		it := c.item[from][j]
		if it < 0 || !can[pieces-1][j] {
			continue
		}
		l.at.items = append(l.at.items, it)
		if pieces > 1 {
			l.at.ends = append(l.at.ends, end{int16(i), int16(j)})
		}
		l.node(i, j, pieces-1, spare, can)
		if pieces > 1 {
			l.at.ends = l.at.ends[:len(l.at.ends)-1]
		}
		l.at.items = l.at.items[:len(l.at.items)-1]
	}
}

// mark sets the patterns' masks, for butts that must be kept away from the
// positions in near[i] when they are at position i.
func (k *kind) mark(near []bits) {
	for n := range k.pats {
		p := &k.pats[n]
		p.mask, p.near = bits{}, bits{}
		for _, e := range p.ends {
			i := k.chains[e.chain].at[e.node]
			p.mask.add(i)
			p.near.union(&near[i])
		}
	}
}

// reprice costs the patterns, and the stand-in by the cheapest chain of its
// number of pieces whatever the neighbours do.
func (k *kind) reprice(y []float64, dear float64, steps *int64) {
	k.cost = slices.Grow(k.cost[:0], len(k.pats))[:len(k.pats)]
	for i := range k.pats {
		v := dear * float64(len(k.pats[i].ends)-k.base)
		for _, it := range k.pats[i].items {
			v += y[it]
		}
		k.cost[i] = v
	}
	*steps -= int64(6 * len(k.pats))
	top := k.wild + 2 // a chain may take one piece more or two, but not the number between
	sum := []float64{0}
	items := [][]int32{nil}
	for _, c := range k.chains {
		val, via := c.cheapest(y, c.least+top)
		*steps -= int64(len(c.nodes) * len(c.nodes) * (c.least + top) / 2)
		joined := slices.Repeat([]float64{math.Inf(1)}, top+1)
		with := make([][]int32, top+1)
		for e := range joined {
			from := -1
			for a := range min(e+1, len(sum)) {
				if v := sum[a] + val[c.least+e-a][len(c.nodes)-1]; v < joined[e] {
					joined[e], from = v, a
				}
			}
			if from < 0 {
				continue
			}
			with[e] = slices.Clone(items[from])
			for p, j := c.least+e-from, len(c.nodes)-1; p > 0; p-- {
				i := via[p][j]
				with[e] = append(with[e], c.item[i][j])
				j = int(i)
			}
		}
		sum, items = joined, with
	}
	k.wcost = math.Inf(1)
	for e := k.wild; e < len(sum); e++ {
		if v := dear*float64(e) + sum[e]; v < k.wcost {
			k.wcost, k.witems, k.wexcess = v, items[e], e
		}
	}
}

// cheapest is the cost of reaching each node with p pieces, by p, and the node before.
func (c *chain) cheapest(y []float64, most int) (val [][]float64, via [][]int16) {
	n := len(c.nodes)
	for p := range most + 1 {
		val = append(val, slices.Repeat([]float64{math.Inf(1)}, n))
		via = append(via, make([]int16, n))
		if p == 0 {
			val[0][0] = 0
			continue
		}
		for i, v := range val[p-1] {
			if math.IsInf(v, 1) {
				continue
			}
			for j := i + 1; j < n; j++ {
				if it := c.item[i][j]; it >= 0 && v+y[it] < val[p][j] {
					val[p][j], via[p][j] = v+y[it], int16(i)
				}
			}
		}
	}
	return val, via
}
