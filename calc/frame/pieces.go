package frame

import (
	"cmp"
	"slices"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
)

// Piece is a hung piece of board.
type Piece struct {
	Entry *history.Entry
	Row   int // 0 if the whole surface was noted at once
	N     int // in its row, from 1
	Rect  place.Rect
	Size  length.Length // as cut; 0 if not said
	Run   place.Direction
}

// Hang folds in a report of boards that hang.
func (r *Frame) Hang(e *history.Entry, b event.Hung) {
	sf := r.surface(b.Surface)
	sf.hung = append(sf.hung, history.Of(e, b))
}

// Pieces returns the pieces on surface s, in the order reported.
func (r *Frame) Pieces(s place.Surface) []Piece {
	var out []Piece
	inRow := map[int]int{}
	for _, h := range r.on(s).hung {
		if h.E.Struck() {
			continue
		}
		if h.V.Run != "" {
			h.V.Run = s.DirectionOf(s.Lie(h.V.Run)) // older notes have ew for level boards on every wall
		}
		if h.V.All {
			w, y := r.Shell().Extent(s)
			y = cmp.Or(y, history.EndOfTime) // height unknown: no upper limit
			out = append(out, Piece{Entry: h.E, Rect: place.Rect{X0: 0, Y0: 0, X1: w, Y1: y}, Run: h.V.Run})
			continue
		}
		for i, q := range h.V.Pieces {
			n := inRow[h.V.Row] + 1
			if i < len(h.V.N) {
				n = h.V.N[i]
			}
			inRow[h.V.Row] = max(inRow[h.V.Row], n)
			p := Piece{Entry: h.E, Row: h.V.Row, N: n, Rect: q, Run: h.V.Run}
			if i < len(h.V.Sizes) {
				p.Size = h.V.Sizes[i]
			}
			out = append(out, p)
		}
	}
	return out
}

// Hangs reports whether any piece was ever hung on surface s.
func (r *Frame) Hangs(s place.Surface) bool {
	return len(r.on(s).hung) > 0
}

// Over returns the piece that hangs over p, the last one sent if there are several.
func (r *Frame) Over(s place.Surface, p place.Point) *Piece {
	if !r.Hangs(s) {
		return nil
	}
	var best *Piece
	for _, q := range r.Pieces(s) {
		if q.Rect.Has(p) && (best == nil || !q.Entry.Before(best.Entry)) {
			best = &q
		}
	}
	return best
}

// Offcuts returns those left from the boards that the planned pieces of surface s were cut from.
func (r *Frame) Offcuts(s place.Surface) (left []event.Boards) {
	for _, h := range r.on(s).hung {
		if h.E.Struck() {
			continue
		}
		for _, b := range h.V.Used {
			if b.N = -b.N; b.Offcut() {
				left = event.AddBoards(left, b)
			}
		}
		for _, b := range h.V.Left {
			left = event.AddBoards(left, b)
		}
	}
	return slices.DeleteFunc(left, func(b event.Boards) bool { return b.N <= 0 })
}
