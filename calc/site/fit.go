package site

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Holds reports whether a hole of that size at p lies whole on surface s of the
// room, notches left out, as far as a tape shows. One without a size is its centre.
func (r *Room) Holds(s place.Surface, p place.Point, size place.Size) bool {
	const shows = length.Sixteenth / 2
	for _, w := range place.Walls {
		if a, _, ok := s.Axis(w); ok && size.Half(a)-r.Off(s, w, p) > shows {
			return false
		}
	}
	hx, hy := size.Half(place.X), size.Half(place.Y)
	if _, h := r.Extent(s); s.Upright() && (p.Y-hy < -shows || h > 0 && p.Y+hy > h+shows) {
		return false
	}
	return !slices.ContainsFunc(r.NotchesOn(s), func(q place.Rect) bool {
		return min(q.X1, p.X+hx)-max(q.X0, p.X-hx) > shows && min(q.Y1, p.Y+hy)-max(q.Y0, p.Y-hy) > shows
	})
}

// Bearing are the supports of surface s as boards lie on them: those that a notch
// takes a part of are there on both sides of it. The studs that a rough opening takes
// are made up for by those at its sides.
func (r *Room) Bearing(s place.Surface) []place.Support {
	out := r.Supports(s)
	for _, q := range r.NotchesOn(s) {
		var parts []place.Support
		for _, p := range out {
			lo, hi := q.Span(p.Lie.Other())
			from, to := q.Span(p.Lie)
			if p.Pos <= lo || p.Pos >= hi || to <= p.From || from >= p.To {
				parts = append(parts, p)
				continue
			}
			before, after := p, p
			before.To, after.From = from, to
			for _, part := range []place.Support{before, after} {
				if part.From < part.To {
					parts = append(parts, part)
				}
			}
		}
		out = parts
	}
	return out
}
