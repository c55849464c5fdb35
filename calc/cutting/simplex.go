package cutting

import "math"

// simplex is a minimising revised simplex with a dense inverse. Columns are
// not kept: whoever prices them finds them again.
type simplex struct {
	m     int
	inv   []float64 // m x m, the inverse of the basis
	x     []float64 // value of the basic columns
	basis []column
	y     []float64 // prices of the rows
	d     []float64
}

func (s *simplex) reduced(c column) float64 {
	r := c.cost
	for k, i := range c.rows {
		r -= s.y[i] * c.vals[k]
	}
	return r
}

// enter brings c into the basis and reports whether it could.
func (s *simplex) enter(c column) bool {
	m := s.m
	red := s.reduced(c)
	for i := range m {
		row, v := s.inv[i*m:(i+1)*m], 0.0
		for k, j := range c.rows {
			v += row[j] * c.vals[k]
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
		row := s.inv[i*m : (i+1)*m]
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

func (s *simplex) value() (v float64) {
	for i, c := range s.basis {
		v += c.cost * s.x[i]
	}
	return v
}
