package square

import (
	"math"

	"strapline/calc/length"
	"strapline/calc/place"
)

// How the first row is set out. A line 46 in off the wall, and a gap that the wall board
// covers, are common practice, no source. A line 48-1/4 in off the straightest wall is
// from finehomebuilding.com, hanging a ceiling.
const (
	Over   = 4 * length.Sixteenth // the line is a board's width plus this off the wall
	Hidden = 4 * length.Sixteenth // the largest gap that the wall board covers, so the first board stays whole
	Back   = 2 * length.Inch      // else the line is a board's width less this off the wall, e.g. 46 in
	Sliver = 6 * length.Inch      // a last rip under this is worth ripping the first row
)

// Gaps returns for each wall, in the order of place.Walls, the larger wedge left at an end
// wall when a board of that width with square ends is pushed tight to it:
// gap = width x |cot(corner angle)|.
func (r Room) Gaps(width length.Length) (gaps [4]length.Length) {
	for i := range gaps {
		for _, c := range [2]int{i, (i + 1) % 4} {
			a := r.q.angle(c)
			gaps[i] = max(gaps[i], round(float64(width)*math.Abs(math.Cos(a)/math.Sin(a))))
		}
	}
	return gaps
}

// across is the distance from wall i to the two corners opposite, square to wall i, the
// west or north one first.
func (r Room) across(i int) (a, b length.Length) {
	first, second := (i+3)%4, (i+2)%4 // opposite the wall's first corner and its second
	if i >= 2 {                       // south and west run the other way
		first, second = second, first
	}
	return round(r.q.off(i, r.q[first])), round(r.q.off(i, r.q[second]))
}

// Cross is the distance from wall w to the farther of the two corners opposite.
func (r Room) Cross(w place.Wall) length.Length {
	a, b := r.across(index(w))
	return max(a, b)
}

// Why is the reason for the control line's distance.
type Why string

const (
	FullBoard Why = "full board"  // the gap is at most Hidden: the first board stays whole
	CutToWall Why = "cut to wall" // the gap is at most Back
	FarOut    Why = "far out"     // the gap is more than Back: the line is closer still
	EvenRows  Why = "even rows"   // closer, as the last row would be a sliver
)

// String is the reason in words.
func (w Why) String() string {
	switch w {
	case FullBoard:
		return "corners are square enough for a whole first board"
	case CutToWall:
		return "corners are out: the first board is cut to the wall"
	case EvenRows:
		return "the first board is cut, else the last row would be a sliver"
	}
	return "corners are far out: the first board is cut to the wall, by more than usual"
}

// Control is the control line that the first row is hung to, parallel to Wall.
type Control struct {
	Wall place.Wall
	Off  length.Length // distance from Wall
	Gap  length.Length // of Wall, from Gaps
	Why  Why
}

// Control sets out the line for boards of the given width and direction (place.EW or
// place.NS), off whichever wall has the smaller gap.
func (r Room) Control(run place.Direction, width length.Length) Control {
	gaps := r.Gaps(width)
	best, opposite := 0, 2 // north, south
	if run == place.NS {
		best, opposite = 3, 1 // west, east
	}
	if gaps[opposite] < gaps[best] {
		best = opposite
	}
	c := Control{Wall: place.Walls[best], Gap: gaps[best], Off: width + Over, Why: FullBoard}
	switch {
	case c.Gap <= Hidden:
	case c.Gap <= Back:
		c.Off, c.Why = width-Back, CutToWall
	default:
		c.Off, c.Why = max(width-c.Gap, 0)/length.Inch*length.Inch, FarOut
	}
	return c
}

// Even moves the line closer, so that the first and the last row are equal, if the last of the rows up to
// cross, the whole distance, would be more than hidden and less than sliver wide. whole is the number of
// full rows between the two, and rest the last row.
func (c Control) Even(cross, width, hidden, sliver length.Length) (even Control, whole int, rest length.Length) {
	whole, rest = int((cross-c.Off)/width), (cross-c.Off)%width
	if rest > hidden && rest < sliver {
		rest = (c.Off + rest) / 2
		c.Off, c.Why = cross-length.Length(whole)*width-rest, EvenRows
	}
	return c, whole, rest
}

// Taper is how much the ends of a rip may differ for it to be cut to one width, the smaller:
// 1/4 in, as for any cut.
const Taper = 4 * length.Sixteenth

// Rip is a row along a wall.
type Rip struct {
	Wall       place.Wall
	A, B       length.Length // space for it at its west or north end, and at the other end, square to the rows
	CutA, CutB length.Length // widths to cut; 0 if the row tapers out before that end
	Whole      bool          // a full-width board fits uncut
	Taper      bool          // the two cuts differ, by more than Taper
	Thin       bool          // narrower than Sliver at both ends: start with a ripped row
}

// Rips returns the rows at the two walls if the first row is hung to line c and full rows
// follow. The cuts are the space less clear overall, rounded down to 1/16 in or 1 mm. If a
// single row fills the room it is returned as first, and ok is false.
func (r Room) Rips(c Control, width, clear length.Length, u length.Units) (first, last Rip, ok bool) {
	i := index(c.Wall)
	if i < 0 || width <= 0 {
		return first, last, false
	}
	cut := func(w place.Wall, a, b length.Length) Rip {
		rip := Rip{Wall: w, A: max(a, 0), B: max(b, 0)}
		down := func(l length.Length) length.Length { return length.RoundDown(min(max(l-clear, 0), width), u) }
		rip.CutA, rip.CutB = down(rip.A), down(rip.B)
		if rip.Taper = max(rip.A-rip.B, rip.B-rip.A) > Taper; !rip.Taper {
			rip.CutA = min(rip.CutA, rip.CutB)
			rip.CutB = rip.CutA
		}
		rip.Whole = rip.A-clear >= width && rip.B-clear >= width
		rip.Thin = max(rip.A, rip.B) < Sliver
		return rip
	}
	a, b := r.across(i)
	if r.Cross(c.Wall) <= c.Off {
		return cut(c.Wall, a, b), last, false
	}
	whole := (max(a, b) - c.Off - 1) / width // so the last row is at most a board wide
	used := c.Off + whole*width
	return cut(c.Wall, c.Off, c.Off), cut(c.Wall.Opposite(), a-used, b-used), true
}
