package site

import (
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

var _ = onJob(func(s *State, e *Entry, b event.Board) { s.board = append(s.board, version[event.Board]{e, b}) })

// BoardNow returns the board of the job. What was never said is the usual sheet, 1/2 in by 48 in, with said
// false.
func (s *State) BoardNow() (b event.Board, said bool) { return s.boardAt(nil, "", EndOfTime) }

// BoardFor returns the board of a surface: what was said of it, else of the ceiling or the walls, of its room, or
// of the job.
func (r *Room) BoardFor(on place.Surface) (b event.Board, said bool) {
	return r.job.boardAt(r, on, EndOfTime)
}

// BoardsSaid returns the entries that say the board of a part of the job, with what they say, in order.
func (s *State) BoardsSaid() (all []event.Board) {
	for _, v := range s.board {
		if !v.e.Struck() && (v.v.Room != "" || v.v.On != "") {
			all = slices.DeleteFunc(all, func(b event.Board) bool { return b.Room == v.v.Room && b.On == v.v.On && v.v.Thick != 0 })
			all = append(all, v.v)
		}
	}
	return all
}

func (s *State) boardAt(r *Room, on place.Surface, t int64) (b event.Board, said bool) {
	walls := place.Surface("walls")
	part := walls
	if !on.Upright() {
		part = place.Ceiling
	}
	for i, scope := range []struct {
		room bool
		on   place.Surface
	}{{false, ""}, {false, part}, {true, ""}, {true, part}, {true, on}} {
		if r == nil && (scope.room || scope.on != "") || i == 4 && on == part {
			continue
		}
		var typ string
		of := length.Length(0)
		for _, v := range s.board {
			if v.e.Struck() || v.e.Sent > t || v.v.On != scope.on || (v.v.Room != "") != scope.room || scope.room && v.v.Room != r.Name {
				continue
			}
			if v.v.Thick != 0 {
				of = v.v.Thick
			}
			if v.v.Wide != 0 {
				b.Wide = v.v.Wide
			}
			if v.v.Type != "" {
				typ = v.v.Type
			}
			if v.v.Lengths != nil {
				b.Lengths = v.v.Lengths
			}
		}
		if of != 0 { // another board, of which only this was said
			b.Thick, b.Type, said = of, "", true
		}
		if typ != "" {
			b.Type = typ
		}
	}
	if b.Thick == 0 {
		b.Thick = length.Inch / 2
	}
	if b.Wide == 0 {
		b.Wide = 48 * length.Inch
	}
	return b, said
}

var _ = onJob(func(s *State, e *Entry, b event.Screw) { s.screw.add(e, b.L) })

// ScrewSet returns the length of the lead's screw, 0 if none is set.
func (s *State) ScrewSet() length.Length { v, _ := s.screw.now(); return v }

var _ = onJob(func(s *State, e *Entry, b event.Clearance) { s.clearance.add(e, b.L) })

// Clear returns how much narrower in all a cut is than its gap: 1/4 in unless set (common practice, no
// source).
func (s *State) Clear() length.Length {
	if v, e := s.clearance.now(); e != nil {
		return v
	}
	return length.Inch / 4
}

var _ = onJob(func(*State, *Entry, event.Gap) {})
