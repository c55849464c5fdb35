package site

import (
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// Square is a set of tape readings of a room's walls and diagonals, to the faces
// that are there when sent.
type Square struct {
	Room     string    `json:"room"`
	Readings []Reading `json:"readings"`
}

// Reading is one line of a room read once: a wall by its name, or "nw-se" or "ne-sw".
type Reading struct {
	Line string        `json:"line"`
	L    length.Length `json:"l"`
}

var _ = kind[Square]()

func (Square) Kind() string { return "square" }

func (b Square) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.squares = append(r.squares, version[Square]{e, b})
	return nil
}

// Squares are the readings of the room's walls and diagonals that stand and were taken to the faces
// that were there at t.
func (r *Room) Squares(t int64) (all []Reading) {
	for _, v := range r.squares {
		if !v.e.Struck() && r.boards(v.e.Sent) == r.boards(t) {
			all = append(all, v.v.Readings...)
		}
	}
	return all
}

// boards is the board in front of each wall's framing at t, in the order of place.Walls.
func (r *Room) boards(t int64) (by [4]length.Length) {
	for i, w := range place.Walls {
		by[i] = r.Board(w, t)
	}
	return by
}

// Unlike is how far readings of a room may be from its size as said and still be of that room: our own.
const Unlike = 3 * length.Inch

// Shape is the room as it really stands, to the framing: its four corners by the newest readings that make them, turned so
// that the wall lies along its axis that the first row of boards is hung to, and X and Y start at the least of its corners. ok is false
// where nobody has read the walls and a diagonal, the readings do not close or are of another room than its size, or its size as
// said is right to 1/16 in: then it is a rectangle.
func (r *Room) Shape() (shape square.Room, ok bool) {
	c := r.workedOut()
	if c.shape == nil {
		c.shape = &shaped{} // while it is worked out, for the way the boards run
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

// straightest is the wall that the first row of the ceiling is hung to.
func (r *Room) straightest(shape square.Room) place.Wall {
	run, known := r.BoardsRun(place.Ceiling)
	if !known {
		run = place.EW
	}
	return shape.Control(run, length.Foot).Wall
}

// differs reports whether a shape, to the framing, differs by more than 1/16 in from the size that was said.
func (r *Room) differs(shape square.Room) bool {
	ew, ns := r.Framing()
	off := length.Length(0)
	for i, want := range [4]place.Point{{}, {X: ew}, {X: ew, Y: ns}, {Y: ns}} {
		c := shape.Corners[i]
		off = max(off, c.X-want.X, want.X-c.X, c.Y-want.Y, want.Y-c.Y)
	}
	return off > length.Sixteenth
}

// Fits reports whether a shape is of a room of the size that was said.
func (r *Room) Fits(shape square.Room) bool {
	ew, ns := r.Framing()
	between := func(a, b square.Line, said length.Length) bool {
		x, y := shape.Measure(a), shape.Measure(b)
		return min(x, y)-Unlike <= said && said <= max(x, y)+Unlike
	}
	return between(square.North, square.South, ew) && between(square.West, square.East, ns)
}

// leans is the shape of surface s: only a ceiling's walls are not at right angles.
func (r *Room) leans(s place.Surface) (shape square.Room, ok bool) {
	if s != place.Ceiling {
		return shape, false
	}
	return r.Shape()
}

// FromStart is how far p is off the walls that its coordinates count from, to the framing: p itself where the walls stand at
// right angles.
func (r *Room) FromStart(s place.Surface, p place.Point) place.Point {
	if shape, ok := r.leans(s); ok {
		off := shape.Locate(p)
		return place.Point{X: off[3].L, Y: off[0].L} // west, north
	}
	return p
}

// Faces is the shape of surface s between the faces that are there now, slopes and bulkheads at the walls left out; ok is false for a rectangle, see [Room.Clear].
func (r *Room) Faces(s place.Surface) (shape square.Room, ok bool) {
	if shape, ok = r.leans(s); !ok {
		return shape, false
	}
	var by [4]length.Length
	for i, w := range place.Walls {
		if by[i] = -r.inward(w); r.AllSlope() != "" { // nothing is left of the ceiling itself
			by[i] = -r.BoardNow(w)
		}
	}
	if by == [4]length.Length{} {
		return shape, true
	}
	return shape.Wider(by), true
}

// Within is what of surface s, between the faces that are there now, lies along axis a of it from lo to hi on the other one: to
// where the walls are farthest out.
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

// Middle is the rectangle of the ceiling between the faces that are there now, taken half-way along each wall.
func (r *Room) Middle() place.Rect {
	at := func(w place.Wall) length.Length { return r.fromFace(place.Ceiling, w, r.inward(w)) }
	return place.Rect{X0: at(place.West), Y0: at(place.North), X1: at(place.East), Y1: at(place.South)}
}
