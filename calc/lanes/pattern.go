package lanes

import (
	"math"
	"slices"

	"strapline/calc/work"
)

// Bits is a set of butt positions.
type Bits [MaxPlaces / 64]uint64

func (b *Bits) add(i int)      { b[i/64] |= 1 << (i % 64) }
func (b *Bits) has(i int) bool { return b[i/64]>>(i%64)&1 == 1 }
func (b *Bits) union(o *Bits)  { b[0] |= o[0]; b[1] |= o[1]; b[2] |= o[2]; b[3] |= o[3] }
func (b *Bits) Meets(o *Bits) bool {
	return b[0]&o[0]|b[1]&o[1]|b[2]&o[2]|b[3]&o[3] != 0
}

type pattern struct {
	Mask     Bits // its butts
	Excludes Bits // positions too close for butts of a neighbour
	Ends     []End
	Items    []int32
}

// End is a butt: a node of a chain of its lane.
type End struct{ Chain, Node int16 }

// Kind holds the chains and patterns that equal lanes share.
type Kind struct {
	chains []*Chain
	Pats   []pattern
	Base   int // fewest butts
	// unlisted is the least excess of which not all patterns are listed. In bounds, a stand-in that
	// clashes with nothing represents those patterns.
	unlisted    int
	upTo        int            // greatest excess listed so far
	most        float64        // limit of patterns per excess
	listed      map[Bits]int32 // by mask, index into pats; nil until a pattern is added
	Cost        []float64      // of pats, at the last prices
	StandCost   float64        // of the stand-in: its pieces and its excess butts
	StandItems  []int32
	StandExcess int
}

// MaxPatterns limits the patterns listed per excess, which bounds time and memory.
const MaxPatterns = 12_000

// list enumerates the kind's patterns with up to excess butts more than it needs. It resumes where the
// last call with the same most ended. Where an excess has more than most patterns, it lists an even sample
// of them, or none if the excess is above 2.
func (k *Kind) list(excess int, most float64, b *work.Budget) {
	if k.most != most || k.listed != nil {
		k.Pats, k.listed, k.most = k.Pats[:0], nil, most
		k.upTo, k.unlisted = -1, 0
		k.Base = 0
		for _, c := range k.chains {
			k.Base += c.Least - 1
		}
	}
	if k.unlisted > k.upTo {
		k.unlisted = max(k.unlisted, excess+1)
	}
	for k.upTo < excess {
		k.upTo++
		e := k.upTo
		l := newLister(k, e, b)
		all := l.later[0][e]
		if e > 2 && all > most {
			k.unlisted = min(k.unlisted, e)
			break
		}
		if l.stride = max(1, math.Ceil(all/most)); l.stride > 1 {
			k.unlisted = min(k.unlisted, e)
		}
		k.Pats = slices.Grow(k.Pats, int(min(all, most)))
		l.chain(0, e)
		if b.Steps < 0 {
			k.unlisted = min(k.unlisted, e) // the list is incomplete
		}
	}
}

type lister struct {
	k      *Kind
	work   *work.Budget
	at     pattern
	ways   [][][]float64 // by chain, pieces and node: number of ways to finish the chain from there
	later  [][]float64   // by chain and spare pieces: number of ways to do this chain and those after it
	index  float64       // of the next pattern
	stride float64
	ends   []End // storage for the patterns' slices
	items  []int32
}

// keep appends a to all, or to a new block once all is full, and returns the copy. Slices returned earlier
// stay valid.
func keep[T any](all *[]T, a []T) []T {
	if cap(*all)-len(*all) < len(a) {
		*all = make([]T, 0, max(1024, len(a)))
	}
	n := len(*all)
	*all = append(*all, a...)
	return (*all)[n:len(*all):len(*all)]
}

func newLister(k *Kind, excess int, b *work.Budget) *lister {
	n := len(k.chains)
	l := &lister{k: k, work: b, ways: make([][][]float64, n), later: make([][]float64, n+1)}
	for i := range l.later {
		l.later[i] = make([]float64, excess+1)
	}
	l.later[n][0] = 1
	for i, c := range slices.Backward(k.chains) {
		l.ways[i] = c.ways(c.Least + excess)
		for spare := range excess + 1 {
			for e := range spare + 1 {
				l.later[i][spare] += l.ways[i][c.Least+e][0] * l.later[i+1][spare-e]
			}
		}
	}
	return l
}

// chain enumerates chain i with exactly spare pieces above the minimum in it and the chains after it.
func (l *lister) chain(i, spare int) {
	if i == len(l.k.chains) {
		p := l.at
		p.Ends, p.Items = keep(&l.ends, p.Ends), keep(&l.items, p.Items)
		l.k.Pats = append(l.k.Pats, p)
		l.index++
		return
	}
	for e := range spare + 1 {
		l.node(i, 0, l.k.chains[i].Least+e, spare-e)
	}
}

func (l *lister) node(i, from, pieces, spare int) {
	l.work.Spend(40)
	ways := l.ways[i][pieces][from] * l.later[i+1][spare]
	if math.Ceil(l.index/l.stride)*l.stride >= l.index+ways || l.work.Steps < 0 {
		l.index += ways // none of these is in the sample
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
		l.at.Items = append(l.at.Items, it)
		if pieces > 1 {
			l.at.Ends = append(l.at.Ends, End{int16(i), int16(j)})
		}
		l.node(i, j, pieces-1, spare)
		if pieces > 1 {
			l.at.Ends = l.at.Ends[:len(l.at.Ends)-1]
		}
		l.at.Items = l.at.Items[:len(l.at.Items)-1]
	}
}

// ways[n][i] is the number of ways to complete the chain from node i with exactly n pieces.
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

// mark sets the patterns' masks. tooClose[i] are the positions too close to position i.
func (k *Kind) mark(tooClose []Bits) {
	for n := range k.Pats {
		k.shape(&k.Pats[n], tooClose)
	}
}

func (k *Kind) shape(p *pattern, tooClose []Bits) {
	p.Mask, p.Excludes = Bits{}, Bits{}
	for _, e := range p.Ends {
		i := k.chains[e.Chain].at[e.Node]
		p.Mask.add(i)
		p.Excludes.union(&tooClose[i])
	}
}

// reprice sets the cost of each pattern at item prices y, and that of the stand-in: the cheapest chains
// with an excess of at least unlisted, regardless of the neighbours.
func (k *Kind) reprice(y []float64, buttCost float64, b *work.Budget) {
	k.Cost = slices.Grow(k.Cost[:0], len(k.Pats))[:len(k.Pats)]
	for i := range k.Pats {
		k.Cost[i] = k.priced(&k.Pats[i], y, buttCost)
	}
	b.Spend(int64(6 * len(k.Pats)))
	sum := append([]float64{0}, slices.Repeat([]float64{math.Inf(1)}, k.unlisted)...) // by excess; the last stands for unlisted or more
	items := make([][]int32, k.unlisted+1)
	for _, c := range k.chains {
		most := c.Least + k.unlisted
		val, via := c.cheapest(y, buttCost, most)
		b.Spend(int64(len(c.Nodes) * len(c.Nodes) * most / 2))
		joined := slices.Repeat([]float64{math.Inf(1)}, k.unlisted+1)
		with := make([][]int32, k.unlisted+1)
		for e, before := range sum {
			for p := range k.unlisted + 1 {
				v := before + val[c.Least+p][len(c.Nodes)-1] - buttCost*float64(c.Least)
				if to := min(e+p, k.unlisted); v < joined[to] {
					joined[to], with[to] = v, c.trace(via, c.Least+p, slices.Clone(items[e]))
				}
			}
		}
		sum, items = joined, with
	}
	k.StandCost, k.StandItems = sum[k.unlisted], items[k.unlisted]
	k.StandExcess = len(k.StandItems) - k.Base - len(k.chains)
}

// priced returns the cost of a pattern: its pieces, and its butts above the fewest.
func (k *Kind) priced(p *pattern, y []float64, buttCost float64) float64 {
	v := buttCost * float64(len(p.Ends)-k.Base)
	for _, it := range p.Items {
		v += y[it]
	}
	return v
}

// cheapest returns, by number of pieces p and node, the least cost of reaching the node, with each piece
// at its price plus buttCost, and the node before. The last p stands for that many or more.
func (c *Chain) cheapest(y []float64, buttCost float64, most int) (val [][]float64, via [][]from) {
	n := len(c.Nodes)
	for p := range most + 1 {
		val = append(val, slices.Repeat([]float64{math.Inf(1)}, n))
		via = append(via, make([]from, n))
		if p == 0 {
			val[0][0] = 0
			continue
		}
		for i := range n {
			v, q := val[p-1][i], p-1
			if p == most && val[p][i] < v {
				v, q = val[p][i], p
			}
			if math.IsInf(v, 1) {
				continue
			}
			v += buttCost
			for j := i + 1; j < n; j++ {
				if it := c.Item[i][j]; it >= 0 && v+y[it] < val[p][j] {
					val[p][j], via[p][j] = v+y[it], from{int16(i), int16(q)}
				}
			}
		}
	}
	return val, via
}

// from is the previous node, and the number of pieces used to reach it.
type from struct{ node, pieces int16 }

// trace appends to items the pieces of the cheapest way to the chain's end with p pieces.
func (c *Chain) trace(via [][]from, p int, items []int32) []int32 {
	for j := len(c.Nodes) - 1; j > 0; {
		f := via[p][j]
		items = append(items, c.Item[f.node][j])
		p, j = int(f.pieces), int(f.node)
	}
	return items
}

// fit returns the cheapest pattern, with any number of butts, that has none at a position in ban; nil if
// there is none.
func (k *Kind) fit(y []float64, buttCost float64, ban *Bits, b *work.Budget) *pattern {
	p := &pattern{}
	for i, c := range k.chains {
		n := len(c.Nodes)
		val := slices.Repeat([]float64{math.Inf(1)}, n)
		via := make([]int, n)
		val[0] = 0
		b.Spend(int64(n*n + 100))
		for a := range n - 1 {
			if math.IsInf(val[a], 1) || a > 0 && ban.has(c.at[a]) {
				continue
			}
			for b := a + 1; b < n; b++ {
				if it := c.Item[a][b]; it >= 0 && val[a]+buttCost+y[it] < val[b] {
					val[b], via[b] = val[a]+buttCost+y[it], a
				}
			}
		}
		if math.IsInf(val[n-1], 1) {
			return nil
		}
		first := len(p.Ends)
		for b := n - 1; b > 0; b = via[b] {
			p.Items = append(p.Items, c.Item[via[b]][b])
			if via[b] > 0 {
				p.Ends = append(p.Ends, End{int16(i), int16(via[b])})
			}
		}
		slices.Reverse(p.Ends[first:])
	}
	return p
}

// add lists the pattern unless it is listed already, and returns its index.
func (k *Kind) add(p *pattern, tooClose []Bits) int32 {
	k.shape(p, tooClose)
	if k.listed == nil {
		k.listed = make(map[Bits]int32, 2*len(k.Pats))
		for i := range k.Pats {
			k.listed[k.Pats[i].Mask] = int32(i)
		}
	}
	i, ok := k.listed[p.Mask]
	if !ok {
		i = int32(len(k.Pats))
		k.listed[p.Mask] = i
		k.Pats = append(k.Pats, *p)
	}
	return i
}
