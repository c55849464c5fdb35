// Package fit turns a measured opening into the size a board is cut to.
package fit

import "strapline/calc/length"

// taperOver is how far the two ends of an opening may differ before the cut
// has to taper: 1/4 in (common practice, no source).
const taperOver = length.Inch / 4

// Cut is the size to cut. A and B are in the order the ends were measured.
type Cut struct {
	A, B   length.Length // B is zero unless Taper
	Taper  bool
	OneEnd bool // only one reading was given
}

// Size is the cut for an opening that measures a at one end and b at the other
// (0 if not measured): clear less overall, rounded down to 1/16 in, or 1 mm in a
// metric job, so that the board goes in. If the ends differ by at most 1/4 in, the
// cut is square to the smaller one. A cut is never negative.
func Size(a, b, clear length.Length, u length.Units) Cut {
	down := func(l length.Length) length.Length {
		return length.RoundDown(max(l-clear, 0), u)
	}
	switch {
	case b == 0:
		return Cut{A: down(a), OneEnd: true}
	case max(a, b)-min(a, b) > taperOver:
		return Cut{A: down(a), B: down(b), Taper: true}
	}
	return Cut{A: down(min(a, b))}
}
