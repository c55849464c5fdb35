package cutting

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/work"
)

// table is a problem on a grid: lengths in whole cells, widths as classes, and the worth of the best strip
// of each class and length at the last prices. Strips are only tabulated at marks, the lengths that sums
// of pieces can reach: between two marks a strip is worth no more than at the lower one.
type table struct {
	p      Problem
	cells  []int           // item -> length in cells
	caps   []int           // stock -> length in cells
	widths []length.Length // classes, ascending: every width of an item or a stock
	class  []int           // item -> class
	full   []int           // stock -> class
	pairs  [][][2]int      // by stock, the pairs of classes its two strips may have, the wider first
	order  []int           // items, by class
	at     []int32         // by cells, the index of the last mark at or below
	before [][]int32       // by item and mark, the mark left after cutting the item off; -1 if it is too long
	worth  [][]float64     // by class and mark, the worth of the best strip
	last   [][]int32       // by class and mark, an item of that strip; -1 if it is empty
	unit   int64           // greatest common divisor of the costs
	work   *work.Budget
}

const maxCells = 1 << 16

func newTable(p Problem) (*table, error) {
	if len(p.Stock) == 0 {
		return nil, errors.New("no stock given")
	}
	t := &table{p: p, work: p.Work}
	t.work = cmp.Or(t.work, &work.Budget{Steps: DefaultSteps})
	var grid length.Length
	for _, it := range p.Items {
		if it.Length <= 0 || it.Width < 0 || it.Count < 0 {
			return nil, fmt.Errorf("piece out of range: %+v", it)
		}
		grid = gcd(grid, it.Length)
		t.widths = append(t.widths, it.Width)
	}
	for _, s := range p.Stock {
		if s.Length <= 0 || s.Width < 0 || s.Cost <= 0 || s.Count < Unlimited {
			return nil, fmt.Errorf("stock out of range: %+v", s)
		}
		t.widths = append(t.widths, s.Width)
		t.unit = gcd(t.unit, s.Cost)
	}
	slices.Sort(t.widths)
	t.widths = slices.Compact(t.widths)
	if grid == 0 { // no items
		grid = p.Stock[0].Length
	}
	most := 0
	for _, s := range p.Stock {
		if s.Length/grid > maxCells {
			return nil, fmt.Errorf("lengths too fine: %d goes more than %d times into %d", grid, maxCells, s.Length)
		}
		t.caps = append(t.caps, int(s.Length/grid))
		most = max(most, int(s.Length/grid))
		w := t.classOf(s.Width)
		t.full = append(t.full, w)
		var pairs [][2]int
		for a := range w {
			if s.Strip {
				break
			}
			for b := range a + 1 {
				if t.widths[a]+t.widths[b] <= s.Width && t.widths[b] > 0 {
					pairs = append(pairs, [2]int{a, b})
				}
			}
		}
		t.pairs = append(t.pairs, pairs)
	}
	for i, it := range p.Items {
		t.cells = append(t.cells, int(min(it.Length/grid, 2*maxCells)))
		t.class = append(t.class, t.classOf(it.Width))
		t.order = append(t.order, i)
		if !slices.ContainsFunc(p.Stock, func(s Stock) bool { return it.Length <= s.Length && it.Width <= s.Width }) {
			return nil, &SizeError{it}
		}
	}
	slices.SortStableFunc(t.order, func(a, b int) int { return t.class[a] - t.class[b] })
	t.mark(most)
	return t, nil
}

// mark finds the marks up to most cells, the longest board.
func (t *table) mark(most int) {
	reach := make([]bool, most+1)
	reach[0] = true
	t.at = make([]int32, most+1)
	var marks []int
	for c, r := range reach {
		if r = reach[c]; r {
			marks = append(marks, c)
			for _, n := range t.cells {
				if c+n <= most {
					reach[c+n] = true
				}
			}
			t.work.Spend(int64(len(t.cells)))
		}
		t.at[c] = int32(len(marks) - 1)
	}
	k := len(marks)
	ints := make([]int32, k*(len(t.cells)+len(t.widths)))
	floats := make([]float64, k*len(t.widths))
	row := func() []int32 {
		r := ints[:k:k]
		ints = ints[k:]
		return r
	}
	for _, n := range t.cells {
		b := row()
		for i, c := range marks {
			if b[i] = -1; c >= n {
				b[i] = t.at[c-n]
			}
		}
		t.before = append(t.before, b)
	}
	for w := range t.widths {
		t.worth = append(t.worth, floats[w*k:(w+1)*k:(w+1)*k])
		t.last = append(t.last, row())
	}
	t.work.Spend(int64(most + k*len(t.cells)))
}

func (t *table) classOf(w length.Length) int {
	i, _ := slices.BinarySearch(t.widths, w)
	return i
}

func gcd[T ~int64](a, b T) T {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// price fills worth and last at item prices y: for each class, an unbounded knapsack over the items no
// wider than it.
func (t *table) price(y []float64) {
	k := 0
	for w := range t.widths {
		best, last := t.worth[w], t.last[w]
		if w > 0 {
			copy(best, t.worth[w-1])
			copy(last, t.last[w-1])
		} else {
			clear(best)
			for c := range last {
				last[c] = -1
			}
		}
		for ; k < len(t.order) && t.class[t.order[k]] == w; k++ {
			j := t.order[k]
			v, before := y[j], t.before[j]
			if v <= 1e-12 || t.cells[j] >= len(t.at) {
				continue
			}
			t.work.Spend(int64(len(best)) / 2)
			for i := t.at[t.cells[j]]; int(i) < len(before); i++ { // ascending, so an item may be used more than once
				if b := best[before[i]] + v; b > best[i]+1e-12 {
					best[i], last[i] = b, int32(j)
				}
			}
		}
	}
}

// trace returns the pieces of the best strip of class w and c cells.
func (t *table) trace(w, c int) (pieces []int) {
	for i := t.at[c]; t.last[w][i] >= 0; {
		j := t.last[w][i]
		pieces = append(pieces, int(j))
		i = t.before[j][i]
	}
	return pieces
}

// best returns the greatest worth of a board of stock s at the last prices, used whole and ripped, and the
// classes of the strips if ripped. The worth is -1 if it cannot be ripped.
func (t *table) best(s int) (worth [2]float64, pair [2]int) {
	c := t.at[t.caps[s]]
	worth = [2]float64{t.worth[t.full[s]][c], -1} // 0 or more even if empty: a rule may demand ripped boards
	for _, pr := range t.pairs[s] {
		if v := t.worth[pr[0]][c] + t.worth[pr[1]][c]; v > worth[1] {
			worth[1], pair = v, pr
		}
	}
	return worth, pair
}

// board returns a board of stock s with the best pieces on each strip.
func (t *table) board(s int, width [2]int) made {
	b := made{stock: s, cost: t.p.Stock[s].Cost, width: width}
	for k, w := range width {
		if w >= 0 {
			b.pieces[k] = t.trace(w, t.caps[s])
		}
	}
	return b
}

// greedy returns a first plan, or nil if the stock runs out. It puts the longest piece left on the board,
// and into the strips, that other pieces fill at the least cost per area.
func (t *table) greedy(want []int) []made {
	left := slices.Clone(want)
	stock := make([]int, len(t.p.Stock))
	for s := range stock {
		stock[s] = t.p.Stock[s].Count
	}
	byLen := slices.Clone(t.order)
	slices.SortStableFunc(byLen, func(a, b int) int {
		if c := t.class[b] - t.class[a]; c != 0 {
			return c
		}
		return t.cells[b] - t.cells[a]
	})
	var out []made
	rest, best := make([]int, len(left)), made{}
	var pieces [2][]int
	for _, j := range byLen {
		for left[j] > 0 {
			found := false
			rate := math.Inf(1)
			for s := range stock {
				if stock[s] == 0 || t.cells[j] > t.caps[s] || t.class[j] > t.full[s] {
					continue
				}
				for i := -1; i < len(t.pairs[s]); i++ {
					ws := [2]int{t.full[s], -1}
					if i >= 0 {
						ws = t.pairs[s][i]
					}
					if t.class[j] > ws[0] {
						continue
					}
					copy(rest, left)
					area := 0.0
					t.work.Spend(int64(10 + 4*len(byLen)))
					for k, w := range ws {
						if w < 0 {
							continue
						}
						c := t.caps[s]
						pieces[k] = pieces[k][:0]
						for _, i := range byLen {
							for rest[i] > 0 && t.class[i] <= w && t.cells[i] <= c {
								rest[i]--
								c -= t.cells[i]
								area += float64(t.cells[i]) * float64(max(t.p.Items[i].Width, 1))
								pieces[k] = append(pieces[k], i)
							}
						}
					}
					if rest[j] == left[j] {
						continue
					}
					if r := float64(t.p.Stock[s].Cost) / area; r < rate {
						rate, found = r, true
						best = made{stock: s, cost: t.p.Stock[s].Cost, width: ws}
						best.pieces[0] = slices.Clone(pieces[0])
						if ws[1] >= 0 {
							best.pieces[1] = slices.Clone(pieces[1])
						}
					}
				}
			}
			if !found {
				return nil
			}
			for _, ps := range best.pieces {
				for _, i := range ps {
					left[i]--
				}
			}
			if stock[best.stock] > 0 {
				stock[best.stock]--
			}
			out = append(out, best)
		}
	}
	return out
}
