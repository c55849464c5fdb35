package cutting

import "math"

// Relaxation is what the linear relaxation proves. Price are worths of the
// items such that no board's pieces are worth more than the board costs.
type Relaxation struct {
	Bound float64 // no demand that the oracle could return is cut for less, its own fee included
	Price []float64
	Steps int64     // work done
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

// Demand is the cheapest choice, at the prices given (which it must not keep), of how many of each item are
// wanted, and what that choice costs by itself beside the boards. Nil ends the relaxation.
type Demand func(price []float64) (n []int, fee float64)

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
	board *made // nil for a demand
}

// master is the problem that columns are generated for: boards to cover a
// convex mix of demands at least cost, under rules.
type master struct {
	*table
	demand Demand
	enough func(bound float64) bool // may be nil
	pool   []column                 // found so far, good for any rules
}

func (t *table) counted() (rules []rule) {
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
// are not read. It ends when the bound cannot grow, when the steps are spent,
// or when enough, asked after each new bound, says so. It then looks, for as many nodes, whether bounding the
// numbers of boards to whole ones brings the bound up: Relaxation.Bound is that bound,
// the prices are those of the relaxation itself.
func Relax(p Problem, demand Demand, enough func(bound float64) bool, nodes int) (Relaxation, error) {
	t, err := newTable(p)
	if err != nil {
		return Relaxation{}, err
	}
	m := &master{table: t, demand: demand, enough: enough}
	r, use := m.solve(t.counted())
	r.Bound = max(r.Bound, m.branch(r, use, nodes))
	r.Steps = t.spent()
	return r, nil
}

// solve relaxes the problem under the rules and returns how many boards of each stock are
// used whole and ripped.
func (m *master) solve(rules []rule) (Relaxation, [][2]float64) {
	n := len(m.p.Items)
	best := Relaxation{Price: make([]float64, n), toll: make([]float64, len(m.p.Stock)), Bound: math.Inf(-1)}
	usedUp := make([][2]float64, len(m.p.Stock))
	var guess []float64
	if m.pool == nil {
		guess = m.start()
	} else {
		guess = make([]float64, n)
	}
	want, own := m.demand(guess)
	if want == nil {
		best.Bound = 0
		return best, usedUp
	}
	lp := m.simplex(want, own, rules)
	y := make([]float64, n)
	for m.left > 0 {
		for m.cheap(lp, rules) {
		}
		for j := range n {
			y[j] = max(lp.y[j], 0)
		}
		m.price(y)
		if want, own = m.demand(y); want == nil {
			break
		}
		before := len(m.pool)
		m.add(lp, rules, demandColumn(want, own))
		if want, own = m.keepBound(&best, lp, y, want, own, rules); want == nil {
			break
		}
		m.add(lp, rules, demandColumn(want, own))
		if m.enough != nil && m.enough(best.Bound) {
			break
		}
		if at := lp.value(); m.enough == nil && m.roundUp(best.Bound) >= m.roundUp(at-1e-3) || at-best.Bound < 1e-4 {
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
		if c.board != nil && lp.x[i] > 1e-6 {
			best.bars = append(best.bars, usage{lp.x[i], *c.board})
			k := 0
			if c.board.width[1] >= 0 {
				k = 1
			}
			usedUp[c.board.stock][k] += lp.x[i]
		}
	}
	return best, usedUp
}

// simplex starts on the demand given and on stand-ins for all boards, dearer than any.
func (m *master) simplex(want []int, own float64, rules []rule) *simplex {
	n := len(want)
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
	lp.basis[n] = demandColumn(want, own)
	lp.x[n], lp.y[n] = 1, own
	for j, k := range want {
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
	if c.board == nil {
		return c
	}
	rip := c.board.width[1] >= 0
	for i, r := range rules {
		if r.has(c.board.stock, rip) {
			c.rows = append(c.rows[:len(c.rows):len(c.rows)], items+1+i)
			c.vals = append(c.vals[:len(c.vals):len(c.vals)], 1)
		}
	}
	return c
}

// cheap brings in the best column that needs no oracle: slack, surplus, or out of the pool.
func (m *master) cheap(lp *simplex, rules []rule) bool {
	n := len(m.p.Items)
	best, worst := column{}, -1e-7
	for i, y := range lp.y {
		sign := -1.0 // more of an item, or of a group, than asked for
		switch {
		case i == n:
			continue
		case i > n && !rules[i-n-1].least:
			sign = 1
		}
		if -sign*y < worst {
			best, worst = column{rows: []int{i}, vals: []float64{sign}}, -sign*y
		}
	}
	toll := make([][2]float64, len(m.p.Stock))
	for s := range toll {
		toll[s] = m.toll(lp, rules, s)
	}
	at := -1
	for k, c := range m.pool {
		r := lp.reduced(c)
		if c.board != nil {
			if c.board.width[1] >= 0 {
				r -= toll[c.board.stock][1]
			} else {
				r -= toll[c.board.stock][0]
			}
		}
		if r < worst {
			at, worst = k, r
		}
	}
	m.left -= int64(lp.m + 5*len(m.pool))
	if at >= 0 {
		best = m.pool[at].under(rules, n)
	}
	if best.rows == nil || m.left < 0 {
		return false
	}
	m.left -= int64(lp.m * lp.m)
	return lp.enter(best)
}

// toll is the sum of the rules' prices on a board of stock s used whole, and ripped: above 0 when more are asked for.
func (m *master) toll(lp *simplex, rules []rule, s int) (t [2]float64) {
	for i, r := range rules {
		for k := range t {
			if r.has(s, k == 1) {
				t[k] += lp.y[len(m.p.Items)+1+i]
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

func demandColumn(want []int, own float64) column {
	c := column{cost: own, rows: []int{len(want)}, vals: []float64{1}}
	for j, k := range want {
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
// gains, and keeps the bound if it is the best so far. It returns the demand at the scaled prices.
func (m *master) keepBound(best *Relaxation, lp *simplex, y []float64, want []int, own float64, rules []rule) ([]int, float64) {
	n := len(y)
	scale := 1.0
	for s, st := range m.p.Stock {
		toll := m.toll(lp, rules, s)
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
	if scale < 1-1e-9 {
		scaled := make([]float64, n)
		for j := range y {
			scaled[j] = scale * y[j]
		}
		if want, own = m.demand(scaled); want == nil {
			return nil, 0
		}
	}
	bound := own
	for j, k := range want {
		bound += scale * y[j] * float64(k)
	}
	fee := 0.0
	for i, r := range rules {
		fee -= scale * lp.y[n+1+i] * float64(r.n)
	}
	if bound -= fee; math.IsNaN(bound) || bound <= best.Bound {
		return want, own
	}
	best.Bound, best.fee = bound, fee
	for j := range y {
		best.Price[j] = scale * y[j]
	}
	clear(best.toll)
	for i, r := range rules {
		if r.stock >= 0 && r.how == either && !r.least {
			best.toll[r.stock] -= scale * lp.y[n+1+i]
		}
	}
	return want, own
}
