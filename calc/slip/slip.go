// Package slip works out what may have gone wrong with a measurement: where to probe
// next when a hole at the noted place found nothing, and why two measurements of a
// thing differ.
//
// Each of the two distances of a note may have each slip of [Table], independently. So
// a combination has the product of the weights on both axes (for an axis without a slip,
// 1 - the sum of all its slips), and a place has the sum of all combinations that lead to
// it. A probe hole finds the thing if it is inside the opening, so a hole tests every
// place whose opening contains it. The next hole is the one that tests the most
// remaining weight, the greedy order of set cover (Johnson 1974; Nemhauser, Wolsey and
// Fisher 1978: at least 1 - 1/e of the best for any number of holes; both from memory).
// There are two exceptions: neighbouring straps come first, and a hole at a likely
// place is preferred to one next to it that tests slightly more.
//
// Coordinates are those of the surface, measured to the framing; lengths are exact.
package slip

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Coord is one of a note's two distances and what it was measured from.
type Coord struct {
	place.Fix               // as said
	Form      Form          // how the number was written
	From      length.Length // coordinate that the distance starts at, for the face it was said to be measured from
	Grows     bool          // the coordinate grows away from it
	Board     length.Length // thickness of board on the fix's wall or ceiling, now or later, or of its finished floor; 0 for none
	Mirror    length.Length // the coordinate if the distance is off the opposite wall; 0 if that is as in a rectangle
	Lean      float64       // change of the coordinate along its wall per unit of the other one; 0 at right angles
}

// Note is a thing as it was noted.
type Note struct {
	Who  string
	X, Y Coord
	Size place.Size // of the opening; Unsized if it is zero
}

// Unsized is the width assumed for a thing without a size: that of a device box, by our
// own estimate.
const Unsized = 2 * length.Inch

// Run is a path to keep clear of. Half is half the width of its strip.
type Run struct {
	Path []place.Point
	Half length.Length
}

// Opened is a thing that was cut out and was where its note said.
type Opened struct {
	Who   string
	Walls []place.Wall // the walls that its note was measured off
	At    place.Point
	Size  place.Size
}

// Twin is a thing of the same name in a room of the same size.
type Twin struct {
	Room string
	At   place.Point
}

// Scene is the surface and what is known about it.
type Scene struct {
	W, H     length.Length // extent to the framing; 0 if unknown
	Corners  []place.Point // of a room out of square, clockwise, or of a wall under slopes; nil for a rectangle
	Less     []place.Rect  // notches
	Supports []place.Support
	Runs     []Run
	Empty    []place.Point // holes that found nothing, at their true places
	Opened   []Opened
	Twins    []Twin
}

// Reason is a slip: what kind, on which distance, and a description.
type Reason struct {
	Kind  Kind
	Words string
}

// Way is a place where the thing may be, and what went wrong in that case: one slip, or
// one on each axis.
type Way struct {
	At      place.Point
	Reasons []Reason
	Share   float64 // of the total weight, 0 to 1
}

// Probe is a hole to make. Ways are the places that it tests and no earlier probe does,
// the likeliest first. Share is their sum.
type Probe struct {
	At    place.Point
	Ways  []Way
	Share float64
}

// Missed lists the holes to make next, in order, after those of s.Empty found nothing.
// If none of those was in the noted opening, the noted place comes first. For a thing
// noted off a strap, the neighbouring straps come next. There is never a hole in a
// run's strip or outside the room, nor for a place that would put a thing across a
// support if it was noted clear of them, or that an empty hole or an opened thing rules
// out.
func Missed(s Scene, n Note) []Probe {
	o := n.opening()
	rules := s.rules(n, o)
	var ways []Way
	for _, w := range s.ways(n) {
		if rules.may(w.At) {
			ways = append(ways, w)
		}
	}
	return order(rules, ways)
}

// Place is where the note puts the thing.
func (n Note) Place() place.Point {
	return place.Point{X: n.X.at(n.X.L, n.Size.Half(place.X)), Y: n.Y.at(n.Y.L, n.Size.Half(place.Y))}
}

// at is the coordinate if the distance is l. half is half the thing's size.
func (c Coord) at(l, half length.Length) length.Length {
	if c.ToEdge {
		l += half
	}
	if !c.Grows {
		l = -l
	}
	return c.From + l
}

// offWall reports whether the distance is measured from a wall.
func (c Coord) offWall() bool { return c.How == place.OffWall || c.How == place.Along }

// said reports whether a number was said.
func (c Coord) said() bool { return c.How != place.OnLine && c.L > 0 }
