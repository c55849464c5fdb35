package cutting

import (
	"math"
	"slices"

	"strapline/calc/simplex"
)

// Relaxation is the result of the linear relaxation. Price values the items so that the pieces of no board
// are worth more than the board costs.
type Relaxation struct {
	Bound float64 // lower bound on the cost of any demand that Cheapest could return, its fee included
	Price []float64
	Mix   []Choice  // choices of the fractional plan
	rules []float64 // price of each rule
	toll  []float64 // by stock: the price of its count limit, 0 or more
	fee   float64   // what the rules take off the worth of any demand
	bars  []usage   // boards of the fractional plan
}

type usage struct {
	n float64
	b *made
}

// Worth returns a lower bound on the cost of cutting n[i] of each item i, without the fee of the demand.
func (r Relaxation) Worth(n []int) float64 {
	w := -r.fee
	for i, k := range n {
		w += r.Price[i] * float64(k)
	}
	return w
}

// Wanted is a choice of what to cut.
type Wanted struct {
	Count []int   // by item
	Fee   float64 // cost of the choice beside the boards; +Inf if there is no choice
}

// Demand is a demand still to be chosen.
type Demand struct {
	// Cheapest returns the cheapest choice at the prices. It must not keep the slice. Nil ends the
	// relaxation.
	Cheapest func(price []float64) *Wanted
	// Smooth, from 0 to 1, is how far the prices are pulled toward those of the best bound. With many
	// items this takes fewer rounds. It applies to the whole problem only, not to its subproblems.
	Smooth float64
	// Enough is called with each new bound and reports whether it will do.
	Enough func(bound float64) bool
	// Look is called with the choice of the greatest weight in each fractional plan.
	Look func(w *Wanted)
}

// group is a set of boards whose number is bounded: those of one stock size, or of any size if stock is
// -1, used whole, ripped, or either.
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

// master is the master problem of the column generation: the cheapest boards that cover a convex
// combination of choices.
type master struct {
	*table
	Demand
	pool         // columns found so far, valid in every subproblem
	rows   []int // see under
	vals   []float64
	toll   []float64   // see cheap
	spares []*column   // see spare
	used   [][]float64 // inverses for reuse
}

// counts returns the rules of the whole problem: the limits of counted stock.
func (t *table) counts() (rules []rule) {
	for s, st := range t.p.Stock {
		if st.Count >= 0 {
			rules = append(rules, rule{group{s, either}, false, st.Count})
		}
	}
	return rules
}

// start fills the pool with boards of one item each and returns the prices they imply.
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

// Relax solves the relaxation with an open demand; the counts in p.Items are ignored. It stops when the
// bound cannot grow, when Enough accepts it, or when the steps are used up.
//
// It then branches on numbers of boards, in up to nodes subproblems, to raise Relaxation.Bound. The prices
// remain those of the whole problem.
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

// mix is a fractional plan: the numbers of boards of each stock used whole and ripped, and the weighted
// choices.
type mix struct {
	boards  [][2]float64
	choices []Choice
	lp      *simplex.Program[*column] // the program it solves; nil if there is none
}

// Choice is a choice and its weight in a mix. The weights add up to 1.
type Choice struct {
	Weight float64
	*Wanted
}

// solve relaxes the subproblem given by the rules. from is the solved program of its parent, which lacks
// the last rule; nil at the root.
func (m *master) solve(rules []rule, from *simplex.Program[*column]) (Relaxation, mix) {
	n := len(m.p.Items)
	best := Relaxation{Price: make([]float64, n), toll: make([]float64, len(m.p.Stock)), Bound: math.Inf(-1)}
	out := mix{boards: make([][2]float64, len(m.p.Stock))}
	var lp *simplex.Program[*column]
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
		lp = m.first(w, rules)
	}
	out.lp = lp
	y, dual := make([]float64, n), make([]float64, lp.Rows())
	var center []float64 // prices of the best bound
	exact := true
	for m.work.Steps > 0 {
		m.work.Spend(int64(500 + 10*n))
		for m.cheap(lp, rules) {
		}
		copy(dual, lp.Y)
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
			center = append(append(append(center[:0], best.Price...), lp.Y[n]), best.rules...)
		}
		m.offer(lp, w)
		if m.enough(best.Bound) {
			break
		}
		if at := lp.Value(); m.Enough == nil && m.roundUp(best.Bound) >= m.roundUp(at-1e-3) || at-best.Bound < 1e-4 {
			break
		}
		for s, st := range m.p.Stock {
			toll := toll(lp.Y[n+1:], rules, s)
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
	for i, c := range lp.Basis {
		switch x := lp.X[i]; {
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

// dear is the cost of an artificial column, above that of any board.
func (m *master) dear() (cost float64) {
	for _, st := range m.p.Stock {
		cost = max(cost, 50*float64(st.Cost))
	}
	return cost
}

// enough reports whether a bound will do.
func (m *master) enough(bound float64) bool {
	return m.Enough != nil && m.Enough(bound) || m.p.Most > 0 && m.roundUp(bound) > m.p.Most
}

// first returns a program whose basis is the demand w and an artificial column in every other row. Its rows
// are those of the items, the convexity row and those of the rules.
func (m *master) first(w *Wanted, rules []rule) *simplex.Program[*column] {
	n := len(w.Count)
	lp := simplex.New[*column](n + 1 + len(rules))
	dear := m.dear()
	artificial := func(i int, cost, x, y float64) {
		lp.Set(i, &column{cost: cost, rows: []int{i}, vals: []float64{1}}, cost, x, y)
	}
	fee := w.Fee
	for j, k := range w.Count {
		// A small excess over the demand, different for each item, prevents degenerate pivots.
		artificial(j, dear, float64(k)+1e-5*(1+float64((j*7919)%101)/101), dear)
		lp.SetInverse(j, n, float64(k))
		fee += dear * float64(k)
	}
	lp.Set(n, choiceColumn(w), w.Fee, 1, fee)
	for i, r := range rules {
		if i += n + 1; r.least {
			artificial(i, dear, float64(r.n), dear)
		} else {
			artificial(i, 0, float64(r.n), 0)
		}
	}
	return lp
}

// with returns s with one more rule, which its solution violates. An artificial column makes up for the
// boards in excess or missing.
func (m *master) with(s *simplex.Program[*column], r rule) *simplex.Program[*column] {
	var storage []float64
	if last := len(m.used) - 1; last >= 0 {
		storage, m.used = m.used[last], m.used[:last]
	}
	n := s.Rows() + 1
	m.work.Spend(int64(2 * n * n))
	sign := 1.0
	if !r.least {
		sign = -1
	}
	dear := m.dear()
	artificial := &column{cost: dear, rows: []int{n - 1}, vals: []float64{sign}}
	counts := func(c *column) bool { return c.board != nil && r.has(c.board.stock, c.board.rip()) }
	return s.With(counts, float64(r.n), sign, artificial, dear, storage)
}

// keepBound scales the prices y and those of the rules down until no board is worth more than it costs,
// and keeps the bound if it is the best so far. The table must have been priced with y. It returns the
// cheapest choice at the scaled prices.
func (m *master) keepBound(best *Relaxation, dual, y []float64, w *Wanted, rules []rule) *Wanted {
	n := len(y)
	scale := 1.0
	price := slices.Clone(dual[n+1:]) // of the rules, clamped to the right sign, which they may lack between pivots
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
