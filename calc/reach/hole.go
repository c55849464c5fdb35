package reach

import (
	"math"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Guide is the part of a cutter bit's tip that does not cut, 1/8 in: a cutter
// set to board + guide, and no more, comes that far past the board's back.
// Common practice, no source.
const Guide = 2 * length.Sixteenth

// Hole is an opening to be cut. W and H are its size along x and y; a round
// one has its diameter as W and no H. Bit is how far the cutter comes past
// the back of the board, [Guide] when it is set right.
type Hole struct {
	At        place.Point
	W, H, Bit length.Length
}

// Pass is a run that lies behind an opening or beside it. A Clear one is
// still there: whatever goes into the opening, or a cutter set too deep, meets it.
type Pass struct {
	Run   int
	Depth length.Length // of the run's near face, at its shallowest
	Past  length.Length // of the bit beyond that face; below zero it stops short
	State State
	// Beside: the run passes no nearer than the cut itself but within the
	// allowance beside it.
	Beside  bool
	Assumed bool // Depth comes of a thickness nobody measured, or nobody said it
}

// Holes lists the runs that an opening passes, the cut widened by
// allow.Beside because the run was noted by tape. The whole opening counts,
// not its outline alone: cutters start at the centre.
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

// shallowest is the least depth the run has anywhere. Between supports nobody
// measured it, so a run on top of them is taken at the thinnest one it
// crosses (or the thinnest there is), and a notch counts everywhere.
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

// behind says whether the run's body touches the hole grown by beside.
func (run Run) behind(h Hole, beside length.Length) bool {
	half := max(float64(run.Half), 0)
	x, y := float64(h.At.X), float64(h.At.Y)
	for _, l := range run.legs(place.X) {
		if h.H == 0 {
			if l.from(uv{x, y}) <= float64(h.W)/2+float64(beside)+half {
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

// from is the distance from a point to the leg.
func (l leg) from(p uv) float64 {
	du, dv := l.b.u-l.a.u, l.b.v-l.a.v
	t := 0.0
	if long := du*du + dv*dv; long > 0 {
		t = min(max(((p.u-l.a.u)*du+(p.v-l.a.v)*dv)/long, 0), 1)
	}
	return math.Hypot(p.u-l.a.u-t*du, p.v-l.a.v-t*dv)
}
