package site

import (
	"strings"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/stock"
)

var _ = onJob(func(s *State, e *Entry, b event.Stock) {
	s.stock = append(s.stock, history.Of(e, b))
	if b.Room != "" {
		s.told = append(s.told, e)
	}
})

// Stock returns how many boards of each length are on hand, see [stock.Ledger.OnHand].
func (s *State) Stock() (boards []event.Boards, counted bool) {
	return s.stock.OnHand(func(room string, on place.Surface) (kind event.Boards) {
		if r := s.Room(room); r != nil {
			board, _ := r.BoardFor(on)
			kind.Thick, kind.Type = board.Thick, board.Type
		}
		return kind
	})
}

// StockFor returns the boards on hand that fit a surface, by their lengths: those of its kind, and those of which
// no kind was said. For a surface whose board was never said all of them do, and none whose length was not told.
func (s *State) StockFor(p Plane) (boards []event.Boards, counted bool) {
	all, counted := s.Stock()
	board, said := p.Room.BoardFor(p.Surface)
	for _, b := range all {
		fits := !said && board.Type == "" || (b.Thick == 0 || !said || b.Thick == board.Thick) && (b.Thick == 0 && b.Type == "" || plainType(b.Type) == plainType(board.Type))
		if fits && b.L > 0 {
			b.Thick, b.Type = 0, ""
			boards = event.AddBoards(boards, b)
		}
	}
	return boards, counted
}

// plainType returns a type of board, "" for the regular one.
func plainType(t string) string {
	return strings.TrimPrefix(t, "regular")
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
