// Package fasten says how to fasten a board: which screw, at what spacing, how
// many per piece, and how many boxes to bring.
//
// All lengths are exact. Coordinates are those of calc/place: a board is a
// rectangle on a surface, and a support a straight bar along x or y. Nothing here
// replaces a listed design or the local code; where a listed design governs, a
// [Note] says so.
package fasten

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Piece is a board or a part of one. A piece with a corner cut out is given as its full
// rectangle, so a few screws too many are counted.
type Piece struct{ X, Y, W, H length.Length }

// Row is a row of screws of a piece along a support: N screws, evenly spaced from
// First to Last (coordinates along the support).
type Row struct {
	Support     int // index into the supports
	First, Last length.Length
	N           int
}

// Count is the screws of a piece, or of several. It includes the tack screws, which are simply the
// first ones driven.
type Count struct {
	Rows  []Row
	Wood  int // screws into wood
	Steel int // screws into steel
}

// Screws is the total.
func (c Count) Screws() int { return c.Wood + c.Steel }

// PerCrossing is the number of screws where a board of this width crosses a
// support: ceil((width - 2 x edge) / spacing) + 1. A strip too narrow for two
// screws takes one in the middle. The result is 0 unless width and spacing are
// positive.
//
// That is the fewest screws that keep the edge distance and the spacing, except
// that a width over by no more than [Hair] takes no extra screw. That a 48 in board
// takes five at 12 in is common practice, no source, and so is the hair.
func PerCrossing(width, edge, spacing length.Length) int {
	if width <= 0 || spacing <= 0 {
		return 0
	}
	edge = max(edge, 0)
	if edge > width/2 {
		return 1
	}
	return screws(width-2*edge, spacing)
}

// Hair is by how much the spacings of a row may be exceeded, in total, before it
// takes another screw.
const Hair = length.Inch / 4

// screws is the fewest screws that cover a span, give or take a hair, including both
// ends: at least two on a positive span.
func screws(span, spacing length.Length) int {
	if span <= 0 {
		return along(span, spacing)
	}
	return max(along(max(span-Hair, 0), spacing), 2)
}

// along is the fewest screws that cover a span, including both ends.
func along(span, spacing length.Length) int {
	n := int(span/spacing) + 1
	if span%spacing != 0 {
		n++
	}
	return n
}

// ForPiece gives the piece a row of screws on every support under it, including
// those under its ends at a wall and under a butt. A support that overlaps the
// piece by no more than the edge distance cannot hold a screw, so it gets no row.
func ForPiece(p Piece, supports []place.Support, r Rule) Count {
	var c Count
	if p.W <= 0 || p.H <= 0 || r.Spacing <= 0 {
		return c
	}
	for i, s := range supports {
		row, ok := rowOn(p, s, r)
		if !ok {
			continue
		}
		row.Support = i
		c.Rows = append(c.Rows, row)
		if s.Steel() {
			c.Steel += row.N
		} else {
			c.Wood += row.N
		}
	}
	return c
}

// rowOn places the screws of a piece on a support. ok is false if it cannot hold one.
func rowOn(p Piece, s place.Support, r Rule) (row Row, ok bool) {
	a0, a1, u0, u1 := p.X, p.X+p.W, p.Y, p.Y+p.H // across the support and along it
	if s.Lie == place.X {
		a0, a1, u0, u1 = u0, u1, a0, a1
	}
	on := min(a1, s.Pos+s.Wide/2) - max(a0, s.Pos-s.Wide/2)
	from, to := max(u0, s.From), min(u1, s.To)
	if on <= r.Edge || to <= from {
		return Row{}, false
	}
	lo, hi := from+r.Edge, to-r.Edge
	if lo > hi { // too short for two: one in the middle
		lo = from + (to-from)/2
		hi = lo
	}
	return Row{First: lo, Last: hi, N: screws(hi-lo, r.Spacing)}, true
}
