package site

import (
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

var _ = inRoom(func(r *Room, e *Entry, b event.Boarded) { addTo(r.walls, place.Surface(b.Wall), e, b) })

// Board returns the thickness of the board on wall w's framing at time t, 0 on bare framing and on an old
// finished wall, whose face never moves.
func (r *Room) Board(w place.Wall, t int64) length.Length { return r.BoardOn(place.Surface(w), t) }

// BoardOn is Board for a wall or a notch's face. A face of which nothing was said is boarded when the wall
// behind it is.
func (r *Room) BoardOn(s place.Surface, t int64) length.Length {
	b, e := r.wallAt(s, t)
	if e == nil || b.Finished {
		return 0
	}
	return b.Thick
}

func (r *Room) wallAt(s place.Surface, t int64) (b event.Boarded, e *Entry) {
	b, e = r.walls[s].at(t)
	if _, faces := s.NotchOf(); e == nil && faces != "" {
		b, e = r.walls[place.Surface(faces.Opposite())].at(t)
	}
	return b, e
}

// BoardAt returns the thickness of the board at time t on what bounds surface s toward wall w: that wall, or
// at an outside corner the face around it, whose board makes s longer and so counts as less than 0.
func (r *Room) BoardAt(s place.Surface, w place.Wall, t int64) length.Length {
	if beside, ok := r.corner(s, w); ok {
		return -r.BoardOn(beside, t)
	}
	return r.Board(w, t)
}

// BoardNow is Board at the present.
func (r *Room) BoardNow(w place.Wall) length.Length { return r.Board(w, EndOfTime) }

// WallSaid returns what was last said about the face of a wall or a notch. e is nil if nothing was.
func (r *Room) WallSaid(s place.Surface) (b event.Boarded, e *Entry) { return r.walls[s].now() }

// Finished reports whether a wall or a notch's face is an old finished one.
func (r *Room) Finished(s place.Surface) bool {
	b, e := r.wallAt(s, EndOfTime)
	return e != nil && b.Finished
}

// fromWall returns the coordinate, to the framing, of a place measured d off the face that wall w had at
// time t.
func (r *Room) fromWall(s place.Surface, w place.Wall, d length.Length, t int64) length.Length {
	return r.fromFace(s, w, d+r.BoardAt(s, w, t))
}

// fromFace returns the coordinate of a place d off the framing of wall w; if that leans, at its middle.
func (r *Room) fromFace(s place.Surface, w place.Wall, d length.Length) length.Length {
	a, _, _ := s.Axis(w)
	x, y := r.Extent(s)
	return r.lineAt(s, w, d, place.Point{X: x / 2, Y: y / 2}.On(a.Other()))
}

// lineAt returns the coordinate of the line d off the framing of wall w, at the other coordinate.
func (r *Room) lineAt(s place.Surface, w place.Wall, d, other length.Length) length.Length {
	a, grows, ok := s.Axis(w)
	if shape, leans := r.leans(s); leans && ok {
		return shape.At(w, d, other)
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
		return r.offFraming(w, p) - r.BoardNow(w)
	}
	a, grows, _ := s.Axis(w)
	v := p.On(a)
	if grows {
		return v + r.offset(s, w) - r.BoardAt(s, w, EndOfTime)
	}
	return r.fromFace(s, w, 0) - v - r.BoardAt(s, w, EndOfTime)
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
