package place_test

import (
	"fmt"

	"strapline/calc/length"
	"strapline/calc/place"
)

// 44-3/8 in along strap 3 from the east wall fixes x on a ceiling. It grows westward, so
// not along with x.
func ExampleFix() {
	f := place.Fix{How: place.Along, Said: length.Said{L: 44*length.Inch + 3*length.Inch/8}, Of: place.Of{Sup: place.Straps, N: 3}, Wall: place.East}
	axis, grows, ok := place.Ceiling.Axis(f.Wall)
	fmt.Println(f)
	fmt.Println(axis == place.X, grows, ok)
	// Output:
	// 44-3/8" along strap 3 from east
	// true false true
}

// Straps at 14-3/8, 30-3/8 and 50 in have bays of 16 and 19-5/8 in.
func ExampleWidestBay() {
	set := []place.Support{{Pos: 50 * length.Inch}, {Pos: 14*length.Inch + 3*length.Inch/8}, {Pos: 30*length.Inch + 3*length.Inch/8}}
	fmt.Println(length.Format(place.WidestBay(set), length.Imperial))
	// Output: 19-5/8"
}
