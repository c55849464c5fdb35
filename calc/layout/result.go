package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/joints"
	"strapline/calc/length"
)

// layout returns the plan in surface coordinates.
func (s *site) layout(p *plan) *Layout {
	out := &Layout{Run: s.run, Butts: p.butts(), Stagger: max(p.Stagger, 0), Notes: slices.Clip(s.notes)}
	ids := make([][]string, len(p.sizes)) // by size, the ids of its pieces
	for i, l := range p.lanes {
		r := s.row(i, l, p.Ends[i])
		for n := range r.Pieces {
			pc := &r.Pieces[n]
			pc.ID = fmt.Sprintf("r%d.%d", i+1, n+1)
			if !pc.Hung {
				k := slices.Index(p.sizes, cutting.Item{Length: pc.Cut, Width: pc.Width})
				ids[k] = append(ids[k], pc.ID)
			}
		}
		out.Rows = append(out.Rows, r)
	}
	order := map[string]int{}
	for _, r := range out.Rows {
		for _, pc := range r.Pieces {
			order[pc.ID] = len(order)
		}
	}
	cut := false
	for _, b := range p.Boards {
		st := s.stock[b.Stock]
		c := Cut{Width: st.Width, Length: st.Length, Offcut: st.Offcut}
		for _, sp := range b.Strips {
			t := Strip{Width: sp.Width, Left: sp.Left, Keep: sp.Left >= s.rules.Short}
			for _, j := range sp.Pieces {
				t.Pieces = append(t.Pieces, ids[j][0])
				ids[j] = ids[j][1:]
			}
			c.Strips = append(c.Strips, t)
		}
		out.Cuts = append(out.Cuts, c)
		if st.Offcut {
			continue
		}
		count(&out.Boards, st)
		if b.Stock >= s.there {
			count(&out.Short, st)
		}
		cut = cut || s.in.Longest > 0 && st.Length > s.in.Longest
		out.Bought += metres(st.Width) * metres(st.Length)
	}
	slices.SortStableFunc(out.Cuts, func(a, b Cut) int { return order[a.Strips[0].Pieces[0]] - order[b.Strips[0].Pieces[0]] })
	if cut {
		out.Notes = append(out.Notes, Note{About: CutDown, Limit: s.in.Longest})
	}
	out.Area, out.WallJoint = s.measure()
	s.fit(p.lanes, out)
	s.nest(out)
	s.joints(p, out)
	s.check(p, out)
	return out
}

// Lengths returns what each piece is cut to, by its id.
func (l *Layout) Lengths() map[string]length.Length {
	cut := map[string]length.Length{}
	for _, r := range l.Rows {
		for _, pc := range r.Pieces {
			cut[pc.ID] = pc.Cut
		}
	}
	return cut
}

// count adds a board to a list, which is kept by size, largest first.
func count(bs *[]Stock, st Stock) {
	at, ok := slices.BinarySearchFunc(*bs, st, func(a, b Stock) int {
		return cmp.Or(cmp.Compare(b.Width, a.Width), cmp.Compare(b.Length, a.Length))
	})
	if !ok {
		*bs = slices.Insert(*bs, at, Stock{Width: st.Width, Length: st.Length})
	}
	(*bs)[at].Count++
}

// row orders the pieces of a lane, new and hung, along the row.
func (s *site) row(i int, l *lane, ends []joints.End) Row {
	v := s.backSpan(l.v)
	r := Row{From: v.lo, To: v.hi}
	for n, c := range l.chains {
		at := c.u.lo
		cuts := []length.Length{}
		for _, e := range ends {
			if int(e.Chain) == n {
				cuts = append(cuts, c.Nodes[e.Node])
			}
		}
		for _, u := range append(cuts, c.u.hi) {
			z, across := s.piece(l, c, span{at, u})
			back := s.backSpan(across)
			r.Pieces = append(r.Pieces, Piece{From: at, To: u, Lo: back.lo, Hi: back.hi, Cut: z.length, Width: z.width,
				Rip: z.width < l.board, Notches: s.notchesIn(span{at, u}, across)})
			if u < c.u.hi {
				r.Butts = append(r.Butts, Butt{At: u, Support: s.supportAt(u)})
			}
			at = u
		}
	}
	for _, h := range s.in.Hung {
		if h.Row == i+1 {
			r.Pieces = append(r.Pieces, Piece{From: h.From, To: h.To, Lo: v.lo, Hi: v.hi, Cut: cmp.Or(h.Cut, h.To-h.From), Width: s.hungWidth(l, h), Hung: true})
		}
	}
	for _, pc := range r.Pieces {
		r.Width = max(r.Width, pc.Width)
	}
	r.Rip = r.Width < l.board
	for _, u := range l.Fixed {
		r.Butts = append(r.Butts, Butt{At: u, Support: s.supportAt(u)})
	}
	slices.SortFunc(r.Pieces, func(a, b Piece) int { return cmp.Compare(a.From, b.From) })
	slices.SortFunc(r.Butts, func(a, b Butt) int { return cmp.Compare(a.At, b.At) })
	return r
}

// hungWidth returns the width that a hung piece was cut to.
func (s *site) hungWidth(l *lane, h Hung) length.Length {
	w := cmp.Or(h.Across, l.v.size())
	if w >= l.board {
		return l.board
	}
	if (l.first || l.last) && w > 2*s.rules.Rip {
		w -= s.rules.Rip
	}
	return w - w%s.rules.Round
}

// supportAt returns the support whose centre is within 3/4 in of u, half of the face that a joint needs.
func (s *site) supportAt(u length.Length) int {
	if s.in.Along {
		return -1
	}
	for _, p := range s.posts {
		if abs(p.at-u) <= woodFace/2 {
			return p.index
		}
	}
	return -1
}

// notchesIn returns the parts to cut out of a piece.
func (s *site) notchesIn(u, v span) (out []Rect) {
	for _, h := range s.holes {
		b := box{span{max(u.lo, h.u.lo), min(u.hi, h.u.hi)}, span{max(v.lo, h.v.lo), min(v.hi, h.v.hi)}}
		if b.u.size() > 0 && b.v.size() > 0 {
			out = append(out, s.back(b))
		}
	}
	return out
}

// joints adds up the joints to tape.
func (s *site) joints(p *plan, out *Layout) {
	for i, l := range p.lanes {
		for _, b := range out.Rows[i].Butts {
			least := l.v.size()
			for _, c := range l.cols {
				if c.u.lo <= b.At && b.At <= c.u.hi {
					least = min(least, total(c.solid))
				}
			}
			out.ButtJoint += least
		}
		if i == 0 {
			continue
		}
		var above, below []span
		for _, c := range p.lanes[i-1].cols {
			if c.hi() == p.lanes[i-1].v.hi {
				above = append(above, c.u)
			}
		}
		for _, c := range l.cols {
			if c.lo() == l.v.lo {
				below = append(below, c.u)
			}
		}
		out.LongJoint += overlap(above, below)
	}
}

// bounds sets the proven bounds of the plan, over all divisions into rows that were solved.
func (s *site) bounds(p *plan, all []*plan, out *Layout) {
	if len(out.Short) > 0 {
		return
	}
	butts, least := s.plain(p, p.pieces())
	board := p.Cost
	out.BoundButts = out.Butts
	switch {
	case s.in.Along || s.in.Keep != nil || s.partly:
		// Not every place for butts, or for rows, was tried, so only the sizes give a bound.
		out.BoundButts, board = butts, least
	case len(all) == 1 && p.fixed+p.LeastButts == out.Butts:
		board = max(p.LeastCost, least)
	default:
		for _, o := range all {
			n := o.fixed + o.LeastButts
			out.BoundButts = min(out.BoundButts, n)
			_, cover := s.plain(o, p.pieces())
			switch {
			case n < out.Butts:
				board = min(board, cover)
			case n == out.Butts:
				board = min(board, max(o.LeastCost, cover))
			}
		}
	}
	out.Bound = s.area(board)
	if s.partly {
		out.BoundButts, out.Bound = 0, 0
	}
	if out.Proven = board >= p.Cost/s.scale*s.scale && out.BoundButts == out.Butts && (!s.partly || p.Cost == 0); out.Proven {
		out.Bound = out.Bought // equal but for the rounding of areas
	}
}

// plain returns the least butts and the least cost of board of any layout in these rows with at most that
// many pieces. Butts are counted by the longest board. The board is at least the area to cover, minus what
// clearances and rounding can take off. A board gives at most two strips, so with a single width of board
// there are two other bounds, and the greatest counts: a rip takes half a board, or one wider than half a
// board takes a whole one and any other nothing.
func (s *site) plain(p *plan, pieces int) (butts int, board int64) {
	butts = p.fixed
	var area [3]float64
	for _, l := range p.lanes {
		wide := metres(l.board)
		for _, c := range l.chains {
			long := c.u.size()
			for _, w := range c.wall {
				if w {
					long -= s.rules.Clear
				}
			}
			butts += max(0, int((long+s.longest-1)/s.longest)-1)
			for k := range area {
				area[k] -= metres(c.u.size()-long) * wide
			}
			for _, col := range l.cols {
				w := total(col.solid)
				if w < l.board {
					w = max(0, w-s.rules.Rip-s.rules.Round)
				}
				counts := [3]float64{metres(w), metres(w), metres(w)}
				if len(s.widths) == 1 && w > 0 && w < l.board {
					if counts[1], counts[2] = wide/2, 0; 2*w > l.board {
						counts[2] = wide
					}
				}
				for k := range area {
					area[k] += metres(overlap([]span{col.u}, []span{c.u})) * counts[k]
				}
			}
		}
	}
	for _, b := range s.stock {
		if b.Offcut {
			for k := range area {
				area[k] -= float64(b.Count) * metres(b.Length) * metres(s.widths[len(s.widths)-1])
			}
		}
	}
	most := slices.Max(area[:]) - float64(pieces)*metres(s.rules.Round)*metres(s.widths[len(s.widths)-1])
	least := s.cost(max(0, most), func(n float64) float64 { return math.Ceil(n - 1e-6) })
	return min(butts, p.butts()), min(p.Cost, least)
}

// check adds the notes that the finished rows give rise to.
func (s *site) check(p *plan, out *Layout) {
	s.bays(p.lanes, out)
	if out.Stagger < s.rules.Stagger && p.Stagger >= 0 {
		out.Notes = append(out.Notes, Note{About: StaggerLow, At: out.Stagger, Limit: s.rules.Stagger})
	}
	for i, l := range p.lanes {
		r := &out.Rows[i]
		for _, c := range l.chains {
			for _, b := range r.Butts {
				if c.byOpenings && c.u.lo < b.At && b.At < c.u.hi && s.barred(l, b.At, false) {
					out.Notes = append(out.Notes, Note{About: EdgeNear, Row: i + 1, At: b.At, Limit: s.rules.Edge})
				}
			}
		}
		for _, pc := range r.Pieces {
			if pc.Cut < s.rules.Short && len(r.Pieces) > 1 && !pc.Hung {
				out.Notes = append(out.Notes, Note{About: ShortPiece, Row: i + 1, At: pc.Cut, Limit: s.rules.Short})
			}
		}
		for _, b := range r.Butts {
			if s.in.Along {
				continue
			}
			if b.Support < 0 {
				out.Notes = append(out.Notes, Note{About: LooseButt, Row: i + 1, At: b.At})
			} else if off := abs(s.in.Supports[b.Support].At - b.At); off > length.Inch/4 {
				out.Notes = append(out.Notes, Note{About: OffCentre, Row: i + 1, At: off})
			}
		}
		for _, g := range l.gaps {
			out.Notes = append(out.Notes, Note{About: OpenGap, Row: i + 1, At: g.size()})
		}
		if len(r.Pieces) > 0 && l.v.size() < s.rules.Sliver {
			out.Notes = append(out.Notes, Note{About: SliverRow, Row: i + 1, At: l.v.size(), Limit: s.rules.Sliver})
		}
		if r.Rip && !l.first && !l.last && l.v.size() < l.board {
			out.Notes = append(out.Notes, Note{About: FieldCut, Row: i + 1, At: r.Width})
		}
		if i > 0 && s.cornerOn(l.v.lo) {
			out.Notes = append(out.Notes, Note{About: CornerJoint, Row: i + 1, At: s.backSpan(span{l.v.lo, l.v.lo}).lo, Limit: s.rules.Edge})
		}
	}
}

// cornerOn reports whether the long joint at v runs into a corner of a notch or an opening.
func (s *site) cornerOn(v length.Length) bool {
	return slices.ContainsFunc(s.holes, func(b box) bool {
		return b.v.lo > 0 && abs(b.v.lo-v) < lineUp || b.v.hi < s.cross && abs(b.v.hi-v) < lineUp
	})
}
