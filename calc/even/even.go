// Package even places lights in an even grid and moves it the least that
// clears every support.
//
// n lights over a length L stand L/n apart and L/(2n) off the walls (98905.com,
// engineerfix.com and several others agree). Coordinates are those of the
// surface, exact; whoever prints them rounds.
package even

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// NonIC is what a recessed light that is not rated for contact keeps from
// wood, 1/2 in (NEC 410.116); a contact-rated one may touch.
const NonIC = 8 * length.Sixteenth

// Most is the greatest number of lights one way; a grid beyond it is not placed.
const Most = 100

// Query is a ceiling from wall face to wall face, the grid wanted, the size of
// the holes and how far they keep from wood.
type Query struct {
	X, Y, W, H   length.Length // the ceiling's corner and size
	Cols, Rows   int           // along x, along y
	Across, Down length.Length // size of a hole along x, along y; equal for a round one
	Clear        length.Length
	Supports     []place.Support
}

// Grid holds the x of each column and the y of each row, and how far each was
// moved from its even place.
type Grid struct {
	X, Y           []length.Length
	MovedX, MovedY []length.Length
}

// Clash is a light that sits on a support or nearer than it may.
type Clash struct {
	Col, Row, Support int           // indexes
	Short             length.Length // how much clearance is missing
}

// Spaced is the even grid, not moved. It is empty when the numbers make none.
func Spaced(q Query) Grid {
	if q.Cols < 1 || q.Rows < 1 || q.Cols > Most || q.Rows > Most || q.W <= 0 || q.H <= 0 {
		return Grid{}
	}
	return Grid{
		X: spread(q.X, q.W, q.Cols), Y: spread(q.Y, q.H, q.Rows),
		MovedX: make([]length.Length, q.Cols), MovedY: make([]length.Length, q.Rows),
	}
}

// spread is the middle of each of n equal parts. Whole parts and the rest are
// taken apart so that no product grows beyond the type.
func spread(from, size length.Length, n int) []length.Length {
	var at []length.Length
	parts := length.Length(2 * n)
	for i := range length.Length(n) {
		k := 2*i + 1
		at = append(at, from+size/parts*k+size%parts*k/parts)
	}
	return at
}

// Whole moves all columns as one and all rows as one, so that the spacing
// stays even. It is false when no such move clears every support inside the room.
func Whole(q Query) (Grid, bool) { return q.place(together) }

// Each moves every column and every row by itself, the least each needs, so
// that the lines stay straight and the spacing does not stay even. It is false
// when a line has no place, or two would share one.
func Each(q Query) (Grid, bool) { return q.place(apart) }

// mover moves lines the least that puts each inside span and outside the bans.
type mover func(lines []length.Length, span stretch, bans []stretch) ([]length.Length, bool)

// stretch is from lo to hi; as a ban its ends are allowed.
type stretch struct{ lo, hi length.Length }

func (q Query) place(move mover) (Grid, bool) {
	even := Spaced(q)
	if len(even.X) == 0 {
		return even, false
	}
	// Supports that stop short bar only the lines that meet them. Columns are
	// moved first, against the rows' even places; if the rows then move onto
	// one, every support is taken to run right through.
	for _, through := range []bool{false, true} {
		g := even
		var okX, okY bool
		g.X, okX = move(even.X, inside(q.X, q.W, q.Across), q.bans(place.Y, q.Across, even.Y, q.Down, through))
		g.Y, okY = move(even.Y, inside(q.Y, q.H, q.Down), q.bans(place.X, q.Down, g.X, q.Across, through))
		if !okX || !okY || len(Clashes(q, g)) > 0 {
			continue
		}
		g.MovedX, g.MovedY = moved(even.X, g.X), moved(even.Y, g.Y)
		return g, true
	}
	return even, false
}

// inside is where the centre of a hole may be between two walls.
func inside(from, size, hole length.Length) stretch {
	return stretch{from + half(hole), from + size - half(hole)}
}

// half rounds up, so that nothing is a nanometre too near.
func half(l length.Length) length.Length { return l/2 + l%2 }

// bans are the stretches that the supports of one axis keep from the lines
// that run along it, as far as those supports meet the others' lights.
func (q Query) bans(axis place.Axis, hole length.Length, others []length.Length, otherHole length.Length, through bool) []stretch {
	var bans []stretch
	for _, s := range q.Supports {
		meets := func(at length.Length) bool { return overlaps(s, at, otherHole, q.Clear) }
		if s.Lie == axis && (through || slices.ContainsFunc(others, meets)) {
			r := half(s.Wide) + half(hole) + q.Clear
			bans = append(bans, stretch{s.Pos - r, s.Pos + r})
		}
	}
	return bans
}

// overlaps: a hole centred at the given place along the support meets its length.
func overlaps(s place.Support, at, hole, clear length.Length) bool {
	return at+half(hole)+clear > s.From && at-half(hole)-clear < s.To
}

// Clashes lists every light of a grid that is too near a support.
func Clashes(q Query, g Grid) []Clash {
	var c []Clash
	for i, s := range q.Supports {
		for col, x := range g.X {
			for row, y := range g.Y {
				along, across, holeAlong, holeAcross := x, y, q.Across, q.Down
				if s.Lie == place.Y {
					along, across, holeAlong, holeAcross = y, x, holeAcross, holeAlong
				}
				gap := max(across-s.Pos, s.Pos-across) - half(s.Wide) - half(holeAcross)
				if gap < q.Clear && overlaps(s, along, holeAlong, q.Clear) {
					c = append(c, Clash{Col: col, Row: row, Support: i, Short: q.Clear - gap})
				}
			}
		}
	}
	return c
}

func moved(from, to []length.Length) []length.Length {
	var by []length.Length
	for i := range from {
		by = append(by, to[i]-from[i])
	}
	return by
}

// together finds the least common move. It is nothing, or it brings some line
// to the end of some ban: those are the only places where the answer can turn.
// Of two equal moves the one towards the west or north wall is taken.
func together(lines []length.Length, span stretch, bans []stretch) ([]length.Length, bool) {
	fits := func(by length.Length) bool {
		for _, l := range lines {
			at := l + by
			if at < span.lo || at > span.hi {
				return false
			}
			for _, b := range bans {
				if b.lo < at && at < b.hi {
					return false
				}
			}
		}
		return true
	}
	moves := []length.Length{0}
	for _, l := range lines {
		for _, b := range bans {
			moves = append(moves, b.lo-l, b.hi-l)
		}
	}
	slices.SortFunc(moves, func(a, b length.Length) int {
		if d := max(a, -a) - max(b, -b); d != 0 {
			return int(d)
		}
		return int(a - b)
	})
	for _, by := range moves {
		if fits(by) {
			at := slices.Clone(lines)
			for i := range at {
				at[i] += by
			}
			return at, true
		}
	}
	return lines, false
}

// apart moves each line by itself.
func apart(lines []length.Length, span stretch, bans []stretch) ([]length.Length, bool) {
	var at []length.Length
	for _, l := range lines {
		one, ok := together([]length.Length{l}, span, bans)
		if !ok || len(at) > 0 && one[0] <= at[len(at)-1] {
			return lines, false
		}
		at = append(at, one[0])
	}
	return at, true
}
