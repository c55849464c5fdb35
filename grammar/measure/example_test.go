package measure_test

import (
	"fmt"

	"strapline/calc/length"
	"strapline/grammar/measure"
)

// 13' 4-1/2" is 13 x 12 + 4-1/2 = 160-1/2 in, and 160.5 x 25.4 = 4076.7 mm.
// 2962 mm is 2962 / 25.4 = 116.614 in; 0.614 x 16 = 9.8, so ten sixteenths,
// 116-5/8 in, are the nearest and nine, 116-9/16 in, are the most that go in.
func Example() {
	room, n, _ := measure.Scan("13' 4 1/2 x 11' 9", length.Imperial, measure.One)
	l := room[0].L
	fmt.Println(n, length.MM(l), length.Canon(l), length.Format(l, length.Imperial), length.Format(l, length.Metric))

	beam, _, _ := measure.Scan("2962", length.Metric, measure.One)
	l = beam[0].L
	fmt.Println(length.Canon(l), length.Format(l, length.Imperial), length.Format(length.RoundDown(l, length.Imperial), length.Imperial))

	// 84-1/2, 84-1/4 or 84-1/8: two quarters, two eighths, two sixteenths?
	doubt, _, why := measure.Scan("84 2", length.Imperial, measure.One)
	for _, r := range doubt {
		fmt.Print(length.Format(r.L, length.Imperial), " ")
	}
	fmt.Println(why)
	// Output:
	// 9 4076.7 160-1/2" 13' 4-1/2" (160-1/2") 4077 mm
	// 2962 mm 116-5/8" 116-9/16"
	// 84-1/2" 84-1/4" 84-1/8" 2 what?
}
