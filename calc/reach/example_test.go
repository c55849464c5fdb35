package reach_test

import (
	"fmt"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
)

const (
	in = length.Inch
	mm = length.Millimetre
)

// inches converts a length for printing.
func inches(l length.Length) float64 { return float64(l) / float64(in) }

func ExampleCheck() {
	// A pipe 7/8 in wide lies on top of 3/4 in straps, 40 in off the west wall. The tip
	// of a 1-5/8 in screw in 5/8 in board, set 1/32, is at 1-5/8 - 5/8 + 1/32 = 1-1/32,
	// 9/32 (0.28) past the pipe's near face at 3/4. The strip to keep clear is
	// 40 - 7/16 - 1 = 38.5625 to 40 + 7/16 + 1 = 41.4375.
	q := reach.Query{
		Screw: in * 13 / 8, Board: in * 5 / 8, Allow: reach.Usual(),
		Supports: []place.Support{{Lie: place.X, Pos: 16 * in, To: 144 * in, Thick: in * 3 / 4, Wide: in * 5 / 2, Measured: true}},
		Runs: []reach.Run{{Kind: reach.Pipe, How: reach.OnTop, Half: in * 7 / 16,
			Path: []place.Point{{X: 40 * in, Y: 0}, {X: 40 * in, Y: 96 * in}}}},
	}
	a := reach.Check(q)
	for _, h := range a.Hits() {
		fmt.Println(inches(h.At.X), inches(h.At.Y), "past", inches(h.Past), "clear", inches(h.From), inches(h.To))
	}
	for _, p := range a.Plates {
		fmt.Println("plate: nearer than", inches(p.Rule.Setback), p.Rule.Source)
	}
	// Output:
	// 40 16 past 0.28125 clear 38.5625 41.4375
	// plate: nearer than 1.5 IRC M1308.2 (2006)
}

func ExampleFits() {
	// A pipe on top of 3/4 in straps, 1/2 in board, margin 1/4, set 1/32. With 1-1/8 the
	// tip is at 5/8 + 1/32 = 21/32, room 24/32 - 21/32 = 3/32 (0.09), within the margin.
	// With 1-1/4 it is at 25/32, room -1/32. Neither is OK.
	q := reach.Query{Board: in / 2, Allow: reach.Usual(),
		Supports: []place.Support{{Lie: place.X, Pos: 16 * in, To: 144 * in, Thick: in * 3 / 4, Wide: in * 5 / 2, Measured: true}},
		Runs:     []reach.Run{{Kind: reach.Pipe, How: reach.OnTop, Half: in / 2, Path: []place.Point{{X: 40 * in}, {X: 40 * in, Y: 96 * in}}}},
	}
	fits, advice := reach.Fits(q, []length.Length{in * 9 / 8, in * 5 / 4}, in*5/8)
	for _, f := range fits {
		fmt.Println(inches(f.Length), inches(f.Bite), f.OK())
	}
	fmt.Println(advice)
	// Output:
	// 1.125 0.625 false
	// 1.25 0.75 false
	// [plate lane fur]
}

func ExampleHoles() {
	// A 6 in light and a cable 2 in off its centre, 1/2 in behind the board. The bit comes
	// 1/8 in through, which leaves 3/8 in.
	h := reach.Hole{At: place.Point{X: 26 * in, Y: 41 * in}, W: 6 * in, Bit: reach.Guide}
	cable := reach.Run{Kind: reach.Wire, How: reach.Behind, Depth: in / 2, Half: in / 4,
		Path: []place.Point{{X: 28 * in}, {X: 28 * in, Y: 96 * in}}}
	for _, p := range reach.Holes(h, nil, []reach.Run{cable}, reach.Usual()) {
		fmt.Println(inches(p.Depth), inches(p.Past), p.State == reach.Clear)
	}
	// Output: 0.5 -0.375 true
}
