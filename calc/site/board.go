package site

import (
	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
)

var _ = onJob(func(s *State, e *Entry, b event.Board) {
	s.boards = append(s.boards, history.Of(e, b))
})

// BoardNow returns the board of the job. What was never said is the usual sheet, 1/2 in by 48 in, with said
// false.
func (s *State) BoardNow() (b event.Board, said bool) { return s.boards.At("", "", EndOfTime) }

// BoardsSaid returns what was said of the board of parts of the job, in order.
func (s *State) BoardsSaid() []event.Board { return s.boards.Said() }

var _ = onJob(func(s *State, e *Entry, b event.Screw) { s.screw.Add(e, b.L) })

// ScrewSet returns the length of the lead's screw, 0 if none is set.
func (s *State) ScrewSet() length.Length { v, _ := s.screw.Now(); return v }

var _ = onJob(func(s *State, e *Entry, b event.Clearance) { s.clearance.Add(e, b.L) })

// Clear returns how much narrower in all a cut is than its gap: 1/4 in unless set (common practice, no
// source).
func (s *State) Clear() length.Length {
	if v, e := s.clearance.Now(); e != nil {
		return v
	}
	return length.Inch / 4
}

var _ = onJob(func(*State, *Entry, event.Gap) {})
