package site

import (
	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/stock"
)

var _ = onJob(func(s *State, e *Entry, b event.Stock) {
	s.stock = append(s.stock, history.Of(e, b))
})

// Stock returns how many boards of each length are on hand, see [stock.Ledger.OnHand].
func (s *State) Stock() (boards []event.Boards, counted bool) {
	return s.stock.OnHand(func(h event.Hung) (kind event.Boards) {
		if r := s.Room(h.Room); r != nil {
			board, _ := r.BoardFor(h.Surface)
			kind.Thick, kind.Type = board.Thick, board.Type
		}
		return kind
	})
}

// StockFor returns the boards on hand that fit a surface, by their lengths: those of its kind, and those of which
// no kind was said. For a surface whose board was never said all of them do.
func (s *State) StockFor(p Plane) (boards []event.Boards, counted bool) {
	all, counted := s.Stock()
	board, said := p.Room.BoardFor(p.Surface)
	for _, b := range all {
		fits := !said && board.Type == "" || (b.Thick == 0 || !said || b.Thick == board.Thick) && (b.Thick == 0 && b.Type == "" || plainType(b.Type) == plainType(board.Type))
		if fits {
			b.Thick, b.Type = 0, ""
			boards = event.AddBoards(boards, b)
		}
	}
	return boards, counted
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

// Boards returns what was said of boards.
func (s *State) Boards() stock.Ledger { return s.stock }

var _ = onJob(func(s *State, e *Entry, b event.Longest) { s.longest.Add(e, b.L) })

// LongestIn returns the longest board that gets in, 0 if not said.
func (s *State) LongestIn() length.Length { l, _ := s.longest.Now(); return l }
