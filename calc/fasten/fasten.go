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

// Side is a set of sides of a piece.
type Side uint8

const (
	LowX Side = 1 << iota
	HighX
	LowY
	HighY
)

// Piece is a board or a part of one. Float is the set of sides left unfastened: a
// ceiling edge that the wall board will carry, or a floating angle. A piece with a
// corner cut out is given as its full rectangle, so a few screws too many are counted.
type Piece struct {
	X, Y, W, H length.Length
	Float      Side
}

// Row is a row of screws of a piece along a support: N screws, evenly spaced from
// First to Last (coordinates along the support).
type Row struct {
	Support     int // index into the supports
	First, Last length.Length
	N           int
}

// Count is the screws of a piece. It includes the tack screws, which are simply the
// first ones driven.
type Count struct {
	Rows  []Row
	Wood  int // screws into wood
	Steel int // screws into steel
	Notes []Note
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
// piece by no more than the edge distance cannot hold a screw, so it gets a note
// instead of a row.
func ForPiece(p Piece, supports []place.Support, r Rule) Count {
	var c Count
	if p.W <= 0 || p.H <= 0 || r.Spacing <= 0 {
		return c
	}
	var borne Side   // sides that lie on a support
	var under [2]int // supports under the piece, by axis
	for i, s := range supports {
		b := bearOn(p, s)
		if b.on <= 0 || b.hi <= b.lo {
			continue
		}
		under[s.Lie&1]++
		borne |= b.at
		if b.on <= r.Edge {
			c.Notes = append(c.Notes, Note{Kind: NoHold, Support: i, Got: b.on, Limit: r.Edge})
			continue
		}
		row, ok := b.row(p, r)
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
		if b.hi-b.lo < 2*r.Edge {
			c.Notes = append(c.Notes, Note{Kind: NarrowStrip, Support: i, Got: b.hi - b.lo, Limit: 2 * r.Edge})
		}
	}
	// Edges across the framing need no backing, ends along it do (IBC 2021 2508.3).
	// On a wall with plates the studs, being more, decide which is which.
	ends := []Side{LowX, HighX}
	if under[place.X] > under[place.Y] {
		ends = []Side{LowY, HighY}
	}
	for _, side := range ends {
		if under != [2]int{} && (borne|p.Float)&side == 0 {
			c.Notes = append(c.Notes, Note{Kind: EdgeInAir, Side: side, Support: -1})
		}
	}
	return c
}

// pair is two opposite sides.
type pair struct{ low, high Side }

// bearing is how a piece bears on a support.
type bearing struct {
	on        length.Length // overlap with the face, across the support
	lo, hi    length.Length // overlap along the support
	at        Side          // the sides of the piece that are on the face
	sides     pair          // the sides that run along the support
	cross     pair          // the sides that cross it
	loIsSide  bool          // lo is the piece's own edge, not the support's end
	hiIsSide  bool
	near, far length.Length // from the centre line to sides.low and sides.high
}

func bearOn(p Piece, s place.Support) bearing {
	b := bearing{sides: pair{LowX, HighX}, cross: pair{LowY, HighY}}
	a0, a1, u0, u1 := p.X, p.X+p.W, p.Y, p.Y+p.H
	if s.Lie == place.X {
		b.sides, b.cross = b.cross, b.sides
		a0, a1, u0, u1 = u0, u1, a0, a1
	}
	f0, f1 := s.Pos-s.Wide/2, s.Pos+s.Wide/2
	b.on = min(a1, f1) - max(a0, f0)
	b.lo, b.hi = max(u0, s.From), min(u1, s.To)
	b.loIsSide, b.hiIsSide = u0 >= s.From, u1 <= s.To
	b.near, b.far = s.Pos-a0, a1-s.Pos
	if f0 <= a0 && a0 <= f1 {
		b.at |= b.sides.low
	}
	if f0 <= a1 && a1 <= f1 {
		b.at |= b.sides.high
	}
	return b
}

// row places the screws on a support. ok is false if the support is too close to a
// floating edge to take any.
func (b bearing) row(p Piece, r Rule) (row Row, ok bool) {
	float := max(r.Float, r.Edge)
	if p.Float&b.sides.low != 0 && b.near < float || p.Float&b.sides.high != 0 && b.far < float {
		return Row{}, false
	}
	lo, hi := b.lo+r.Edge, b.hi-r.Edge
	floatLo := b.loIsSide && p.Float&b.cross.low != 0
	floatHi := b.hiIsSide && p.Float&b.cross.high != 0
	if floatLo {
		lo = b.lo + float
	}
	if floatHi {
		hi = b.hi - float
	}
	spacing := r.Spacing
	if b.at != 0 && r.Perimeter > 0 {
		spacing = min(spacing, r.Perimeter)
	}
	if lo > hi {
		// Too short for two: one in the middle, or as far from a floating edge as the
		// edge distance at the other edge allows.
		at := b.lo + (b.hi-b.lo)/2
		if floatLo && !floatHi {
			at = max(at, hi)
		} else if floatHi && !floatLo {
			at = min(at, lo)
		}
		return Row{First: at, Last: at, N: 1}, true
	}
	return Row{First: lo, Last: hi, N: screws(hi-lo, spacing)}, true
}
