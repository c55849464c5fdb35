package cutting

import (
	"math"
	"slices"
)

// simplex is a revised simplex for a minimum, with a dense inverse. It does not store columns outside the
// basis; the caller prices them.
type simplex struct {
	m     int
	inv   []float64 // m x m, the inverse of the basis
	x     []float64 // values of the basic columns
	basis []*column
	y     []float64 // dual prices of the rows
	d     []float64
}

// reduced returns the reduced cost of a column; it gains if this is negative.
func (s *simplex) reduced(cost float64, rows []int, vals []float64) float64 {
	r := cost
	for k, i := range rows {
		r -= s.y[i] * vals[k]
	}
	return r
}

// enter brings c into the basis, with the given rows and values, and reports whether it could.
func (s *simplex) enter(c *column, rows []int, vals []float64) bool {
	m := s.m
	red := s.reduced(c.cost, rows, vals)
	for i := range m {
		row, v := s.inv[i*m:(i+1)*m], 0.0
		for k, j := range rows {
			v += row[j] * vals[k]
		}
		s.d[i] = v
	}
	out, step := -1, math.Inf(1)
	for i, v := range s.d {
		if v < 1e-9 {
			continue
		}
		q := s.x[i] / v
		if q < step-1e-12 || q <= step+1e-12 && out >= 0 && v > s.d[out] {
			out, step = i, min(q, step)
		}
	}
	if out < 0 {
		return false
	}
	step = max(s.x[out]/s.d[out], 0)
	pivot := s.inv[out*m : (out+1)*m]
	for j := range pivot {
		pivot[j] /= s.d[out]
	}
	for i := range m {
		v := s.d[i]
		if i == out || v == 0 {
			continue
		}
		row := s.inv[i*m:][:len(pivot)]
		for j, p := range pivot {
			row[j] -= v * p
		}
		s.x[i] = max(s.x[i]-v*step, 0)
	}
	s.x[out] = step
	s.basis[out] = c
	for j, p := range pivot {
		s.y[j] += red * p
	}
	return true
}

// with returns s with one more rule, which its solution violates. An artificial column makes up for the
// boards in excess or missing.
func (p *master) with(s *simplex, r rule) *simplex {
	m, n := s.m, s.m+1
	t := &simplex{m: n, x: append(slices.Clone(s.x), float64(r.n)),
		basis: append(slices.Clone(s.basis), nil), y: append(slices.Clone(s.y), 0), d: make([]float64, n)}
	if last := len(p.used) - 1; last >= 0 {
		t.inv, p.used = slices.Grow(p.used[last][:0], n*n)[:n*n], p.used[:last]
		clear(t.inv)
	} else {
		t.inv = make([]float64, n*n, (n+8)*(n+8))
	}
	p.work.Spend(int64(2 * n * n))
	dear := p.dear()
	row := t.inv[m*n:]
	row[m] = 1
	for i, c := range s.basis {
		from := s.inv[i*m : (i+1)*m]
		copy(t.inv[i*n:], from)
		if c.board != nil && r.has(c.board.stock, c.board.rip()) {
			t.x[m] -= s.x[i]
			for j, v := range from {
				row[j] -= v
			}
		}
	}
	sign := 1.0
	if !r.least {
		sign = -1
	}
	t.x[m] = max(sign*t.x[m], 0)
	t.basis[m] = &column{cost: dear, rows: []int{m}, vals: []float64{sign}}
	for j := range row {
		row[j] *= sign
		t.y[j] += dear * row[j]
	}
	return t
}

func (s *simplex) value() (v float64) {
	for i, c := range s.basis {
		v += c.cost * s.x[i]
	}
	return v
}
