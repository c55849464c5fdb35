package site

import (
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

var _ = inRoom(func(r *Room, e *Entry, b event.Boarded) { addTo(r.walls, b.Wall, e, b) })

// Board returns the thickness of the board on wall w's framing at time t, 0 on bare framing and on an old
// finished wall, whose face never moves.
func (r *Room) Board(w place.Wall, t int64) length.Length {
	b, e := r.walls[w].at(t)
	if e == nil || b.Finished {
		return 0
	}
	return b.Thick
}

// BoardNow is Board at the present.
func (r *Room) BoardNow(w place.Wall) length.Length { return r.Board(w, EndOfTime) }

// WallSaid returns what was last said about wall w's face. e is nil if nothing was.
func (r *Room) WallSaid(w place.Wall) (b event.Boarded, e *Entry) { return r.walls[w].now() }

// Finished reports whether w is an old finished wall.
func (r *Room) Finished(w place.Wall) bool {
	b, e := r.walls[w].now()
	return e != nil && b.Finished
}

// fromWall returns the coordinate, to the framing, of a place measured d off the face that wall w had at
// time t.
func (r *Room) fromWall(s place.Surface, w place.Wall, d length.Length, t int64) length.Length {
	return r.fromFace(s, w, d+r.Board(w, t))
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
		return v + r.offset(s, w) - r.BoardNow(w)
	}
	return r.fromFace(s, w, 0) - v - r.BoardNow(w)
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
