package shell

import (
	"cmp"
	"math/big"
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// SlopeTo returns the slope that comes down to wall w, as last said.
func (r *Room) SlopeTo(w place.Wall) (event.Slope, bool) {
	b, ok := r.Slopes[w]
	b.Over = cmp.Or(b.Over, w.Deep(r.EW, r.NS))
	return b, ok
}

// Bulkhead returns the n-th bulkhead along wall w, as last said.
func (r *Room) Bulkhead(w place.Wall, n int) (event.Bulkhead, bool) {
	for _, b := range r.Bulkheads {
		if b.Wall == w && b.N == n {
			return b, true
		}
	}
	return event.Bulkhead{}, false
}

// shapes returns the standing slopes, parts of bulkheads and faces of notches.
func (r *Room) shapes() (out []place.Surface) {
	for _, w := range place.Walls {
		if _, ok := r.SlopeTo(w); ok {
			out = append(out, place.Slope(w))
		}
	}
	for _, b := range r.Bulkheads {
		out = append(out, place.Part(b.Wall, b.N, place.Bottom), place.Part(b.Wall, b.N, place.Front))
		if b.Off > 0 {
			out = append(out, place.Part(b.Wall, b.N, place.Back))
		}
	}
	for _, f := range r.notchFaces() {
		out = append(out, f.is)
	}
	return out
}

// shape returns the extent of a slope, a part of a bulkhead or a notch's face. ok is false for other
// surfaces.
func (r *Room) shape(s place.Surface) (x, y length.Length, ok bool) {
	if w := s.SlopeTo(); w != "" {
		if b, ok := r.SlopeTo(w); ok {
			return r.long(w, 0, b.Over), Incline(b.Over, b.High-b.Low), true
		}
		return 0, 0, false
	}
	if f, ok := r.faceOf(s); ok {
		from, to := f.span(r)
		return to - from, r.toFraming(r.faceHeight(f)), true
	}
	part, w, n := s.BulkheadOf()
	b, ok := r.Bulkhead(w, n)
	switch {
	case !ok:
		return 0, 0, false
	case part == place.Bottom:
		return r.long(w, b.Off, b.Off+b.Wide), b.Wide, true
	case part == place.Back:
		return r.long(w, b.Off, b.Off), b.Drop, true
	}
	return r.long(w, b.Off+b.Wide, b.Off+b.Wide), b.Drop, true
}

// long returns the distance between the side walls, framing to framing, along wall w: the longer one of
// those at two distances off it.
func (r *Room) long(w place.Wall, near, far length.Length) length.Length {
	shape, leans := r.Shape()
	if !leans {
		x, _ := r.Extent(place.Surface(w))
		return x
	}
	at := func(off length.Length) length.Length {
		var move [4]length.Length
		move[slices.Index(place.Walls[:], w)] = -off
		return shape.Wider(move).Measure(square.Line(w))
	}
	return max(at(near), at(far))
}

// Incline returns the length of a slope from its two legs, rounded down to the nanometre (Euclid I.47).
func Incline(run, rise length.Length) length.Length {
	square := func(l length.Length) *big.Int { return new(big.Int).Mul(big.NewInt(int64(l)), big.NewInt(int64(l))) }
	return length.Length(new(big.Int).Sqrt(new(big.Int).Add(square(run), square(rise))).Int64())
}

// Up converts a level distance off the wall of slope s, in plan, to the distance up the slope.
func (r *Room) Up(s place.Surface, level length.Length) length.Length {
	b, ok := r.SlopeTo(s.SlopeTo())
	if !ok {
		return level
	}
	up := new(big.Int).Mul(big.NewInt(int64(level)), big.NewInt(int64(Incline(b.Over, b.High-b.Low))))
	return length.Length(up.Quo(up, big.NewInt(int64(b.Over))).Int64())
}

// bulkheadPart returns the place of a bulkhead in plan.
func bulkheadPart(b event.Bulkhead) part { return strip(b.Wall, b.Off, b.Off+b.Wide) }

// strip returns the part of the plan between two distances off wall w.
func strip(w place.Wall, near, far length.Length) (p part) {
	if w.Along() == place.X {
		p.y = hold{w, near, far}
	} else {
		p.x = hold{w, near, far}
	}
	return p
}

// OnPlan returns the rectangle of the ceiling's plan that a slope or the bottom of a bulkhead is over, to
// the framing. ok is false for other surfaces.
func (r *Room) OnPlan(s place.Surface) (q place.Rect, ok bool) {
	if w := s.SlopeTo(); w != "" {
		b, ok := r.SlopeTo(w)
		return r.rect(strip(w, 0, b.Over)), ok
	}
	part, w, n := s.BulkheadOf()
	b, ok := r.Bulkhead(w, n)
	if part != place.Bottom || !ok {
		return q, false
	}
	return r.rect(bulkheadPart(b)), true
}

// Overhead returns what is over a point of the plan: the ceiling, a slope, or the bottom of a bulkhead.
func (r *Room) Overhead(p place.Point) place.Surface {
	for _, b := range r.Bulkheads {
		if d := r.offFraming(b.Wall, p); b.Off <= d && d <= b.Off+b.Wide {
			return place.Part(b.Wall, b.N, place.Bottom)
		}
	}
	for _, w := range place.Walls {
		if b, ok := r.SlopeTo(w); ok && r.offFraming(w, p) < b.Over {
			return place.Slope(w)
		}
	}
	return place.Ceiling
}

// AllSlope returns the slope that takes up the whole ceiling, "" if there is none.
func (r *Room) AllSlope() place.Surface {
	for _, w := range place.Walls {
		if b, ok := r.Slopes[w]; ok && b.Over == 0 {
			return place.Slope(w)
		}
	}
	return ""
}

// inward returns how far off its framing the ceiling ends at wall w now, see [Room.EndsAt]. If the walls
// go first, it ends at the board that is or will be on the wall.
func (r *Room) inward(w place.Wall) length.Length {
	_, d := r.EndsAt(w)
	return max(d, r.Ends[w])
}

// EndsAt returns what the ceiling ends at toward wall w, and how far that is off its framing: the slope
// that comes down to it, the bulkhead tight against it, or else the wall.
func (r *Room) EndsAt(w place.Wall) (at place.Surface, off length.Length) {
	at = place.Surface(w)
	if b, ok := r.SlopeTo(w); ok {
		at, off = place.Slope(w), b.Over
	}
	for _, b := range r.Bulkheads {
		if b.Wall == w && b.Off == 0 && b.Wide > off {
			at, off = place.Part(w, b.N, place.Front), b.Wide
		}
	}
	return at, off
}

// Under returns the slopes over a wall or a notch's face s, each as a line from its west or north end. The
// board of the wall ends there, under that of the slope.
func (r *Room) Under(s place.Surface) (out [][2]place.Point) {
	if !s.FromFloor() || len(r.Slopes) == 0 {
		return nil
	}
	long, y := r.Extent(s)
	start, x := r.startOf(s), long
	if start > 0 || !s.IsWall() {
		x = s.Start(place.X).Deep(r.EW, r.NS)
	}
	for _, o := range place.Walls {
		b, ok := r.SlopeTo(o)
		a, grows, beside := s.Axis(o)
		if !ok || !beside || a != place.X || y == 0 {
			continue
		}
		// Measured vertically, board on a slope is thicker by the ratio of the slope's length to its plan.
		thick := length.Length(float64(r.Over) * float64(Incline(b.Over, b.High-b.Low)) / float64(b.Over))
		low, high := place.Point{Y: b.Low - thick}, place.Point{X: b.Over, Y: b.High - thick}
		if !grows {
			low.X, high.X = x, x-b.Over
			low, high = high, low
		}
		low.X, high.X = low.X-start, high.X-start
		if high.X <= 0 || low.X >= long { // it comes down beside the notch
			continue
		}
		line := [2]place.Point{low, high}
		if line[0].X < 0 {
			line[0] = place.Point{Y: lineOver(line, 0)}
		}
		if line[1].X > long {
			line[1] = place.Point{X: long, Y: lineOver(line, long)}
		}
		out = append(out, line)
	}
	return out
}

// Gable returns the outline of a wall under slopes, from its lower corner at the west or north end; nil if
// there are none.
func (r *Room) Gable(s place.Surface) []place.Point {
	lines := r.Under(s)
	if lines == nil {
		return nil
	}
	x, y := r.Extent(s)
	left, right := []place.Point{{Y: y}}, []place.Point{{X: x, Y: y}} // from the floor up
	for _, l := range lines {
		if l[0].Y < l[1].Y {
			left = []place.Point{l[0], l[1]}
		} else {
			right = []place.Point{l[1], l[0]}
		}
	}
	if a, b := left[len(left)-1], right[len(right)-1]; len(lines) == 2 && a.X > b.X { // they meet in a ridge below the top
		up, down := float64(a.Y-left[0].Y)/float64(a.X-left[0].X), float64(b.Y-right[0].Y)/float64(right[0].X-b.X)
		at := length.Length((float64(right[0].Y-left[0].Y) + down*float64(right[0].X)) / (up + down))
		ridge := place.Point{X: at, Y: left[0].Y + length.Length(up*float64(at))}
		left, right = left[:1], []place.Point{right[0], ridge}
	}
	slices.Reverse(left)
	return slices.Concat([]place.Point{{}, {X: x}}, right, left)
}

// lineOver returns the height of a line over a wall at the place x along it.
func lineOver(line [2]place.Point, x length.Length) length.Length {
	a, b := line[0], line[1]
	return a.Y + length.Length(float64(b.Y-a.Y)*float64(x-a.X)/float64(b.X-a.X))
}

// boxed returns the places of bulkheads on the ceiling, a wall or a notch's face. Their framing goes up
// before the board, which stops at it (common practice, no source).
func (r *Room) boxed(s place.Surface) (out []place.Rect) {
	if s != place.Ceiling && !s.FromFloor() {
		return nil
	}
	x, y := r.Extent(s)
	long, start := x, r.startOf(s)
	if start > 0 || s.FromFloor() && !s.IsWall() {
		x = s.Start(place.X).Deep(r.EW, r.NS)
	}
	for _, b := range r.Bulkheads {
		_, grows, ok := s.Axis(b.Wall)
		q := place.Rect{X1: x, Y1: y}
		switch {
		case s == place.Ceiling:
			q = r.rect(bulkheadPart(b))
		case ok && y > 0: // a wall that the end of the bulkhead meets
			if q.Y0 = y - b.Drop; grows {
				q.X0, q.X1 = b.Off, b.Off+b.Wide
			} else {
				q.X0, q.X1 = x-b.Off-b.Wide, x-b.Off
			}
			q.X0, q.X1 = max(q.X0-start, 0), min(q.X1-start, long)
		default:
			continue
		}
		if q.Y0 < q.Y1 && q.X0 < q.X1 {
			out = append(out, q)
		}
	}
	return out
}

// wallHeight returns how high wall w is, to the framing over it: the low edge of the slope that comes down
// to it, or else the room's height, or else the top of a slope, minus the bulkhead tight against it.
func (r *Room) wallHeight(w place.Wall) length.Length {
	high := r.roomHeight()
	if b, ok := r.SlopeTo(w); ok {
		high = b.Low
	}
	for _, b := range r.Bulkheads {
		if b.Wall == w && b.Off == 0 && high > 0 {
			high -= b.Drop
		}
	}
	return max(high, 0)
}

// roomHeight returns the room's height as said, or else the top of a slope; 0 if neither is known.
func (r *Room) roomHeight() length.Length {
	high := r.High
	for _, o := range place.Walls {
		if b, ok := r.SlopeTo(o); ok && high == 0 {
			high = b.High
		}
	}
	return high
}

// offset returns how far the near edge of surface s is off wall w, for a bulkhead that stands clear of it.
func (r *Room) offset(s place.Surface, w place.Wall) length.Length {
	if _, wall, n := s.BulkheadOf(); wall == w {
		b, _ := r.Bulkhead(w, n)
		return b.Off
	}
	return 0
}
