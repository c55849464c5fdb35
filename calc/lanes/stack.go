package lanes

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
	Kind *Kind
}

// Stack is all lanes side by side, with the positions that butts may take.
type Stack struct {
	Lanes    []lane
	kinds    []*Kind
	Pos      []length.Length
	tooClose []Bits     // by position, those too close to it
	last     [2][]int32 // last cheapest paths, without stand-ins and with them
	ButtCost float64    // price of a butt
	Best     [][]float64
	back     [][]int32
	Y        []float64 // the last prices
	shelves  [3]shelf  // see next
	work     *work.Budget
}

// Keep sets the least distance between butts of neighbouring lanes.
func (k *Stack) Keep(stagger length.Length) {
	tooClose := make([]Bits, len(k.Pos))
	for i, p := range k.Pos {
		for j, q := range k.Pos {
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

// Relist lists the patterns with up to excess butts above the fewest, at most most of each excess.
func (k *Stack) Relist(excess int, most float64) {
	k.last = [2][]int32{}
	for _, kd := range k.kinds {
		kd.list(excess, most, k.work)
		if k.tooClose != nil {
			kd.mark(k.tooClose)
		}
	}
}

func (k *Stack) Reprice(y []float64) {
	k.Y = append(k.Y[:0], y...)
	for _, kd := range k.kinds {
		kd.reprice(y, k.ButtCost, k.work)
	}
}

// next fills to with the cheapest way to reach each pattern of lane i, without its own cost, and from with
// the neighbour's pattern on that way. at holds the cheapest way through each pattern of the neighbour.
// The stand-in comes last in both. Patterns that exceed most with their own cost get +Inf.
func (k *Stack) next(nb *Kind, at []float64, i int, to []float64, from []int32, most float64) {
	kd := k.Lanes[i].Kind
	reached := k.shelves[0].take(nb, at, Shelves[0], len(k.Pos))
	steps := int64(len(at) + len(to))
	taken := 1
	for q := range to {
		to[q], from[q] = math.Inf(1), -1
		if reached == 0 || q < len(kd.Pats) && k.shelves[0].ranked[0].cost+kd.Cost[q] > most {
			continue
		}
		if q == len(kd.Pats) {
			to[q], from[q] = k.shelves[0].ranked[0].cost, k.shelves[0].ranked[0].pat
			continue
		}
		steps += 5
		for n := range Shelves {
			if n == taken {
				k.shelves[n].take(nb, at, Shelves[n], len(k.Pos))
				taken++
				steps += int64(len(at) + 30*len(k.shelves[n].ranked))
			}
			p, words := k.shelves[n].first(&kd.Pats[q], k.tooClose)
			if steps += words; p.pat >= 0 || reached <= Shelves[n] {
				to[q], from[q] = p.cost, p.pat
				break
			}
		}
	}
	k.work.Spend(steps)
}

// Greedy fills the lanes in order, each with the cheapest pattern compatible with the one before, listed
// or not. It lists the patterns it finds. It returns nil if it gets stuck.
func (k *Stack) Greedy() []int32 {
	var path []int32
	var ban Bits
	for i, l := range k.Lanes {
		p := k.Fit(i, k.Y, k.ButtCost, &ban)
		if p < 0 {
			return nil
		}
		path = append(path, p)
		ban = l.Kind.Pats[p].Excludes
	}
	return path
}

// Cheapest returns the cheapest compatible patterns at the last prices, lane by lane, and their sum. With
// standIns, a lane may take its stand-in, which has index len(pats). The sum is +Inf if no patterns are
// compatible.
func (k *Stack) Cheapest(standIns bool) ([]int32, float64) {
	last := &k.last[0]
	if standIns {
		last = &k.last[1]
	}
	path, sum := k.Under(k.sum(*last), standIns)
	*last = slices.Clone(path)
	for i, p := range path {
		if int(p) == len(k.Lanes[i].Kind.Pats) {
			(*last)[i] = -1 // its index changes as patterns are added
		}
	}
	return path, sum
}

// sum returns the cost of a path at the last prices, +Inf for a nil path; -1 is the stand-in.
func (k *Stack) sum(path []int32) (cost float64) {
	if path == nil {
		return math.Inf(1)
	}
	for i, p := range path {
		if kd := k.Lanes[i].Kind; p < 0 {
			cost += kd.StandCost
		} else {
			cost += kd.Cost[p]
		}
	}
	return cost
}

// least returns the least cost of a lane, regardless of its neighbours.
func (k *Kind) least(standIns bool) float64 {
	low := math.Inf(1)
	if standIns {
		low = k.StandCost
	}
	for _, c := range k.Cost {
		low = min(low, c)
	}
	return low
}

// leasts returns, for each lane, the sums of the least costs of the lanes before it and after it.
func (k *Stack) leasts(standIns bool) (before, after []float64) {
	n := len(k.Lanes)
	before, after = make([]float64, n), make([]float64, n)
	least := map[*Kind]float64{}
	for _, kd := range k.kinds {
		least[kd] = kd.least(standIns)
	}
	for i := 1; i < n; i++ {
		before[i] = before[i-1] + least[k.Lanes[i-1].Kind]
		after[n-1-i] = after[n-i] + least[k.Lanes[n-i].Kind]
	}
	return before, after
}

// over returns sum plus a margin for rounding, since sums are added up in different orders.
func over(sum float64) float64 { return sum + 1e-9*max(sum, -sum) + 1e-6 }

// Under returns the cheapest path among those that cost at most most, and its cost.
func (k *Stack) Under(most float64, standIns bool) ([]int32, float64) {
	n := len(k.Lanes)
	k.Best = slices.Grow(k.Best[:0], n)[:n]
	k.back = slices.Grow(k.back[:0], n)[:n]
	_, after := k.leasts(standIns)
	for i, l := range k.Lanes {
		m := len(l.Kind.Pats) + 1
		to := slices.Grow(k.Best[i][:0], m)[:m]
		from := slices.Grow(k.back[i][:0], m)[:m]
		if i == 0 {
			clear(to)
			for p := range from {
				from[p] = -1
			}
		} else {
			k.next(k.Lanes[i-1].Kind, k.Best[i-1], i, to, from, over(most)-after[i])
		}
		for p, c := range l.Kind.Cost {
			if to[p] += c; to[p]+after[i] > over(most) {
				to[p] = math.Inf(1)
			}
		}
		to[m-1] += l.Kind.StandCost
		if !standIns {
			to[m-1] = math.Inf(1)
		}
		k.Best[i], k.back[i] = to, from
	}
	path := make([]int32, n)
	last := k.Best[n-1]
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

// Repaired returns the path with patterns in place of its stand-ins; these may clash with their
// neighbours.
func (k *Stack) Repaired(path []int32) []int32 {
	path = slices.Clone(path)
	for i, p := range path {
		if kd := k.Lanes[i].Kind; int(p) == len(kd.Pats) {
			path[i] = -1
		}
	}
	for i, p := range path {
		if p < 0 {
			path[i] = k.Fit(i, k.Y, k.ButtCost, &Bits{})
		}
	}
	return path
}

// Fit lists the cheapest pattern of lane i with no butt in ban and returns its index, or -1 if there is
// none.
func (k *Stack) Fit(i int, y []float64, buttCost float64, ban *Bits) int32 {
	kd := k.Lanes[i].Kind
	p := kd.fit(y, buttCost, ban, k.work)
	if p == nil {
		return -1
	}
	at := kd.add(p, k.tooClose)
	if int(at) == len(kd.Cost) {
		kd.Cost = append(kd.Cost, kd.priced(p, k.Y, k.ButtCost))
	}
	return at
}

// Ends returns the butts of a path, lane by lane.
func (k *Stack) Ends(path []int32) (out [][]End) {
	for i, p := range path {
		out = append(out, k.Lanes[i].Kind.Pats[p].Ends)
	}
	return out
}

// Rest returns, by lane and pattern, the least cost of all lanes after it. The stand-in comes last, as if
// it cost +Inf unless standIns. Entries that lie only on paths above most are +Inf.
func (k *Stack) Rest(most float64, standIns bool) [][]float64 {
	n := len(k.Lanes)
	before, _ := k.leasts(standIns)
	out := make([][]float64, n)
	out[n-1] = make([]float64, len(k.Lanes[n-1].Kind.Pats)+1)
	for i := n - 2; i >= 0; i-- {
		nb := k.Lanes[i+1].Kind
		at := slices.Clone(out[i+1])
		for p := range nb.Cost {
			at[p] += nb.Cost[p]
		}
		at[len(nb.Cost)] += nb.StandCost
		if !standIns {
			at[len(nb.Cost)] = math.Inf(1)
		}
		out[i] = make([]float64, len(k.Lanes[i].Kind.Pats)+1)
		k.next(nb, at, i, out[i], make([]int32, len(out[i])), over(most)-before[i])
	}
	return out
}

// StaggerOf returns the least distance between butts of neighbouring lanes under the path, or -1 if no two
// can be compared.
func (k *Stack) StaggerOf(path []int32) length.Length {
	least := length.Length(-1)
	var before []length.Length
	for i, l := range k.Lanes {
		now := slices.Clone(l.Fixed)
		for _, e := range l.Kind.Pats[path[i]].Ends {
			now = append(now, l.Kind.chains[e.Chain].Nodes[e.Node])
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

// NewStack collects the positions of the butts and groups equal lanes.
func NewStack(lanes []Lane, b *work.Budget) (*Stack, error) {
	k := &Stack{work: b}
	for _, l := range lanes {
		for _, c := range l.Chains {
			if c.Least = c.Fewest(); c.Least == 0 {
				return nil, ErrGap
			}
			k.Pos = append(k.Pos, c.Nodes[1:len(c.Nodes)-1]...)
		}
	}
	slices.Sort(k.Pos)
	k.Pos = slices.Compact(k.Pos)
	if len(k.Pos) > MaxPlaces {
		return nil, ErrMany
	}
	byShape := map[string]*Kind{}
	for _, l := range lanes {
		for _, c := range l.Chains {
			c.at = make([]int, len(c.Nodes))
			for n := 1; n < len(c.Nodes)-1; n++ {
				c.at[n], _ = slices.BinarySearch(k.Pos, c.Nodes[n])
			}
		}
		sig := l.signature()
		if byShape[sig] == nil {
			byShape[sig] = &Kind{chains: l.Chains}
			k.kinds = append(k.kinds, byShape[sig])
		}
		k.Lanes = append(k.Lanes, lane{l, byShape[sig]})
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

// Join lists patterns until neighbours are compatible at the fewest butts possible, up to an excess of 3.
// It reports whether any are compatible.
func (k *Stack) Join(items int, most float64) bool {
	k.ButtCost = 1
	zero := make([]float64, items)
	for excess := 0; ; excess++ {
		k.Relist(excess, most)
		k.Reprice(zero)
		_, low := k.Cheapest(true)
		_, sum := k.Cheapest(false)
		if sum <= low || excess == 3 || k.work.Steps < 0 || slices.ContainsFunc(k.kinds, func(kd *Kind) bool { return kd.unlisted <= excess }) {
			return !math.IsInf(sum, 1)
		}
	}
}

func abs(l length.Length) length.Length { return max(l, -l) }
