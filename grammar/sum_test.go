package grammar_test

// Sums: the steps, in the words that ask for them.
func init() {
	accepted = append(accepted, []struct{ in, canon string }{
		{"sum 167 5/8 take 48 add 3 x 2 into 5", `sum 167-5/8" take 48" add 3" x 2 into 5`},
		{"whats 167 5/8 - 48", `sum 167-5/8" take 48"`},
		{"what is 84 1/2 plus 2 1/4?", `sum 84-1/2" add 2-1/4"`},
		{"so how much is 12' 4 less 3 3/8", `sum 148" take 3-3/8"`},
		{"subtract 3/8 from 95 3/4", `sum 95-3/4" take 3/8"`},
		{"add 41 7/8 and 48", `sum 41-7/8" add 48"`},
		{"half of 13' 4", `sum 160" into 2`},
		{"a quarter of 14'", `sum 168" into 4`},
		{"14' divided by 3", `sum 168" into 3`},
		{"split 12' into 5 equal bays", `sum 144" into 5`},
		{"twice 41 7/8", `sum 41-7/8" x 2`},
		{"3 times 15 1/4", `sum 15-1/4" x 3`},
		{"convert 4255 mm", "sum 4255 mm"},
		{"47 1/4\" in mm", `sum 47-1/4"`},
	}...)
}
