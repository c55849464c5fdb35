package site

import (
	"slices"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
)

var _ = onJob(func(s *State, e *Entry, b event.Stock) {
	s.stock = append(s.stock, history.Of(e, b))
})

// Stock returns how many boards of each length are on hand, in the order first named: those counted, minus
// those that planned pieces were cut from. counted is false if nobody has counted any.
func (s *State) Stock() (boards []event.Boards, counted bool) {
	for _, v := range s.stock {
		if v.E.Struck() {
			continue
		}
		if v.V.How != "hung" {
			counted = true
		}
		if v.V.How == "is" {
			boards = nil
		}
		for _, b := range v.V.Items {
			switch v.V.How {
			case "used", "hung":
				boards = s.take(boards, b, v.E)
				continue
			case "left":
				boards = slices.DeleteFunc(boards, func(o event.Boards) bool { return o.L == b.L && ofKind(o, b) })
			}
			boards = event.AddBoards(boards, b)
		}
	}
	for i, b := range boards { // used before the count that they are of was put right
		for k := range boards {
			if o := &boards[k]; b.N < 0 && b.Thick == 0 && b.Type == "" && o.L == b.L && o.W == b.W && o.N > 0 {
				n := min(o.N, -boards[i].N)
				o.N, boards[i].N = o.N-n, boards[i].N+n
			}
		}
		if b.N < 0 && boards[i].N == 0 {
			boards[i].L = 0
		}
	}
	return slices.DeleteFunc(boards, func(b event.Boards) bool { return b.L == 0 }), counted
}

// take takes boards away: those of the kind that was said, or that the surface has on which they hang; without
// a kind the first of that length.
func (s *State) take(from []event.Boards, b event.Boards, e *Entry) []event.Boards {
	if h, ok := e.Body.(event.Hung); ok && b.Thick == 0 && b.Type == "" {
		if r := s.Room(h.Room); r != nil {
			kind, _ := r.BoardFor(h.Surface)
			b.Thick, b.Type = kind.Thick, kind.Type
		}
	}
	for _, fits := range []func(o event.Boards) bool{b.Alike, func(o event.Boards) bool { return ofKind(b, o) && o.N > 0 }, func(o event.Boards) bool { return o.Thick == 0 && o.Type == "" }} {
		if i := slices.IndexFunc(from, func(o event.Boards) bool { return o.L == b.L && fits(o) }); i >= 0 {
			from[i].N -= b.N
			return from
		}
	}
	if _, hung := e.Body.(event.Hung); hung {
		b.Thick, b.Type = 0, ""
	}
	b.N = -b.N
	return append(from, b)
}

// ofKind reports whether boards are of a kind, as far as one was said.
func ofKind(o, kind event.Boards) bool {
	return (kind.Thick == 0 || o.Thick == 0 || o.Thick == kind.Thick) && (kind.Type == "" || o.Type == "" || o.Type == kind.Type)
}

// StockFor returns the boards on hand that fit a surface, by their lengths: those of its kind, and those of which
// no kind was said. For a surface whose board was never said all of them do. apart are those that do not fit.
func (s *State) StockFor(p Plane) (boards, apart []event.Boards, counted bool) {
	all, counted := s.Stock()
	board, said := p.Room.BoardFor(p.Surface)
	for _, b := range all {
		fits := !said && board.Type == "" || (b.Thick == 0 || !said || b.Thick == board.Thick) && (b.Thick == 0 && b.Type == "" || plainType(b.Type) == plainType(board.Type))
		if !fits {
			apart = append(apart, b)
			continue
		}
		b.Thick, b.Type = 0, ""
		boards = event.AddBoards(boards, b)
	}
	return boards, apart, counted
}

// plainType returns a type of board, "" for the regular one.
func plainType(t string) string {
	if t == "regular" {
		return ""
	}
	return t
}

// SameBoard reports whether two surfaces get the same board.
func SameBoard(p, o Plane) bool {
	a, _ := p.Room.BoardFor(p.Surface)
	b, _ := o.Room.BoardFor(o.Surface)
	return a.Thick == b.Thick && plainType(a.Type) == plainType(b.Type)
}

// CountedAfter reports whether all boards were counted after entry e.
func (s *State) CountedAfter(e *Entry) bool {
	for _, v := range s.stock {
		if v.V.How == "is" && !v.E.Struck() && v.E.Seq > e.Seq {
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
		case v.E.Struck():
		case v.V.How == "is":
			boards = nil
		case v.V.How == "hung" && v.E.Room == p.Room.Name && v.E.Body.(event.Hung).Surface == p.Surface:
			for _, b := range v.V.Items {
				boards = event.AddBoards(boards, b)
			}
		}
	}
	return boards
}

var _ = onJob(func(s *State, e *Entry, b event.Longest) { s.longest.Add(e, b.L) })

// LongestIn returns the longest board that gets in, 0 if not said.
func (s *State) LongestIn() length.Length { l, _ := s.longest.Now(); return l }
