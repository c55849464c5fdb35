package layout_test

import (
	"fmt"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// An 18 ft by 8 ft ceiling, straps north-south at 16 in, 8 and 12 ft boards.
func ExamplePlan() {
	in := layout.Input{Lie: place.Y, Surface: layout.Surface{W: 18 * length.Foot, H: 8 * length.Foot},
		Stock: []layout.Stock{{Width: 48 * length.Inch, Length: 8 * length.Foot, Count: -1}, {Width: 48 * length.Inch, Length: 12 * length.Foot, Count: -1}}}
	for i := range length.Length(13) {
		in.Supports = append(in.Supports, layout.Support{At: (i + 1) * 16 * length.Inch})
	}
	l, err := layout.Plan(in, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range l.Rows {
		a, b := r.Pieces[0], r.Pieces[1]
		fmt.Printf("%s %g in %s %g in\n", a.ID, float64(a.Cut)/float64(length.Inch), b.ID, float64(b.Cut)/float64(length.Inch))
	}
	for _, b := range l.Boards {
		fmt.Printf("%d x %d ft\n", b.Count, b.Length/length.Foot)
	}
	fmt.Printf("%d butts, %g in apart, proven %v, waste %.0f %%\n", l.Butts, float64(l.Stagger)/float64(length.Inch), l.Proven, 100*l.Waste())
	// By hand: 216 in takes two pieces of 12 ft at the most, so one butt, at a strap from 216 - 144 = 72 to 144 in: 80, 96, 112,
	// 128 or 144. One piece is over 96 in, the other under: 12 + 8 ft a row, and no two pieces go on one board. Of the pairs for
	// two rows 80 and 144 lie farthest apart, 64 in. Wall ends 1/8 in short. Waste 1 - 144 sq ft / 160 sq ft.

	// Output:
	// r1.1 79.875 in r1.2 135.875 in
	// r2.1 143.875 in r2.2 71.875 in
	// 2 x 12 ft
	// 2 x 8 ft
	// 2 butts, 64 in apart, proven true, waste 10 %
}
