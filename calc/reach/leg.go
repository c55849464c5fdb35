package reach

import (
	"math"

	"strapline/calc/length"
	"strapline/calc/place"
)

// leg is a straight part of a run in the directions of a support, u along it and v across
// it, in nanometres. A float64 has ample precision at the size of a building, and legs along
// an axis are exact.
type leg struct{ a, b uv }

type uv struct{ u, v float64 }

// legs splits the path into legs. A single point makes a leg of length 0.
func (run Run) legs(axis place.Axis) []leg {
	to := func(p place.Point) uv {
		if axis == place.Y {
			return uv{float64(p.Y), float64(p.X)}
		}
		return uv{float64(p.X), float64(p.Y)}
	}
	if len(run.Path) == 1 {
		return []leg{{to(run.Path[0]), to(run.Path[0])}}
	}
	var legs []leg
	for i := 1; i < len(run.Path); i++ {
		legs = append(legs, leg{to(run.Path[i-1]), to(run.Path[i])})
	}
	return legs
}

// along reports whether the leg goes more along the support than across it.
func (l leg) along() bool { return math.Abs(l.b.u-l.a.u) > math.Abs(l.b.v-l.a.v) }

// across finds the stretch of a support's face, widened by beside on both edges, that the
// leg touches with its full width.
func (l leg) across(s place.Support, half, beside length.Length) (stretch, bool) {
	at, w, h := float64(s.Pos), float64(s.Wide)/2, max(float64(half), 0)
	lo, hi, ok := l.span(h, at, w+float64(beside))
	from, to := float64(s.From), float64(s.To)
	if !ok || hi < from || lo > to {
		return stretch{}, false
	}
	lo, hi = max(lo, from), min(hi, to)
	mid, ok := l.meets(at, lo, hi)
	if !ok {
		mid = (lo + hi) / 2
	}
	return stretch{lo: nm(lo), hi: nm(hi), mid: nm(mid), along: l.along()}, true
}

func nm(x float64) length.Length { return length.Length(math.Round(x)) }

// span is the range of u in which the body of the leg (all points within h of it) overlaps
// the band of v within w of at. Both are convex, so it is a single range. Its ends are
// extremes of the body's round caps within the band, or points where the body's outline
// meets an edge of the band.
func (l leg) span(h, at, w float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	add := func(u float64) { lo, hi, ok = min(lo, u), max(hi, u), true }
	long := math.Hypot(l.b.u-l.a.u, l.b.v-l.a.v)
	for _, end := range [2]uv{l.a, l.b} {
		if math.Abs(end.v-at) <= w {
			add(end.u - h)
			add(end.u + h)
		}
	}
	for _, edge := range [2]float64{at - w, at + w} {
		for _, end := range [2]uv{l.a, l.b} {
			if d := math.Abs(edge - end.v); d <= h {
				half := math.Sqrt((h - d) * (h + d))
				add(end.u - half)
				add(end.u + half)
			}
		}
		if long == 0 {
			continue
		}
		for _, side := range [2]float64{-h, h} {
			nu, nv := -side*(l.b.v-l.a.v)/long, side*(l.b.u-l.a.u)/long
			a, b := uv{l.a.u + nu, l.a.v + nv}, uv{l.b.u + nu, l.b.v + nv}
			if (a.v-edge)*(b.v-edge) > 0 {
				continue
			}
			if a.v == b.v {
				add(a.u)
				add(b.u)
				continue
			}
			add(a.u + (b.u-a.u)*(edge-a.v)/(b.v-a.v))
		}
	}
	return lo, hi, ok
}

// meets is the u at which the leg crosses the line v = at. ok is false if that is not
// between lo and hi, or the leg is parallel to the line.
func (l leg) meets(at, lo, hi float64) (u float64, ok bool) {
	if l.a.v == l.b.v || (l.a.v-at)*(l.b.v-at) > 0 {
		return 0, false
	}
	u = l.a.u + (l.b.u-l.a.u)*(at-l.a.v)/(l.b.v-l.a.v)
	return u, lo <= u && u <= hi
}
