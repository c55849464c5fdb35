package joints

import (
	"math"
	"slices"
)

// bits is a set of butt positions.
type bits [MaxPlaces / 64]uint64

func (b *bits) add(i int)     { b[i/64] |= 1 << (i % 64) }
func (b *bits) union(o *bits) { b[0] |= o[0]; b[1] |= o[1]; b[2] |= o[2]; b[3] |= o[3] }
func (b *bits) meets(o *bits) bool {
	return b[0]&o[0]|b[1]&o[1]|b[2]&o[2]|b[3]&o[3] != 0
}

// holds says whether all of o is in b.
func (b *bits) holds(o *bits) bool {
	return o[0]&^b[0]|o[1]&^b[1]|o[2]&^b[2]|o[3]&^b[3] == 0
}

// pattern is one way to fill a lane: where its butts are and its pieces.
type pattern struct {
	mask  bits // its butts
	near  bits // positions too near to one of them for a neighbour
	ends  []End
	items []int32
}

// End is a butt: a node of a chain of its lane.
type End struct{ Chain, Node int16 }

// kind is what equal lanes share: their chains and patterns.
type kind struct {
	chains []*Chain
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

// list enumerates the kind's patterns with up to excess butts more than it
// needs. When there are too many with some excess, only every so many-th of these is listed.
func (k *kind) list(excess int, steps *int64) {
	k.pats = k.pats[:0]
	k.base = 0
	for _, c := range k.chains {
		k.base += c.least - 1
	}
	k.wild = excess + 1
	for e := range excess + 1 {
		l := newLister(k, e, steps)
		all := l.later[0][e]
		if l.stride = max(1, math.Ceil(all/maxPatterns)); l.stride > 1 {
			k.wild = min(k.wild, e)
		}
		l.chain(0, e)
	}
}

type lister struct {
	k      *kind
	steps  *int64
	at     pattern
	ways   [][][]float64 // chain -> pieces -> node -> ways to finish the chain from there
	later  [][]float64   // chain -> spare pieces -> ways to do this chain and the ones after
	index  float64       // of the next pattern
	stride float64
}

func newLister(k *kind, excess int, steps *int64) *lister {
	n := len(k.chains)
	l := &lister{k: k, steps: steps, ways: make([][][]float64, n), later: make([][]float64, n+1)}
	for i := range l.later {
		l.later[i] = make([]float64, excess+1)
	}
	l.later[n][0] = 1
	for i, c := range slices.Backward(k.chains) {
		l.ways[i] = c.ways(c.least + excess)
		for spare := range excess + 1 {
			for e := range spare + 1 {
				l.later[i][spare] += l.ways[i][c.least+e][0] * l.later[i+1][spare-e]
			}
		}
	}
	return l
}

// chain goes on with chain i and exactly spare pieces more than needed in all that follow.
func (l *lister) chain(i, spare int) {
	if i == len(l.k.chains) {
		p := l.at
		p.ends, p.items = slices.Clone(p.ends), slices.Clone(p.items)
		l.k.pats = append(l.k.pats, p)
		l.index++
		return
	}
	for e := range spare + 1 {
		l.node(i, 0, l.k.chains[i].least+e, spare-e)
	}
}

func (l *lister) node(i, from, pieces, spare int) {
	*l.steps -= 20
	ways := l.ways[i][pieces][from] * l.later[i+1][spare]
	if math.Ceil(l.index/l.stride)*l.stride >= l.index+ways || *l.steps < 0 {
		l.index += ways // none to list among these
		return
	}
	if pieces == 0 {
		l.chain(i+1, spare)
		return
	}
	c := l.k.chains[i]
	for j := from + 1; j < len(c.Nodes); j++ {
		it := c.Item[from][j]
		if it < 0 || l.ways[i][pieces-1][j] == 0 {
			continue
		}
		l.at.items = append(l.at.items, it)
		if pieces > 1 {
			l.at.ends = append(l.at.ends, End{int16(i), int16(j)})
		}
		l.node(i, j, pieces-1, spare)
		if pieces > 1 {
			l.at.ends = l.at.ends[:len(l.at.ends)-1]
		}
		l.at.items = l.at.items[:len(l.at.items)-1]
	}
}

// ways[n][i] is in how many ways the chain can be finished from node i with exactly n pieces.
func (c *Chain) ways(most int) [][]float64 {
	n := len(c.Nodes)
	ways := make([][]float64, most+1)
	for p := range ways {
		ways[p] = make([]float64, n)
		if p == 0 {
			ways[0][n-1] = 1
			continue
		}
		for i := range n {
			for j := i + 1; j < n; j++ {
				if c.Item[i][j] >= 0 {
					ways[p][i] += ways[p-1][j]
				}
			}
		}
	}
	return ways
}

// mark sets the patterns' masks, for butts that must be kept away from the
// positions in near[i] when they are at position i.
func (k *kind) mark(near []bits) {
	for n := range k.pats {
		p := &k.pats[n]
		p.mask, p.near = bits{}, bits{}
		for _, e := range p.ends {
			i := k.chains[e.Chain].at[e.Node]
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
		*steps -= int64(len(c.Nodes) * len(c.Nodes) * (c.least + top) / 2)
		joined := slices.Repeat([]float64{math.Inf(1)}, top+1)
		with := make([][]int32, top+1)
		for e := range joined {
			from := -1
			for a := range min(e+1, len(sum)) {
				if v := sum[a] + val[c.least+e-a][len(c.Nodes)-1]; v < joined[e] {
					joined[e], from = v, a
				}
			}
			if from < 0 {
				continue
			}
			with[e] = slices.Clone(items[from])
			for p, j := c.least+e-from, len(c.Nodes)-1; p > 0; p-- {
				i := via[p][j]
				with[e] = append(with[e], c.Item[i][j])
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
func (c *Chain) cheapest(y []float64, most int) (val [][]float64, via [][]int16) {
	n := len(c.Nodes)
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
				if it := c.Item[i][j]; it >= 0 && v+y[it] < val[p][j] {
					val[p][j], via[p][j] = v+y[it], int16(i)
				}
			}
		}
	}
	return val, via
}
