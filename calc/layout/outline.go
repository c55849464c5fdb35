package layout

import (
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Taper is how much the two ends of a cut may differ for it to be cut square, to the shorter: 1/4 in, as
// for a gap.
const Taper = 4 * length.Sixteenth

// line is a straight wall in plan coordinates: a point on it and its direction.
type line struct{ u, v, du, dv float64 }

// at returns the u at which the line passes v; across returns the v at which it passes u.
func (w line) at(v length.Length) length.Length { return round(w.u + (float64(v)-w.v)*w.du/w.dv) }
func (w line) across(u length.Length) length.Length {
	return round(w.v + (float64(u)-w.u)*w.dv/w.du)
}

func round(f float64) length.Length { return length.Length(math.Round(f)) }

// edge is one side of the surface: the lines that bound it, a single one if it is straight.
type edge []line

// least and most return the least and the greatest f of its lines.
func (e edge) least(f func(line) length.Length) (v length.Length) {
	for i, w := range e {
		if d := f(w); i == 0 || d < v {
			v = d
		}
	}
	return v
}

func (e edge) most(f func(line) length.Length) length.Length {
	return -e.least(func(w line) length.Length { return -f(w) })
}

// crossings returns f of each point where two of its lines cross: f picks u or v.
func (e edge) crossings(f func(u, v float64) float64) (out []length.Length) {
	for i, a := range e {
		for _, b := range e[i+1:] {
			if d := a.du*b.dv - a.dv*b.du; d != 0 {
				t := ((b.u-a.u)*b.dv - (b.v-a.v)*b.du) / d
				out = append(out, round(f(a.u+t*a.du, a.v+t*a.dv)))
			}
		}
	}
	return out
}

// outline is the four sides of a surface that is not a rectangle: those where rows start and end, and
// those beside the first and the last row. The surface is within all lines of each side.
type outline struct{ start, end, first, last edge }

func (o *outline) startAt(v length.Length) length.Length {
	return o.start.most(func(w line) length.Length { return w.at(v) })
}
func (o *outline) endAt(v length.Length) length.Length {
	return o.end.least(func(w line) length.Length { return w.at(v) })
}
func (o *outline) firstAt(u length.Length) length.Length {
	return o.first.most(func(w line) length.Length { return w.across(u) })
}
func (o *outline) lastAt(u length.Length) length.Length {
	return o.last.least(func(w line) length.Length { return w.across(u) })
}

// takeCorners sets the outline from the surface's corners and the edges over it.
func (s *site) takeCorners() *Problem {
	c, over := s.in.Surface.Corners, s.in.Surface.Under
	if len(c) == 0 && len(over) == 0 {
		return nil
	}
	if len(c) == 0 {
		w, h := s.in.Surface.W, s.in.Surface.H
		c = []place.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	}
	if len(c) != 4 || len(over) > 4 {
		return &Problem{Kind: BadSize}
	}
	turned := func(q place.Point) [2]float64 {
		b := s.turn(Rect{X: q.X, Y: q.Y})
		return [2]float64{float64(b.u.lo), float64(b.v.lo)}
	}
	far := func(q place.Point) bool { return min(q.X, q.Y) < -maxSide || max(q.X, q.Y) > maxSide }
	wall := func(p, q place.Point) line {
		a, b := turned(p), turned(q)
		return line{a[0], a[1], b[0] - a[0], b[1] - a[1]}
	}
	if slices.ContainsFunc(c, far) {
		return &Problem{Kind: BadSize}
	}
	north, east, south, west := edge{wall(c[0], c[1])}, edge{wall(c[1], c[2])}, edge{wall(c[3], c[2])}, edge{wall(c[0], c[3])}
	for _, q := range over {
		if far(q[0]) || far(q[1]) || q[0].X == q[1].X || q[0].Y == q[1].Y {
			return &Problem{Kind: BadSize}
		}
		south = append(south, wall(q[0], q[1]))
	}
	o := outline{start: west, end: east, first: north, last: south}
	if s.run == place.Y {
		o = outline{start: north, end: south, first: west, last: east}
	}
	if s.in.Far {
		o.first, o.last = o.last, o.first
	}
	if slices.ContainsFunc(slices.Concat(o.start, o.end), func(w line) bool { return w.dv == 0 }) ||
		slices.ContainsFunc(slices.Concat(o.first, o.last), func(w line) bool { return w.du == 0 }) {
		return &Problem{Kind: BadSize}
	}
	s.outline = &o
	return nil
}

// rowSpan returns the stretch along the run that a row at v has to cover: out to where its walls are
// farthest, but only where more of the row is left across than the gap that a rip leaves.
func (s *site) rowSpan(v span) span {
	if s.outline == nil {
		return span{0, s.length}
	}
	o := s.outline
	lo, hi := min(o.startAt(v.lo), o.startAt(v.hi)), max(o.endAt(v.lo), o.endAt(v.hi))
	for _, at := range o.start.crossings(func(_, v float64) float64 { return v }) {
		if v.lo < at && at < v.hi {
			lo = min(lo, o.startAt(at))
		}
	}
	for _, at := range o.end.crossings(func(_, v float64) float64 { return v }) {
		if v.lo < at && at < v.hi {
			hi = max(hi, o.endAt(at))
		}
	}
	out := span{max(0, lo), min(s.length, hi)}
	for _, side := range []struct {
		edge
		past  length.Length // v beyond which nothing is left of the row
		after bool          // the row is on the side of greater v
	}{{o.first, v.hi - s.rules.Rip, false}, {o.last, v.lo + s.rules.Rip, true}} {
		for _, w := range side.edge {
			if w.dv == 0 {
				continue
			}
			at := w.at(side.past)
			if rises := (w.dv > 0) == (w.du > 0); rises == side.after { // v grows along the run: the row begins here
				out.lo = max(out.lo, min(at, out.hi))
			} else {
				out.hi = min(out.hi, max(at, out.lo))
			}
		}
	}
	return out
}

// fit cuts the pieces of a layout to the actual walls. They were planned to where the walls are farthest
// out.
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
				if len(pc.Off) > 0 {
					out.Notes = append(out.Notes, Note{About: CornerOff, Row: i + 1})
				}
			}
			r.Width = max(r.Width, r.Pieces[k].Width)
		}
		r.Rip = r.Width < lanes[i].board
	}
	cut := out.Lengths()
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
	out.Area -= metres(f.W) * metres(f.H) // notches and openings are deducted already
	out.WallJoint -= 2 * (f.W + f.H)
	c := f.within()
	for i, p := range c {
		q := c[(i+1)%len(c)]
		out.Area += (metres(p.X)*metres(q.Y) - metres(q.X)*metres(p.Y)) / 2
		out.WallJoint += round(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)))
	}
}

// within returns the corners of the surface, clockwise from north-west, clipped by the edges over it.
func (f Surface) within() []place.Point {
	c := f.Corners
	if len(c) == 0 {
		c = []place.Point{{}, {X: f.W}, {X: f.W, Y: f.H}, {Y: f.H}}
	}
	for _, q := range f.Under { // Sutherland-Hodgman clipping
		height := func(p place.Point) float64 { // below the line if positive
			return float64(q[0].Y) + float64(p.X-q[0].X)*float64(q[1].Y-q[0].Y)/float64(q[1].X-q[0].X) - float64(p.Y)
		}
		var kept []place.Point
		for i, p := range c {
			before := c[(i+len(c)-1)%len(c)]
			a, b := height(before), height(p)
			if a*b < 0 {
				t := a / (a - b)
				kept = append(kept, place.Point{X: before.X + round(t*float64(p.X-before.X)), Y: before.Y + round(t*float64(p.Y-before.Y))})
			}
			if b >= 0 {
				kept = append(kept, p)
			}
		}
		c = kept
	}
	return c
}

// fitPiece sets the lengths of a piece along both edges, its widths at both ends, and the corners to cut
// off where a wall bends within it.
func (s *site) fitPiece(l *lane, pc *Piece) {
	o, row, v := s.outline, s.rowSpan(l.v), s.backSpan(span{pc.Lo, pc.Hi})
	from, to, clear := span{pc.From, pc.From}, span{pc.To, pc.To}, length.Length(0) // at its edges of lesser and greater v
	if pc.From == row.lo {
		at := func(v length.Length) length.Length { return -max(pc.From, o.startAt(v)) }
		b := bent(at, v, o.start, pc.From, line.across, func(_, v float64) float64 { return v })
		pc.Off = append(pc.Off, b.corners(func(end bool, along, deep length.Length) Corner { return Corner{Far: end, Along: deep, Across: along} })...)
		from, clear = span{-b.lo, -b.hi}, clear+s.rules.Clear
	}
	if pc.To == row.hi {
		at := func(v length.Length) length.Length { return min(pc.To, o.endAt(v)) }
		b := bent(at, v, o.end, pc.To, line.across, func(_, v float64) float64 { return v })
		pc.Off = append(pc.Off, b.corners(func(end bool, along, deep length.Length) Corner {
			return Corner{End: true, Far: end, Along: deep, Across: along}
		})...)
		to, clear = span{b.lo, b.hi}, clear+s.rules.Clear
	}
	u := span{pc.From, pc.To}
	last := bent(func(u length.Length) length.Length { return min(v.hi, o.lastAt(u)) }, u, o.last, v.hi, line.at, func(u, _ float64) float64 { return u })
	first := bent(func(u length.Length) length.Length { return -max(v.lo, o.firstAt(u)) }, u, o.first, v.lo, line.at, func(u, _ float64) float64 { return u })
	for _, side := range []struct {
		bend
		far bool
	}{{last, true}, {first, false}} {
		for _, c := range side.corners(func(end bool, along, deep length.Length) Corner {
			return Corner{End: end, Far: side.far, Along: along, Across: deep}
		}) {
			if c.Across < v.size()-Taper {
				pc.Off = append(pc.Off, c)
				continue
			}
			// It takes up the whole end: cut the end on a slant instead.
			at := &from
			by := c.Along
			if c.End {
				at, by = &to, -c.Along
			}
			if c.Far {
				at.hi += by
			} else {
				at.lo += by
			}
		}
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
	wide := func(w length.Length) length.Length {
		if w >= l.board {
			return l.board
		}
		return min(pc.Width, down(w-s.rules.Rip))
	}
	a, b := wide(last.lo+first.lo), wide(last.hi+first.hi)
	pc.Width = min(a, b)
	if abs(a-b) > Taper {
		pc.Width, pc.Ends = max(a, b), [2]length.Length{a, b}
	}
	pc.Rip = pc.Width < l.board || pc.RipTapered()
	for i := range pc.Off {
		pc.Off[i].Far = pc.Off[i].Far != s.in.Far
	}
}

// bend is how far out a side of a piece is at its two ends. If the side bends outward in between by more
// than Taper, lo and hi are how far out it is at most, and off are the corners to cut off, from the end to
// where the side is farthest out.
type bend struct {
	lo, hi length.Length
	off    [2]struct{ along, deep length.Length }
}

// bent returns the bend of a side of a piece. f is how far out the surface is at a place along the side,
// over is the extent of the side, e bounds the surface there, and own is where the side of the uncut piece
// is. where gives the place at which a line meets own, and meet the place of a crossing.
func bent(f func(length.Length) length.Length, over span, e edge, own length.Length, where func(line, length.Length) length.Length, meet func(u, v float64) float64) bend {
	b := bend{lo: f(over.lo), hi: f(over.hi)}
	if b.lo == b.hi && len(e) == 1 { // straight
		return b
	}
	breaks := e.crossings(meet)
	for _, w := range e {
		if w.du != 0 && w.dv != 0 {
			breaks = append(breaks, where(w, own))
		}
	}
	bulge, top := length.Length(0), max(b.lo, b.hi)
	var tops []length.Length // places where it is farthest out
	for _, at := range breaks {
		if over.lo < at && at < over.hi {
			v := f(at)
			chord := b.lo + round(float64(b.hi-b.lo)*float64(at-over.lo)/float64(over.size()))
			bulge, top = max(bulge, v-chord), max(top, v)
			tops = append(tops, at)
		}
	}
	if bulge <= Taper {
		return b
	}
	tops = slices.DeleteFunc(tops, func(at length.Length) bool { return f(at) < top-Taper })
	if b.lo >= top-Taper {
		tops = append(tops, over.lo)
	}
	if b.hi >= top-Taper {
		tops = append(tops, over.hi)
	}
	b.off[0].along, b.off[0].deep = slices.Min(tops)-over.lo, top-b.lo
	b.off[1].along, b.off[1].deep = over.hi-slices.Max(tops), top-b.hi
	b.lo, b.hi = top, top
	return b
}

// corners returns those to cut off, each made by of from its extent along the side and its depth.
func (b bend) corners(of func(end bool, along, deep length.Length) Corner) (out []Corner) {
	for i, c := range b.off {
		if c.deep > Taper && c.along > Taper {
			out = append(out, of(i == 1, c.along, c.deep))
		}
	}
	return out
}
