package inforce

import (
	"cmp"
	"slices"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// slack is how far a hung piece may be off its planned place, or its planned size, and still be it: the clearance at one end and the
// rounding of its cut.
const slack = length.Inch/8 + length.Sixteenth

func near(a, b length.Length) bool { return max(a-b, b-a) <= slack }

// span is a rectangle's extent along the boards, and across them, from the wall faces.
func (p *Plan) span(q place.Rect) (from, to, lo, hi length.Length) {
	from, to, lo, hi = q.X0-p.Dx, q.X1-p.Dx, q.Y0-p.Dy, q.Y1-p.Dy
	if p.Surface.Lie(p.Run) == place.Y {
		from, to, lo, hi = lo, hi, from, to
	}
	return from, to, lo, hi
}

// match finds the planned pieces that are up, by the hung pieces that are as planned; "" stands for all of them.
func (p *Plan) match(pieces []site.Piece, l *layout.Layout) map[int]string {
	out := map[int]string{}
	for i, h := range pieces {
		if h.Row == 0 {
			out[i] = ""
			continue
		}
		if h.Row > len(l.Rows) {
			continue
		}
		from, to, lo, hi := p.span(h.Rect)
		for _, pc := range l.Rows[h.Row-1].Pieces {
			if near(pc.From, from) && near(pc.To, to) && near(pc.Lo, lo) && near(pc.Hi, hi) && (h.Size == 0 || sized(pc, h.Size)) {
				out[i] = pc.ID
			}
		}
	}
	return out
}

// sized reports whether a piece was cut to its planned size, or to one of its edges where they differ.
func sized(pc layout.Piece, size length.Length) bool {
	like := func(l length.Length) bool { return max(l-size, size-l) <= 2*slack }
	return like(pc.Cut) || pc.Tapered() && (like(pc.Edges[0]) || like(pc.Edges[1]))
}

// Recognise fills in what planned pieces are when these pieces, said by their sizes, are all such pieces.
func (p *Plan) Recognise(b *site.Hung) {
	var pieces []site.Piece
	for i, q := range b.Pieces {
		pieces = append(pieces, site.Piece{Row: b.Row, Rect: q, Size: b.Sizes[i]})
	}
	found := p.match(pieces, p.Layout)
	if len(found) < len(pieces) {
		return
	}
	for i := range pieces {
		n := slices.IndexFunc(p.Rows[b.Row-1].Pieces, func(pc layout.Piece) bool { return pc.ID == found[i] })
		b.N = append(b.N, n+1)
		p.Take(b, found[i])
	}
}

// start is where a row starts, from the side that the rows are counted from.
func (p *Plan) start(r layout.Row) length.Length {
	if p.In.Far {
		return p.cross() - r.To
	}
	return r.From
}

// cross is the surface's extent across the rows.
func (p *Plan) cross() length.Length {
	if p.Surface.Lie(p.Run) == place.Y {
		return p.In.Surface.W
	}
	return p.In.Surface.H
}

// hungPieces are the pieces that are up, as far as they are on what is still to be seen of the surface.
func (p *Plan) hungPieces(pieces []site.Piece, l *layout.Layout) []layout.Hung {
	var out []layout.Hung
	long := p.In.Surface.W + p.In.Surface.H - p.cross()
	for _, h := range pieces {
		if h.Row == 0 { // all of it, as planned for all that is known
			out = nil
			for i, r := range l.Rows {
				for _, pc := range r.Pieces {
					out = append(out, layout.Hung{Row: i + 1, From: pc.From, To: pc.To, Cut: pc.Cut, Across: pc.Hi - pc.Lo})
				}
			}
			return out
		}
		from, to, lo, hi := p.span(h.Rect)
		if from, to = max(from, 0), min(to, long); from < to {
			out = append(out, layout.Hung{Row: h.Row, From: from, To: to, Cut: h.Size, Across: hi - lo})
		}
	}
	return out
}

// settled are the widths of the rows once what hangs has fixed them: those of plan l, or, where a row hangs elsewhere, as
// many whole boards as fit between such rows and after the last, and a rip. Nil if they cannot fit.
func (p *Plan) settled(pieces []site.Piece, l *layout.Layout, board length.Length) []length.Length {
	var planned []length.Length
	for _, r := range l.Rows {
		planned = append(planned, r.To-r.From)
	}
	type place struct {
		row    int
		lo, hi length.Length // from where the rows start
	}
	var fixed []place
	moved := false
	for _, h := range pieces {
		if h.Row == 0 {
			return planned
		}
		_, _, lo, hi := p.span(h.Rect)
		was := h.Row <= len(l.Rows) && slices.ContainsFunc(l.Rows[h.Row-1].Pieces, func(pc layout.Piece) bool { return near(pc.Lo, lo) && near(pc.Hi, hi) })
		if was {
			lo, hi = l.Rows[h.Row-1].From, l.Rows[h.Row-1].To
		}
		moved = moved || !was
		if p.In.Far {
			lo, hi = p.cross()-hi, p.cross()-lo
		}
		lo, hi = max(lo, 0), min(hi, p.cross())
		if i := slices.IndexFunc(fixed, func(f place) bool { return f.row == h.Row }); i >= 0 {
			fixed[i].lo, fixed[i].hi = min(fixed[i].lo, lo), max(fixed[i].hi, hi)
		} else {
			fixed = append(fixed, place{h.Row, lo, hi})
		}
	}
	if !moved {
		return planned
	}
	slices.SortFunc(fixed, func(a, b place) int { return cmp.Compare(a.row, b.row) })
	var out []length.Length
	at := length.Length(0)
	for _, f := range fixed {
		n := f.row - len(out) - 1 // rows before it
		rip := f.lo - at - length.Length(n-1)*board
		if n > 0 && (rip <= 0 || rip > board) || n == 0 && f.lo < at-slack {
			return planned
		}
		for i := range n {
			if i == 0 && len(out) == 0 || i == n-1 && len(out) > 0 { // a rip lies at the wall, else by the row that came after
				out = append(out, rip)
			} else {
				out = append(out, board)
			}
		}
		if n == 0 {
			out = append(out, f.hi-at)
		} else {
			out = append(out, f.hi-f.lo)
		}
		at = f.hi
	}
	for left := p.cross() - at; left > p.In.Rules.Rip; left -= board {
		out = append(out, min(left, board))
	}
	return out
}

// IDs are those of a layout's pieces.
func IDs(l *layout.Layout) (out []string) {
	for _, r := range l.Rows {
		for _, pc := range r.Pieces {
			out = append(out, pc.ID)
		}
	}
	return out
}
