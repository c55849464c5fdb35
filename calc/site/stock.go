package site

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Stock counts boards by length. How is "is", "delivered" or "used" (or "hung", which is not logged but
// comes from a Hung entry).
type Stock struct {
	How   string   `json:"how"`
	Items []Boards `json:"items"`
}

var _ = kind[Stock]()

func (Stock) Kind() string { return "stock" }

func (b Stock) apply(s *State, e *Entry) error {
	s.stock = append(s.stock, version[Stock]{e, b})
	return nil
}

// Boards is a number of boards of one length, or of offcuts if it has a width.
type Boards struct {
	N int           `json:"n"`
	L length.Length `json:"l"`
	W length.Length `json:"w,omitempty"`
}

// Offcut reports whether these are offcuts, not whole boards.
func (b Boards) Offcut() bool { return b.W > 0 }

// Add adds boards to those of their size.
func Add(to []Boards, b Boards) []Boards {
	for i := range to {
		if to[i].L == b.L && to[i].W == b.W {
			to[i].N += b.N
			return to
		}
	}
	return append(to, b)
}

// Stock returns how many boards of each length are on hand, in the order first named: those counted, minus
// those that planned pieces were cut from. counted is false if nobody has counted any.
func (s *State) Stock() (boards []Boards, counted bool) {
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
			boards = Add(boards, b)
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
func (s *State) HungFrom(p Plane) (boards []Boards) {
	for _, v := range s.stock {
		switch {
		case v.e.Struck():
		case v.v.How == "is":
			boards = nil
		case v.v.How == "hung" && v.e.Room == p.Room.Name && v.e.Body.(Hung).Surface == p.Surface:
			for _, b := range v.v.Items {
				boards = Add(boards, b)
			}
		}
	}
	return boards
}

// Offcuts returns those left from the boards that the planned pieces of surface s were cut from.
func (r *Room) Offcuts(s place.Surface) (left []Boards) {
	for _, h := range r.on(s).hung {
		if h.e.Struck() {
			continue
		}
		for _, b := range h.v.Used {
			if b.N = -b.N; b.Offcut() {
				left = Add(left, b)
			}
		}
		for _, b := range h.v.Left {
			left = Add(left, b)
		}
	}
	return slices.DeleteFunc(left, func(b Boards) bool { return b.N <= 0 })
}

// Longest sets the longest board that gets in.
type Longest struct {
	L length.Length `json:"l"`
}

var _ = kind[Longest]()

func (Longest) Kind() string { return "longest" }

func (b Longest) apply(s *State, e *Entry) error {
	s.longest.add(e, b.L)
	return nil
}

// LongestIn returns the longest board that gets in, 0 if not said.
func (s *State) LongestIn() length.Length { l, _ := s.longest.now(); return l }
