package slip

import (
	"cmp"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// opening is the shape of the thing: a circle of radius X, or a rectangle with half
// sides X and Y.
type opening struct {
	place.Point
	round bool
}

func (n Note) opening() opening { return openingOf(n.Size) }

func openingOf(size place.Size) opening {
	if size.A <= 0 {
		size.A = Unsized
	}
	return opening{place.Point{X: size.Half(place.X), Y: size.Half(place.Y)}, size.B == 0}
}

// tape is the likely error of a measured place, by our own estimate. A hole counts as
// testing a place only if it is this far inside the opening's edge.
const tape = 4 * length.Sixteenth

// has reports whether q is inside the opening centred at c, at least in from its edge.
func (o opening) has(c, q place.Point, in length.Length) bool {
	in = min(in, o.X/2, o.Y/2)
	dx, dy := abs(q.X-c.X), abs(q.Y-c.Y)
	if o.round {
		return math.Hypot(float64(dx), float64(dy)) < float64(o.X-in)
	}
	return dx < o.X-in && dy < o.Y-in
}

// about is the bounding rectangle of the opening centred at c.
func (o opening) about(c place.Point) place.Rect {
	return place.Rect{X0: c.X - o.X, Y0: c.Y - o.Y, X1: c.X + o.X, Y1: c.Y + o.Y}
}

func abs(l length.Length) length.Length { return max(l, -l) }

// overlap reports whether the interiors of a and b overlap.
func overlap(a, b place.Rect) bool {
	return a.X0 < b.X1 && b.X0 < a.X1 && a.Y0 < b.Y1 && b.Y0 < a.Y1
}

// rules say where a thing cannot be and a hole must not be.
type rules struct {
	Scene
	opening
	clear bool // the noted place is clear of every support
	noted place.Point
}

func (s Scene) rules(n Note, o opening) rules {
	r := rules{Scene: s, opening: o, noted: n.Place()}
	r.clear = !r.onSupport(o.about(r.noted))
	return r
}

// face is the face of a support.
func (s Scene) face(p place.Support) place.Rect {
	to := cmp.Or(p.To, length.Length(math.MaxInt64))
	if p.Lie == place.X {
		return place.Rect{X0: p.From, X1: to, Y0: p.Pos - p.Wide/2, Y1: p.Pos + p.Wide/2}
	}
	return place.Rect{X0: p.Pos - p.Wide/2, X1: p.Pos + p.Wide/2, Y0: p.From, Y1: to}
}

func (s Scene) onSupport(r place.Rect) bool {
	return slices.ContainsFunc(s.Supports, func(p place.Support) bool { return overlap(r, s.face(p)) })
}

// may reports whether the thing may be at c.
func (r rules) may(c place.Point) bool {
	box := r.about(c)
	if box.X0 < 0 || box.Y0 < 0 || box.X1 > r.W && r.W > 0 || box.Y1 > r.H && r.H > 0 {
		return false
	}
	if !r.inside(box) {
		return false
	}
	if slices.ContainsFunc(r.Less, func(n place.Rect) bool { return overlap(box, n) }) {
		return false
	}
	if slices.ContainsFunc(r.Empty, func(h place.Point) bool { return r.has(c, h, 0) }) {
		return false
	}
	if slices.ContainsFunc(r.Opened, func(o Opened) bool { return overlap(box, openingOf(o.Size).about(o.At)) }) {
		return false
	}
	return !r.clear || !r.onSupport(box)
}

// inside reports whether all of b is within the scene's corners.
func (s Scene) inside(b place.Rect) bool {
	for i, p := range s.Corners {
		q := s.Corners[(i+1)%len(s.Corners)]
		for _, c := range [4]place.Point{{X: b.X0, Y: b.Y0}, {X: b.X1, Y: b.Y0}, {X: b.X1, Y: b.Y1}, {X: b.X0, Y: b.Y1}} {
			if float64(q.X-p.X)*float64(c.Y-p.Y) < float64(q.Y-p.Y)*float64(c.X-p.X) {
				return false
			}
		}
	}
	return true
}

// safe reports whether a hole may be made at p. It assumes that p is inside the opening of
// a thing at a place that passes may, so only empty holes and runs are checked.
func (r rules) safe(p place.Point) bool {
	return !slices.ContainsFunc(r.Empty, func(h place.Point) bool { return r.has(h, p, 0) }) &&
		!slices.ContainsFunc(r.Runs, func(run Run) bool { return run.covers(p) })
}

// covers reports whether p is in the run's strip or on its edge.
func (run Run) covers(p place.Point) bool {
	px, py := float64(p.X), float64(p.Y)
	for i, a := range run.Path {
		b := run.Path[min(i+1, len(run.Path)-1)]
		ax, ay := float64(a.X), float64(a.Y)
		dx, dy := float64(b.X)-ax, float64(b.Y)-ay
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = min(max(((px-ax)*dx+(py-ay)*dy)/l, 0), 1)
		}
		if math.Hypot(px-ax-t*dx, py-ay-t*dy) <= float64(run.Half) {
			return true
		}
	}
	return false
}

// hole is where to drill for a thing at c: at its centre or, if that is not safe, half or
// three quarters of the way to the opening's edge. ok is false if none of these is safe.
func (r rules) hole(c place.Point) (at place.Point, ok bool) {
	if r.safe(c) {
		return c, true
	}
	for _, part := range [2]length.Length{2, 3} {
		for _, d := range [4][2]length.Length{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			p := place.Point{X: c.X + d[0]*part*r.X/4, Y: c.Y + d[1]*part*r.Y/4}
			if r.safe(p) {
				return p, true
			}
		}
	}
	return c, false
}
