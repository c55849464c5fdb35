package shell_test

import (
	"fmt"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/shell"
)

// An attic of 12' x 10' and 8' high, with a knee wall of 5' to the south under a slope of 4' in plan: 8' less 5' is a rise
// of 3', and 3-4-5 makes the slope 5' long (Euclid I.47). The flat ceiling is left 10' less 4' deep.
func ExampleRoom_Extent() {
	foot := length.Foot
	attic := shell.Room{EW: 12 * foot, NS: 10 * foot, High: 8 * foot, Slopes: map[place.Wall]event.Slope{
		place.South: {Wall: place.South, High: 8 * foot, Low: 5 * foot, Over: 4 * foot},
	}}
	for _, s := range []place.Surface{place.Slope(place.South), "south", "north"} {
		x, y := attic.Extent(s)
		fmt.Println(s, length.Format(x, length.Imperial), length.Format(y, length.Imperial))
	}
	q := attic.Clear(place.Ceiling)
	fmt.Println("ceiling", length.Format(q.X1-q.X0, length.Imperial), length.Format(q.Y1-q.Y0, length.Imperial))
	// Output:
	// south slope 12' (144") 60"
	// south 12' (144") 60"
	// north 12' (144") 96"
	// ceiling 12' (144") 72"
}
