package shell

import (
	"cmp"
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

// hold is a stretch off a wall, perpendicular to it and to the framing, from near to far. With no wall it
// is the whole room.
type hold struct {
	wall      place.Wall
	near, far length.Length
}

// part is the intersection of two holds in plan: a notch, or the place of a bulkhead. If the walls lean,
// its sides are parallel to them.
type part struct{ x, y hold }

func (p part) on(a place.Axis) hold {
	if a == place.X {
		return p.x
	}
	return p.y
}

// notchPart returns the place of a notch.
func notchPart(n event.Notch) part {
	if n.Corner != "" {
		p := part{hold{place.West, 0, n.EW}, hold{place.North, 0, n.NS}}
		if n.Corner[1] == 'e' {
			p.x.wall = place.East
		}
		if n.Corner[0] == 's' {
			p.y.wall = place.South
		}
		return p
	}
	if n.Wall.Along() == place.X {
		return part{hold{cmp.Or(n.From, place.West), n.Off, n.Off + n.EW}, hold{n.Wall, 0, n.NS}}
	}
	return part{hold{n.Wall, 0, n.EW}, hold{cmp.Or(n.From, place.North), n.Off, n.Off + n.NS}}
}

// notches returns the parts of the plan that the room's notches take.
func (r *Room) notches() []part {
	out := make([]part, 0, len(r.Less))
	for _, n := range r.Less {
		out = append(out, notchPart(n))
	}
	return out
}

// inside reports whether a point of the plan is strictly inside a part.
func (r *Room) inside(p part, at place.Point) bool { return r.holds(p.x, at) && r.holds(p.y, at) }

func (r *Room) holds(h hold, at place.Point) bool {
	off := r.offFraming(h.wall, at)
	return h.wall == "" || (h.near == 0 || h.near < off) && off < h.far
}

// rect returns the rectangle of the ceiling that a part takes, to the framing. If walls lean, it is the
// part taken all along its sides, so that no board beside it is planned short.
func (r *Room) rect(p part) place.Rect {
	x, y := r.Extent(place.Ceiling)
	q := place.Rect{X1: x, Y1: y}
	rough := place.Point{X: x / 2, Y: y / 2}
	q.X0, q.X1 = r.span(place.Ceiling, p.x, x, rough.Y, rough.Y)
	q.Y0, q.Y1 = r.span(place.Ceiling, p.y, y, q.X0, q.X1)
	q.X0, q.X1 = r.span(place.Ceiling, p.x, x, q.Y0, q.Y1)
	return q
}

// span returns the extent of a hold on surface s along its axis of length long, between the lines where
// the other coordinate is a and b.
func (r *Room) span(s place.Surface, h hold, long, a, b length.Length) (from, to length.Length) {
	if h.wall == "" {
		return 0, long
	}
	line := func(off length.Length) (lo, hi length.Length) {
		u, v := r.LineAt(s, h.wall, off, a), r.LineAt(s, h.wall, off, b)
		return min(u, v), max(u, v)
	}
	_, grows, _ := s.Axis(h.wall)
	if grows {
		_, from = line(h.near)
		to, _ = line(h.far)
	} else {
		_, from = line(h.far)
		to, _ = line(h.near)
	}
	switch {
	case h.near == 0 && grows:
		from = 0
	case h.near == 0:
		to = long
	}
	return from, to
}

// Overcut returns how much too long, at most, a piece beside a notch or a bulkhead is planned because its
// sides lean; 0 if none do.
func (r *Room) Overcut() (most length.Length) {
	if _, leans := r.Shape(); !leans {
		return 0
	}
	parts := r.notches()
	for _, b := range r.Bulkheads {
		if b.Off > 0 {
			parts = append(parts, bulkheadPart(b))
		}
	}
	for _, p := range parts {
		q := r.rect(p)
		for a, h := range [2]hold{p.x, p.y} {
			if h.wall == "" {
				continue
			}
			lo, hi := q.Span(place.Axis(a).Other())
			for _, off := range [2]length.Length{h.near, h.far} {
				d := r.LineAt(place.Ceiling, h.wall, off, lo) - r.LineAt(place.Ceiling, h.wall, off, hi)
				if off > 0 {
					most = max(most, d, -d)
				}
			}
		}
	}
	return most
}

// Notches returns the room's notches, to the framing.
func (r *Room) Notches() (out []place.Rect) {
	for _, p := range r.notches() {
		out = append(out, r.rect(p))
	}
	return out
}

// NotchOn reports whether a notch stands at wall w.
func (r *Room) NotchOn(w place.Wall) bool {
	return slices.ContainsFunc(r.notches(), func(p part) bool { return r.standsAt(p, w) })
}

// standsAt reports whether a part touches wall w.
func (r *Room) standsAt(p part, w place.Wall) bool {
	h := p.on(w.Along().Other())
	return h.wall == w && h.near == 0 || h.wall == w.Opposite() && h.far >= w.Deep(r.EW, r.NS)
}
