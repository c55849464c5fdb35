package layout

import (
	"cmp"
	"slices"

	"strapline/calc/joints"
	"strapline/calc/length"
)

// lane is a row in the form the solver takes.
type lane struct {
	band
	row int // from 1
	joints.Lane
	cols   []column
	chains []*chain // of joints.Lane
	gaps   []span   // beside hung pieces, too narrow for a piece
}

// chain is a stretch of a row to fill with pieces. Its ends are walls, edges of openings, or hung pieces.
type chain struct {
	*joints.Chain
	u          span
	wall       [2]bool // which ends are at a wall, where pieces are cut clear
	byOpenings bool    // butts near openings are allowed, because it cannot be filled otherwise
	short      bool    // short pieces are allowed, because it cannot be filled otherwise
	candidates []length.Length
}

// least is the shortest stretch beside a hung piece that gets a piece; anything narrower is filled. Our
// own choice, no source.
const least = 2 * length.Inch

// lineUp is the distance from an inside corner within which a butt counts as in line with it.
const lineUp = length.Inch

// lanes cuts the rows into chains, without candidates for butts or sizes of pieces yet.
func (s *site) lanes(rows []band) ([]*lane, error) {
	out := make([]*lane, len(rows))
	for i, r := range rows {
		l := &lane{band: r, row: i + 1, cols: columns(s.rowSpan(r.v), r.v, s.holes)}
		hung, err := s.hungIn(i, l)
		if err != nil {
			return nil, err
		}
		for k := 0; k < len(l.cols); {
			u := l.cols[k].u
			for k++; k < len(l.cols) && l.cols[k].u.lo == u.hi; k++ {
				u.hi = l.cols[k].u.hi
			}
			for _, part := range less(u, slices.Clone(hung)) {
				if part.size() < least && part != u {
					if part.size() > 2*s.rules.Clear {
						l.gaps = append(l.gaps, part)
					}
					continue
				}
				c := &chain{Chain: &joints.Chain{}, u: part, wall: [2]bool{part.lo == u.lo, part.hi == u.hi}}
				l.chains = append(l.chains, c)
				l.Chains = append(l.Chains, c.Chain)
			}
			for _, h := range hung {
				for _, e := range []length.Length{h.lo, h.hi} {
					if e-u.lo >= least && u.hi-e >= least {
						l.Fixed = append(l.Fixed, e)
					}
				}
			}
		}
		slices.Sort(l.Fixed)
		l.Fixed = slices.Compact(l.Fixed)
		out[i] = l
	}
	return out, nil
}

// hungIn returns the stretches of row i that are up.
func (s *site) hungIn(i int, l *lane) ([]span, error) {
	var out []span
	for _, h := range s.in.Hung {
		if h.Row-1 != i {
			continue
		}
		if h.From < -s.rules.Clear || h.To > s.length+s.rules.Clear || h.From >= h.To || len(l.cols) == 0 {
			return nil, &Problem{Kind: BadHung, Row: h.Row, From: h.From, To: h.To}
		}
		out = append(out, span{h.From, h.To})
	}
	slices.SortFunc(out, func(a, b span) int { return cmp.Compare(a.lo, b.lo) })
	return out, nil
}

// section returns the extent across of a joint at u, and whether u lies inside the row there.
func (l *lane) section(u length.Length) (v span, ok bool) {
	n := 0
	for _, c := range l.cols {
		if c.u.lo <= u && u <= c.u.hi {
			if n == 0 {
				v = span{c.lo(), c.hi()}
			}
			v = span{min(v.lo, c.lo()), max(v.hi, c.hi())}
			n++
			if c.u.lo < u && u < c.u.hi {
				n++
			}
		}
	}
	return v, n == 2
}

// places sets the chain's candidates for butts: posts that carry the joint and are not in line with an
// inside corner nor, unless near, close to an opening or a thing.
func (s *site) places(l *lane, c *chain) {
	c.candidates = nil
	kept, keep := s.in.Keep[l.row]
	bar := func(u length.Length) bool { return keep && !slices.Contains(kept, u) || s.barred(l, u, c.byOpenings) }
	if s.in.Along {
		for _, u := range s.anywhere() {
			if u > c.u.lo && u < c.u.hi && !bar(u) {
				if _, ok := l.section(u); ok {
					c.candidates = append(c.candidates, u)
				}
			}
		}
		return
	}
	for _, p := range s.posts {
		if p.at <= c.u.lo || p.at >= c.u.hi || bar(p.at) {
			continue
		}
		if v, ok := l.section(p.at); ok && p.carries(v) {
			c.candidates = append(c.candidates, p.at)
		}
	}
}

// barred reports whether no butt may go at u in the lane.
func (s *site) barred(l *lane, u length.Length, byOpenings bool) bool {
	touches := func(b box) bool { return b.v.lo <= l.v.hi && b.v.hi >= l.v.lo }
	for _, b := range s.holes {
		if touches(b) && (abs(u-b.u.lo) < lineUp || abs(u-b.u.hi) < lineUp) {
			return true
		}
	}
	if byOpenings {
		return false
	}
	for _, b := range s.openings {
		if touches(b) && (abs(u-b.u.lo) < s.rules.Edge || abs(u-b.u.hi) < s.rules.Edge) {
			return true
		}
	}
	for _, b := range s.things {
		if touches(b) && u > b.u.lo-s.rules.Edge && u < b.u.hi+s.rules.Edge {
			return true
		}
	}
	return false
}

func abs(l length.Length) length.Length { return max(l, -l) }

// size is the size of a piece as cut.
type size struct{ length, width length.Length }

// piece returns the size of the piece of c over u, and its extent across.
func (s *site) piece(l *lane, c *chain, u span) (size, span) {
	v := span{l.v.hi, l.v.lo}
	for _, col := range l.cols {
		if col.u.lo < u.hi && col.u.hi > u.lo {
			v = span{min(v.lo, col.lo()), max(v.hi, col.hi())}
		}
	}
	n := u.size()
	if u.lo == c.u.lo && c.wall[0] {
		n -= s.rules.Clear
	}
	if u.hi == c.u.hi && c.wall[1] {
		n -= s.rules.Clear
	}
	n -= n % s.rules.Round
	w := v.size()
	if w >= l.board {
		return size{n, l.board}, v
	}
	if cutEdge := l.first || l.last || v != l.v; cutEdge && w > 2*s.rules.Rip {
		w -= s.rules.Rip
	}
	return size{n, w - w%s.rules.Round}, v
}

// fill sets the chain's nodes and pieces, adds new sizes to items, and reports whether the chain can be
// filled.
func (s *site) fill(l *lane, c *chain, short length.Length, items map[size]int32) bool {
	c.Nodes = append(append([]length.Length{c.u.lo}, c.candidates...), c.u.hi)
	n := len(c.Nodes)
	c.Item = make([][]int32, n)
	cells := slices.Repeat([]int32{-1}, n*n)
	for i := range n {
		c.Item[i] = cells[i*n : (i+1)*n]
		for j := i + 1; j < n; j++ {
			sz, _ := s.piece(l, c, span{c.Nodes[i], c.Nodes[j]})
			if sz.length > s.longest {
				break
			}
			if sz.length <= 0 || sz.width <= 0 || sz.length < short && n > 2 && !(i == 0 && j == n-1) || !s.hasBoard(sz) {
				continue
			}
			k, ok := items[sz]
			if !ok {
				k = int32(len(items))
				items[sz] = k
			}
			c.Item[i][j] = k
		}
	}
	return c.Fewest() > 0
}

func (s *site) hasBoard(z size) bool {
	return slices.ContainsFunc(s.stock, func(b Stock) bool { return !b.Offcut && b.Length >= z.length && b.Width >= z.width })
}

// stuck returns the first stretch of the chain that no board bridges.
func (c *chain) stuck(longest length.Length) (from, to length.Length) {
	at := c.u.lo
	for _, u := range append(slices.Clone(c.candidates), c.u.hi) {
		if u-at > longest {
			return at, u
		}
		at = u
	}
	return c.u.lo, c.u.hi
}
