package square

import (
	"math"

	"strapline/calc/length"
	"strapline/calc/place"
)

// How the first row is set out. A line 46 in off the wall is common practice, and
// so is the cover that wall board gives; no source for either. A line 48-1/4 in
// off the straightest wall: finehomebuilding.com, hanging a ceiling.
const (
	Over   = 4 * length.Sixteenth // the line is a board and this off the wall
	Hidden = 4 * length.Sixteenth // a worst gap that still allows it: the wall board covers it
	Back   = 2 * length.Inch      // else the line comes back from the board's width, to 46 in
	Sliver = 6 * length.Inch      // a rip under this is worth another first row
)

// Push is what the first board does when its long edge is pushed tight to a wall.
type Push struct {
	Wall   place.Wall
	Gap    length.Length // the worst wedge left at an end wall, over the board's width
	Corner string        // where: one of Corners
	Acute  bool          // the corner is under 90: the board stops on its far edge
	Far    length.Length // how much less room there is at one end of the opposite wall
}

// Pushes gives it for each wall, in the order of place.Walls, for a board with
// square ends: gap = width x |cot(corner angle)|.
func (r Room) Pushes(width length.Length) [4]Push {
	var out [4]Push
	for i, w := range place.Walls {
		p := Push{Wall: w, Corner: Corners[i]}
		worst := -1.0
		for _, c := range [2]int{i, (i + 1) % 4} {
			a := r.q.angle(c)
			if gap := float64(width) * math.Abs(math.Cos(a)/math.Sin(a)); gap > worst {
				worst, p.Corner, p.Acute = gap, Corners[c], a < math.Pi/2
			}
		}
		p.Gap = round(worst)
		a, b := r.across(i)
		p.Far = max(a, b) - min(a, b)
		out[i] = p
	}
	return out
}

// across is the room from wall i to the two corners opposite, square to wall i:
// west or north end first.
func (r Room) across(i int) (a, b length.Length) {
	first, second := (i+3)%4, (i+2)%4 // behind the wall's first corner and its second
	if i >= 2 {                       // south and west run the other way
		first, second = second, first
	}
	return round(r.q.off(i, r.q[first])), round(r.q.off(i, r.q[second]))
}

// Why says what set the control line's distance.
type Why string

const (
	FullBoard Why = "full board" // the worst gap is within Hidden: the first board stays whole
	CutToWall Why = "cut to wall"
	FarOut    Why = "far out" // the corner is out by more than Back: nearer still
)

// String is the reason in words.
func (w Why) String() string {
	switch w {
	case FullBoard:
		return "corners are square enough for a whole first board"
	case CutToWall:
		return "corners are out: the first board is cut to the wall"
	}
	return "corners are far out: the first board is cut to the wall, by more than usual"
}

// Control is the line the first row is hung to: parallel to Wall, Off it at both ends.
type Control struct {
	Wall place.Wall
	Off  length.Length
	Gap  length.Length // the worst gap along that wall, from Pushes
	Why  Why
}

// Control sets the line out for boards of the given width that run the given
// way (place.EW or place.NS), off the wall with the lesser worst gap.
func (r Room) Control(run place.Run, width length.Length) Control {
	push := r.Pushes(width)
	one, other := push[0], push[2] // north, south
	if run == place.NS {
		one, other = push[3], push[1] // west, east
	}
	if other.Gap < one.Gap {
		one = other
	}
	c := Control{Wall: one.Wall, Gap: one.Gap, Off: width + Over, Why: FullBoard}
	switch {
	case one.Gap <= Hidden:
	case one.Gap <= Back:
		c.Off, c.Why = width-Back, CutToWall
	default:
		c.Off, c.Why = max(width-one.Gap, 0)/length.Inch*length.Inch, FarOut
	}
	return c
}

// Rip is a row along a wall: the room for it at its west or north end (A) and at
// the other (B), square to the rows, and the sizes to cut.
type Rip struct {
	Wall       place.Wall
	A, B       length.Length
	CutA, CutB length.Length // 0: the row runs out before it gets there
	Whole      bool          // a whole board fits: nothing to cut
	Taper      bool          // the two cuts differ
	Thin       bool          // narrower than Sliver all along: start with a cut row
}

// Rips are the rows at the two walls when the first row hangs to line c and
// whole rows follow. Cuts are clear less in all than the room and rounded down to
// 1/16 in, or 1 mm. One row that fills the room comes back as first, and ok is
// false.
func (r Room) Rips(c Control, width, clear length.Length, u length.Units) (first, last Rip, ok bool) {
	i := index(c.Wall)
	if i < 0 || width <= 0 {
		return first, last, false
	}
	cut := func(w place.Wall, a, b length.Length) Rip {
		rip := Rip{Wall: w, A: max(a, 0), B: max(b, 0)}
		down := func(l length.Length) length.Length { return length.RoundDown(min(max(l-clear, 0), width), u) }
		rip.CutA, rip.CutB = down(rip.A), down(rip.B)
		rip.Taper = rip.CutA != rip.CutB
		rip.Whole = rip.A-clear >= width && rip.B-clear >= width
		rip.Thin = max(rip.A, rip.B) < Sliver
		return rip
	}
	a, b := r.across(i)
	if max(a, b) <= c.Off {
		return cut(c.Wall, a, b), last, false
	}
	whole := (max(a, b) - c.Off - 1) / width // the last row is never wider than a board
	used := c.Off + whole*width
	return cut(c.Wall, c.Off, c.Off), cut(c.Wall.Opposite(), a-used, b-used), true
}
