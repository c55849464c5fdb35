package supply

import (
	"math"

	"strapline/calc/length"
)

// weights of regular board, pounds per square foot (a board maker's specification sheet).
var weights = map[length.Length]float64{
	length.Inch / 4:     1.2,
	3 * length.Inch / 8: 1.4,
	length.Inch / 2:     1.6,
	5 * length.Inch / 8: 2.2,
}

// PerSquareFoot is the weight of regular board of the thickness in pounds per square foot, to the nearest
// thickness in the table within 1/32 in (so 12.7 and 13 mm are 1/2 in); false when there is none. Light
// board weighs 20 to 30 % less and is counted as regular.
func PerSquareFoot(thickness length.Length) (float64, bool) {
	for t, w := range weights {
		if d := thickness - t; max(d, -d) <= length.Inch/32 {
			return w, true
		}
	}
	return 0, false
}

// Weight of a board in pounds.
func Weight(thickness, width, long length.Length) (float64, bool) {
	w, ok := PerSquareFoot(thickness)
	return w * feet(width) * feet(long), ok
}

// People to carry a board of so many pounds: two at least, and no more than 51.2 lb for each. That is a 4x8
// of 1/2 in, and what the lifting equation allows one person in an ideal lift (load constant 51 lb, NIOSH 94-110).
func People(pounds float64) int { return max(2, up(pounds/51.2)) }

// Live loads of floors, pounds per square foot (ICC table R301.5, from memory; town plan notes agree).
const (
	LiveDwelling = 40.0
	LiveSleeping = 30.0
)

// Stack is how many boards may lie flat in a stack: a stack loads the floor under it with the
// boards' weight per square foot times their number, whatever their size. The rule is that of the
// guide to handling building components for sheathing, sheets <= live load / weight per square foot, for about
// a week on a floor in order; it is no leave to load a floor that is cut, old or wet.
func Stack(live, perSquareFoot float64) int {
	if !(perSquareFoot > 0) || !(live > 0) {
		return 0
	}
	return int(min(math.Floor(live/perSquareFoot+1e-9), 1e6))
}
