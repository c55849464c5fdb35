package layout

import (
	"strapline/calc/length"
	"strapline/calc/work"
)

// AsGiven is the plan of an input that was not made canonical.
func AsGiven(in Input, b *work.Budget) (*Layout, error) { return best(in, b) }

// Beside reports whether p fits beside the slanted end of o, with left of its board.
func Beside(p, o Piece, left length.Length) bool { return p.nests(o, left) }
