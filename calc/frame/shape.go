package frame

import (
	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/shell"
	"strapline/calc/square"
)

var _ = fold(func(r *Frame, e *history.Entry, b event.Square) {
	r.squares = append(r.squares, history.Of(e, b))
})

// Squares returns the standing readings of the room's walls and diagonals that were taken to the faces
// that were there at time t.
func (r *Frame) Squares(t int64) (all []event.Reading) {
	for _, v := range r.squares {
		if !v.E.Struck() && r.boards(v.E.Sent) == r.boards(t) {
			all = append(all, v.V.Readings...)
		}
	}
	return all
}

// boards returns the thickness of the board on each wall's framing at time t, in the order of place.Walls.
func (r *Frame) boards(t int64) (by [4]length.Length) {
	for i, w := range place.Walls {
		by[i] = r.Board(w, t)
	}
	return by
}

// leaning returns the actual shape of a room of shell sh, to the framing: its four corners by the newest
// usable readings. It is turned so that the wall to which the first row of boards is hung is along its axis,
// and moved so that the least X and Y are 0. It is nil, and the room a rectangle, if the walls and a
// diagonal have not been read, if the readings do not close or are of a room of another size, or if the
// noted size is right to 1/16 in.
func (r *Frame) leaning(sh *shell.Room) *square.Room {
	for i := len(r.squares) - 1; i >= 0; i-- {
		e := r.squares[i].E
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
		if !shape.Check.Sound() || !sh.Fits(shape) || !sh.Differs(shape) {
			return nil
		}
		shape = shape.Along(r.straightest(shape))
		return &shape
	}
	return nil
}

// straightest returns the wall to which the first row of the ceiling is hung.
func (r *Frame) straightest(shape square.Room) place.Wall {
	run, known := r.BoardsRun(place.Ceiling)
	if !known {
		run = place.EW
	}
	return shape.Control(run, length.Foot).Wall
}

var _ = fold(func(r *Frame, e *history.Entry, b event.Slope) { history.AddTo(r.slopes, b.Wall, e, b) })

var _ = fold(func(r *Frame, e *history.Entry, b event.Bulkhead) {
	history.AddTo(r.bulkheads, beam{b.Wall, b.N}, e, b)
})

// beam identifies a bulkhead: the n-th along a wall.
type beam struct {
	wall place.Wall
	n    int
}
