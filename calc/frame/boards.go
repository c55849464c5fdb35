package frame

import (
	"cmp"
	"slices"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
)

// Boards is what was said of the board of a job and of its parts.
type Boards []history.Version[event.Board]

// BoardFor returns the board of a surface: what was said of it, else of the ceiling or the walls, of its room, or
// of the job.
func (r *Frame) BoardFor(on place.Surface) (b event.Board, said bool) {
	return r.board.At(r.Name, on, history.EndOfTime)
}

// Said returns the entries that say the board of a part of the job, with what they say, in order.
func (bs Boards) Said() (all []event.Board) {
	for _, v := range bs {
		if !v.E.Struck() && (v.V.Room != "" || v.V.On != "") {
			all = slices.DeleteFunc(all, func(b event.Board) bool { return b.Room == v.V.Room && b.On == v.V.On && v.V.Thick != 0 })
			all = append(all, v.V)
		}
	}
	return all
}

// At returns the board of a surface of a room at time t, or of the job if they are "". What was never said is the usual
// sheet, 1/2 in by 48 in, with said false.
func (bs Boards) At(room string, on place.Surface, t int64) (b event.Board, said bool) {
	walls := place.Surface("walls")
	part := walls
	if !on.Upright() {
		part = place.Ceiling
	}
	for i, scope := range []struct {
		room bool
		on   place.Surface
	}{{false, ""}, {false, part}, {true, ""}, {true, part}, {true, on}} {
		if room == "" && (scope.room || scope.on != "") || i == 4 && on == part {
			continue
		}
		var typ string
		of := length.Length(0)
		for _, v := range bs {
			if v.E.Struck() || v.E.Sent > t || v.V.On != scope.on || (v.V.Room != "") != scope.room || scope.room && v.V.Room != room {
				continue
			}
			if v.V.Thick != 0 {
				of = v.V.Thick
			}
			if v.V.Wide != 0 {
				b.Wide = v.V.Wide
			}
			if v.V.Type != "" {
				typ = v.V.Type
			}
			if v.V.Lengths != nil {
				b.Lengths = v.V.Lengths
			}
		}
		if of != 0 { // another board, of which only this was said
			b.Thick, b.Type, said = of, "", true
		}
		if typ != "" {
			b.Type = typ
		}
	}
	b.Thick = cmp.Or(b.Thick, length.Inch/2)
	b.Wide = cmp.Or(b.Wide, 48*length.Inch)
	return b, said
}
