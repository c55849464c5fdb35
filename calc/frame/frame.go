// Package frame is what boards are fixed to, as the packages that count screws,
// look for runs and place lights see it: straight bars on a surface.
//
// Coordinates are those of the surface; all lengths are exact.
package frame

import "strapline/calc/length"

// Axis is the direction a support runs in.
type Axis int

const (
	X Axis = iota // along x: At is a y, From and To are x
	Y             // along y: At is an x, From and To are y
)

// Support is one strap, joist, stud or channel as it is on the job: the line
// of screws that a board gets there.
type Support struct {
	Axis     Axis
	At       length.Length // centre line, across
	From, To length.Length // its ends, From < To
	Thick    length.Length // from the board's back to whatever it is fixed to; 0: not known
	Face     length.Length // width of the face the board lies on
	Steel    bool          // a light steel channel or stud; else wood
	Measured bool          // Thick was measured on the job; else it is its name
}
