package site

import (
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
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
	sf := r.surface(b.Surface)
	sf.hung = append(sf.hung, version[event.Hung]{e, b})
	if whole := slices.DeleteFunc(slices.Clone(b.Used), event.Boards.Offcut); len(whole) > 0 {
		s.stock = append(s.stock, version[event.Stock]{e, event.Stock{How: "hung", Items: whole}})
	}
	return nil
})

// Piece is a hung piece of board.
type Piece struct {
	Entry *Entry
	Row   int // 0 if the whole surface was noted at once
	N     int // in its row, from 1
	Rect  place.Rect
	Size  length.Length // as cut; 0 if not said
	Run   place.Direction
}

// Pieces returns the pieces on surface s, in the order reported.
func (r *Room) Pieces(s place.Surface) []Piece {
	var out []Piece
	inRow := map[int]int{}
	for _, h := range r.on(s).hung {
		if h.e.Struck() {
			continue
		}
		if h.v.Run != "" {
			h.v.Run = s.DirectionOf(s.Lie(h.v.Run)) // older notes have ew for level boards on every wall
		}
		if h.v.All {
			w, y := r.Shell().Extent(s)
			if y == 0 {
				y = EndOfTime // height unknown: no upper limit
			}
			out = append(out, Piece{Entry: h.e, Rect: place.Rect{X0: 0, Y0: 0, X1: w, Y1: y}, Run: h.v.Run})
			continue
		}
		for i, q := range h.v.Pieces {
			n := inRow[h.v.Row] + 1
			if i < len(h.v.N) {
				n = h.v.N[i]
			}
			inRow[h.v.Row] = max(inRow[h.v.Row], n)
			p := Piece{Entry: h.e, Row: h.v.Row, N: n, Rect: q, Run: h.v.Run}
			if i < len(h.v.Sizes) {
				p.Size = h.v.Sizes[i]
			}
			out = append(out, p)
		}
	}
	return out
}

// hangs reports whether any piece was ever hung on surface s.
func (r *Room) hangs(s place.Surface) bool {
	return len(r.on(s).hung) > 0
}

// Over returns the piece that hangs over p, the last one sent if there are several.
func (r *Room) Over(s place.Surface, p place.Point) *Piece {
	if !r.hangs(s) {
		return nil
	}
	var best *Piece
	for _, q := range r.Pieces(s) {
		if q.Rect.Has(p) && (best == nil || !q.Entry.before(best.Entry)) {
			best = &q
		}
	}
	return best
}
