package reach

import (
	"math"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Guide is the length of a cutter bit's tip that does not cut, 1/8 in. A cutter set
// correctly, to board + guide, comes that far past the board's back. Common practice, no
// source.
const Guide = 2 * length.Sixteenth

// Hole is an opening to be cut. W and H are its size along x and y; a round one has
// diameter W and H is 0. Bit is how far the cutter comes past the back of the board:
// [Guide] if it is set correctly.
type Hole struct {
	At        place.Point
	W, H, Bit length.Length
}

// Pass is a run behind an opening or beside it. Even if its State is Clear it is in the
// way of a fixture, or of a cutter set too deep.
type Pass struct {
	Run     int
	Depth   length.Length // of the run's near face, at its shallowest
	Past    length.Length // of the bit beyond that face; negative if it stops short
	State   State
	Beside  bool // the run misses the opening, but is within Allow.Beside of it
	Assumed bool // Depth is unknown or based on a thickness that was not measured
}

// Holes lists the runs behind an opening or within allow.Beside of it, since runs are
// noted by tape. The whole opening counts, not just its outline, because cutters start at
// the centre.
func Holes(h Hole, supports []place.Support, runs []Run, allow Allow) []Pass {
	var passes []Pass
	for r, run := range runs {
		beside := false
		if !run.behind(h, 0) {
			if !run.behind(h, allow.Beside) {
				continue
			}
			beside = true
		}
		p := Pass{Run: r, Beside: beside}
		p.Depth, p.Assumed = run.shallowest(supports)
		p.Past = h.Bit - p.Depth
		p.State = allow.stateOf(h.Bit, p.Depth)
		if beside && p.State == Hit {
			p.State = Close
		}
		passes = append(passes, p)
	}
	return passes
}

// shallowest is the run's least depth. Between supports nobody measured it, so a run on
// top of them has the thickness of the thinnest that it crosses, or of the thinnest of all
// if it crosses none, and a notch counts everywhere.
func (run Run) shallowest(supports []place.Support) (depth length.Length, assumed bool) {
	var touched, all []int
	for i, s := range supports {
		all = append(all, i)
		if len(run.over(s, 0)) > 0 {
			touched = append(touched, i)
		}
	}
	if len(touched) == 0 {
		touched = all
	}
	depth, assumed = run.Depth, run.How == NotSaid
	if run.How != Behind {
		depth = 0
	}
	if run.How == OnTop {
		for n, i := range touched {
			if t := supports[i].Thick; n == 0 || t < depth {
				depth, assumed = t, !supports[i].Measured
			}
		}
		assumed = assumed || len(touched) == 0
	}
	for _, n := range run.Notched {
		depth = min(depth, n.Depth)
	}
	return depth, assumed
}

// behind reports whether the run touches the hole, enlarged by beside on all sides.
func (run Run) behind(h Hole, beside length.Length) bool {
	half := max(float64(run.Half), 0)
	x, y := float64(h.At.X), float64(h.At.Y)
	for _, l := range run.legs(place.X) {
		if h.H == 0 {
			if l.distance(uv{x, y}) <= float64(h.W)/2+float64(beside)+half {
				return true
			}
			continue
		}
		reach := float64(h.W)/2 + float64(beside)
		lo, hi, ok := l.span(half, y, float64(h.H)/2+float64(beside))
		if ok && lo <= x+reach && hi >= x-reach {
			return true
		}
	}
	return false
}

// distance is the distance from a point to the leg.
func (l leg) distance(p uv) float64 {
	du, dv := l.b.u-l.a.u, l.b.v-l.a.v
	t := 0.0
	if long := du*du + dv*dv; long > 0 {
		t = min(max(((p.u-l.a.u)*du+(p.v-l.a.v)*dv)/long, 0), 1)
	}
	return math.Hypot(p.u-l.a.u-t*du, p.v-l.a.v-t*dv)
}
