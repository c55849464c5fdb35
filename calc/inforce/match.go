package inforce

import (
	"cmp"
	"slices"

	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// slack is how far an edge of a hung piece may be from its planned place: the clearance at
// one end, 1/8 in, plus the rounding of its cut, 1/16 in.
const slack = length.Inch/8 + length.Sixteenth

func alike(a, b length.Length) bool { return max(a-b, b-a) <= slack }

// span is a rectangle's extent along the boards and across them, measured from the faces.
func (p *Plan) span(q place.Rect) (from, to, lo, hi length.Length) {
	from, to, lo, hi = q.X0-p.Dx, q.X1-p.Dx, q.Y0-p.Dy, q.Y1-p.Dy
	if p.Surface.Lie(p.Run) == place.Y {
		from, to, lo, hi = lo, hi, from, to
	}
	return from, to, lo, hi
}

// match maps the indices of hung pieces that are as planned to the IDs of planned pieces; ""
// stands for the whole surface.
func (p *Plan) match(pieces []frame.Piece, l *layout.Layout) map[int]string {
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
			if alike(pc.From, from) && alike(pc.To, to) && alike(pc.Lo, lo) && alike(pc.Hi, hi) && (h.Size == 0 || sized(pc, h.Size)) {
				out[i] = pc.ID
			}
		}
	}
	return out
}

// sized reports whether size agrees with the piece's planned cut or, if it is tapered, with
// one of its edges.
func sized(pc layout.Piece, size length.Length) bool {
	like := func(l length.Length) bool { return max(l-size, size-l) <= 2*slack }
	return like(pc.Cut) || pc.Tapered() && (like(pc.Edges[0]) || like(pc.Edges[1]))
}

// Recognise fills in the numbers of the planned pieces that b.Pieces are, and takes them. It
// does nothing unless all of them are as planned.
func (p *Plan) Recognise(b *event.Hung) {
	var pieces []frame.Piece
	for i, q := range b.Pieces {
		pieces = append(pieces, frame.Piece{Row: b.Row, Rect: q, Size: b.Sizes[i]})
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

// start is the near edge of a row, measured from the side that rows are counted from.
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

// hungPieces returns the pieces that are up, clipped to the surface between its faces.
func (p *Plan) hungPieces(pieces []frame.Piece, l *layout.Layout) []layout.Hung {
	var out []layout.Hung
	long := p.In.Surface.W + p.In.Surface.H - p.cross()
	for _, h := range pieces {
		if h.Row == 0 { // the whole surface, assumed to be as planned
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

// settled is the widths of the rows, given what hangs. They are those of layout l unless a
// row hangs elsewhere; then the rows between such rows, and after the last, are full boards
// and one rip. If they cannot fit, it returns those of l.
func (p *Plan) settled(pieces []frame.Piece, l *layout.Layout, board length.Length) []length.Length {
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
		was := h.Row <= len(l.Rows) && slices.ContainsFunc(l.Rows[h.Row-1].Pieces, func(pc layout.Piece) bool { return alike(pc.Lo, lo) && alike(pc.Hi, hi) })
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
			if i == 0 && len(out) == 0 || i == n-1 && len(out) > 0 { // the rip is at the wall, or else next to the fixed row
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

// IDs returns the IDs of all pieces of a layout.
func IDs(l *layout.Layout) (out []string) {
	for _, r := range l.Rows {
		for _, pc := range r.Pieces {
			out = append(out, pc.ID)
		}
	}
	return out
}
