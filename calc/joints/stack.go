package joints

import (
	"encoding/binary"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/work"
)

// lane is a lane and what it shares with its equals.
type lane struct {
	Lane
	kind *kind
}

// stack is all lanes side by side, with the positions that butts may take.
type stack struct {
	lanes    []lane
	kinds    []*kind
	pos      []length.Length
	tooClose []bits     // by position, those too close to it
	last     [2][]int32 // last cheapest paths, without stand-ins and with them
	buttCost float64    // price of a butt
	best     [][]float64
	back     [][]int32
	y        []float64 // the last prices
	shelves  [3]shelf  // see next
	work     *work.Budget
}

// keep sets the least distance between butts of neighbouring lanes.
func (k *stack) keep(stagger length.Length) {
	tooClose := make([]bits, len(k.pos))
	for i, p := range k.pos {
		for j, q := range k.pos {
			if abs(p-q) < stagger {
				tooClose[i].add(j)
			}
		}
	}
	k.tooClose, k.last = tooClose, [2][]int32{}
	for _, kd := range k.kinds {
		kd.mark(tooClose)
	}
}

// relist lists the patterns with up to excess butts above the fewest, at most most of each excess.
func (k *stack) relist(excess int, most float64) {
	k.last = [2][]int32{}
	for _, kd := range k.kinds {
		kd.list(excess, most, k.work)
		if k.tooClose != nil {
			kd.mark(k.tooClose)
		}
	}
}

func (k *stack) reprice(y []float64) {
	k.y = append(k.y[:0], y...)
	for _, kd := range k.kinds {
		kd.reprice(y, k.buttCost, k.work)
	}
}

// next fills to with the cheapest way to reach each pattern of lane i, without its own cost, and from with
// the neighbour's pattern on that way. at holds the cheapest way through each pattern of the neighbour.
// The stand-in comes last in both. Patterns that exceed most with their own cost get +Inf.
func (k *stack) next(nb *kind, at []float64, i int, to []float64, from []int32, most float64) {
	kd := k.lanes[i].kind
	reached := k.shelves[0].take(nb, at, shelves[0], len(k.pos))
	steps := int64(len(at) + len(to))
	taken := 1
	for q := range to {
		to[q], from[q] = math.Inf(1), -1
		if reached == 0 || q < len(kd.pats) && k.shelves[0].ranked[0].cost+kd.cost[q] > most {
			continue
		}
		if q == len(kd.pats) {
			to[q], from[q] = k.shelves[0].ranked[0].cost, k.shelves[0].ranked[0].pat
			continue
		}
		steps += 5
		for n := range shelves {
			if n == taken {
				k.shelves[n].take(nb, at, shelves[n], len(k.pos))
				taken++
				steps += int64(len(at) + 30*len(k.shelves[n].ranked))
			}
			p, words := k.shelves[n].first(&kd.pats[q], k.tooClose)
			if steps += words; p.pat >= 0 || reached <= shelves[n] {
				to[q], from[q] = p.cost, p.pat
				break
			}
		}
	}
	k.work.Spend(steps)
}

// greedy fills the lanes in order, each with the cheapest pattern compatible with the one before, listed
// or not. It lists the patterns it finds. It returns nil if it gets stuck.
func (k *stack) greedy() []int32 {
	var path []int32
	var ban bits
	for i, l := range k.lanes {
		p := k.fit(i, k.y, k.buttCost, &ban)
		if p < 0 {
			return nil
		}
		path = append(path, p)
		ban = l.kind.pats[p].excludes
	}
	return path
}

// cheapest returns the cheapest compatible patterns at the last prices, lane by lane, and their sum. With
// standIns, a lane may take its stand-in, which has index len(pats). The sum is +Inf if no patterns are
// compatible.
func (k *stack) cheapest(standIns bool) ([]int32, float64) {
	last := &k.last[0]
	if standIns {
		last = &k.last[1]
	}
	path, sum := k.under(k.sum(*last), standIns)
	*last = slices.Clone(path)
	for i, p := range path {
		if int(p) == len(k.lanes[i].kind.pats) {
			(*last)[i] = -1 // its index changes as patterns are added
		}
	}
	return path, sum
}

// sum returns the cost of a path at the last prices, +Inf for a nil path; -1 is the stand-in.
func (k *stack) sum(path []int32) (cost float64) {
	if path == nil {
		return math.Inf(1)
	}
	for i, p := range path {
		if kd := k.lanes[i].kind; p < 0 {
			cost += kd.standCost
		} else {
			cost += kd.cost[p]
		}
	}
	return cost
}

// least returns the least cost of a lane, regardless of its neighbours.
func (k *kind) least(standIns bool) float64 {
	low := math.Inf(1)
	if standIns {
		low = k.standCost
	}
	for _, c := range k.cost {
		low = min(low, c)
	}
	return low
}

// leasts returns, for each lane, the sums of the least costs of the lanes before it and after it.
func (k *stack) leasts(standIns bool) (before, after []float64) {
	n := len(k.lanes)
	before, after = make([]float64, n), make([]float64, n)
	least := map[*kind]float64{}
	for _, kd := range k.kinds {
		least[kd] = kd.least(standIns)
	}
	for i := 1; i < n; i++ {
		before[i] = before[i-1] + least[k.lanes[i-1].kind]
		after[n-1-i] = after[n-i] + least[k.lanes[n-i].kind]
	}
	return before, after
}

// over returns sum plus a margin for rounding, since sums are added up in different orders.
func over(sum float64) float64 { return sum + 1e-9*max(sum, -sum) + 1e-6 }

// under returns the cheapest path among those that cost at most most, and its cost.
func (k *stack) under(most float64, standIns bool) ([]int32, float64) {
	n := len(k.lanes)
	k.best = slices.Grow(k.best[:0], n)[:n]
	k.back = slices.Grow(k.back[:0], n)[:n]
	_, after := k.leasts(standIns)
	for i, l := range k.lanes {
		m := len(l.kind.pats) + 1
		to := slices.Grow(k.best[i][:0], m)[:m]
		from := slices.Grow(k.back[i][:0], m)[:m]
		if i == 0 {
			clear(to)
			for p := range from {
				from[p] = -1
			}
		} else {
			k.next(k.lanes[i-1].kind, k.best[i-1], i, to, from, over(most)-after[i])
		}
		for p, c := range l.kind.cost {
			if to[p] += c; to[p]+after[i] > over(most) {
				to[p] = math.Inf(1)
			}
		}
		to[m-1] += l.kind.standCost
		if !standIns {
			to[m-1] = math.Inf(1)
		}
		k.best[i], k.back[i] = to, from
	}
	path := make([]int32, n)
	last := k.best[n-1]
	at := int32(0)
	for p, v := range last {
		if v < last[at] {
			at = int32(p)
		}
	}
	sum := last[at]
	if math.IsInf(sum, 1) {
		return nil, sum
	}
	for i := n - 1; i >= 0; i-- {
		path[i] = at
		at = k.back[i][at]
	}
	return path, sum
}

// repaired returns the path with patterns in place of its stand-ins; these may clash with their
// neighbours.
func (k *stack) repaired(path []int32) []int32 {
	path = slices.Clone(path)
	for i, p := range path {
		if kd := k.lanes[i].kind; int(p) == len(kd.pats) {
			path[i] = -1
		}
	}
	for i, p := range path {
		if p < 0 {
			path[i] = k.fit(i, k.y, k.buttCost, &bits{})
		}
	}
	return path
}

// fit lists the cheapest pattern of lane i with no butt in ban and returns its index, or -1 if there is
// none.
func (k *stack) fit(i int, y []float64, buttCost float64, ban *bits) int32 {
	kd := k.lanes[i].kind
	p := kd.fit(y, buttCost, ban, k.work)
	if p == nil {
		return -1
	}
	at := kd.add(p, k.tooClose)
	if int(at) == len(kd.cost) {
		kd.cost = append(kd.cost, kd.priced(p, k.y, k.buttCost))
	}
	return at
}

// ends returns the butts of a path, lane by lane.
func (k *stack) ends(path []int32) (out [][]End) {
	for i, p := range path {
		out = append(out, k.lanes[i].kind.pats[p].ends)
	}
	return out
}

// rest returns, by lane and pattern, the least cost of all lanes after it. The stand-in comes last, as if
// it cost +Inf unless standIns. Entries that lie only on paths above most are +Inf.
func (k *stack) rest(most float64, standIns bool) [][]float64 {
	n := len(k.lanes)
	before, _ := k.leasts(standIns)
	out := make([][]float64, n)
	out[n-1] = make([]float64, len(k.lanes[n-1].kind.pats)+1)
	for i := n - 2; i >= 0; i-- {
		nb := k.lanes[i+1].kind
		at := slices.Clone(out[i+1])
		for p := range nb.cost {
			at[p] += nb.cost[p]
		}
		at[len(nb.cost)] += nb.standCost
		if !standIns {
			at[len(nb.cost)] = math.Inf(1)
		}
		out[i] = make([]float64, len(k.lanes[i].kind.pats)+1)
		k.next(nb, at, i, out[i], make([]int32, len(out[i])), over(most)-before[i])
	}
	return out
}

// staggerOf returns the least distance between butts of neighbouring lanes under the path, or -1 if no two
// can be compared.
func (k *stack) staggerOf(path []int32) length.Length {
	least := length.Length(-1)
	var before []length.Length
	for i, l := range k.lanes {
		now := slices.Clone(l.Fixed)
		for _, e := range l.kind.pats[path[i]].ends {
			now = append(now, l.kind.chains[e.Chain].Nodes[e.Node])
		}
		for _, a := range before {
			for _, b := range now {
				if d := abs(a - b); least < 0 || d < least {
					least = d
				}
			}
		}
		before = now
	}
	return least
}

// newStack collects the positions of the butts and groups equal lanes.
func newStack(lanes []Lane, b *work.Budget) (*stack, error) {
	k := &stack{work: b}
	for _, l := range lanes {
		for _, c := range l.Chains {
			if c.least = c.Fewest(); c.least == 0 {
				return nil, ErrGap
			}
			k.pos = append(k.pos, c.Nodes[1:len(c.Nodes)-1]...)
		}
	}
	slices.Sort(k.pos)
	k.pos = slices.Compact(k.pos)
	if len(k.pos) > MaxPlaces {
		return nil, ErrMany
	}
	byShape := map[string]*kind{}
	for _, l := range lanes {
		for _, c := range l.Chains {
			c.at = make([]int, len(c.Nodes))
			for n := 1; n < len(c.Nodes)-1; n++ {
				c.at[n], _ = slices.BinarySearch(k.pos, c.Nodes[n])
			}
		}
		sig := l.signature()
		if byShape[sig] == nil {
			byShape[sig] = &kind{chains: l.Chains}
			k.kinds = append(k.kinds, byShape[sig])
		}
		k.lanes = append(k.lanes, lane{l, byShape[sig]})
	}
	return k, nil
}

// signature returns a key of the lane: lanes with equal keys have the same patterns.
func (l Lane) signature() string {
	var b []byte
	for _, c := range l.Chains {
		b = binary.AppendUvarint(b, uint64(len(c.Nodes)))
		for i, row := range c.Item {
			b = binary.AppendVarint(b, int64(c.at[i]))
			for _, k := range row {
				b = binary.AppendVarint(b, int64(k))
			}
		}
	}
	return string(b)
}

// join lists patterns until neighbours are compatible at the fewest butts possible, up to an excess of 3.
// It reports whether any are compatible.
func (k *stack) join(items int, most float64) bool {
	k.buttCost = 1
	zero := make([]float64, items)
	for excess := 0; ; excess++ {
		k.relist(excess, most)
		k.reprice(zero)
		_, low := k.cheapest(true)
		_, sum := k.cheapest(false)
		if sum <= low || excess == 3 || k.work.Steps < 0 || slices.ContainsFunc(k.kinds, func(kd *kind) bool { return kd.unlisted <= excess }) {
			return !math.IsInf(sum, 1)
		}
	}
}

func abs(l length.Length) length.Length { return max(l, -l) }
