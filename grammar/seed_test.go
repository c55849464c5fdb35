package grammar_test

import "flag"

// The property tests draw the same texts on each run; `-rapid.seed=0` draws others.
func init() {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err)
	}
}
