package site

import (
	"cmp"
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// Plane is one surface of one room, the unit of planning, hanging and counting.
type Plane struct {
	Room    *Room
	Surface place.Surface
}

// surface holds everything said about one surface of a room.
type surface struct {
	sets      map[place.SupportKind]*supportSet
	hung      []version[event.Hung]
	boardsRun versions[string]
	rowsFrom  versions[place.Wall]
	pick      versions[int]
}

func (r *Room) surface(s place.Surface) *surface {
	sf := r.surfaces[s]
	if sf == nil {
		sf = &surface{sets: map[place.SupportKind]*supportSet{}}
		r.surfaces[s] = sf
	}
	return sf
}

// on returns what was said about surface s, empty if nothing.
func (r *Room) on(s place.Surface) *surface {
	if sf := r.surfaces[s]; sf != nil {
		return sf
	}
	return &surface{}
}

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
	if x, y, ok := r.shape(s); ok {
		return x, y
	}
	ew, ns := r.Framing()
	shape, leans := r.Shape()
	switch {
	case !s.IsWall():
		for _, c := range shape.Corners {
			x, y = max(x, c.X), max(y, c.Y)
		}
		if !leans {
			x, y = ew, ns
		}
		return x, y
	case leans:
		x = shape.Measure(square.Line(s))
	case s.DirectionOf(place.X) == place.NS:
		x = ns
	default:
		x = ew
	}
	return x, r.toFraming(r.wallHeight(place.Wall(s)))
}

// toFraming returns a height up to the ceiling as it was when the room's height was said, up to its
// framing; 0 if it is not known.
func (r *Room) toFraming(high length.Length) length.Length {
	if high == 0 {
		return 0
	}
	_, e := r.size.now()
	return high + r.CeilingFace(e.Sent)
}

// CeilingFace returns the thickness of the board on the ceiling at time t, 0 if none hung.
func (r *Room) CeilingFace(t int64) length.Length {
	var first *Entry
	for _, h := range r.on(place.Ceiling).hung {
		if h.e.Sent <= t && !h.e.Struck() && (first == nil || h.e.before(first)) {
			first = h.e
		}
	}
	if first == nil {
		return 0
	}
	b, _ := r.job.boardAt(first.Sent)
	return b.Thick
}

// FloorGap is the gap between boards and the floor (common practice, no source).
const FloorGap = length.Inch / 2

func (r *Room) faces(s place.Surface) place.Rect {
	var q place.Rect
	if shape, leans := r.Faces(s); leans {
		c := shape.Corners
		return place.Rect{X0: min(c[0].X, c[3].X), Y0: min(c[0].Y, c[1].Y), X1: max(c[1].X, c[2].X), Y1: max(c[2].Y, c[3].Y)}
	}
	q.X1, q.Y1 = r.Extent(s)
	for _, w := range place.Walls {
		a, grows, ok := s.Axis(w)
		b := max(r.BoardAt(s, w, EndOfTime)-r.offset(s, w), 0)
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
	q := r.faces(s)
	if s.FromFloor() && q.Y1 > 0 {
		q.Y0 = FloorGap
		q.Y1 -= r.overWalls()
	}
	return q
}

// overWalls returns the thickness of the board, present or future, on the ceiling, at which the walls'
// boards end; 0 if the walls go first.
func (r *Room) overWalls() length.Length {
	if r.WallsFirst() {
		return 0
	}
	b, _ := r.job.BoardNow()
	return cmp.Or(r.CeilingFace(EndOfTime), b.Thick)
}

// Openings returns the rough openings in the framing of surface s, to the framing.
func (r *Room) Openings(s place.Surface) []place.Rect {
	var out []place.Rect
	for _, t := range r.Framed {
		if v, e := t.Now(); e != nil && v.Framed && v.Surface == s {
			out = append(out, v.Size.At(t.At()))
		}
	}
	return out
}

// Inside reports whether p is on surface s of the room, outside its notches. A wall of unknown height has
// no upper limit.
func (r *Room) Inside(s place.Surface, p place.Point) bool {
	w, h := r.Extent(s)
	shape, leans := r.leans(s)
	if leans && !shape.Has(p) || p.X < 0 || p.X > w || p.Y < 0 || (h > 0 && p.Y > h) {
		return false
	}
	if leans {
		missing := r.notches()
		for _, b := range r.Bulkheads() {
			missing = append(missing, bulkheadPart(b))
		}
		return !slices.ContainsFunc(missing, func(q part) bool { return r.inside(q, p) })
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
			out = append(out, place.Rect{X0: from, X1: to, Y1: EndOfTime})
		}
	}
	return out
}
