package site

import (
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

var _ = onJob(func(s *State, e *Entry, b event.Stock) { s.stock = append(s.stock, version[event.Stock]{e, b}) })

// Stock returns how many boards of each length are on hand, in the order first named: those counted, minus
// those that planned pieces were cut from. counted is false if nobody has counted any.
func (s *State) Stock() (boards []event.Boards, counted bool) {
	for _, v := range s.stock {
		if v.e.Struck() {
			continue
		}
		if v.v.How != "hung" {
			counted = true
		}
		if v.v.How == "is" {
			boards = nil
		}
		for _, b := range v.v.Items {
			if v.v.How == "used" || v.v.How == "hung" {
				b.N = -b.N
			}
			boards = event.AddBoards(boards, b)
		}
	}
	return boards, counted
}

// CountedAfter reports whether all boards were counted after entry e.
func (s *State) CountedAfter(e *Entry) bool {
	for _, v := range s.stock {
		if v.v.How == "is" && !v.e.Struck() && v.e.Seq > e.Seq {
			return true
		}
	}
	return false
}

// HungFrom returns the boards that the planned pieces of a surface used up since the boards were last
// counted.
func (s *State) HungFrom(p Plane) (boards []event.Boards) {
	for _, v := range s.stock {
		switch {
		case v.e.Struck():
		case v.v.How == "is":
			boards = nil
		case v.v.How == "hung" && v.e.Room == p.Room.Name && v.e.Body.(event.Hung).Surface == p.Surface:
			for _, b := range v.v.Items {
				boards = event.AddBoards(boards, b)
			}
		}
	}
	return boards
}

// Offcuts returns those left from the boards that the planned pieces of surface s were cut from.
func (r *Room) Offcuts(s place.Surface) (left []event.Boards) {
	for _, h := range r.on(s).hung {
		if h.e.Struck() {
			continue
		}
		for _, b := range h.v.Used {
			if b.N = -b.N; b.Offcut() {
				left = event.AddBoards(left, b)
			}
		}
		for _, b := range h.v.Left {
			left = event.AddBoards(left, b)
		}
	}
	return slices.DeleteFunc(left, func(b event.Boards) bool { return b.N <= 0 })
}

var _ = onJob(func(s *State, e *Entry, b event.Longest) { s.longest.add(e, b.L) })

// LongestIn returns the longest board that gets in, 0 if not said.
func (s *State) LongestIn() length.Length { l, _ := s.longest.now(); return l }
