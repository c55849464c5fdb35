package cutting

import "math"

// Relaxation is what the linear relaxation proves. Price are worths of the
// items such that no board's pieces are worth more than the board costs.
type Relaxation struct {
	Bound float64 // no demand that the oracle could return is cut for less
	Price []float64
	Steps int64 // work done
	toll  []float64 // stock -> what one of a counted size is worth over its cost
	fee   float64   // toll of all boards there are
	bars  []usage   // boards of the fractional plan
}

type usage struct {
	n float64
	b made
}

// Worth is a lower bound on the cost of cutting n[i] of each item i, whatever the demand costs by itself.
func (r Relaxation) Worth(n []int) float64 {
	w := -r.fee
	for i, k := range n {
		w += r.Price[i] * float64(k)
	}
	return w
}

// Demand is the cheapest choice, at the prices given (which it must not keep), of how many of each item are
// wanted, and what that choice costs by itself beside the boards. Nil ends the relaxation.
type Demand func(price []float64) (n []int, fee float64)

// Relax is the relaxation where the demand is still open. The counts in p.Items
// are not read. It ends when the bound cannot grow, when the steps are spent,
// or when enough, asked after each new bound, says so.
func Relax(p Problem, demand Demand, enough func(bound float64) bool) (Relaxation, error) {
	t, err := newTable(p)
	if err != nil {
		return Relaxation{}, err
	}
	r := t.relax(demand, enough)
	r.Steps = t.spent()
	return r, nil
}

func (t *table) relax(demand Demand, enough func(float64) bool) Relaxation {
	n := len(t.p.Items)
	limit := make([]int, len(t.p.Stock)) // stock -> row, -1 = not counted
	rows := n + 1
	dear := 0.0
	for s, st := range t.p.Stock {
		limit[s] = -1
		if st.Count >= 0 {
			limit[s] = rows
			rows++
		}
		dear = max(dear, float64(st.Cost))
	}
	lp := &simplex{m: rows, inv: make([]float64, rows*rows), x: make([]float64, rows),
		basis: make([]column, rows), y: make([]float64, rows), d: make([]float64, rows)}

	// First basis: the demand at prices of one piece a board, and as many boards of one item each.
	guess := make([]float64, n)
	k := make([]float64, n)
	for j := range n {
		lp.basis[j] = column{cost: 50 * dear, rows: []int{j}, vals: []float64{1}}
		k[j] = 1
		for s, st := range t.p.Stock {
			if limit[s] >= 0 || t.cells[j] > t.caps[s] || t.class[j] > t.full[s] {
				continue
			}
			ws := [2]int{t.full[s], -1}
			for _, pr := range t.pairs[s] {
				if pr[0] == t.class[j] && pr[1] == t.class[j] {
					ws = pr
				}
			}
			b := &made{stock: s, cost: st.Cost, width: ws}
			fit := 0.0
			for i, w := range ws {
				if w < 0 {
					continue
				}
				for range t.caps[s] / t.cells[j] {
					b.pieces[i] = append(b.pieces[i], j)
					fit++
				}
			}
			if float64(st.Cost)/fit < lp.basis[j].cost/k[j] {
				lp.basis[j] = column{cost: float64(st.Cost), rows: []int{j}, vals: []float64{fit}, board: b}
				k[j] = fit
			}
		}
		guess[j] = lp.basis[j].cost / k[j]
	}
	want, fee := demand(guess)
	best := Relaxation{Price: make([]float64, n), toll: make([]float64, len(t.p.Stock))}
	if want == nil {
		return best
	}
	lp.basis[n] = t.demandColumn(want, fee)
	lp.y[n] = fee
	for i := range rows {
		lp.inv[i*rows+i] = 1
		lp.x[i] = 1
	}
	for j := range n {
		// A little more than the demand, differently for each item, so that no pivot stalls.
		e := 1e-5 * (1 + float64((j*7919)%101)/101)
		lp.inv[j*rows+j] = 1 / k[j]
		lp.inv[j*rows+n] = float64(want[j]) / k[j]
		lp.x[j] = (float64(want[j]) + e) / k[j]
		lp.y[j] = guess[j]
		lp.y[n] += guess[j] * float64(want[j])
	}
	for s, i := range limit {
		if i >= 0 {
			lp.basis[i] = column{rows: []int{i}, vals: []float64{1}}
			lp.x[i] = float64(t.p.Stock[s].Count)
		}
	}
	y := make([]float64, n)
	for t.left > 0 {
		for j := range n { // more of an item than wanted
			if lp.y[j] < -1e-9 && lp.enter(column{rows: []int{j}, vals: []float64{-1}}) {
				t.left -= int64(rows * rows)
			}
		}
		for _, i := range limit {
			if i >= 0 && lp.y[i] > 1e-9 && lp.enter(column{rows: []int{i}, vals: []float64{1}}) {
				t.left -= int64(rows * rows)
			}
		}
		for j := range n {
			y[j] = max(lp.y[j], 0)
		}
		t.price(y)
		want, fee = demand(y)
		if want == nil {
			break
		}
		t.keepBound(&best, y, want, fee, limit)
		if enough != nil && enough(best.Bound) {
			break
		}
		at := lp.value()
		if t.roundUp(best.Bound) >= t.roundUp(at-1e-3) && enough == nil || at-best.Bound < 1e-4 {
			break
		}
		var cols []column
		if c := t.demandColumn(want, fee); lp.reduced(c) < -1e-7 {
			cols = append(cols, c)
		}
		for s := range t.p.Stock {
			b := t.board(s)
			if c := t.boardColumn(b, limit[s]); lp.reduced(c) < -1e-7 {
				cols = append(cols, c)
			}
		}
		moved := false
		for len(cols) > 0 {
			i, worst := -1, -1e-7
			for k, c := range cols {
				if r := lp.reduced(c); r < worst {
					i, worst = k, r
				}
			}
			if i < 0 {
				break
			}
			if lp.enter(cols[i]) {
				moved = true
				t.left -= int64(rows * rows)
			}
			cols = append(cols[:i], cols[i+1:]...)
		}
		if !moved {
			break
		}
	}
	for i, c := range lp.basis {
		if c.board != nil && lp.x[i] > 1e-3 {
			best.bars = append(best.bars, usage{lp.x[i], *c.board})
		}
	}
	return best
}

func (t *table) demandColumn(want []int, fee float64) column {
	n := len(want)
	c := column{cost: fee, rows: []int{n}, vals: []float64{1}}
	for j, k := range want {
		if k > 0 {
			c.rows = append(c.rows, j)
			c.vals = append(c.vals, -float64(k))
		}
	}
	return c
}

func (t *table) boardColumn(b made, limit int) column {
	c := column{cost: float64(b.cost), board: &b}
	for _, ps := range b.pieces {
	next:
		for _, j := range ps {
			for k, i := range c.rows {
				if i == j {
					c.vals[k]++
					continue next
				}
			}
			c.rows = append(c.rows, j)
			c.vals = append(c.vals, 1)
		}
	}
	if limit >= 0 {
		c.rows = append(c.rows, limit)
		c.vals = append(c.vals, 1)
	}
	return c
}

// keepBound turns the prices y, just tabled, into ones under which no board
// gains, by scaling all and letting counted boards pay a fee, and keeps the bound if it is the best so far.
func (t *table) keepBound(best *Relaxation, y []float64, want []int, own float64, limit []int) {
	scale := 1.0
	for s, st := range t.p.Stock {
		if v, _ := t.bestOf(s); limit[s] < 0 && v > 0 {
			scale = min(scale, float64(st.Cost)/v)
		}
	}
	fee := 0.0
	toll := make([]float64, len(t.p.Stock))
	for s, st := range t.p.Stock {
		if limit[s] >= 0 {
			v, _ := t.bestOf(s)
			toll[s] = max(0, scale*v-float64(st.Cost))
			fee += toll[s] * float64(st.Count)
		}
	}
	bound := own - fee
	for j, k := range want {
		bound += scale * y[j] * float64(k)
	}
	if math.IsNaN(bound) || bound <= best.Bound && best.Bound > 0 {
		return
	}
	best.Bound, best.toll, best.fee = bound, toll, fee
	for j := range y {
		best.Price[j] = scale * y[j]
	}
}
