package layout

import (
	"cmp"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// span is an interval.
type span struct{ lo, hi length.Length }

func (s span) size() length.Length { return s.hi - s.lo }

// box is a rectangle in plan coordinates: u along the boards, v across them from the side where the rows
// start.
type box struct{ u, v span }

// turn converts a rectangle of the surface to plan coordinates.
func (s *site) turn(r Rect) box {
	u, v := span{r.X, r.X + r.W}, span{r.Y, r.Y + r.H}
	if s.run == place.Y {
		u, v = v, u
	}
	if s.in.Far {
		v = span{s.cross - v.hi, s.cross - v.lo}
	}
	return box{u, v}
}

// back is the inverse of turn.
func (s *site) back(b box) Rect {
	v := s.backSpan(b.v)
	if s.run == place.Y {
		return Rect{v.lo, b.u.lo, v.size(), b.u.size()}
	}
	return Rect{b.u.lo, v.lo, b.u.size(), v.size()}
}

// backSpan converts an extent across the rows to surface coordinates.
func (s *site) backSpan(v span) span {
	if s.in.Far {
		return span{s.cross - v.hi, s.cross - v.lo}
	}
	return v
}

// column is a stretch of a row with a constant cross-section.
type column struct {
	u     span
	solid []span // what there is to board
}

func (c column) lo() length.Length { return c.solid[0].lo }
func (c column) hi() length.Length { return c.solid[len(c.solid)-1].hi }

// columns cuts the row at v into columns, without those that have nothing to board.
func columns(run, v span, holes []box) []column {
	edges := []length.Length{run.lo, run.hi}
	for _, h := range holes {
		if h.v.lo < v.hi && h.v.hi > v.lo {
			edges = append(edges, max(run.lo, min(run.hi, h.u.lo)), max(run.lo, min(run.hi, h.u.hi)))
		}
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	var out []column
	for i := range len(edges) - 1 {
		u := span{edges[i], edges[i+1]}
		var in []span
		for _, h := range holes {
			if h.u.lo <= u.lo && h.u.hi >= u.hi {
				in = append(in, h.v)
			}
		}
		if solid := less(v, in); len(solid) > 0 {
			out = append(out, column{u, solid})
		}
	}
	return out
}

// less returns s without cuts.
func less(s span, cuts []span) (left []span) {
	slices.SortFunc(cuts, func(a, b span) int { return cmp.Compare(a.lo, b.lo) })
	at := s.lo
	for _, c := range cuts {
		if c.lo > at {
			left = append(left, span{at, min(c.lo, s.hi)})
		}
		at = max(at, c.hi)
		if at >= s.hi {
			return left
		}
	}
	return append(left, span{at, s.hi})
}

// overlap returns the length that a and b have in common.
func overlap(a, b []span) (n length.Length) {
	for _, x := range a {
		for _, y := range b {
			n += max(0, min(x.hi, y.hi)-max(x.lo, y.lo))
		}
	}
	return n
}

// measure returns the area of the surface in square metres, and the length of its edge along walls.
func (s *site) measure() (area float64, edge length.Length) {
	inner := func(holes []box) (a float64, us [][]column, vs []span) {
		cuts := []length.Length{0, s.cross}
		for _, h := range holes {
			cuts = append(cuts, max(0, min(s.cross, h.v.lo)), max(0, min(s.cross, h.v.hi)))
		}
		slices.Sort(cuts)
		cuts = slices.Compact(cuts)
		for i := range len(cuts) - 1 {
			v := span{cuts[i], cuts[i+1]}
			cs := columns(span{0, s.length}, v, holes)
			for _, c := range cs {
				a += metres(c.u.size()) * metres(v.size())
			}
			us, vs = append(us, cs), append(vs, v)
		}
		return a, us, vs
	}
	area, _, _ = inner(append(slices.Clone(s.notches), s.openings...))
	_, us, vs := inner(s.notches)
	var before []span
	for i, cs := range us {
		var now []span
		for _, c := range cs {
			if n := len(now); n > 0 && now[n-1].hi == c.u.lo {
				now[n-1].hi = c.u.hi
			} else {
				now = append(now, c.u)
			}
		}
		edge += 2 * length.Length(len(now)) * vs[i].size()
		edge += total(before) + total(now) - 2*overlap(before, now)
		before = now
	}
	return area, edge + total(before)
}

func total(ss []span) (n length.Length) {
	for _, s := range ss {
		n += s.size()
	}
	return n
}

func metres(l length.Length) float64 { return float64(l) / float64(length.Metre) }
