package shell

import (
	"cmp"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// notchNames returns the name of each of the room's notches: its corner, or the wall it stands at, with an
// ordinal from the second one there.
func (r *Room) notchNames() (out []string) {
	at := map[string]int{}
	for _, n := range r.Less {
		name := cmp.Or(n.Corner, string(n.Wall))
		out = append(out, place.Nth(min(at[name], len(place.Ordinals)-1), name))
		at[name]++
	}
	return out
}

// notchFace is an upright side of a notch, in plan.
type notchFace struct {
	part
	is   place.Surface
	wall place.Wall    // the wall of the room behind it, which it faces away from
	deep length.Length // how far it is off that wall, framing to framing
}

// notchFaces returns the sides of the room's notches that are no part of a wall.
func (r *Room) notchFaces() (out []notchFace) {
	names := r.notchNames()
	for i, p := range r.notches() {
		for _, w := range place.Walls {
			h := p.on(w.Along().Other())
			all := w.Deep(r.EW, r.NS)
			deep := h.far
			if h.wall != w {
				deep = all - h.near
			}
			f := notchFace{p, place.NotchFace(names[i], w.Opposite()), w, deep}
			if 0 < deep && deep < all && !slices.ContainsFunc(out, func(o notchFace) bool { return o.is == f.is }) {
				out = append(out, f)
			}
		}
	}
	return out
}

// faceOf returns the notch's face that is surface s.
func (r *Room) faceOf(s place.Surface) (f notchFace, ok bool) {
	if _, faces := s.NotchOf(); faces == "" {
		return f, false
	}
	all := r.notchFaces()
	if i := slices.IndexFunc(all, func(f notchFace) bool { return f.is == s }); i >= 0 {
		return all[i], true
	}
	return f, false
}

// span returns the face's extent along its wall, off the wall that its X grows from.
func (f notchFace) span(r *Room) (from, to length.Length) {
	h, start := f.on(f.wall.Along()), f.is.Start(place.X)
	all := start.Deep(r.EW, r.NS)
	if from, to = h.near, min(h.far, all); h.wall != start {
		from, to = all-to, all-from
	}
	return max(from, 0), to
}

// Corner returns the other face of the notch that surface s meets in an outside corner at its end toward
// wall w. ok is false if s ends there at the wall itself.
func (r *Room) Corner(s place.Surface, w place.Wall) (beside place.Surface, ok bool) {
	f, ok := r.faceOf(s)
	if _, _, bounds := s.Axis(w); !ok || !bounds || r.standsAt(f.part, w) {
		return "", false
	}
	name, _ := s.NotchOf()
	return place.NotchFace(name, w), true
}

// OfNotch reports whether a distance off the notch toward w means anything on surface s, seen from at: off
// a face that stands there or, on a face, off its own outside corner.
func (r *Room) OfNotch(s place.Surface, w place.Wall, at place.Point) bool {
	_, _, ok := r.SaidOff(s, w, at)
	return ok || r.FromCorner(s, w) > 0
}

// FromCorner returns how far the end of surface s toward wall w is off that wall's framing; 0 unless it is
// an outside corner of a notch.
func (r *Room) FromCorner(s place.Surface, w place.Wall) length.Length {
	if _, ok := r.Corner(s, w); !ok {
		return 0
	}
	f, _ := r.faceOf(s)
	from, to := f.span(r)
	if w == s.Start(place.X) {
		return from
	}
	return w.Deep(r.EW, r.NS) - to
}

// NotchToward returns the face of a notch between a place on surface s and wall w, which on a wall is in
// the corner of the two, and how far that face is off w.
func (r *Room) NotchToward(s place.Surface, w place.Wall, at place.Point) (face place.Surface, deep length.Length, ok bool) {
	for _, f := range r.facesToward(s, w, at) {
		if (r.standsAt(f.part, w) || f.deep <= r.offFraming(w, at)) && f.deep > deep {
			face, deep, ok = f.is, f.deep, true
		}
	}
	return face, deep, ok
}

// SaidOff is [Room.NotchToward] for a distance said to be off a notch, while only the coordinate of at
// across it may be known: the only notch there.
func (r *Room) SaidOff(s place.Surface, w place.Wall, at place.Point) (face place.Surface, deep length.Length, ok bool) {
	if all := r.facesToward(s, w, at); len(all) == 1 {
		return all[0].is, all[0].deep, true
	}
	return r.NotchToward(s, w, at)
}

// facesToward returns the faces of notches that are met on the way to wall w along a line through at, or
// on a wall along its foot.
func (r *Room) facesToward(s place.Surface, w place.Wall, at place.Point) (out []notchFace) {
	if s != place.Ceiling && !s.IsWall() {
		return nil
	}
	for _, f := range r.notchFaces() {
		between := r.holds(f.on(w.Along()), at)
		if s.IsWall() {
			between = r.standsAt(f.part, place.Wall(s))
		}
		if f.wall == w && between {
			out = append(out, f)
		}
	}
	return out
}

// faceHeight returns how high a notch's face is, to the framing over it, and 0 if that is not known: its
// room's height, less what a slope or a bulkhead along it takes there.
func (r *Room) faceHeight(f notchFace) length.Length {
	high := r.roomHeight()
	if high == 0 {
		return 0
	}
	for _, w := range [2]place.Wall{f.wall, f.wall.Opposite()} {
		off := f.deep
		if w != f.wall {
			off = f.wall.Deep(r.EW, r.NS) - f.deep
		}
		if b, ok := r.SlopeTo(w); ok && off < b.Over {
			high = min(high, b.Low+length.Length(float64(b.High-b.Low)*float64(off)/float64(b.Over)))
		}
		for _, b := range r.Bulkheads {
			if b.Wall == w && b.Off < off && off < b.Off+b.Wide {
				high -= b.Drop
			}
		}
	}
	return max(high, 0)
}

// startOf returns how far the start of upright surface s is off the wall that its X grows from.
func (r *Room) startOf(s place.Surface) length.Length {
	f, ok := r.faceOf(s)
	if !ok {
		return 0
	}
	from, _ := f.span(r)
	return from
}

// Front returns the wall or the notch's face that f is a distance off, seen from at.
func (r *Room) Front(s place.Surface, f place.Fix, at place.Point) place.Surface {
	if face, _, ok := r.SaidOff(s, f.Wall, at); ok && f.Notch {
		return face
	}
	if beside, ok := r.Corner(s, f.Wall); ok {
		return beside
	}
	return place.Surface(f.Wall)
}
