package fasten

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Tacks are the screws that hold a board before the lift comes away: one a
// foot of board, half along each long edge, so an even number (12 for a 12 ft
// board). Common practice, no source. They stay, and count among the screws
// of the rows.
func Tacks(board length.Length) (total, eachEdge int) {
	if board <= 0 {
		return 0, 0
	}
	eachEdge = along(board, 2*length.Foot) - 1
	return 2 * eachEdge, eachEdge
}

// Box is how many screws of one kind there are to a box, and what share to
// bring on top for those that drop, strip or miss, in percent.
type Box struct {
	Holds int
	Spare int
}

// Boxes is how many whole boxes to bring; 0 when the size of a box is not known.
func (b Box) Boxes(screws int) int {
	if b.Holds <= 0 || screws <= 0 {
		return 0
	}
	want := int64(screws) * int64(100+max(b.Spare, 0))
	per := int64(b.Holds) * 100
	return int((want + per - 1) / per)
}

// Bill is what to bring for some pieces.
type Bill struct {
	Pieces      []Count // one for each piece, in order
	Wood, Steel int     // screws
}

// ForPieces counts each piece and adds up. A support under the ends of two
// pieces is counted with both.
func ForPieces(pieces []Piece, supports []place.Support, r Rule) Bill {
	var b Bill
	for _, p := range pieces {
		c := ForPiece(p, supports, r)
		b.Pieces = append(b.Pieces, c)
		b.Wood += c.Wood
		b.Steel += c.Steel
	}
	return b
}
