// Package even lays out lights in an even grid, and moves the grid by as little as
// possible to clear every support.
//
// n lights over a length L are spaced L/n apart and L/(2n) off the walls (98905.com,
// engineerfix.com and several others agree). Coordinates are those of the
// surface, not rounded.
package even

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// NonIC is the clearance to wood of a recessed light that is not rated for contact:
// 1/2 in (NEC 410.116). A contact-rated one may touch.
const NonIC = 8 * length.Sixteenth

// Most is the largest number of columns or rows. A larger grid is not placed.
const Most = 100

// Query is a ceiling between its wall faces, the grid wanted, the size of the
// holes and their clearance to supports.
type Query struct {
	X, Y, W, H   length.Length // the ceiling's corner and size
	Cols, Rows   int           // along x, along y
	Across, Down length.Length // size of a hole along x, along y; equal for a round one
	Clear        length.Length // clearance of a hole to supports
	Supports     []place.Support
}

// Grid is the x of each column and the y of each row, and how far each was moved
// from its even place.
type Grid struct {
	X, Y           []length.Length
	MovedX, MovedY []length.Length
}

// Spaced is the even grid, not moved. It is empty if the query is invalid.
func Spaced(q Query) Grid {
	if q.Cols < 1 || q.Rows < 1 || q.Cols > Most || q.Rows > Most || q.W <= 0 || q.H <= 0 {
		return Grid{}
	}
	return Grid{
		X: spread(q.X, q.W, q.Cols), Y: spread(q.Y, q.H, q.Rows),
		MovedX: make([]length.Length, q.Cols), MovedY: make([]length.Length, q.Rows),
	}
}

// spread returns the middle of each of n equal parts. Quotient and remainder are
// multiplied separately to avoid overflow.
func spread(from, size length.Length, n int) []length.Length {
	var at []length.Length
	parts := length.Length(2 * n)
	for i := range length.Length(n) {
		k := 2*i + 1
		at = append(at, from+size/parts*k+size%parts*k/parts)
	}
	return at
}

// Whole moves all columns together and all rows together, so that the spacing
// stays even. ok is false if no such move clears every support within the room.
func Whole(q Query) (g Grid, ok bool) { return q.place(together) }

// Each moves every column and every row by itself, as little as each needs. The
// lines stay straight but the spacing becomes uneven. ok is false if a line has no
// place, or two lines would coincide or swap.
func Each(q Query) (g Grid, ok bool) { return q.place(apart) }

// mover moves lines as little as possible to put each inside span and outside the bans.
type mover func(lines []length.Length, span stretch, bans []stretch) ([]length.Length, bool)

// stretch is an interval from lo to hi. A ban is open: its ends are allowed.
type stretch struct{ lo, hi length.Length }

func (q Query) place(move mover) (Grid, bool) {
	even := Spaced(q)
	if len(even.X) == 0 {
		return even, false
	}
	// Short supports bar only the lines with a light that meets them. Columns are
	// moved first, for the rows' even places; if the rows then move so that a light
	// clashes, every support is taken to run right through.
	for _, through := range []bool{false, true} {
		g := even
		var okX, okY bool
		g.X, okX = move(even.X, inside(q.X, q.W, q.Across), q.bans(place.Y, q.Across, even.Y, q.Down, through))
		g.Y, okY = move(even.Y, inside(q.Y, q.H, q.Down), q.bans(place.X, q.Down, g.X, q.Across, through))
		if !okX || !okY || Clashes(q, g) {
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

// half rounds up, so that nothing is a nanometre too close.
func half(l length.Length) length.Length { return l/2 + l%2 }

// bans returns the stretches that supports along axis bar for lines of lights. A support
// counts only if it reaches a light of the others, or if through is set.
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

// overlaps reports whether a hole centred at the given place along a support meets it.
func overlaps(s place.Support, at, hole, clear length.Length) bool {
	return at+half(hole)+clear > s.From && at-half(hole)-clear < s.To
}

// Clashes reports whether any light of a grid is too close to a support, or on it.
func Clashes(q Query, g Grid) bool {
	for _, s := range q.Supports {
		for _, x := range g.X {
			for _, y := range g.Y {
				along, across, holeAlong, holeAcross := x, y, q.Across, q.Down
				if s.Lie == place.Y {
					along, across, holeAlong, holeAcross = y, x, holeAcross, holeAlong
				}
				gap := max(across-s.Pos, s.Pos-across) - half(s.Wide) - half(holeAcross)
				if gap < q.Clear && overlaps(s, along, holeAlong, q.Clear) {
					return true
				}
			}
		}
	}
	return false
}

func moved(from, to []length.Length) []length.Length {
	var moves []length.Length
	for i := range from {
		moves = append(moves, to[i]-from[i])
	}
	return moves
}

// together moves all lines by the same least distance. That is either 0 or brings some
// line to the end of some ban, so no other distances are tried. Of two equal moves it
// takes the one towards the west or north wall.
func together(lines []length.Length, span stretch, bans []stretch) ([]length.Length, bool) {
	fits := func(move length.Length) bool {
		for _, l := range lines {
			at := l + move
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
	for _, move := range moves {
		if fits(move) {
			at := slices.Clone(lines)
			for i := range at {
				at[i] += move
			}
			return at, true
		}
	}
	return lines, false
}

// apart moves each line by its own least distance.
func apart(lines []length.Length, span stretch, bans []stretch) ([]length.Length, bool) {
	var at []length.Length
	for _, l := range lines {
		to, ok := together([]length.Length{l}, span, bans)
		if !ok || len(at) > 0 && to[0] <= at[len(at)-1] {
			return lines, false
		}
		at = append(at, to[0])
	}
	return at, true
}
