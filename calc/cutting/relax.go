package cutting

import (
	"math"
	"slices"
)

// Relaxation is what the linear relaxation proves. Price are worths of the
// items such that no board's pieces are worth more than the board costs.
type Relaxation struct {
	Bound float64 // no demand that the oracle could return is cut for less, its own fee included
	Price []float64
	Mix   []Choice  // the choices of the fractional plan
	toll  []float64 // stock -> what one of a counted size is worth over its cost
	fee   float64   // what the counts take off every worth
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

// Wanted is a choice of what to cut.
type Wanted struct {
	Count []int   // of each item
	Fee   float64 // what the choice costs by itself, beside the boards; +Inf = there is no choice
}

// Demand is an open choice of what to cut.
type Demand struct {
	// Cheapest is the cheapest choice at the prices, which it must not keep. Nil ends the relaxation.
	Cheapest func(price []float64) *Wanted
	// Enough, asked after each new bound, says whether it will do.
	Enough func(bound float64) bool
	// Look is shown the choice that weighs most in each fractional plan.
	Look func(w *Wanted)
}

// group is a set of boards whose number is bounded: of a stock size or of any (-1),
// used whole, ripped, or either.
type group struct {
	stock int
	how   use
}

type use int

const (
	either use = iota
	whole
	ripped
)

func (g group) has(stock int, rip bool) bool {
	return (g.stock < 0 || g.stock == stock) && (g.how == either || (g.how == ripped) == rip)
}

// rule bounds the number of a group's boards.
type rule struct {
	group
	least bool // at least n, else at most
	n     int
}

// column is a column of the master problem: a board or a demand.
type column struct {
	cost  float64
	rows  []int // of items; the convexity row is len(items)
	vals  []float64
	board *made   // nil for a choice
	want  *Wanted // nil for a board
}

// master is the problem that columns are generated for: boards to cover a
// convex mix of choices at least cost.
type master struct {
	*table
	Demand
	pool []column // found so far, good for any part
}

// counts are the rules of the whole problem: the boards of counted stock.
func (t *table) counts() (rules []rule) {
	for s, st := range t.p.Stock {
		if st.Count >= 0 {
			rules = append(rules, rule{group{s, either}, false, st.Count})
		}
	}
	return rules
}

// start fills the pool with boards of one item each and returns prices by them.
func (m *master) start() []float64 {
	guess := make([]float64, len(m.p.Items))
	for j := range guess {
		guess[j] = math.Inf(1)
		for s, st := range m.p.Stock {
			if m.cells[j] > m.caps[s] || m.class[j] > m.full[s] {
				continue
			}
			b := made{stock: s, cost: st.Cost, width: [2]int{m.full[s], -1}}
			for _, pr := range m.pairs[s] {
				if pr[0] == m.class[j] && pr[1] == m.class[j] {
					b.width = pr
				}
			}
			fit := 0
			for i, w := range b.width {
				for n := m.caps[s] / m.cells[j]; w >= 0 && n > 0; n-- {
					b.pieces[i] = append(b.pieces[i], j)
					fit++
				}
			}
			guess[j] = min(guess[j], float64(st.Cost)/float64(fit))
			m.pool = append(m.pool, boardColumn(b))
		}
	}
	return guess
}

// Relax is the relaxation where the demand is still open. The counts in p.Items
// are not read. It ends when the bound cannot grow, when the steps are spent, or when the bound is enough.
// For as many nodes it then splits the problem, on numbers of boards, to
// bring the bound up: Relaxation.Bound is that bound, the prices are those of the whole problem.
func Relax(p Problem, d Demand, nodes int) (Relaxation, error) {
	t, err := newTable(p)
	if err != nil {
		return Relaxation{}, err
	}
	m := &master{table: t, Demand: d}
	r, mix := m.solve(t.counts())
	r.Mix = mix.choices
	r.Bound = max(r.Bound, m.branch(r, mix, nodes))
	return r, nil
}

// mix is a fractional plan: boards of each stock used whole and ripped, and choices by their weights.
type mix struct {
	boards  [][2]float64
	choices []Choice
}

// Choice is a choice and its weight in a mix; the weights come to 1.
type Choice struct {
	Weight float64
	*Wanted
}

// solve relaxes the part of the problem that keeps to the rules.
func (m *master) solve(rules []rule) (Relaxation, mix) {
	n := len(m.p.Items)
	best := Relaxation{Price: make([]float64, n), toll: make([]float64, len(m.p.Stock)), Bound: math.Inf(-1)}
	out := mix{boards: make([][2]float64, len(m.p.Stock))}
	guess := make([]float64, n)
	if m.pool == nil {
		guess = m.start()
	}
	w := m.Cheapest(guess)
	if w == nil || math.IsInf(w.Fee, 1) {
		if w != nil {
			best.Bound = w.Fee
		}
		return best, out
	}
	lp := m.simplex(w, rules)
	y := make([]float64, n)
	for m.work.Steps > 0 {
		for m.cheap(lp, rules) {
		}
		for j := range n {
			y[j] = max(lp.y[j], 0)
		}
		m.price(y)
		before := len(m.pool)
		if w = m.Cheapest(y); w == nil {
			break
		}
		m.add(lp, rules, choiceColumn(w))
		if w = m.keepBound(&best, lp, y, w, rules); w == nil {
			break
		}
		m.add(lp, rules, choiceColumn(w))
		if m.Enough != nil && m.Enough(best.Bound) {
			break
		}
		if at := lp.value(); m.Enough == nil && m.roundUp(best.Bound) >= m.roundUp(at-1e-3) || at-best.Bound < 1e-4 {
			break
		}
		for s := range m.p.Stock {
			for _, b := range m.boards(s) {
				m.add(lp, rules, boardColumn(b))
			}
		}
		if len(m.pool) == before {
			break
		}
	}
	for i, c := range lp.basis {
		switch x := lp.x[i]; {
		case x < 1e-6:
		case c.want != nil:
			out.choices = append(out.choices, Choice{x, c.want})
		case c.board != nil:
			best.bars = append(best.bars, usage{x, *c.board})
			k := 0
			if c.board.rip() {
				k = 1
			}
			out.boards[c.board.stock][k] += x
		}
	}
	return best, out
}

// simplex starts on the demand given and on stand-ins for all boards, dearer than any.
func (m *master) simplex(w *Wanted, rules []rule) *simplex {
	n := len(w.Count)
	rows := n + 1 + len(rules)
	lp := &simplex{m: rows, inv: make([]float64, rows*rows), x: make([]float64, rows),
		basis: make([]column, rows), y: make([]float64, rows), d: make([]float64, rows)}
	dear := 0.0
	for _, st := range m.p.Stock {
		dear = max(dear, 50*float64(st.Cost))
	}
	for i := range rows {
		lp.inv[i*rows+i] = 1
		lp.basis[i] = column{cost: dear, rows: []int{i}, vals: []float64{1}}
	}
	lp.basis[n] = choiceColumn(w)
	lp.x[n], lp.y[n] = 1, w.Fee
	for j, k := range w.Count {
		// A little more than the demand, differently for each item, so that no pivot stalls.
		lp.x[j] = float64(k) + 1e-5*(1+float64((j*7919)%101)/101)
		lp.inv[j*rows+n] = float64(k)
		lp.y[j] = dear
		lp.y[n] += dear * float64(k)
	}
	for i, r := range rules {
		i += n + 1
		lp.x[i] = float64(r.n)
		if r.least {
			lp.y[i] = dear
		} else {
			lp.basis[i].cost = 0
		}
	}
	return lp
}

// under is the column with its rows for the rules.
func (c column) under(rules []rule, items int) column {
	for i, r := range rules {
		if c.board != nil && r.has(c.board.stock, c.board.rip()) {
			c.rows = append(c.rows[:len(c.rows):len(c.rows)], items+1+i)
			c.vals = append(c.vals[:len(c.vals):len(c.vals)], 1)
		}
	}
	return c
}

// cheap brings in the best columns that need no oracle: slack, surplus, or
// out of the pool. It reports whether there were any.
func (m *master) cheap(lp *simplex, rules []rule) bool {
	n := len(m.p.Items)
	var in []column
	var gain []float64
	offer := func(c column, r float64) {
		at := len(in)
		for at > 0 && gain[at-1] > r {
			at--
		}
		if at < 12 {
			in, gain = slices.Insert(in, at, c), slices.Insert(gain, at, r)
			in, gain = in[:min(len(in), 12)], gain[:min(len(gain), 12)]
		}
	}
	for i, y := range lp.y {
		sign := -1.0 // more of an item, or of a group, than asked for
		switch {
		case i == n:
			continue
		case i > n && !rules[i-n-1].least:
			sign = 1
		}
		if -sign*y < -1e-7 {
			offer(column{rows: []int{i}, vals: []float64{sign}}, -sign*y)
		}
	}
	tolls := make([][2]float64, len(m.p.Stock))
	for s := range tolls {
		tolls[s] = toll(lp.y[n+1:], rules, s)
	}
	for _, c := range m.pool {
		r := lp.reduced(c)
		if c.board != nil && c.board.rip() {
			r -= tolls[c.board.stock][1]
		} else if c.board != nil {
			r -= tolls[c.board.stock][0]
		}
		if r < -1e-7 {
			offer(c, r)
		}
		m.work.Spend(int64(5 + len(c.rows)))
	}
	moved := false
	for _, c := range in {
		if c = c.under(rules, n); m.work.Steps > 0 && lp.reduced(c) < -1e-7 && lp.enter(c) {
			moved = true
			m.work.Spend(int64(lp.m*lp.m) / 3)
		}
	}
	return moved
}

// toll is the sum of the rules' prices on a board of stock s used whole, and ripped: above 0 when more are asked for.
func toll(price []float64, rules []rule, s int) (t [2]float64) {
	for i, r := range rules {
		for k := range t {
			if r.has(s, k == 1) {
				t[k] += price[i]
			}
		}
	}
	return t
}

// add puts the column in the pool when it would help.
func (m *master) add(lp *simplex, rules []rule, c column) {
	if lp.reduced(c.under(rules, len(m.p.Items))) < -1e-7 {
		m.pool = append(m.pool, c)
	}
}

func choiceColumn(w *Wanted) column {
	c := column{cost: w.Fee, rows: []int{len(w.Count)}, vals: []float64{1}, want: w}
	for j, k := range w.Count {
		if k > 0 {
			c.rows = append(c.rows, j)
			c.vals = append(c.vals, -float64(k))
		}
	}
	return c
}

func boardColumn(b made) column {
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
	return c
}

// keepBound scales the prices y, just tabled, and the rules' so far down that no board
// gains, and keeps the bound if it is the best so far. It returns the choice at the scaled prices.
func (m *master) keepBound(best *Relaxation, lp *simplex, y []float64, w *Wanted, rules []rule) *Wanted {
	n := len(y)
	scale := 1.0
	price := slices.Clone(lp.y[n+1:]) // of the rules; of the right sign even between pivots
	for i, r := range rules {
		if price[i] = min(price[i], 0); r.least {
			price[i] = max(lp.y[n+1+i], 0)
		}
	}
	for s, st := range m.p.Stock {
		toll := toll(price, rules, s)
		for k, b := range m.boards(s) {
			v := toll[k]
			for _, ps := range b.pieces {
				for _, j := range ps {
					v += y[j]
				}
			}
			if v > float64(st.Cost) {
				scale = min(scale, float64(st.Cost)/v)
			}
		}
	}
	scaled := make([]float64, n)
	for j := range y {
		scaled[j] = scale * y[j]
	}
	if scale < 1-1e-9 {
		if w = m.Cheapest(scaled); w == nil {
			return nil
		}
	}
	bound := w.Fee
	for j, k := range w.Count {
		bound += scaled[j] * float64(k)
	}
	fee := 0.0
	for i, r := range rules {
		fee -= scale * price[i] * float64(r.n)
	}
	if bound -= fee; math.IsNaN(bound) || bound <= best.Bound {
		return w
	}
	best.Bound, best.fee, best.Price = bound, fee, scaled
	clear(best.toll)
	for i, r := range rules {
		if r.stock >= 0 && r.how == either && !r.least {
			best.toll[r.stock] -= scale * price[i]
		}
	}
	return w
}
