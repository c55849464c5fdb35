package site

import (
	"slices"

	"strapline/calc/event"
	"strapline/calc/history"
)

var _ = fold(func(s *State, e *Entry, b event.Hung) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	things, err := r.thingsNamed(b.Cut)
	if err != nil {
		return err
	}
	for _, t := range things {
		t.since().opens = append(t.since().opens, e)
	}
	r.Hang(e, b)
	if whole := slices.DeleteFunc(slices.Clone(b.Used), event.Boards.Offcut); len(whole) > 0 {
		s.stock = append(s.stock, history.Of(e, event.Stock{How: "hung", Items: whole}))
	}
	return nil
})
