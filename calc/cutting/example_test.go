package cutting_test

import (
	"fmt"

	"strapline/calc/cutting"
	"strapline/calc/length"
)

// Pieces of 100, 60 and 40 in of full width and two of 90 in by 20 in, out of 8 and 12 ft boards.
func ExampleSolve() {
	const inch = length.Inch
	p := cutting.Problem{
		Items: []cutting.Item{
			{Length: 100 * inch, Width: 48 * inch, Count: 1},
			{Length: 60 * inch, Width: 48 * inch, Count: 1},
			{Length: 40 * inch, Width: 48 * inch, Count: 1},
			{Length: 90 * inch, Width: 20 * inch, Count: 2},
		},
		Stock: []cutting.Stock{
			{Length: 96 * inch, Width: 48 * inch, Count: cutting.Unlimited},
			{Length: 144 * inch, Width: 48 * inch, Count: cutting.Unlimited},
		},
	}
	cutting.ByArea(p.Stock) // 2 and 3, in units of 4 ft
	plan, err := cutting.Solve(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range plan.Boards {
		fmt.Printf("%d in:", p.Stock[b.Stock].Length/inch)
		for _, s := range b.Strips {
			fmt.Printf(" %d in wide", s.Width/inch)
			for _, j := range s.Pieces {
				fmt.Printf(" %d", p.Items[j].Length/inch)
			}
			fmt.Printf(" left %d;", s.Left/inch)
		}
		fmt.Println()
	}
	fmt.Println("cost", plan.Cost, "proven", plan.Proven())
	// By hand: 100 needs a 12 ft board, which also gives 40 (4 left); 60 needs an 8 ft board; both strips fit one
	// 8 ft board, 20 + 20 <= 48. 3 + 2 + 2 = 7. Less is not possible, since 100, 60 and a strip of 90 need three boards.

	// Output:
	// 96 in: 48 in wide 60 left 36;
	// 96 in: 20 in wide 90 left 6; 20 in wide 90 left 6;
	// 144 in: 48 in wide 100 40 left 4;
	// cost 7 proven true
}
