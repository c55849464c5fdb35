package layout

import (
	"math"

	"strapline/calc/length"
)

// Point is a place on the surface.
type Point struct{ X, Y length.Length }

// Taper is how far the two ends of a cut may differ and still be cut square, to the shorter: 1/4 in, as for a gap.
const Taper = 4 * length.Sixteenth

// line is a straight wall in the plan's own directions.
type line struct{ u, v, du, dv float64 }

// at is where it passes v, across where it passes u.
func (w line) at(v length.Length) length.Length { return round(w.u + (float64(v)-w.v)*w.du/w.dv) }
func (w line) across(u length.Length) length.Length {
	return round(w.v + (float64(u)-w.u)*w.dv/w.du)
}

func round(f float64) length.Length { return length.Length(math.Round(f)) }

// outline is the four walls of a surface whose corners are not square: where rows start and end, and those beside the first
// and the last row.
type outline struct{ start, end, first, last line }

// takeCorners turns the corners into walls.
func (s *site) takeCorners() *Problem {
	c := s.in.Surface.Corners
	if len(c) == 0 {
		return nil
	}
	if len(c) != 4 {
		return &Problem{Kind: BadSize}
	}
	var p [4][2]float64
	for i, q := range c {
		if min(q.X, q.Y) < -maxSide || max(q.X, q.Y) > maxSide {
			return &Problem{Kind: BadSize}
		}
		b := s.turn(Rect{X: q.X, Y: q.Y})
		p[i] = [2]float64{float64(b.u.lo), float64(b.v.lo)}
	}
	wall := func(i, k int) line { return line{p[i][0], p[i][1], p[k][0] - p[i][0], p[k][1] - p[i][1]} }
	north, east, south, west := wall(0, 1), wall(1, 2), wall(3, 2), wall(0, 3)
	o := outline{start: west, end: east, first: north, last: south}
	if s.run == Y {
		o = outline{start: north, end: south, first: west, last: east}
	}
	if s.in.Far {
		o.first, o.last = o.last, o.first
	}
	if o.start.dv == 0 || o.end.dv == 0 || o.first.du == 0 || o.last.du == 0 {
		return &Problem{Kind: BadSize}
	}
	s.outline = &o
	return nil
}

// rowSpan is the stretch along the run that a row at v needs: to where its walls are farthest out.
func (s *site) rowSpan(v span) span {
	if s.outline == nil {
		return span{0, s.length}
	}
	o := s.outline
	return span{max(0, min(o.start.at(v.lo), o.start.at(v.hi))), min(s.length, max(o.end.at(v.lo), o.end.at(v.hi)))}
}

// fit cuts the pieces of a layout to the walls as they stand. They were planned to where the walls are farthest out.
func (s *site) fit(lanes []*lane, out *Layout) {
	if s.outline == nil {
		return
	}
	for i := range out.Rows {
		r := &out.Rows[i]
		r.Width = 0
		for k := range r.Pieces {
			if pc := &r.Pieces[k]; !pc.Hung {
				s.fitPiece(lanes[i], pc)
				if s.cornerOff(lanes[i], *pc) {
					out.Notes = append(out.Notes, Note{About: CornerOff, Row: i + 1})
				}
			}
			r.Width = max(r.Width, r.Pieces[k].Width)
		}
		r.Rip = r.Width < lanes[i].board
	}
	cut := map[string]length.Length{}
	for _, r := range out.Rows {
		for _, pc := range r.Pieces {
			cut[pc.ID] = pc.Cut
		}
	}
	for _, c := range out.Cuts {
		for i := range c.Strips {
			st := &c.Strips[i]
			st.Left = c.Length
			for _, id := range st.Pieces {
				st.Left -= cut[id]
			}
			st.Keep = st.Left >= s.rules.Short
		}
	}
	f := s.in.Surface
	out.Area -= metres(f.W) * metres(f.H) // what notches and openings take stays taken
	out.WallJoint -= 2 * (f.W + f.H)
	c := f.Corners
	for i, p := range c {
		q := c[(i+1)%len(c)]
		out.Area += (metres(p.X)*metres(q.Y) - metres(q.X)*metres(p.Y)) / 2
		out.WallJoint += round(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)))
	}
}

// fitPiece gives a piece its lengths along both edges and its widths at both ends.
func (s *site) fitPiece(l *lane, pc *Piece) {
	o, row, v := s.outline, s.rowSpan(l.v), s.backSpan(span{pc.Lo, pc.Hi})
	from, to, clear := span{pc.From, pc.From}, span{pc.To, pc.To}, length.Length(0) // at the near edge, at the far edge
	if pc.From == row.lo {
		from, clear = span{max(pc.From, o.start.at(v.lo)), max(pc.From, o.start.at(v.hi))}, clear+s.rules.Clear
	}
	if pc.To == row.hi {
		to, clear = span{min(pc.To, o.end.at(v.lo)), min(pc.To, o.end.at(v.hi))}, clear+s.rules.Clear
	}
	down := func(n length.Length) length.Length { return max(0, n-n%s.rules.Round) }
	if abs(from.size())+abs(to.size()) > Taper {
		pc.Edges = [2]length.Length{down(to.lo - from.lo - clear), down(to.hi - from.hi - clear)}
		pc.Lean = [2]length.Length{from.size(), to.size()}
		if s.in.Far {
			pc.Edges[0], pc.Edges[1] = pc.Edges[1], pc.Edges[0]
			pc.Lean = [2]length.Length{-from.size(), -to.size()}
		}
	} else {
		pc.Cut = down(min(to.lo, to.hi) - max(from.lo, from.hi) - clear)
	}
	wide := func(u length.Length) length.Length {
		w := min(v.hi, o.last.across(u)) - max(v.lo, o.first.across(u))
		if w >= l.board {
			return l.board
		}
		return min(pc.Width, down(w-s.rules.Rip))
	}
	a, b := wide(pc.From), wide(pc.To)
	pc.Width = min(a, b)
	if abs(a-b) > Taper {
		pc.Width, pc.Ends = max(a, b), [2]length.Length{a, b}
	}
	pc.Rip = pc.Width < l.board || pc.RipTapered()
}

// cornerOff reports whether a wall beside the rows runs into the piece between its ends: five corners, not four.
func (s *site) cornerOff(l *lane, pc Piece) bool {
	into := func(w line, edge length.Length, sign length.Length) bool {
		a, b := sign*(w.across(pc.From)-edge), sign*(w.across(pc.To)-edge)
		return min(a, b) < -Taper && max(a, b) > Taper
	}
	return into(s.outline.last, l.v.hi, 1) || into(s.outline.first, l.v.lo, -1)
}
