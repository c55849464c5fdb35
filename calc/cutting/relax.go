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
	rules []float64 // of each rule
	toll  []float64 // stock -> what one of a counted size is worth over its cost
	fee   float64   // what the counts take off every worth
	bars  []usage   // boards of the fractional plan
}

type usage struct {
	n float64
	b *made
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
	// Smooth is how near the prices stay to those of the best bound, from 0, not at all, to 1: many items need fewer rounds so. It holds
	// for the whole problem, not for its parts.
	Smooth float64
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

// master is the problem that columns are generated for: boards to cover a
// convex mix of choices at least cost.
type master struct {
	*table
	Demand
	pool         // found so far, good for any part
	rows   []int // see under
	vals   []float64
	toll   []float64   // see cheap
	spares []*column   // see spare
	used   [][]float64 // inverses that are no longer needed
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
				if w >= 0 {
					b.pieces[i] = slices.Repeat([]int{j}, m.caps[s]/m.cells[j])
					fit += len(b.pieces[i])
				}
			}
			guess[j] = min(guess[j], float64(st.Cost)/float64(fit))
			m.put(boardColumn(b))
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
	r, mix := m.solve(t.counts(), nil)
	r.Mix = mix.choices
	r.Bound = max(r.Bound, m.branch(r, mix, nodes))
	return r, nil
}

// mix is a fractional plan: boards of each stock used whole and ripped, and choices by their weights.
type mix struct {
	boards  [][2]float64
	choices []Choice
	lp      *simplex // that it is of; nil where there is none
}

// Choice is a choice and its weight in a mix; the weights come to 1.
type Choice struct {
	Weight float64
	*Wanted
}

// solve relaxes the part of the problem that keeps to the rules; the part of all but the last of them was solved by from, or it is nil.
func (m *master) solve(rules []rule, from *simplex) (Relaxation, mix) {
	n := len(m.p.Items)
	best := Relaxation{Price: make([]float64, n), toll: make([]float64, len(m.p.Stock)), Bound: math.Inf(-1)}
	out := mix{boards: make([][2]float64, len(m.p.Stock))}
	var lp *simplex
	if from != nil {
		lp = m.with(from, rules[len(rules)-1])
	} else {
		w := m.Cheapest(m.start())
		if w == nil || math.IsInf(w.Fee, 1) {
			if w != nil {
				best.Bound = w.Fee
			}
			return best, out
		}
		lp = m.simplex(w, rules)
	}
	out.lp = lp
	y, dual := make([]float64, n), make([]float64, lp.m)
	var center []float64 // the prices of the best bound
	exact := true
	for m.work.Steps > 0 {
		m.work.Spend(int64(500 + 10*n))
		for m.cheap(lp, rules) {
		}
		copy(dual, lp.y)
		for j, c := range center {
			if !exact {
				dual[j] += m.Smooth * (c - dual[j])
			}
		}
		for j := range n {
			y[j] = max(dual[j], 0)
		}
		m.price(y)
		before := len(m.columns)
		w := m.Cheapest(y)
		if w == nil {
			break
		}
		m.offer(lp, w)
		was := best.Bound
		if w = m.keepBound(&best, dual, y, w, rules); w == nil {
			break
		}
		if best.Bound > was {
			center = append(append(append(center[:0], best.Price...), lp.y[n]), best.rules...)
		}
		m.offer(lp, w)
		if m.enough(best.Bound) {
			break
		}
		if at := lp.value(); m.Enough == nil && m.roundUp(best.Bound) >= m.roundUp(at-1e-3) || at-best.Bound < 1e-4 {
			break
		}
		for s, st := range m.p.Stock {
			toll := toll(lp.y[n+1:], rules, s)
			worth, pair := m.best(s)
			for k, width := range [2][2]int{{m.full[s], -1}, pair} {
				if worth[k] >= 0 && (!exact || worth[k]+toll[k] > float64(st.Cost)) {
					m.add(lp, rules, boardColumn(m.board(s, width)))
				}
			}
		}
		added := len(m.columns) > before
		if exact && !added {
			break
		}
		exact = !added || center == nil || m.Smooth == 0 || from != nil
	}
	for i, c := range lp.basis {
		switch x := lp.x[i]; {
		case x < 1e-6:
		case c.want != nil:
			out.choices = append(out.choices, Choice{x, c.want})
		case c.board != nil:
			best.bars = append(best.bars, usage{x, c.board})
			k := 0
			if c.board.rip() {
				k = 1
			}
			out.boards[c.board.stock][k] += x
		}
	}
	return best, out
}

// dear is the cost of a stand-in.
func (m *master) dear() (cost float64) {
	for _, st := range m.p.Stock {
		cost = max(cost, 50*float64(st.Cost))
	}
	return cost
}

// enough says whether a bound will do.
func (m *master) enough(bound float64) bool {
	return m.Enough != nil && m.Enough(bound) || m.p.Most > 0 && m.roundUp(bound) > m.p.Most
}

// simplex starts on the demand given and on stand-ins for all boards, dearer than any.
func (m *master) simplex(w *Wanted, rules []rule) *simplex {
	n := len(w.Count)
	rows := n + 1 + len(rules)
	lp := &simplex{m: rows, inv: make([]float64, rows*rows), x: make([]float64, rows),
		basis: make([]*column, rows), y: make([]float64, rows), d: make([]float64, rows)}
	dear := m.dear()
	for i := range rows {
		lp.inv[i*rows+i] = 1
		lp.basis[i] = &column{cost: dear, rows: []int{i}, vals: []float64{1}}
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

// keepBound scales the prices y, just tabled, and the rules' so far down that no board
// gains, and keeps the bound if it is the best so far. It returns the choice at the scaled prices.
func (m *master) keepBound(best *Relaxation, dual, y []float64, w *Wanted, rules []rule) *Wanted {
	n := len(y)
	scale := 1.0
	price := slices.Clone(dual[n+1:]) // of the rules; of the right sign even between pivots
	for i, r := range rules {
		if price[i] = min(price[i], 0); r.least {
			price[i] = max(dual[n+1+i], 0)
		}
	}
	for s, st := range m.p.Stock {
		toll := toll(price, rules, s)
		worth, _ := m.best(s)
		for k, v := range worth {
			if v += toll[k]; worth[k] >= 0 && v > float64(st.Cost) {
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
	for i := range price {
		price[i] *= scale
	}
	best.rules = price
	clear(best.toll)
	for i, r := range rules {
		if r.stock >= 0 && r.how == either && !r.least {
			best.toll[r.stock] -= price[i]
		}
	}
	return w
}
