package slip_test

import (
	"fmt"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
)

const in = length.Inch

// off is a distance off a wall of room s.
func off(s slip.Scene, w place.Wall, l length.Length) slip.Coord {
	_, grows, _ := place.Ceiling.Axis(w)
	c := slip.Coord{Fix: place.Fix{How: place.OffWall, Said: length.Said{L: l}, Wall: w}, Grows: grows}
	switch w {
	case place.East:
		c.From = s.W
	case place.South:
		c.From = s.H
	}
	return c
}

// A 6 in duct is noted 26 in off west and 41 in off north in a room 160 in x 140 in, and
// the hole there found nothing. The weights, per thousand: an inch burned (25 in) is inside
// the hole's own circle and ruled out. For x: 134 in (opposite wall) 30, 14 or 38 in (a foot
// out) 6 each, 16 in (ten burned) 2, 62 in (digits) 8, 1.02 in (26 mm) does not fit, 23 or
// 29 in (an edge) 6 each. For y: 99 in 30, 29 or 53 in 6 each, 31 in 2, 14 in (digits) 8,
// 1.61 in does not fit, 38 or 44 in 6 each. Swapped, at 41 in and 26 in, is 20. A hole counts
// what is within 3 - 1/4 in of it. So the two opposite walls come first, the closer of them
// (58 in away, not 108) before the other; then swapped alone, 20, since y = 29 is not close
// enough; then x = 14 with x = 16, 6 + 2 = 8, y = 29 with y = 31, 8, and the digits, 8 each.
func ExampleMissed() {
	s := slip.Scene{W: 160 * in, H: 140 * in, Empty: []place.Point{{X: 26 * in, Y: 41 * in}}}
	n := slip.Note{X: off(s, place.West, 26*in), Y: off(s, place.North, 41*in), Size: place.Size{A: 6 * in}}
	for i, p := range slip.Missed(s, n)[:3] {
		fmt.Println(i+1, length.Canon(p.At.X), length.Canon(p.At.Y), p.Ways[0].Reasons[0].Kind, "-", p.Ways[0].Reasons[0].Words)
	}
	// Output:
	// 1 26" 99" other wall - off south, not north
	// 2 134" 41" other wall - off east, not west
	// 3 41" 26" x and y - the two distances swapped
}

// First 18 in off west, to the framing, then 17-1/2 in, said to be to the framing too, on a
// wall with 1/2 in board: 17-1/2 + 1/2 = 18, so the second was measured from the board.
func ExampleDisagree() {
	s := slip.Scene{W: 160 * in, H: 140 * in}
	note := func(x length.Length) slip.Note {
		n := slip.Note{X: off(s, place.West, x), Y: off(s, place.North, 41*in), Size: place.Size{A: 6 * in}}
		n.X.Board = in / 2
		return n
	}
	v := slip.Disagree(s, note(18*in), note(17*in+in/2))
	fmt.Println(v.Agrees, length.Canon(v.DX), v.Causes[0].Second, v.Causes[0].Reasons[0].Words)
	// Output: false -1/2" true off the board of west, not its studs
}
