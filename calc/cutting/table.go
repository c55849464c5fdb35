package cutting

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/work"
)

// table is a problem on a grid: lengths in whole cells, widths in classes, and
// the worth of the best strip of every class and length at the last prices.
type table struct {
	p      Problem
	cells  []int           // item -> length in cells
	caps   []int           // stock -> length in cells
	widths []length.Length // classes, ascending: every width of an item or a stock
	class  []int           // item -> class
	full   []int           // stock -> class
	pairs  [][][2]int      // stock -> the classes two strips of it may have, wider first
	order  []int           // items, by class
	worth  [][]float64     // class -> cells -> worth of the best strip
	last   [][]int32       // class -> cells -> an item in it, -1 = none
	unit   int64           // greatest common measure of the costs
	work   *work.Budget
}

const maxCells = 1 << 16

func newTable(p Problem) (*table, error) {
	if len(p.Stock) == 0 {
		return nil, errors.New("no stock given")
	}
	t := &table{p: p, work: p.Work}
	if t.work == nil {
		t.work = &work.Budget{Steps: DefaultSteps}
	}
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
	t.worth = make([][]float64, len(t.widths))
	t.last = make([][]int32, len(t.widths))
	for w := range t.widths {
		t.worth[w] = make([]float64, most+1)
		t.last[w] = make([]int32, most+1)
	}
	return t, nil
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

// price fills worth and last: per class the unbounded knapsack over the items no
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
			n, v := t.cells[j], y[j]
			if v <= 1e-12 || n >= len(best) {
				continue
			}
			t.work.Spend(int64(len(best)-n) / 3)
			to, mark := best[n:], last[n:len(best)]
			for c := range to { // best and to are one array: a longer strip sees the pieces of a shorter
				if b := best[c] + v; b > to[c]+1e-12 {
					to[c], mark[c] = b, int32(j)
				}
			}
		}
	}
}

// trace reads the pieces of the best strip of class w and c cells.
func (t *table) trace(w, c int) (pieces []int) {
	for c > 0 {
		j := t.last[w][c]
		if j < 0 {
			break
		}
		pieces = append(pieces, int(j))
		c -= t.cells[j]
	}
	return pieces
}

// boards are the best board of stock s used whole and the best one ripped, at the last prices.
func (t *table) boards(s int) []made {
	c := t.caps[s]
	b := made{stock: s, cost: t.p.Stock[s].Cost, width: [2]int{t.full[s], -1}}
	b.pieces[0] = t.trace(t.full[s], c)
	out := []made{b}
	most := -1.0 // a ripped board with nothing of worth on it may be asked for
	var pair [2]int
	for _, pr := range t.pairs[s] {
		if v := t.worth[pr[0]][c] + t.worth[pr[1]][c]; v > most {
			most, pair = v, pr
		}
	}
	if most >= 0 {
		b.width = pair
		b.pieces = [2][]int{t.trace(pair[0], c), t.trace(pair[1], c)}
		out = append(out, b)
	}
	return out
}

// greedy is a first plan: the longest piece left goes on the board, and into the strips,
// that it can be filled up with for the least cost per cell used; nil when stock runs out.
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
	for _, j := range byLen {
		for left[j] > 0 {
			var best made
			var bestLeft []int
			rate := math.Inf(1)
			for s := range stock {
				if stock[s] == 0 || t.cells[j] > t.caps[s] || t.class[j] > t.full[s] {
					continue
				}
				splits := append([][2]int{{t.full[s], -1}}, t.pairs[s]...)
				for _, ws := range splits {
					if t.class[j] > ws[0] {
						continue
					}
					b := made{stock: s, cost: t.p.Stock[s].Cost, width: ws}
					rest := slices.Clone(left)
					area := 0.0
					for k, w := range ws {
						if w < 0 {
							continue
						}
						c := t.caps[s]
						for _, i := range byLen {
							for rest[i] > 0 && t.class[i] <= w && t.cells[i] <= c {
								rest[i]--
								c -= t.cells[i]
								area += float64(t.cells[i]) * float64(max(t.p.Items[i].Width, 1))
								b.pieces[k] = append(b.pieces[k], i)
							}
						}
					}
					if rest[j] == left[j] {
						continue
					}
					if r := float64(b.cost) / area; r < rate {
						rate, best, bestLeft = r, b, rest
					}
				}
			}
			t.work.Spend(int64(20 * len(byLen)))
			if bestLeft == nil {
				return nil
			}
			left = bestLeft
			if stock[best.stock] > 0 {
				stock[best.stock]--
			}
			out = append(out, best)
		}
	}
	return out
}
