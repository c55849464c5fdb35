package shell

import (
	"math"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// Unlike is how much readings of a room may differ from its noted size and still be of that room. Our own
// choice.
const Unlike = 3 * length.Inch

// Leans returns the shape of surface s. Only a ceiling's walls can be out of square.
func (r *Room) Leans(s place.Surface) (shape square.Room, ok bool) {
	if s != place.Ceiling {
		return shape, false
	}
	return r.Shape()
}

// FromStart returns how far p is off the walls that its coordinates start from, to the framing. In a
// square room that is p itself.
func (r *Room) FromStart(s place.Surface, p place.Point) place.Point {
	if shape, ok := r.Leans(s); ok {
		off := shape.Locate(p)
		return place.Point{X: off[3].L, Y: off[0].L} // west, north
	}
	if x, lean, ok := r.side(s, s.Start(place.X)); ok {
		p.X = round((float64(p.X) - x - lean*float64(p.Y)) / math.Hypot(1, lean))
	}
	return p
}

// Faces returns the shape of surface s between the present faces, without slopes and bulkheads at the
// walls. ok is false for a rectangle, see [Room.Clear].
func (r *Room) Faces(s place.Surface) (shape square.Room, ok bool) {
	if shape, ok = r.Leans(s); !ok {
		return shape, false
	}
	var move [4]length.Length
	for i, w := range place.Walls {
		if move[i] = -r.inward(w); r.AllSlope() != "" { // nothing is left of the flat ceiling
			move[i] = -r.Board(w)
		}
	}
	if move == [4]length.Length{} {
		return shape, true
	}
	return shape.Wider(move), true
}

// Within returns the extent along axis a of the part of surface s, between the present faces, whose other
// coordinate is from lo to hi: out to where the walls are farthest.
func (r *Room) Within(s place.Surface, a place.Axis, lo, hi length.Length) (from, to length.Length) {
	from, to = r.Clear(s).Span(a)
	for _, line := range r.Under(s) {
		p, q := line[0], line[1]
		if a == place.Y {
			to = min(to, max(lineOver(line, lo), lineOver(line, hi)))
			continue
		}
		over := p.X + length.Length(float64(q.X-p.X)*float64(lo-p.Y)/float64(q.Y-p.Y)) // where nothing is left of the row
		if q.Y > p.Y {
			from = max(from, min(over, to))
		} else {
			to = min(to, max(over, from))
		}
	}
	if c, ok := r.skew(s, r.Board); ok {
		on := func(p, q place.Point, v length.Length) length.Length { // where the line through both passes v
			other := a.Other()
			return p.On(a) + round(float64(q.On(a)-p.On(a))*float64(v-p.On(other))/float64(q.On(other)-p.On(other)))
		}
		if a == place.X {
			return max(from, min(on(c[0], c[3], lo), on(c[0], c[3], hi))), min(to, max(on(c[1], c[2], lo), on(c[1], c[2], hi)))
		}
		return from, min(to, max(on(c[3], c[2], lo), on(c[3], c[2], hi)))
	}
	shape, leans := r.Faces(s)
	if !leans {
		return from, to
	}
	start := s.Start(a)
	far := start.Opposite()
	return max(from, min(shape.At(start, 0, lo), shape.At(start, 0, hi))), min(to, max(shape.At(far, 0, lo), shape.At(far, 0, hi)))
}

// Middle returns the rectangle of the ceiling between the present faces, measured at the middle of each
// wall.
func (r *Room) Middle() place.Rect {
	at := func(w place.Wall) length.Length { return r.Line(place.Ceiling, w, r.inward(w)) }
	return place.Rect{X0: at(place.West), Y0: at(place.North), X1: at(place.East), Y1: at(place.South)}
}

// Fits reports whether a shape can be that of a room of the noted size.
func (r *Room) Fits(shape square.Room) bool {
	between := func(a, b square.Line, said length.Length) bool {
		x, y := shape.Measure(a), shape.Measure(b)
		return min(x, y)-Unlike <= said && said <= max(x, y)+Unlike
	}
	return between(square.North, square.South, r.EW) && between(square.West, square.East, r.NS)
}

// Differs reports whether a shape, to the framing, differs from the noted size by more than 1/16 in.
func (r *Room) Differs(shape square.Room) bool {
	off := length.Length(0)
	for i, want := range [4]place.Point{{}, {X: r.EW}, {X: r.EW, Y: r.NS}, {Y: r.NS}} {
		c := shape.Corners[i]
		off = max(off, c.X-want.X, want.X-c.X, c.Y-want.Y, want.Y-c.Y)
	}
	return off > length.Sixteenth
}
