package inforce

import (
	"cmp"
	"slices"

	"strapline/calc/event"
	"strapline/calc/layout"
	"strapline/calc/length"
)

// Take marks planned piece id as hung, and records in b what it was cut from and the offcuts
// left: for the first piece of a board, the whole board; after that, the rest of the piece's
// strip. Offcuts under a foot are scrap.
func (p *Plan) Take(b *event.Hung, id string) {
	cut := p.Lengths()
	for _, c := range p.Cuts {
		if !slices.Contains(PiecesOf(c), id) {
			continue
		}
		offcut := func(s layout.Strip) event.Boards {
			o := event.Boards{N: 1, L: c.Length, W: s.Width}
			for _, id := range s.Pieces {
				if p.Hung[id] {
					o.L -= cut[id]
				}
			}
			return o
		}
		begun := slices.ContainsFunc(PiecesOf(c), func(id string) bool { return p.Hung[id] })
		if !begun {
			used := event.Boards{N: 1, L: c.Length}
			if c.Offcut {
				used.W = c.Width
			}
			b.Used = event.AddBoards(b.Used, used)
		}
		for _, s := range c.Strips {
			mine := slices.Contains(s.Pieces, id)
			if begun && !mine {
				continue
			}
			before := offcut(s)
			if begun && before.L >= length.Foot {
				b.Used = event.AddBoards(b.Used, before)
			}
			if mine {
				before.L -= cut[id]
			}
			if before.L >= length.Foot { // shorter is scrap
				b.Left = event.AddBoards(b.Left, before)
			}
		}
		p.Hung[id] = true
	}
}

// PiecesOf returns the IDs of the pieces cut from a board.
func PiecesOf(c layout.Cut) []string {
	var ids []string
	for _, s := range c.Strips {
		ids = append(ids, s.Pieces...)
	}
	return ids
}

// ToCut returns the boards and offcuts that pieces are still to be cut from. Instead of a
// board already cut into, it has the offcuts left of it.
func (p *Plan) ToCut() (out []layout.Cut) {
	sizes := map[string]length.Length{}
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			sizes[pc.ID] = pc.Cut
		}
	}
	for _, c := range p.Cuts {
		if !slices.ContainsFunc(PiecesOf(c), func(id string) bool { return p.Hung[id] }) {
			out = append(out, c)
			continue
		}
		for _, s := range c.Strips {
			rest := layout.Strip{Width: s.Width, Left: s.Left, Keep: s.Keep}
			from := layout.Cut{Width: s.Width, Length: s.Left, Offcut: true}
			for _, id := range s.Pieces {
				if !p.Hung[id] {
					rest.Pieces = append(rest.Pieces, id)
					from.Length += sizes[id]
				}
			}
			if rest.Pieces != nil {
				from.Strips = []layout.Strip{rest}
				out = append(out, from)
			}
		}
	}
	return out
}

// Todo counts the plan's boards, without offcuts, that no piece was cut from yet.
func (p *Plan) Todo() []layout.Stock {
	var out []layout.Stock
	for _, c := range p.ToCut() {
		if c.Offcut {
			continue
		}
		i := slices.IndexFunc(out, func(s layout.Stock) bool { return s.Length == c.Length && s.Width == c.Width })
		if i < 0 {
			i = len(out)
			out = append(out, layout.Stock{Width: c.Width, Length: c.Length})
		}
		out[i].Count++
	}
	return out
}

// Missing counts the boards of Todo that are not on hand, the longest first. It is nil if
// the boards on hand were never counted.
func (p *Plan) Missing() (out []layout.Stock) {
	if !p.Hand.Counted {
		return nil
	}
	for _, b := range p.Todo() {
		for _, o := range p.Hand.Boards {
			if o.L == b.Length {
				b.Count -= max(o.N, 0)
			}
		}
		if b.Count > 0 {
			out = append(out, b)
		}
	}
	slices.SortFunc(out, func(a, b layout.Stock) int { return cmp.Compare(b.Length, a.Length) })
	return out
}

// has reports whether any of the boards are on hand.
func has(of []event.Boards, boards []layout.Stock) bool {
	return slices.ContainsFunc(boards, func(b layout.Stock) bool {
		return slices.ContainsFunc(of, func(o event.Boards) bool { return o.L == b.Length && o.N > 0 })
	})
}

// less subtracts boards, as far as there are any.
func less(of []event.Boards, boards []layout.Stock) []event.Boards {
	of = slices.Clone(of)
	for _, b := range boards {
		if i := slices.IndexFunc(of, func(o event.Boards) bool { return o.L == b.Length }); i >= 0 && of[i].N > 0 {
			of[i].N -= min(b.Count, of[i].N)
		}
	}
	return of
}

// BoardOf is the board or offcut that a piece not yet up is to be cut from.
func (p *Plan) BoardOf(id string) (layout.Cut, bool) {
	cuts := p.ToCut()
	i := slices.IndexFunc(cuts, func(c layout.Cut) bool { return slices.Contains(PiecesOf(c), id) })
	if i < 0 {
		return layout.Cut{}, false
	}
	return cuts[i], true
}

// Rest is the part of the plan that is not up: the numbers of whole rows, and the IDs of
// single pieces in the others.
func (p *Plan) Rest() (rows []int, pieces []string) {
	rows = []int{}
	for i, r := range p.Rows {
		var left []string
		for _, pc := range r.Pieces {
			if !p.Hung[pc.ID] {
				left = append(left, pc.ID)
			}
		}
		if len(left) == len(r.Pieces) {
			rows = append(rows, i+1)
		} else {
			pieces = append(pieces, left...)
		}
	}
	return rows, pieces
}

// TakeAll takes every piece that is not up.
func (p *Plan) TakeAll(b *event.Hung) {
	for _, id := range IDs(p.Layout) {
		if !p.Hung[id] {
			p.Take(b, id)
		}
	}
}
