package say

import (
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// Lies is how the boards of a layout lie: their surface and the direction they run.
type Lies struct {
	On  place.Surface
	Run place.Run
}

// ends are the walls that a row starts and ends at, edges those that its pieces' long edges lie to.
func (b Lies) ends() (start, end place.Wall) {
	start = b.On.Start(b.On.Lie(b.Run))
	return start, start.Opposite()
}

func (b Lies) edges() (lo, hi place.Wall) {
	lo = b.On.Start(b.On.Lie(b.Run).Other())
	return lo, lo.Opposite()
}

// Cut is the length that a piece is cut to; where it is tapered, those along its two edges, and which end is on the slant.
func (b Lies) Cut(pc layout.Piece, l func(length.Length) string) string {
	if !pc.Tapered() {
		return l(pc.Cut)
	}
	start, end := b.ends()
	slant := "both ends"
	switch {
	case pc.Lean[1] == 0:
		slant = string(start) + " end"
	case pc.Lean[0] == 0:
		slant = string(end) + " end"
	}
	return l(pc.Edges[0]) + " to " + l(pc.Edges[1]) + " (" + slant + ")"
}

// Rip is the width that a piece is ripped to, or those at its two ends.
func (b Lies) Rip(pc layout.Piece, l func(length.Length) string) string {
	if !pc.RipTapered() {
		return l(pc.Width)
	}
	return l(pc.Ends[0]) + " to " + l(pc.Ends[1])
}

// RowRip is the rip of a whole row, or what it is at the row's two ends.
func (b Lies) RowRip(r layout.Row, l func(length.Length) string) string {
	if len(r.Pieces) == 0 {
		return l(r.Width)
	}
	first, last := r.Pieces[0], r.Pieces[len(r.Pieces)-1]
	one, other := first.Width, last.Width
	if first.RipTapered() {
		one = first.Ends[0]
	}
	if last.RipTapered() {
		other = last.Ends[1]
	}
	if one == other {
		return l(r.Width)
	}
	return l(one) + " to " + l(other)
}

// Two says which edge and which end come first where two sizes stand for one; "" where none do.
func (b Lies) Two(rows []layout.Row) string {
	var cut, rip bool
	for _, r := range rows {
		for _, pc := range r.Pieces {
			cut, rip = cut || pc.Tapered(), rip || pc.RipTapered() || pc.Width != r.Width
		}
	}
	lo, hi := b.edges()
	start, end := b.ends()
	edges, ends := "two lengths: "+string(lo)+" edge to "+string(hi)+" edge", "two rips: "+string(start)+" end to "+string(end)+" end"
	switch {
	case cut && rip:
		return edges + "; " + ends
	case cut:
		return edges
	case rip:
		return ends
	}
	return ""
}
