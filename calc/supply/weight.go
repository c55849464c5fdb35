package supply

import (
	"math"

	"strapline/calc/length"
)

// weights is the weight of regular board by thickness, in pounds per square foot (a board
// maker's specification sheet).
var weights = map[length.Length]float64{
	length.Inch / 4:     1.2,
	3 * length.Inch / 8: 1.4,
	length.Inch / 2:     1.6,
	5 * length.Inch / 8: 2.2,
}

// PerSquareFoot is the weight of regular board in pounds per square foot, for a thickness
// within 1/32 in of one in the table (so 12.7 and 13 mm count as 1/2 in). ok is false for
// any other. Lightweight board is 20 to 30 % lighter, but counts as regular.
func PerSquareFoot(thickness length.Length) (pounds float64, ok bool) {
	for t, w := range weights {
		if d := thickness - t; max(d, -d) <= length.Inch/32 {
			return w, true
		}
	}
	return 0, false
}

// Weight is the weight of a board in pounds.
func Weight(thickness, width, long length.Length) (float64, bool) {
	w, ok := PerSquareFoot(thickness)
	return w * feet(width) * feet(long), ok
}

// People is how many people carry a board: at least two, with at most 51.2 lb each. That is
// a 4x8 of 1/2 in, and about what the lifting equation allows one person in an ideal lift
// (load constant 51 lb, NIOSH 94-110).
func People(pounds float64) int { return max(2, up(pounds/51.2)) }

// Live loads of floors, in pounds per square foot (ICC table R301.5, from memory; town plan
// notes agree).
const (
	LiveDwelling = 40.0
	LiveSleeping = 30.0
)

// Stack is how many boards may lie flat in a stack. Whatever their size, they load the floor
// with their number times their weight per square foot, so boards <= live load / weight per
// square foot. That is the rule for sheathing in the guide to handling building components,
// for about a week on a sound floor; it does not apply to a floor that is cut, old or wet.
func Stack(live, perSquareFoot float64) int {
	if !(perSquareFoot > 0) || !(live > 0) {
		return 0
	}
	return int(min(math.Floor(live/perSquareFoot+1e-9), 1e6))
}
