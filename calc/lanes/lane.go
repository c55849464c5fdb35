// Package lanes lists the ways to butt rows of boards, and finds compatible ones for neighbouring rows, the cheapest
// at given prices of the pieces, by dynamic programming from row to row.
package lanes

import (
	"errors"

	"strapline/calc/length"
)

// MaxPlaces is the maximum number of different places for butts in all lanes.
const MaxPlaces = 256

// Chain is a stretch of a lane to be filled with pieces.
type Chain struct {
	Nodes []length.Length // its start, the places where a butt may go, ascending, and its end
	Item  [][]int32       // by node and later node, the item of the piece between them; -1 if no piece may go there
	at    []int           // by node, index into stack.pos
	Least int             // fewest pieces that fill it
}

// Lane is a row. Fixed holds its existing butts. The caller leaves out places too close to the fixed butts
// of neighbours.
type Lane struct {
	Chains []*Chain
	Fixed  []length.Length
}

var (
	ErrGap  = errors.New("a chain cannot be filled")
	ErrMany = errors.New("more places for butts than are planned for")
)

// Fewest returns the least number of pieces that fill the chain, or 0 if it cannot be filled.
func (c *Chain) Fewest() int {
	n := len(c.Nodes)
	best := make([]int, n)
	for j := 1; j < n; j++ {
		for i := range j {
			if c.Item[i][j] >= 0 && (i == 0 || best[i] > 0) && (best[j] == 0 || best[i]+1 < best[j]) {
				best[j] = best[i] + 1
			}
		}
	}
	return best[n-1]
}
