package say

import (
	"fmt"
	"strings"

	"strapline/calc/event"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// Lies is how the boards of a layout lie: on which surface, and which way they run.
type Lies struct {
	On  place.Surface
	Run place.Direction
}

// ends returns the walls at the start and end of a row.
func (b Lies) ends() (start, end place.Wall) {
	return b.sides(b.On.Lie(b.Run))
}

// sides returns what is at both ends of an axis: walls, or the bottom and the top.
func (b Lies) sides(a place.Axis) (start, end place.Wall) {
	if start = b.On.Start(a); start == "" {
		return "bottom", "top"
	}
	return start, start.Opposite()
}

// edges returns the walls on the low and high side of a row, along its pieces' long edges.
func (b Lies) edges() (lo, hi place.Wall) {
	return b.sides(b.On.Lie(b.Run).Other())
}

// Cut is the length to cut a piece to. A tapered piece has one for each long edge, low
// edge first, and says which end is cut on the slant.
func (b Lies) Cut(pc layout.Piece, l func(length.Length) string) string {
	if !pc.Tapered() {
		return l(pc.Cut) + b.off(pc, l)
	}
	start, end := b.ends()
	slant := "both ends"
	switch {
	case pc.Lean[1] == 0:
		slant = string(start) + " end"
	case pc.Lean[0] == 0:
		slant = string(end) + " end"
	}
	return l(pc.Edges[0]) + " to " + l(pc.Edges[1]) + " (" + slant + ")" + b.off(pc, l)
}

// off is the corners that are cut off a piece: along its long edge, and across its end.
func (b Lies) off(pc layout.Piece, l func(length.Length) string) (text string) {
	start, end := b.ends()
	lo, hi := b.edges()
	for _, c := range pc.Off {
		at := string(start)
		if c.End {
			at = string(end)
		}
		edge := string(lo)
		if c.Far {
			edge = string(hi)
		}
		text += fmt.Sprintf(", %s %s corner off %s x %s", at, edge, l(c.Along), l(c.Across))
	}
	return text
}

// Rip is the width to rip a piece to, or the widths at its start and end if it tapers.
func (b Lies) Rip(pc layout.Piece, l func(length.Length) string) string {
	if !pc.RipTapered() {
		return l(pc.Width)
	}
	return l(pc.Ends[0]) + " to " + l(pc.Ends[1])
}

// RowRip is the rip of a whole row, or the widths at the row's start and end if they differ.
func (b Lies) RowRip(r layout.Row, l func(length.Length) string) string {
	if len(r.Pieces) == 0 {
		return l(r.Width)
	}
	first, last := r.Pieces[0], r.Pieces[len(r.Pieces)-1]
	start, end := first.Width, last.Width
	if first.RipTapered() {
		start = first.Ends[0]
	}
	if last.RipTapered() {
		end = last.Ends[1]
	}
	if start == end {
		return l(r.Width)
	}
	return l(start) + " to " + l(end)
}

// Two is the legend for sizes given as "A to B": which edge and which end come first.
// It is "" if the rows have no such size.
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

// RouteName names a run.
func (c Speech) RouteName(v event.Route) string {
	s := v.Name
	if !strings.HasPrefix(s, v.What) {
		s = v.What + " " + s
	}
	if v.Size == 0 {
		return s
	}
	if strings.HasPrefix(v.Name, v.What+" ") { // its number is not part of the size
		s += ","
	}
	return s + " " + c.Len(v.Size)
}
