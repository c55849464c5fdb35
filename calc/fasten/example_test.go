package fasten_test

import (
	"fmt"

	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
)

const in = length.Inch

func ExamplePerCrossing() {
	// (48 - 2 x 3/8) / 12 = 47.25 / 12 = 3.94, rounded up to 4 spaces, so 5 screws.
	fmt.Println(fasten.PerCrossing(48*in, in*3/8, 12*in))
	// Output: 5
}

func ExampleForPiece() {
	// A 4 x 8 ft board across straps at 0, 16 ... 96 in: each end is centred on
	// a strap, so 96/16 + 1 = 7 crossings of 5 screws = 35.
	var straps []place.Support
	for i := range length.Length(9) {
		straps = append(straps, place.Support{Lie: place.Y, Pos: i * 16 * in, To: 144 * in, Wide: in * 5 / 2, Thick: in * 3 / 4})
	}
	rule, _ := fasten.RuleFor(fasten.Where{Code: place.US, Board: in / 2, Across: true, Bay: 16 * in})
	count := fasten.ForPiece(fasten.Piece{W: 96 * in, H: 48 * in}, straps, rule)
	fmt.Println(len(count.Rows), "rows,", count.Screws(), "screws")
	// Output: 7 rows, 35 screws
}

func ExampleScrewLength() {
	// 1/2 in board: 1-1/4 - 1/2 = 3/4 in of bite, the full thickness of the strap; 5/8 is needed.
	strap := place.Support{Thick: in * 3 / 4, Wide: in * 5 / 2, Measured: true}
	s := fasten.ScrewLength(fasten.Where{Board: in / 2}, strap)
	fmt.Println(float64(s.Length)/float64(in), float64(s.Bite)/float64(in), float64(s.Need)/float64(in))
	// Output: 1.25 0.75 0.625
}
