package layout_test

import (
	"fmt"
	"math"
	"slices"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// verify checks a layout as a suspicious lead would, from the surface and sharing no code with the solver:
// all of the surface under exactly one piece, every butt on a support, every piece cut from a board on
// hand. It returns what is wrong.
func verify(in layout.Input, l *layout.Layout) (wrong []string) {
	bad := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	noted := map[layout.About]bool{}
	for _, n := range l.Notes {
		noted[n.About] = true
	}
	rules := layout.Defaults()

	type rect struct{ x0, x1, y0, y1 length.Length }
	of := func(r layout.Rect) rect { return rect{r.X, r.X + r.W, r.Y, r.Y + r.H} }
	type placed struct {
		rect
		layout.Piece
	}
	var pieces []placed
	for _, row := range l.Rows {
		for _, p := range row.Pieces {
			r := rect{p.From, p.To, p.Lo, p.Hi}
			if l.Run == place.Y {
				r = rect{p.Lo, p.Hi, p.From, p.To}
			}
			pieces = append(pieces, placed{r, p})
		}
	}

	// Tiled: cut the plane at every edge, and look at each cell.
	xs, ys := []length.Length{0, in.Surface.W}, []length.Length{0, in.Surface.H}
	add := func(r rect) {
		xs, ys = append(xs, r.x0, r.x1), append(ys, r.y0, r.y1)
	}
	var holes []rect
	for _, n := range slices.Concat(in.Surface.Notches, in.Surface.Openings) {
		holes = append(holes, of(n))
		add(of(n))
	}
	for _, p := range pieces {
		add(p.rect)
	}
	slices.Sort(xs)
	slices.Sort(ys)
	xs, ys = slices.Compact(xs), slices.Compact(ys)
	inside := func(r rect, x, y length.Length) bool { return r.x0 < x && x < r.x1 && r.y0 < y && y < r.y1 }
	onSurface := func(x, y length.Length) bool {
		if x < 0 || y < 0 || x > in.Surface.W || y > in.Surface.H {
			return false
		}
		return !slices.ContainsFunc(holes, func(h rect) bool { return inside(h, x, y) })
	}
	area := 0.0
	for i := range len(xs) - 1 {
		for j := range len(ys) - 1 {
			x, y := (xs[i]+xs[i+1])/2, (ys[j]+ys[j+1])/2
			n := 0
			for _, p := range pieces {
				if inside(p.rect, x, y) {
					n++
					if !onSurface(x, y) && !slices.ContainsFunc(p.Notches, func(r layout.Rect) bool { return inside(of(r), x, y) }) {
						bad("%s covers %.1f, %.1f off the surface and is not notched there", p.ID, in2(x), in2(y))
					}
				}
			}
			w, h := xs[i+1]-xs[i], ys[j+1]-ys[j]
			if !onSurface(x, y) {
				continue
			}
			area += float64(w) / 1e9 * float64(h) / 1e9
			// A strip no wider than a rip's clearance may stay open at the last side.
			if n == 0 && min(w, h) > rules.Rip || n > 1 {
				bad("%d pieces at %.1f, %.1f", n, in2(x), in2(y))
			}
		}
	}
	if math.Abs(area-l.Area) > 1e-6 {
		bad("area %.4f, says %.4f", area, l.Area)
	}

	// Supported and staggered.
	butts := 0
	for i, row := range l.Rows {
		joints := 0
		for k := 1; k < len(row.Pieces); k++ {
			if row.Pieces[k].From == row.Pieces[k-1].To {
				joints++
				if !slices.ContainsFunc(row.Butts, func(b layout.Butt) bool { return b.At == row.Pieces[k].From }) {
					bad("row %d: joint at %.1f is no butt", i+1, in2(row.Pieces[k].From))
				}
			}
		}
		if joints != len(row.Butts) {
			bad("row %d: %d joints, %d butts", i+1, joints, len(row.Butts))
		}
		butts += joints
		for _, b := range row.Butts {
			if i > 0 {
				for _, o := range l.Rows[i-1].Butts {
					if d := max(b.At-o.At, o.At-b.At); d < rules.Stagger && !noted[layout.StaggerLow] {
						bad("row %d: butt at %.1f is %.1f from a neighbour's", i+1, in2(b.At), in2(d))
					}
				}
			}
			for _, o := range in.Surface.Openings {
				r := of(o)
				lo, hi, near, far := r.y0, r.y1, r.x0, r.x1
				if l.Run == place.Y {
					lo, hi, near, far = near, far, lo, hi
				}
				if lo <= row.To && hi >= row.From && !noted[layout.EdgeNear] &&
					(max(b.At-near, near-b.At) < rules.Edge || max(b.At-far, far-b.At) < rules.Edge) {
					bad("row %d: butt at %.1f is on an opening's edge", i+1, in2(b.At))
				}
			}
			for _, o := range in.Surface.Things {
				r := of(o)
				lo, hi, near, far := r.y0, r.y1, r.x0, r.x1
				if l.Run == place.Y {
					lo, hi, near, far = near, far, lo, hi
				}
				if lo <= row.To && hi >= row.From && !noted[layout.EdgeNear] && b.At > near-rules.Edge && b.At < far+rules.Edge {
					bad("row %d: butt at %.1f is on a thing", i+1, in2(b.At))
				}
			}
			if in.Along {
				continue
			}
			if b.Support < 0 {
				bad("row %d: butt at %.1f is on nothing", i+1, in2(b.At))
				continue
			}
			// The row's surface right beside the joint must be on supports there.
			across, far := ys, in.Surface.H
			if l.Run == place.Y {
				across, far = xs, in.Surface.W
			}
			for j := range len(across) - 1 {
				v := (across[j] + across[j+1]) / 2
				if v < row.From || v > row.To {
					continue
				}
				for _, u := range []length.Length{b.At - 1, b.At + 1} {
					x, y := u, v
					if l.Run == place.Y {
						x, y = v, u
					}
					if onSurface(x, y) && !carried(in, b.At, v, far) {
						bad("row %d: butt at %.1f hangs free at %.1f", i+1, in2(b.At), in2(v))
					}
				}
			}
		}
	}
	if butts != l.Butts {
		bad("%d butts, says %d", butts, l.Butts)
	}

	// Boards suffice.
	byID := map[string]layout.Piece{}
	for _, p := range pieces {
		if _, ok := byID[p.ID]; ok {
			bad("two pieces %s", p.ID)
		}
		byID[p.ID] = p.Piece
		if p.Hung {
			continue
		}
		place, across := p.To-p.From, p.Hi-p.Lo
		if p.Cut > place || place-p.Cut > 2*rules.Clear+rules.Round || p.Cut%rules.Round != 0 {
			bad("%s: cut %.3f for a place of %.3f", p.ID, in2(p.Cut), in2(place))
		}
		if p.Width > max(across, 0)+rules.Rip || across-p.Width > rules.Rip+rules.Round {
			bad("%s: width %.3f for a place of %.3f", p.ID, in2(p.Width), in2(across))
		}
		if in.Longest > 0 && p.Cut > in.Longest {
			bad("%s does not get in", p.ID)
		}
		if p.Cut < rules.Short && !noted[layout.ShortPiece] {
			alone := 0
			for _, q := range pieces {
				if q.Lo == p.Lo {
					alone++
				}
			}
			if alone > 1 && (hasNeighbour(l, p.Piece)) {
				bad("%s is only %.2f long", p.ID, in2(p.Cut))
			}
		}
	}
	used := map[layout.Stock]int{}
	bought := 0.0
	for _, c := range l.Cuts {
		used[layout.Stock{Width: c.Width, Length: c.Length}]++
		bought += float64(c.Width) / 1e9 * float64(c.Length) / 1e9
		wide := length.Length(0)
		if len(c.Strips) < 1 || len(c.Strips) > 2 {
			bad("board in %d strips", len(c.Strips))
		}
		for _, s := range c.Strips {
			wide += s.Width
			left := c.Length
			for _, id := range s.Pieces {
				p, ok := byID[id]
				if !ok || p.Hung {
					bad("%s is cut but not hung, or twice", id)
				}
				delete(byID, id)
				left -= p.Cut
				if p.Width > s.Width {
					bad("%s is wider than its strip", id)
				}
			}
			if left < 0 || left != s.Left {
				bad("strip of %v has %.2f left, says %.2f", s.Pieces, in2(left), in2(s.Left))
			}
		}
		if wide > c.Width {
			bad("strips of %.2f out of %.2f", in2(wide), in2(c.Width))
		}
	}
	for id, p := range byID {
		if !p.Hung {
			bad("%s is not cut", id)
		}
	}
	for _, b := range l.Boards {
		if used[layout.Stock{Width: b.Width, Length: b.Length}] != b.Count {
			bad("count of %.0f ft boards is off", in2(b.Length)/12)
		}
		delete(used, layout.Stock{Width: b.Width, Length: b.Length})
		have, ok := 0, false
		for _, st := range in.Stock {
			if st.Width == b.Width && st.Length == b.Length {
				ok = ok || in.Longest <= 0 || st.Length <= in.Longest || st.Count > 0
				if have += st.Count; st.Count < 0 {
					have = math.MaxInt32
				}
			}
			// A counted board that does not get in whole is fetched as what does, to the foot.
			ok = ok || st.Count >= 0 && in.Longest > 0 && st.Length > in.Longest && b.Length == in.Longest/foot*foot
		}
		for _, sh := range l.Short {
			if sh.Width == b.Width && sh.Length == b.Length {
				have += sh.Count
			}
			if in.Longest > 0 && sh.Length > in.Longest {
				bad("%.0f ft boards short, which do not get in", in2(sh.Length)/12)
			}
		}
		if !ok || have < b.Count {
			bad("%d boards of %.0f ft used, %d there", b.Count, in2(b.Length)/12, have)
		}
	}
	if len(used) > 0 {
		bad("boards cut but not listed: %v", used)
	}
	if math.Abs(bought-l.Bought) > 1e-6 || l.Bound > l.Bought+1e-6 || l.BoundButts > l.Butts {
		bad("bought %.3f says %.3f, bound %.3f; butts %d, bound %d", bought, l.Bought, l.Bound, l.Butts, l.BoundButts)
	}
	if l.Proven != (math.Abs(l.Bound-l.Bought) < 1e-6 && l.BoundButts == l.Butts) && len(l.Short) == 0 {
		bad("proven %v with bound %.3f of %.3f and %d of %d", l.Proven, l.Bound, l.Bought, l.BoundButts, l.Butts)
	}
	return wrong
}

func hasNeighbour(l *layout.Layout, p layout.Piece) bool {
	for _, r := range l.Rows {
		for _, q := range r.Pieces {
			if q.ID != p.ID && (q.To == p.From || q.From == p.To) && q.Lo < p.Hi && q.Hi > p.Lo {
				return true
			}
		}
	}
	return false
}

// carried reports whether a support is under the joint at along the run, at v across.
func carried(in layout.Input, at, v, far length.Length) bool {
	return slices.ContainsFunc(in.Supports, func(s layout.Support) bool {
		to := s.To
		if to == 0 {
			to = far
		}
		return s.At == at && s.From <= v && v <= to
	})
}

func in2(l length.Length) float64 { return float64(l) / float64(length.Inch) }
