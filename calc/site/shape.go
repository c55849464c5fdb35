package site

import (
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

var _ = inRoom(func(r *Room, e *Entry, b event.Square) { r.squares = append(r.squares, version[event.Square]{e, b}) })

// Squares returns the standing readings of the room's walls and diagonals that were taken to the faces
// that were there at time t.
func (r *Room) Squares(t int64) (all []event.Reading) {
	for _, v := range r.squares {
		if !v.e.Struck() && r.boards(v.e.Sent) == r.boards(t) {
			all = append(all, v.v.Readings...)
		}
	}
	return all
}

// boards returns the thickness of the board on each wall's framing at time t, in the order of place.Walls.
func (r *Room) boards(t int64) (by [4]length.Length) {
	for i, w := range place.Walls {
		by[i] = r.Board(w, t)
	}
	return by
}

// Unlike is how much readings of a room may differ from its noted size and still be of that room. Our own
// choice.
const Unlike = 3 * length.Inch

// Shape returns the actual shape of the room, to the framing: its four corners by the newest usable
// readings. It is turned so that the wall to which the first row of boards is hung is along its axis, and
// moved so that the least X and Y are 0. ok is false, and the room a rectangle, if the walls and a
// diagonal have not been read, if the readings do not close or are of a room of another size, or if the
// noted size is right to 1/16 in.
func (r *Room) Shape() (shape square.Room, ok bool) {
	c := r.workedOut()
	if c.shape == nil {
		c.shape = &shaped{} // empty while it is worked out, for the boards' direction
		c.shape = r.shaped()
	}
	return c.shape.Room, c.shape.ok
}

type shaped struct {
	square.Room
	ok bool
}

func (r *Room) shaped() *shaped {
	for i := len(r.squares) - 1; i >= 0; i-- {
		e := r.squares[i].e
		if e.Struck() {
			continue
		}
		var all []square.Reading
		for _, v := range r.Squares(e.Sent) {
			all = append(all, square.Reading{Line: square.Line(v.Line), L: v.L})
		}
		shape, err := square.Fit(all)
		if err != nil {
			continue
		}
		shape = shape.Wider(r.boards(e.Sent))
		return &shaped{shape.Along(r.straightest(shape)), shape.Check.Sound() && r.Fits(shape) && r.differs(shape)}
	}
	return &shaped{}
}

// straightest returns the wall to which the first row of the ceiling is hung.
func (r *Room) straightest(shape square.Room) place.Wall {
	run, known := r.BoardsRun(place.Ceiling)
	if !known {
		run = place.EW
	}
	return shape.Control(run, length.Foot).Wall
}

// differs reports whether a shape, to the framing, differs from the noted size by more than 1/16 in.
func (r *Room) differs(shape square.Room) bool {
	ew, ns := r.Framing()
	off := length.Length(0)
	for i, want := range [4]place.Point{{}, {X: ew}, {X: ew, Y: ns}, {Y: ns}} {
		c := shape.Corners[i]
		off = max(off, c.X-want.X, want.X-c.X, c.Y-want.Y, want.Y-c.Y)
	}
	return off > length.Sixteenth
}

// Fits reports whether a shape can be that of a room of the noted size.
func (r *Room) Fits(shape square.Room) bool {
	ew, ns := r.Framing()
	between := func(a, b square.Line, said length.Length) bool {
		x, y := shape.Measure(a), shape.Measure(b)
		return min(x, y)-Unlike <= said && said <= max(x, y)+Unlike
	}
	return between(square.North, square.South, ew) && between(square.West, square.East, ns)
}

// leans returns the shape of surface s. Only a ceiling's walls can be out of square.
func (r *Room) leans(s place.Surface) (shape square.Room, ok bool) {
	if s != place.Ceiling {
		return shape, false
	}
	return r.Shape()
}

// FromStart returns how far p is off the walls that its coordinates start from, to the framing. In a
// square room that is p itself.
func (r *Room) FromStart(s place.Surface, p place.Point) place.Point {
	if shape, ok := r.leans(s); ok {
		off := shape.Locate(p)
		return place.Point{X: off[3].L, Y: off[0].L} // west, north
	}
	return p
}

// Faces returns the shape of surface s between the present faces, without slopes and bulkheads at the
// walls. ok is false for a rectangle, see [Room.Clear].
func (r *Room) Faces(s place.Surface) (shape square.Room, ok bool) {
	if shape, ok = r.leans(s); !ok {
		return shape, false
	}
	var by [4]length.Length
	for i, w := range place.Walls {
		if by[i] = -r.inward(w); r.AllSlope() != "" { // nothing is left of the flat ceiling
			by[i] = -r.BoardNow(w)
		}
	}
	if by == [4]length.Length{} {
		return shape, true
	}
	return shape.Wider(by), true
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
	at := func(w place.Wall) length.Length { return r.fromFace(place.Ceiling, w, r.inward(w)) }
	return place.Rect{X0: at(place.West), Y0: at(place.North), X1: at(place.East), Y1: at(place.South)}
}
