// Package simplex finds the minimum of a linear program by the revised simplex method (G. Dantzig and
// W. Orchard-Hays, 1953; from memory) with a dense inverse of the basis. It does not know the columns outside
// the basis: the caller prices them, so there may be more of them than could be listed.
package simplex

import (
	"math"
	"slices"
)

// Program is a program in equations, with a basis of columns C, one a row. All numbers are without a unit.
type Program[C any] struct {
	Basis []C
	X     []float64 // values of the basic columns, never negative
	Y     []float64 // dual prices of the rows
	cost  []float64 // of the basic columns
	inv   []float64 // the inverse of the basis, row by row
	d     []float64
}

// New returns a program of so many rows, whose basis is the identity; [Program.Set] sets the rest of it.
func New[C any](rows int) *Program[C] {
	s := &Program[C]{Basis: make([]C, rows), X: make([]float64, rows), Y: make([]float64, rows), cost: make([]float64, rows), inv: make([]float64, rows*rows), d: make([]float64, rows)}
	for i := range rows {
		s.inv[i*rows+i] = 1
	}
	return s
}

// Set makes c the basic column of row i, at that cost and with value x. y is the dual price of the row.
func (s *Program[C]) Set(i int, c C, cost, x, y float64) {
	s.Basis[i], s.cost[i], s.X[i], s.Y[i] = c, cost, x, y
}

// SetInverse sets one number of the inverse of the basis.
func (s *Program[C]) SetInverse(i, j int, v float64) { s.inv[i*len(s.X)+j] = v }

// Rows returns the number of rows.
func (s *Program[C]) Rows() int { return len(s.X) }

// Value returns the cost of the basic columns.
func (s *Program[C]) Value() (v float64) {
	for i, x := range s.X {
		v += s.cost[i] * x
	}
	return v
}

// Reduced returns the reduced cost of a column of that cost and those values in the rows; it gains if this is
// negative.
func (s *Program[C]) Reduced(cost float64, rows []int, vals []float64) float64 {
	r := cost
	for k, i := range rows {
		r -= s.Y[i] * vals[k]
	}
	return r
}

// Enter brings a column into the basis and reports whether it could.
func (s *Program[C]) Enter(c C, cost float64, rows []int, vals []float64) bool {
	m := len(s.X)
	red := s.Reduced(cost, rows, vals)
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
		q := s.X[i] / v
		if q < step-1e-12 || q <= step+1e-12 && out >= 0 && v > s.d[out] {
			out, step = i, min(q, step)
		}
	}
	if out < 0 {
		return false
	}
	step = max(s.X[out]/s.d[out], 0)
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
		s.X[i] = max(s.X[i]-v*step, 0)
	}
	s.X[out], s.Basis[out], s.cost[out] = step, c, cost
	for j, p := range pivot {
		s.Y[j] += red * p
	}
	return true
}

// With returns s with one more row, which its solution violates: the columns that count in it are to add up to
// total, at least if sign is 1, at most if it is -1. An artificial column of that cost makes up for what is in
// excess or missing. Storage is for the inverse, and may be nil; see [Program.Release].
func (s *Program[C]) With(counts func(C) bool, total, sign float64, artificial C, cost float64, storage []float64) *Program[C] {
	m, n := len(s.X), len(s.X)+1
	t := &Program[C]{Basis: append(slices.Clone(s.Basis), artificial), X: append(slices.Clone(s.X), total),
		Y: append(slices.Clone(s.Y), 0), cost: append(slices.Clone(s.cost), cost), d: make([]float64, n)}
	if storage != nil {
		t.inv = slices.Grow(storage[:0], n*n)[:n*n]
		clear(t.inv)
	} else {
		t.inv = make([]float64, n*n, (n+8)*(n+8))
	}
	row := t.inv[m*n:]
	row[m] = 1
	for i, c := range s.Basis {
		from := s.inv[i*m : (i+1)*m]
		copy(t.inv[i*n:], from)
		if counts(c) {
			t.X[m] -= s.X[i]
			for j, v := range from {
				row[j] -= v
			}
		}
	}
	t.X[m] = max(sign*t.X[m], 0)
	for j := range row {
		row[j] *= sign
		t.Y[j] += cost * row[j]
	}
	return t
}

// Release returns the storage of a program that is not used any more.
func (s *Program[C]) Release() []float64 { return s.inv }
