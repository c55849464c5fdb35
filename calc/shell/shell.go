// Package shell is the shape of a room: its framing, out of square or not, with the notches, slopes and
// bulkheads in it, and where the board on it ends. It knows nothing of when that was said.
//
// Lengths are exact (calc/length), places are on a surface and to the framing (calc/place).
package shell

import (
	"math"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// Room is the shell of a room as it stands.
type Room struct {
	EW, NS    length.Length              // from framing to framing
	High      length.Length              // of the walls, as said; 0 if it is not known
	HighTo    length.Length              // thickness of the ceiling's board that High was measured to
	Less      []event.Notch              // rectangles missing in plan
	Slopes    map[place.Wall]event.Slope // by the wall they come down to
	Bulkheads []event.Bulkhead
	Boards    map[place.Surface]length.Length // thickness of the board on each wall and notch's face, 0 on bare framing and if it is an old finished one
	Ends      map[place.Wall]length.Length    // the same of the walls, with the board to come on those that are boarded before the ceiling
	Over      length.Length                   // thickness of the ceiling's board, at which those of the walls end; 0 if they do not
	Leaning   *square.Room                    // its shape if it is out of square, see [square.Room.Along]
}

// Framing returns the room's extent from framing to framing.
func (r *Room) Framing() (ew, ns length.Length) { return r.EW, r.NS }

// noLimit is beyond any wall.
const noLimit length.Length = math.MaxInt64

// Shape returns the actual shape of the room, to the framing. ok is false, and the room a rectangle, if it is
// square or not known better.
func (r *Room) Shape() (shape square.Room, ok bool) {
	if r.Leaning == nil {
		return shape, false
	}
	return *r.Leaning, true
}

// Board returns the thickness of the board on wall w.
func (r *Room) Board(w place.Wall) length.Length { return r.Boards[place.Surface(w)] }

// boardAt returns the thickness of the board on what bounds surface s toward wall w: that wall, whose board
// takes more of a slope than its thickness; or at an outside corner the face around it, whose board makes s
// longer and so counts as less than 0.
func (r *Room) boardAt(s place.Surface, w place.Wall) length.Length {
	if beside, ok := r.Corner(s, w); ok {
		return -r.Boards[beside]
	}
	if s.SlopeTo() == w {
		return r.Up(s, r.Board(w))
	}
	return r.Board(w)
}
