package frame

import (
	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
)

var _ = fold(func(r *Frame, e *history.Entry, b event.Boarded) { history.AddTo(r.walls, place.Surface(b.Wall), e, b) })

// Board returns the thickness of the board on wall w's framing at time t, 0 on bare framing and on an old
// finished wall, whose face never moves.
func (r *Frame) Board(w place.Wall, t int64) length.Length { return r.BoardOn(place.Surface(w), t) }

// BoardOn is Board for a wall or a notch's face. A face of which nothing was said is boarded when the wall
// behind it is.
func (r *Frame) BoardOn(s place.Surface, t int64) length.Length {
	b, e := r.wallAt(s, t)
	if e == nil || b.Finished {
		return 0
	}
	return b.Thick
}

func (r *Frame) wallAt(s place.Surface, t int64) (b event.Boarded, e *history.Entry) {
	b, e = r.walls[s].At(t)
	if _, faces := s.NotchOf(); e == nil && faces != "" {
		b, e = r.walls[place.Surface(faces.Opposite())].At(t)
	}
	return b, e
}

// BoardAt returns the thickness of the board at time t on what bounds surface s toward wall w: that wall,
// whose board takes more of a slope than its thickness; or at an outside corner the face around it, whose
// board makes s longer and so counts as less than 0.
func (r *Frame) BoardAt(s place.Surface, w place.Wall, t int64) length.Length {
	if beside, ok := r.Shell().Corner(s, w); ok {
		return -r.BoardOn(beside, t)
	}
	if s.SlopeTo() == w {
		return r.Shell().Up(s, r.Board(w, t))
	}
	return r.Board(w, t)
}

// BoardNow is Board at the present.
func (r *Frame) BoardNow(w place.Wall) length.Length { return r.Board(w, history.EndOfTime) }

// WallSaid returns what was last said about the face of a wall or a notch. e is nil if nothing was.
func (r *Frame) WallSaid(s place.Surface) (b event.Boarded, e *history.Entry) {
	return r.walls[s].Now()
}

// Finished reports whether a wall or a notch's face is an old finished one.
func (r *Frame) Finished(s place.Surface) bool {
	b, e := r.wallAt(s, history.EndOfTime)
	return e != nil && b.Finished
}

// fromWall returns the coordinate, to the framing, of a place measured d off the face that wall w had at
// time t.
func (r *Frame) fromWall(s place.Surface, w place.Wall, d length.Length, t int64) length.Length {
	return r.Shell().Line(s, w, d+r.BoardAt(s, w, t))
}
