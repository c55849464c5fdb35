package site

import (
	"strapline/calc/event"
	"strapline/calc/length"
)

var _ = onJob(func(s *State, e *Entry, b event.Board) { s.board = append(s.board, version[event.Board]{e, b}) })

// BoardNow returns the board in use. What was never said is the usual sheet, 1/2 in by 48 in, with said
// false.
func (s *State) BoardNow() (b event.Board, said bool) { return s.boardAt(EndOfTime) }

func (s *State) boardAt(t int64) (b event.Board, said bool) {
	for _, v := range s.board {
		if v.e.Struck() || v.e.Sent > t {
			continue
		}
		if v.v.Thick != 0 {
			b.Thick, said = v.v.Thick, true
		}
		if v.v.Wide != 0 {
			b.Wide = v.v.Wide
		}
		if v.v.Type != "" {
			b.Type = v.v.Type
		}
		if v.v.Lengths != nil {
			b.Lengths = v.v.Lengths
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
