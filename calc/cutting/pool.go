package cutting

import "strapline/calc/simplex"

// column is a column of the master problem: a board or a choice of what to cut.
type column struct {
	cost  float64
	rows  []int // rows of items; the convexity row is len(items)
	vals  []float64
	board *made   // nil for a choice
	want  *Wanted // nil for a board
}

// pool holds the columns in flat slices, because all of them are priced in every round.
type pool struct {
	columns []*column
	costs   []float64
	tolls   []int // index of each column's toll: whole and ripped for each stock size, then one of 0 for choices
	ends    []int // where each column's terms end
	terms   []term
}

// term is a column's coefficient in one row of the master problem.
type term struct {
	row int32
	val float64
}

func (m *master) put(c *column) {
	toll := 2 * len(m.p.Stock)
	if c.board != nil {
		if toll = 2 * c.board.stock; c.board.rip() {
			toll++
		}
	}
	p := &m.pool
	p.columns, p.costs, p.tolls = append(p.columns, c), append(p.costs, c.cost), append(p.tolls, toll)
	for k, i := range c.rows {
		p.terms = append(p.terms, term{int32(i), c.vals[k]})
	}
	p.ends = append(p.ends, len(p.terms))
}

// under returns the rows and values of the column, including those of the rules. They are valid until the
// next call.
func (m *master) under(c *column, rules []rule) ([]int, []float64) {
	m.rows, m.vals = append(m.rows[:0], c.rows...), append(m.vals[:0], c.vals...)
	for i, r := range rules {
		if c.board != nil && r.has(c.board.stock, c.board.rip()) {
			m.rows, m.vals = append(m.rows, len(m.p.Items)+1+i), append(m.vals, 1)
		}
	}
	return m.rows, m.vals
}

// entering is the number of columns brought into the basis between two passes over the pool.
const entering = 12

// cheap brings in the best columns that need no pricing problem: slack, surplus, and those in the pool. It
// reports whether any entered the basis.
func (m *master) cheap(lp *simplex.Program[*column], rules []rule) bool {
	n := len(m.p.Items)
	var in [entering]*column
	var gain [entering]float64
	found := 0
	offer := func(c *column, r float64) {
		at := found
		for at > 0 && gain[at-1] > r {
			at--
		}
		if at == entering {
			return
		}
		found = min(found+1, entering)
		copy(in[at+1:found], in[at:])
		copy(gain[at+1:found], gain[at:])
		in[at], gain[at] = c, r
	}
	for i, y := range lp.Y {
		sign := -1.0 // surplus: more of an item, or of a group, than required
		switch {
		case i == n:
			continue
		case i > n && !rules[i-n-1].least:
			sign = 1
		}
		if -sign*y < -1e-7 {
			offer(m.spare(i, sign), -sign*y)
		}
	}
	m.toll = m.toll[:0]
	for s := range m.p.Stock {
		t := toll(lp.Y[n+1:], rules, s)
		m.toll = append(m.toll, t[0], t[1])
	}
	m.toll = append(m.toll, 0)
	at := 0
	for k, end := range m.ends {
		r := m.costs[k] - m.toll[m.tolls[k]]
		for _, t := range m.terms[at:end] {
			r -= lp.Y[t.row] * t.val
		}
		if at = end; r < -1e-7 {
			offer(m.columns[k], r)
		}
	}
	m.work.Spend(int64(3*len(m.ends) + len(m.terms)))
	moved := false
	for _, c := range in[:found] {
		rows, vals := m.under(c, rules)
		if m.work.Steps > 0 && lp.Reduced(c.cost, rows, vals) < -1e-7 && lp.Enter(c, c.cost, rows, vals) {
			moved = true
			m.work.Spend(int64(lp.Rows()*lp.Rows()) / 3)
		}
	}
	return moved
}

// spare returns the surplus column (sign < 0) or slack column (sign > 0) of row i.
func (m *master) spare(i int, sign float64) *column {
	k := 2 * i
	if sign < 0 {
		k++
	}
	for len(m.spares) <= k {
		m.spares = append(m.spares, nil)
	}
	if m.spares[k] == nil {
		m.spares[k] = &column{rows: []int{i}, vals: []float64{sign}}
	}
	return m.spares[k]
}

// toll returns the sum of the rules' prices on a board of stock s, used whole and ripped. It is positive
// where a rule demands more of them.
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

// add puts the column in the pool if its reduced cost is negative.
func (m *master) add(lp *simplex.Program[*column], rules []rule, c *column) {
	rows, vals := m.under(c, rules)
	if lp.Reduced(c.cost, rows, vals) < -1e-7 {
		m.put(c)
	}
}

// offer puts a choice in the pool if its reduced cost is negative.
func (m *master) offer(lp *simplex.Program[*column], w *Wanted) {
	gain := w.Fee - lp.Y[len(w.Count)]
	for j, k := range w.Count {
		gain += lp.Y[j] * float64(k)
	}
	if gain < -1e-7 {
		m.put(choiceColumn(w))
	}
}

func choiceColumn(w *Wanted) *column {
	n := 1
	for _, k := range w.Count {
		if k > 0 {
			n++
		}
	}
	c := &column{cost: w.Fee, rows: make([]int, 1, n), vals: make([]float64, 1, n), want: w}
	c.rows[0], c.vals[0] = len(w.Count), 1
	for j, k := range w.Count {
		if k > 0 {
			c.rows = append(c.rows, j)
			c.vals = append(c.vals, -float64(k))
		}
	}
	return c
}

func boardColumn(b made) *column {
	n := len(b.pieces[0]) + len(b.pieces[1])
	c := &column{cost: float64(b.cost), board: &b, rows: make([]int, 0, n), vals: make([]float64, 0, n)}
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
