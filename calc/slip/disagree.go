package slip

import (
	"cmp"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Agree is how far two measurements of a place may differ on each axis and still
// agree: 1/4 in (common practice, no source).
const Agree = 4 * length.Sixteenth

// Cause is a possible explanation of a difference: what went wrong with the first or
// the second measurement.
type Cause struct {
	Second  bool // the slip is in the second measurement; else in the first
	Reasons []Reason
	Share   float64 // of all causes listed, 0 to 1
}

// Verdict is the comparison of two measurements of a thing. They are never averaged:
// the one without a slip is right, and a third reading tells which.
type Verdict struct {
	Agrees bool
	DX, DY length.Length // second - first
	Causes []Cause       // most likely first; if none, re-measure
}

// Disagree compares a second measurement of a thing with the first. The causes are
// the slips that bring one within Agree of the other. Each has the weight of its
// slip, reduced by the remaining distance (normal distribution with a standard
// deviation of 1/16 in on each axis, our own estimate).
func Disagree(s Scene, first, second Note) Verdict {
	a, b := first.Place(), second.Place()
	v := Verdict{DX: b.X - a.X, DY: b.Y - a.Y}
	if v.Agrees = agree(a, b); v.Agrees {
		return v
	}
	var sum float64
	add := func(ways []Way, at place.Point, second bool) {
		for _, w := range ways {
			if !agree(w.At, at) {
				continue
			}
			dx, dy := float64(w.At.X-at.X)/float64(length.Sixteenth), float64(w.At.Y-at.Y)/float64(length.Sixteenth)
			c := Cause{second, w.Reasons, w.Share * math.Exp(-(dx*dx+dy*dy)/2)}
			v.Causes = append(v.Causes, c)
			sum += c.Share
		}
	}
	add(s.ways(first), b, false)
	add(s.ways(second), a, true)
	for i := range v.Causes {
		v.Causes[i].Share /= sum
	}
	slices.SortStableFunc(v.Causes, func(a, b Cause) int { return cmp.Compare(b.Share, a.Share) })
	return v
}

func agree(a, b place.Point) bool { return abs(a.X-b.X) <= Agree && abs(a.Y-b.Y) <= Agree }
