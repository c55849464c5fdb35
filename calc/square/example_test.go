package square_test

import (
	"fmt"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
	"strapline/calc/square"
)

const (
	in   = length.Inch
	foot = length.Foot
	mm   = length.Millimetre
)

// readings makes readings from lengths in the order of square.Lines; 0 is not read.
func readings(l ...length.Length) []square.Reading {
	var out []square.Reading
	for i, v := range l {
		if v != 0 {
			out = append(out, square.Reading{Line: square.Lines[i], L: v})
		}
	}
	return out
}

// A room of 12 ft x 9 ft has diagonals of 15 ft (3-4-5). One is read 1/2 in too long.
// By hand: in a rectangle the two diagonals together grow by 12/15 = 0.8 of what north or
// south grows by, and by 9/15 = 0.6 of what east or west does. So the condition has the
// factors 0.8 0.8 0.6 0.6 -1 -1, whose squares add up to 4. The 1/2 in is distributed as
// 1/2 x factor / 4: walls +0.1 and +0.075 in, diagonals -0.125 in. The sum of squares is
// (1/2)^2 / 4 = 0.0625 sq in = 16 (1/16 in)^2, more than the 6.6 that chance exceeds once in
// a hundred. So a reading is bad, but nothing tells which.
func ExampleFit() {
	r, err := square.Fit(readings(12*foot, 12*foot, 9*foot, 9*foot, 15*foot, 15*foot+in/2))
	fmt.Println(err)
	for i, v := range r.Residuals {
		fmt.Printf("%s %+.3f\n", square.Lines[i], float64(v)/float64(in))
	}
	fmt.Println("misclosure", length.Format(r.Check.Misclosure, length.Imperial), "bad", r.Check.Bad, "named", r.Check.Named)
	// Output:
	// <nil>
	// north +0.100
	// south +0.100
	// east +0.075
	// west +0.075
	// nw-se -0.125
	// ne-sw -0.125
	// misclosure 1/2" bad true named -1
}

// The west wall leans out by 28 in over 96 in to the south, so it is 100 in long
// (7-24-25). 41 in off north is y = 41. The distance off west, square to it, is
// (96x + 28y) / 100, so 26 in is x = (2600 - 28 x 41) / 96 = 15-1/8 in. The wall itself is
// at x = -28 x 41/96 = -11.96 there.
func ExampleRoom_Resolve() {
	r, _ := square.Fit(readings(144*in, 172*in, 96*in, 100*in, 173066461*length.Length(in)/1000000, 0))
	p := r.Resolve(square.Off{Wall: place.West, L: 26 * in}, square.Off{Wall: place.North, L: 41 * in})
	show := func(l length.Length) string {
		return length.Format(length.RoundNearest(l, length.Imperial), length.Imperial)
	}
	fmt.Println(show(p.X), show(p.Y))
	back := r.Locate(p)
	fmt.Println(show(back[3].L), "off", back[3].Wall, show(back[0].L), "off", back[0].Wall)
	// Output:
	// 15-1/8" 41"
	// 26" off west 41" off north
}

// A room 144 in along north, square there, 108 in along west and 111 in along east.
// South is sqrt(144^2 + 3^2) = 144.031, nw-se sqrt(144^2 + 111^2) = 181.816, ne-sw 180.
// North's corners are 90 degrees: no gap, so the line is at 48 + 1/4. South's are off by
// atan(3/144) = 1.19 degrees: a gap of 48 x 3/144 = 1 in over a board. Two rows end at
// 48-1/4 + 48 = 96-1/4, which leaves 108 - 96-1/4 = 11-3/4 at the west end and 14-3/4 at
// the east end; cut 1/4 in less.
func ExampleRoom_Control() {
	r, _ := square.Fit(readings(144*in, 144031246*length.Length(in)/1000000, 111*in, 108*in, 181815841*length.Length(in)/1000000, 180*in))
	for i, gap := range r.Gaps(48 * in) {
		fmt.Printf("tight to %s: %s\n", place.Walls[i], length.Format(length.RoundNearest(gap, length.Imperial), length.Imperial))
	}
	c := r.Control(place.EW, 48*in)
	fmt.Println(length.Format(c.Off, length.Imperial), "off", c.Wall, "-", c.Why)
	_, last, _ := r.Rips(c, 48*in, in/4, length.Imperial)
	fmt.Println(length.Format(last.CutA, length.Imperial), length.Format(last.CutB, length.Imperial), "at", last.Wall)
	// Output:
	// tight to north: 0"
	// tight to east: 1"
	// tight to south: 1"
	// tight to west: 1"
	// 48-1/4" off north - corners are square enough for a whole first board
	// 11-1/2" 14-1/2" at south
}

// North of a 12 ft x 9 ft room is sent as 11 ft. A foot more on north closes it (3-4-5). A
// foot more on south would not: with 9 ft legs between 11 and 13 ft the diagonals are
// sqrt(9^2 + 11 x 13) = 14.967 ft, and 3/8 in on both is too much.
func ExampleCheck() {
	r, _ := square.Fit(readings(11*foot, 12*foot, 9*foot, 9*foot, 15*foot, 15*foot))
	for _, s := range r.Check.Suspects {
		if s.Kind == slip.FootOut {
			fmt.Println(square.Lines[s.Index], length.Format(s.L, length.Imperial))
		}
	}
	// Output: north 12' (144")
}
