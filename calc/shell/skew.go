package shell

import (
	"math"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// Skew returns the corners of a slope or a bulkhead's bottom whose side walls lean, to the framing and
// clockwise from where it meets its own wall and the one that X grows from. The least X is 0. ok is false for
// other surfaces and in a square room.
func (r *Room) Skew(s place.Surface) (c [4]place.Point, ok bool) {
	return r.skew(s, func(place.Wall) length.Length { return 0 })
}

// skew is Skew with each wall moved in by the board on it.
func (r *Room) skew(s place.Surface, board func(place.Wall) length.Length) (c [4]place.Point, ok bool) {
	shape, leans := r.Shape()
	w, near, far, ratio, flat := r.tilt(s)
	if !leans || !flat {
		return c, false
	}
	start := s.Start(place.X)
	end := start.Opposite()
	at := func(own, side square.Off) place.Point {
		p := shape.Resolve(own, side)
		return p
	}
	corners := func(board func(place.Wall) length.Length) [4]place.Point {
		low := square.Off{Wall: w, L: near + max(board(w)-near, 0)}
		high := square.Off{Wall: w, L: far}
		if s == r.AllSlope() { // it ends at the wall across, which may not be parallel
			high = square.Off{Wall: w.Opposite(), L: board(w.Opposite())}
		}
		a, b := square.Off{Wall: start, L: board(start)}, square.Off{Wall: end, L: board(end)}
		return [4]place.Point{at(low, a), at(low, b), at(high, b), at(high, a)}
	}
	bare := func(place.Wall) length.Length { return 0 }
	from := at(square.Off{Wall: w}, square.Off{Wall: start})
	to := at(square.Off{Wall: w}, square.Off{Wall: end})
	dx, dy := float64(to.X-from.X), float64(to.Y-from.Y)
	long := math.Hypot(dx, dy)
	onto := func(p place.Point) place.Point {
		u, v := float64(p.X-from.X), float64(p.Y-from.Y)
		level := math.Abs(u*dy-v*dx) / long
		return place.Point{X: round((u*dx + v*dy) / long), Y: round((level - float64(near)) * ratio)}
	}
	least := min(onto(corners(bare)[0]).X, onto(corners(bare)[3]).X)
	for i, p := range corners(board) {
		c[i] = onto(p)
		c[i].X -= least
	}
	return c, true
}

// tilt returns the wall of a slope or a bulkhead's bottom, how far it begins and ends off that wall, and how
// much longer it is than its plan. ok is false for other surfaces.
func (r *Room) tilt(s place.Surface) (w place.Wall, near, far length.Length, ratio float64, ok bool) {
	if w = s.SlopeTo(); w != "" {
		b, ok := r.SlopeTo(w)
		return w, 0, b.Over, float64(Incline(b.Over, b.High-b.Low)) / float64(b.Over), ok
	}
	part, w, n := s.BulkheadOf()
	b, ok := r.Bulkhead(w, n)
	return w, b.Off, b.Off + b.Wide, 1, ok && part == place.Bottom
}

// Long returns how long a surface is at its longest, along X.
func (r *Room) Long(s place.Surface) length.Length {
	if c, ok := r.Skew(s); ok {
		return max(c[1].X-c[0].X, c[2].X-c[3].X)
	}
	x, _ := r.Extent(s)
	return x
}

// side returns the end of a skew surface toward wall w as a line: its x where y is 0, and how much x grows
// with y. ok is false for other surfaces and other edges.
func (r *Room) side(s place.Surface, w place.Wall) (x, lean float64, ok bool) {
	c, ok := r.Skew(s)
	if a, _, bounds := s.Axis(w); !ok || !bounds || a != place.X {
		return 0, 0, false
	}
	low, high := c[1], c[2]
	if w == s.Start(place.X) {
		low, high = c[0], c[3]
	}
	lean = float64(high.X-low.X) / float64(high.Y-low.Y)
	return float64(low.X) - lean*float64(low.Y), lean, true
}

// Outline returns the corners of a surface whose walls lean, between the present faces and clockwise from
// north-west, or from where a slope or a bulkhead's bottom begins; nil for a rectangle.
func (r *Room) Outline(s place.Surface) []place.Point {
	if shape, leans := r.Faces(s); leans {
		return shape.Corners[:]
	}
	if c, ok := r.skew(s, r.Board); ok {
		return c[:]
	}
	return nil
}

func round(f float64) length.Length { return length.Length(math.Round(f)) }
