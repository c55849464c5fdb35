package fasten

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Tacks is how many screws hold a board before the lift is lowered: one per foot
// of board, half of them along each long edge, so an even number (12 for a 12 ft
// board). Common practice, no source. They stay in and count towards the rows.
func Tacks(board length.Length) (total, eachEdge int) {
	if board <= 0 {
		return 0, 0
	}
	eachEdge = along(board, 2*length.Foot) - 1
	return 2 * eachEdge, eachEdge
}

// Box is a box of screws of one kind.
type Box struct {
	Holds int // screws in a box
	Spare int // percent to bring extra, for screws that drop, strip or miss
}

// Boxes is how many whole boxes to bring, 0 if Holds is unknown.
func (b Box) Boxes(screws int) int {
	if b.Holds <= 0 || screws <= 0 {
		return 0
	}
	want := int64(screws) * int64(100+max(b.Spare, 0))
	per := int64(b.Holds) * 100
	return int((want + per - 1) / per)
}

// ForPieces counts the screws of each piece and adds them up. A support under a
// butt takes a row for each of its two pieces.
func ForPieces(pieces []Piece, supports []place.Support, r Rule) (all Count) {
	for _, p := range pieces {
		c := ForPiece(p, supports, r)
		all.Rows = append(all.Rows, c.Rows...)
		all.Wood += c.Wood
		all.Steel += c.Steel
	}
	return all
}
