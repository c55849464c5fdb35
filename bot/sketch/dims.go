package sketch

import (
	"math"
	"strings"

	"strapline/bot/sheet"
	"strapline/calc/locate"
	"strapline/calc/place"
)

// dims dimensions the things' distances off two walls, each on a thin line from the wall's
// face to the thing's centre line, and doors and windows to both edges with their size. Equal distances off a wall are dimensioned once, and one
// whose number does not fit is only given in the list below the plan.
func (d *drawing) dims(things []Thing) {
	for _, t := range things {
		if t.Surface != d.Surface {
			continue
		}
		for _, m := range t.From {
			k := Dim{Ref: m.Ref, Axis: m.Axis, Dist: m.Dist}
			if m.Size {
				k = m
			}
			if !d.done[k] && (d.dim(t, m, small) || d.dim(t, m, least)) {
				d.done[k] = true
			}
		}
	}
}

// ends are those of a dimension line.
func (d *drawing) ends(t Thing, m Dim) (from, to sheet.Point) {
	across := m.Axis.Other()
	end := t.At.With(m.Axis, t.At.On(m.Axis)+m.Edge).With(across, t.At.On(across)+m.Off)
	return d.at(end.With(m.Axis, m.Wall)), d.at(end)
}

// dim draws one dimension. The number goes into its line or, if that is too short or
// something is in the way, beside it. It reports whether the number fits.
func (d *drawing) dim(t Thing, m Dim, size float64) bool {
	a, b := d.ends(t, m)
	l := sheet.OneLine(d.Tape(m.Dist), size, false, sheet.DimInk)
	w, h := l.Size()
	long, half, beside := math.Hypot(b.X-a.X, b.Y-a.Y), w/2, sheet.Point{X: 0, Y: h/2 + 5}
	if m.Axis == place.Y {
		half, beside = h/2, sheet.Point{X: w/2 + 5, Y: 0}
	}
	var at, off []sheet.Point
	for _, f := range []float64{.5, .4, .6, .3, .7, .2, .8} {
		c := sheet.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}
		if long*min(f, 1-f)-14 >= half {
			at = append(at, c)
		}
		off = append(off, sheet.Point{X: c.X - beside.X, Y: c.Y - beside.Y}, sheet.Point{X: c.X + beside.X, Y: c.Y + beside.Y})
	}
	n := len(d.page.Shapes)
	if !d.place.Place(l, append(at, off...)...) {
		return false
	}
	// Draw the line before the mask of its own number.
	mask := append([]sheet.Shape(nil), d.page.Shapes[n:]...)
	d.page.Shapes = d.page.Shapes[:n]
	d.page.Line(sheet.Pen{Ink: sheet.DimInk, W: 1.4, Dash: nil}, a, b)
	d.page.Arrow(sheet.DimInk, a, b)
	d.page.Arrow(sheet.DimInk, b, a)
	d.page.Shapes = append(d.page.Shapes, mask...)
	return true
}

// off lists distances off walls.
func (s Scene) off(from []Dim) string {
	var out []string
	for _, m := range from {
		if m.Ref == "" || m.Ref == "floor" {
			out = append(out, s.Tape(m.Dist)+" up")
			continue
		}
		if m.Ref == locate.Slope {
			out = append(out, s.Tape(m.Dist)+" up the slope")
			continue
		}
		out = append(out, s.Tape(m.Dist)+" off "+m.Ref)
	}
	return strings.Join(out, ", ")
}

// edges lists the extent of a door or window off walls and the floor.
func (s Scene) edges(from []Dim) string {
	var out []string
	for i, m := range from {
		switch {
		case !m.Size:
			continue
		case i+2 < len(from) && from[i+1].Axis == m.Axis:
			out = append(out, s.Tape(from[i+1].Dist)+" to "+s.off(from[i+2:i+3]))
		case m.Axis == place.Y:
			out = append(out, s.Tape(m.Dist)+" high")
		default:
			out = append(out, s.Tape(m.Dist)+" from wall to wall")
		}
	}
	return strings.Join(out, ", ")
}
