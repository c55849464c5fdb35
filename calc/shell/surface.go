package shell

import (
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// Surfaces returns the surfaces of the room, the ceiling first.
func (r *Room) Surfaces() []place.Surface {
	out := []place.Surface{place.Ceiling}
	for _, w := range place.Walls {
		out = append(out, place.Surface(w))
	}
	return append(out, r.shapes()...)
}

// Extent returns the size of a surface from framing to framing. A wall's height is 0 until it is known. If
// a ceiling's walls lean, it is the size of the bounding rectangle.
func (r *Room) Extent(s place.Surface) (x, y length.Length) {
	if c, ok := r.Skew(s); ok {
		return max(c[1].X, c[2].X), max(c[2].Y, c[3].Y)
	}
	if x, y, ok := r.shape(s); ok {
		return x, y
	}
	shape, leans := r.Shape()
	switch {
	case !s.IsWall():
		for _, c := range shape.Corners {
			x, y = max(x, c.X), max(y, c.Y)
		}
		if !leans {
			x, y = r.EW, r.NS
		}
		return x, y
	case leans:
		x = shape.Measure(square.Line(s))
	case s.DirectionOf(place.X) == place.NS:
		x = r.NS
	default:
		x = r.EW
	}
	return x, r.toFraming(r.wallHeight(place.Wall(s)))
}

// toFraming returns a height up to the ceiling as it was when the room's height was said, up to its
// framing; 0 if it is not known.
func (r *Room) toFraming(high length.Length) length.Length {
	if high == 0 {
		return 0
	}
	return high + r.HighTo
}

// FloorGap is the gap between boards and the floor (common practice, no source).
const FloorGap = length.Inch / 2

func (r *Room) between(s place.Surface) place.Rect {
	var q place.Rect
	if c := r.Outline(s); c != nil {
		return place.Rect{X0: min(c[0].X, c[3].X), Y0: min(c[0].Y, c[1].Y), X1: max(c[1].X, c[2].X), Y1: max(c[2].Y, c[3].Y)}
	}
	q.X1, q.Y1 = r.Extent(s)
	for _, w := range place.Walls {
		a, grows, ok := s.Axis(w)
		b := max(r.boardAt(s, w)-r.offset(s, w), 0)
		if s == place.Ceiling {
			b = r.inward(w)
		}
		switch {
		case !ok:
		case a == place.X && grows:
			q.X0 += b
		case a == place.X:
			q.X1 -= b
		case grows:
			q.Y0 += b
		default:
			q.Y1 -= b
		}
	}
	return q
}

// Clear returns the part of a surface that is boarded, between the present faces. The boards of a wall end
// under those of the ceiling, which go first (common practice, no source), and are kept off the floor.
func (r *Room) Clear(s place.Surface) place.Rect {
	q := r.between(s)
	if s.FromFloor() && q.Y1 > 0 {
		q.Y0 = FloorGap
		q.Y1 -= r.Over
	}
	return q
}

// Inside reports whether p is on surface s of the room, outside its notches. A wall of unknown height has
// no upper limit.
func (r *Room) Inside(s place.Surface, p place.Point) bool {
	w, h := r.Extent(s)
	shape, leans := r.Leans(s)
	if leans && !shape.Has(p) || p.X < 0 || p.X > w || p.Y < 0 || (h > 0 && p.Y > h) {
		return false
	}
	if leans {
		missing := r.notches()
		for _, b := range r.Bulkheads {
			missing = append(missing, bulkheadPart(b))
		}
		return !slices.ContainsFunc(missing, func(q part) bool { return r.inside(q, p) })
	}
	if a, lean, ok := r.side(s, s.Start(place.X)); ok {
		b, lean2, _ := r.side(s, s.Start(place.X).Opposite())
		y := float64(p.Y)
		return a+lean*y <= float64(p.X) && float64(p.X) <= b+lean2*y
	}
	if slices.ContainsFunc(r.Under(s), func(line [2]place.Point) bool { return p.Y > lineOver(line, p.X) }) {
		return false
	}
	return !slices.ContainsFunc(r.NotchesOn(s), func(q place.Rect) bool {
		return q.X0 < p.X && p.X < q.X1 && q.Y0 < p.Y && p.Y < q.Y1
	})
}

// NotchesOn returns the parts missing from surface s. A notch takes its part of the walls that it stands
// at, over their full height.
func (r *Room) NotchesOn(s place.Surface) []place.Rect {
	out := r.boxed(s)
	switch {
	case s == place.Ceiling:
		return append(out, r.Notches()...)
	case !s.IsWall():
		return nil
	}
	for _, q := range r.notches() {
		if w := place.Wall(s); r.standsAt(q, w) {
			x, _ := r.Extent(s)
			from, to := r.span(s, q.on(w.Along()), x, 0, 0)
			out = append(out, place.Rect{X0: from, X1: to, Y1: noLimit})
		}
	}
	return out
}

// Line returns the coordinate of a place d off the framing of wall w; if that leans, at its middle.
func (r *Room) Line(s place.Surface, w place.Wall, d length.Length) length.Length {
	a, _, _ := s.Axis(w)
	x, y := r.Extent(s)
	return r.LineAt(s, w, d, place.Point{X: x / 2, Y: y / 2}.On(a.Other()))
}

// LineAt returns the coordinate of the line d off the framing of wall w, at the other coordinate.
func (r *Room) LineAt(s place.Surface, w place.Wall, d, other length.Length) length.Length {
	a, grows, ok := s.Axis(w)
	if shape, leans := r.Leans(s); leans && ok {
		return shape.At(w, d, other)
	}
	if x, lean, ok := r.side(s, w); ok {
		off := float64(d) * math.Hypot(1, lean)
		if !grows {
			off = -off
		}
		return round(x + lean*float64(other) + off)
	}
	if !ok || grows {
		return d - r.offset(s, w)
	}
	x, y := r.Extent(s)
	if a == place.X {
		return x - d
	}
	return y - d
}

// Off returns how far p is off the present face of wall w.
func (r *Room) Off(s place.Surface, w place.Wall, p place.Point) length.Length {
	if s == place.Ceiling {
		return r.offFraming(w, p) - r.Board(w)
	}
	a, grows, _ := s.Axis(w)
	v := p.On(a)
	if x, lean, ok := r.side(s, w); ok {
		off := (float64(p.X) - x - lean*float64(p.Y)) / math.Hypot(1, lean)
		if !grows {
			off = -off
		}
		return round(off) - r.boardAt(s, w)
	}
	if grows {
		return v + r.offset(s, w) - r.boardAt(s, w)
	}
	return r.Line(s, w, 0) - v - r.boardAt(s, w)
}

// offFraming returns how far a point of the plan is off the framing of wall w.
func (r *Room) offFraming(w place.Wall, p place.Point) length.Length {
	a, grows, ok := place.Ceiling.Axis(w)
	if shape, leans := r.Shape(); leans && ok {
		return shape.Locate(p)[slices.Index(place.Walls[:], w)].L
	}
	if v := p.On(a); !grows {
		x, y := r.Extent(place.Ceiling)
		return place.Point{X: x, Y: y}.On(a) - v
	} else {
		return v
	}
}
