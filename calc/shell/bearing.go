package shell

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Holds reports whether a hole of that size at p is completely on surface s of the room, outside its
// notches, to the precision of a tape. A hole without a size counts as its centre.
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

// Bearing returns the supports set of surface s as they carry boards: those interrupted by a notch, a rough
// opening or a large hole are split in two, and a rough opening has framing at its sides.
func (r *Room) Bearing(s place.Surface, set []place.Support, openings, holes []place.Rect) []place.Support {
	if len(set) == 0 {
		return nil
	}
	out, first := slices.Clone(set), set[0]
	for _, q := range slices.Concat(r.NotchesOn(s), openings, holes) {
		out = without(out, q)
	}
	for _, line := range r.Under(s) { // studs under a slope end at it
		for i, p := range out {
			if p.Lie == place.Y {
				out[i].To = min(p.To, lineOver(line, p.Pos))
			}
		}
		out = slices.DeleteFunc(out, func(p place.Support) bool { return p.To <= p.From })
	}
	for _, q := range openings {
		lo, hi := q.Span(first.Lie.Other())
		for _, pos := range [2]length.Length{lo - sideFraming/2, hi + sideFraming/2} {
			side := first
			side.N, side.Pos, side.Wide, side.Measured = 0, pos, sideFraming, false
			side.From, side.To = q.Span(first.Lie)
			stands := func(p place.Support) bool {
				return max(p.Pos-pos, pos-p.Pos) < (p.Wide+sideFraming)/2 && p.From <= side.From && p.To >= side.To
			}
			if !slices.ContainsFunc(out, stands) { // a stud noted right there is the framing of that side
				out = append(out, side)
			}
		}
	}
	return out
}

// sideFraming is the face of the stud or joist at the side of a rough opening (common practice, no
// source).
const sideFraming = 3 * length.Inch / 2

// without returns supports without the parts whose centre line is in q.
func without(set []place.Support, q place.Rect) (out []place.Support) {
	for _, p := range set {
		lo, hi := q.Span(p.Lie.Other())
		from, to := q.Span(p.Lie)
		if p.Pos <= lo || p.Pos >= hi || to <= p.From || from >= p.To {
			out = append(out, p)
			continue
		}
		before, after := p, p
		before.To, after.From = from, to
		for _, part := range []place.Support{before, after} {
			if part.From < part.To {
				out = append(out, part)
			}
		}
	}
	return out
}
