// Package slip says what may have gone wrong with a measurement: where to probe
// next when a hole at the noted place found nothing, and why two measurements
// of one thing differ.
//
// Each of the two distances of a note carries each slip of [Table] with its
// weight, by itself; so the weight of a place is the product of what it takes
// on both axes (1 - the sum of all slips where there is none), and the weights of
// all ways to it add up. A probe hole finds the thing when it comes inside the opening,
// so one hole tests every place whose opening it is in. The next hole is the
// one that tests the most weight left: the greedy order of set cover (Johnson
// 1974; Nemhauser, Wolsey and Fisher 1978: never under 1 - 1/e of the best for
// any number of holes; both from memory). Two rules bend it: straps beside come first,
// and a hole at a likely place goes before one beside it that tests a little more.
//
// Coordinates are those of the surface, to the framing; lengths are exact.
package slip

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Coord is one of a note's two distances and what it was held to.
type Coord struct {
	place.Fix               // as said, with its wall or support or point, and its face
	Form      Form          // how the number was written
	From      length.Length // coordinate of what the distance starts at, with the face it was taken for
	Grows     bool          // the coordinate grows away from it
	Board     length.Length // thickness of the board on the fix's wall, there now or coming; 0: none
	Mirror    length.Length // the coordinate when the distance is off the other wall of the pair; 0: as in a rectangle of the scene's extent
	Lean      float64       // how much the coordinate grows along its wall for each unit of the other one; 0: at right angles
}

// Note is a thing as it was noted.
type Note struct {
	Who  string
	X, Y Coord
	Size place.Size // of the opening; a thing without one is taken as Unsized across
}

// Unsized is the width of a thing whose size nobody said: a device box, our own.
const Unsized = 2 * length.Inch

// Run is a path to keep clear of: Half is half the strip's width.
type Run struct {
	Path []place.Point
	Half length.Length
}

// Opened is a thing that was cut and was where its note said.
type Opened struct {
	Who   string
	Walls []place.Wall // that its note was measured off
	At    place.Point
	Size  place.Size
}

// Twin is the same name in a room of the same size, and where it was noted.
type Twin struct {
	Room string
	At   place.Point
}

// Scene is the surface, as calc/site knows it.
type Scene struct {
	W, H     length.Length // extent to framing; 0: not known
	Corners  []place.Point // of a room whose walls are not at right angles, clockwise; none: the rectangle
	Less     []place.Rect  // notches
	Supports []place.Support
	Runs     []Run
	Empty    []place.Point // holes that found nothing, where they really are
	Opened   []Opened
	Twins    []Twin
}

// Reason is one slip: what, on which distance, and in words.
type Reason struct {
	Kind  Kind
	Axis  place.Axis // of no meaning for Swapped, WrongRoom and Elsewhere
	Words string
}

// Way is a place the thing may be at, and what went wrong then: one slip, or
// one on each axis. Share is its part of the whole weight, 0 to 1.
type Way struct {
	At      place.Point
	Reasons []Reason
	Share   float64
}

// Probe is a hole to make. Ways are the places it tests that no probe before
// it did, the likeliest first; Share is their sum.
type Probe struct {
	At    place.Point
	Ways  []Way
	Share float64
}

// Kind is the likeliest slip that the probe tests.
func (p Probe) Kind() Kind { return p.Ways[0].Reasons[0].Kind }

// Missed lists the holes to make next, in order, when those of s.Empty found
// nothing. If none of them was in the noted opening, the noted place comes first.
// A thing noted off a strap is looked for off the straps beside it first.
// Never a hole in a run's strip, outside the room, where a thing that was noted
// clear of supports would lie across one, or where an empty hole or an opened
// thing has shown it is not. The whole list comes back: whoever shows it cuts it.
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

// at is the coordinate when the distance is l; half is half the thing's size.
func (c Coord) at(l, half length.Length) length.Length {
	if c.ToEdge {
		l += half
	}
	if !c.Grows {
		l = -l
	}
	return c.From + l
}

// offWall reports a distance held to a wall.
func (c Coord) offWall() bool { return c.How == place.OffWall || c.How == place.Along }

// said reports that a number was said at all.
func (c Coord) said() bool { return c.How != place.OnLine && c.L > 0 }
