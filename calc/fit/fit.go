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

// Size is the cut for an opening that reads a at one end and b at the other
// (zero: not measured), clear less in all, rounded down to 1/16 in, or to 1 mm
// in a metric job, so that the board goes in. Ends
// that differ by no more than 1/4 in get one size from the smaller reading.
// A cut never goes below zero.
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
