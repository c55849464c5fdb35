package layout

import "strapline/calc/work"

// AsGiven is the plan of an input that was not made canonical.
func AsGiven(in Input, b *work.Budget) (*Layout, error) { return best(in, b) }
