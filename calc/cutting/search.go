package cutting

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"
)

// found is the result of a search: the boards, nil if there are none, and a lower bound.
type found struct {
	boards []made
	bound  int64
}

// search tries the possible costs from bound up to top until it finds a plan or has used the steps.
func (t *table) search(want []int, r Relaxation, bound, top, steps int64) found {
	f := &finder{t: t, r: r, byLen: slices.Clone(t.order)}
	slices.SortStableFunc(f.byLen, func(a, b int) int {
		return cmp.Or(t.class[b]-t.class[a], t.cells[b]-t.cells[a])
	})
	t.price(r.Price)
	proven := true
	end := max(t.work.Steps-steps, 0)
	next := bound
	for target := bound; target <= top && t.work.Steps > end; target = next {
		f.next = math.Inf(1)
		for _, share := range []float64{1, 0.75, 0.5, 0} {
			fixed, rest, stock := f.floors(want, share)
			if share > 0 && len(fixed) < 8 {
				continue
			}
			if share == 0 {
				f.next = math.Inf(1) // bounds found with fixed boards are not valid without them
			}
			f.target = target - cost(fixed)
			f.boards = nil
			f.seen = map[string]int64{}
			f.until = max(t.work.Steps-steps/8, end)
			if share == 0 {
				f.until = max(t.work.Steps-steps/3, end)
			}
			if f.from(rest, stock, 0) {
				return found{append(fixed, f.boards...), bound}
			}
		}
		next = max(target+t.unit, t.roundUp(min(f.next, float64(top)+float64(t.unit))))
		if proven = proven && t.work.Steps > f.until; proven {
			bound = next
		}
	}
	return found{nil, bound}
}

// finder searches depth first for boards that cut a demand at a cost of at most target.
type finder struct {
	t      *table
	r      Relaxation
	byLen  []int // items, widest and longest first
	target int64
	until  int64   // the search stops below this many steps left
	next   float64 // least cost above target that may be possible
	boards []made
	seen   map[string]int64 // by demand and stock left, the least cost already tried
}

// floors fixes the boards of the fractional plan, as many of each as share of its number rounds down to.
func (f *finder) floors(want []int, share float64) (fixed []made, rest, stock []int) {
	rest = slices.Clone(want)
	stock = make([]int, len(f.t.p.Stock))
	for s := range stock {
		stock[s] = f.t.p.Stock[s].Count
	}
	for _, u := range f.r.bars {
		for range int(u.n*share + 1e-3) {
			after := slices.Clone(rest)
			for _, ps := range u.b.pieces {
				for _, j := range ps {
					after[j]--
				}
			}
			if stock[u.b.stock] == 0 || slices.Min(after) < 0 {
				break
			}
			rest = after
			if stock[u.b.stock] > 0 {
				stock[u.b.stock]--
			}
			fixed = append(fixed, *u.b)
		}
	}
	return fixed, rest, stock
}

const slack = 1e-6

// from tries to cut rest out of stock, with spent already used for other boards.
func (f *finder) from(rest, stock []int, spent int64) bool {
	t := f.t
	t.work.Spend(int64(100 + 20*len(rest)))
	if t.work.Steps < f.until {
		return false
	}
	low := float64(spent)
	first := -1
	for _, j := range f.byLen {
		if rest[j] > 0 {
			if first < 0 {
				first = j
			}
			low += f.r.Price[j] * float64(rest[j])
		}
	}
	if first < 0 {
		if spent > f.target {
			f.next = min(f.next, float64(spent))
		}
		return spent <= f.target
	}
	for s, n := range stock {
		if n > 0 {
			low -= f.r.toll[s] * float64(n)
		}
	}
	room := float64(f.target) - low + slack
	if room < 0 {
		f.next = min(f.next, low)
		return false
	}
	key := f.key(rest, stock)
	if c, ok := f.seen[key]; ok && c <= spent {
		return false
	}
	if len(f.seen) < 1<<17 {
		f.seen[key] = spent
	}
	for _, o := range f.options(first, rest, stock, room) {
		for _, ps := range o.b.pieces {
			for _, j := range ps {
				rest[j]--
			}
		}
		if stock[o.b.stock] > 0 {
			stock[o.b.stock]--
		}
		ok := f.from(rest, stock, spent+o.b.cost)
		for _, ps := range o.b.pieces {
			for _, j := range ps {
				rest[j]++
			}
		}
		if t.p.Stock[o.b.stock].Count >= 0 {
			stock[o.b.stock]++
		}
		if ok {
			f.boards = append(f.boards, o.b)
			return true
		}
		if t.work.Steps < f.until {
			return false
		}
	}
	return false
}

func (f *finder) key(rest, stock []int) string {
	b := make([]byte, 0, 2*(len(rest)+len(stock)))
	for _, n := range rest {
		b = binary.AppendUvarint(b, uint64(n))
	}
	for s, n := range stock {
		if f.t.p.Stock[s].Count >= 0 {
			b = binary.AppendUvarint(b, uint64(n))
		}
	}
	return string(b)
}

// option is a board and its loss: its cost and toll minus the worth of its pieces.
type option struct {
	b    made
	loss float64
}

// options lists the full boards that hold item first and lose at most room, by ascending loss.
func (f *finder) options(first int, rest, stock []int, room float64) []option {
	t := f.t
	e := &filler{finder: f, rest: slices.Clone(rest), low: float64(f.target) - room + slack}
	for s, n := range stock {
		if n == 0 || t.cells[first] > t.caps[s] {
			continue
		}
		price := float64(t.p.Stock[s].Cost) + f.r.toll[s]
		e.b = made{stock: s, cost: t.p.Stock[s].Cost}
		e.least, e.price = price-room, price
		for i := -1; i < len(t.pairs[s]); i++ {
			e.b.width = [2]int{t.full[s], -1}
			if i >= 0 {
				e.b.width = t.pairs[s][i]
			}
			for k, w := range e.b.width {
				if w < t.class[first] || k == 1 && w == e.b.width[0] {
					continue
				}
				e.cells = [2]int{t.caps[s], 0}
				if e.b.width[1] >= 0 {
					e.cells[1] = t.caps[s]
				}
				e.b.pieces = [2][]int{}
				e.b.pieces[k] = append(e.b.pieces[k], first)
				e.cells[k] -= t.cells[first]
				e.rest[first]--
				e.fill(0, 0, f.r.Price[first])
				e.rest[first]++
			}
		}
	}
	slices.SortStableFunc(e.out, func(a, b option) int { return cmp.Compare(a.loss, b.loss) })
	return e.out
}

// filler enumerates the ways to fill a board.
type filler struct {
	*finder
	b     made
	cells [2]int // cells left on each strip
	rest  []int
	least float64 // least worth of the pieces
	price float64 // cost and toll of the board
	low   float64 // bound of the plan without this board
	out   []option
}

const maxOptions = 4000

// fill adds items from byLen[at] on to strip k, then goes on to the next strip. worth is that of the
// pieces so far.
func (e *filler) fill(k, at int, worth float64) {
	t := e.t
	t.work.Spend(30)
	if t.work.Steps < e.until || len(e.out) >= maxOptions {
		t.work.Steps = min(t.work.Steps, e.until-1) // an incomplete list proves nothing
		return
	}
	w := e.b.width[k]
	most := worth + t.worth[w][t.at[e.cells[k]]]
	if k == 0 && e.b.width[1] >= 0 {
		most += t.worth[e.b.width[1]][t.at[e.cells[1]]]
	}
	if most < e.least-slack {
		e.next = min(e.next, e.low+e.price-most)
		return
	}
	for i := at; i < len(e.byLen); i++ {
		j := e.byLen[i]
		if e.rest[j] == 0 || t.class[j] > w || t.cells[j] > e.cells[k] {
			continue
		}
		e.rest[j]--
		e.cells[k] -= t.cells[j]
		e.b.pieces[k] = append(e.b.pieces[k], j)
		e.fill(k, i, worth+e.r.Price[j])
		e.b.pieces[k] = e.b.pieces[k][:len(e.b.pieces[k])-1]
		e.cells[k] += t.cells[j]
		e.rest[j]++
	}
	for _, j := range e.byLen { // only full boards: a piece that still fits is at least as good here as on a later board
		if e.rest[j] > 0 && t.class[j] <= w && t.cells[j] <= e.cells[k] {
			return
		}
	}
	if k == 0 && e.b.width[1] >= 0 {
		e.fill(1, 0, worth)
		return
	}
	if worth < e.least-slack {
		e.next = min(e.next, e.low+e.price-worth)
		return
	}
	b := e.b
	b.pieces = [2][]int{slices.Clone(b.pieces[0]), slices.Clone(b.pieces[1])}
	e.out = append(e.out, option{b, e.price - worth})
}
