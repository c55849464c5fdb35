package sketch

import (
	"math"

	"strapline/bot/scene"
	"strapline/bot/sheet"
	"strapline/calc/place"
)

// dims dimensions the things' distances off two walls, each on a thin line from the wall's
// face to the thing's centre line, and doors and windows to both edges with their size. Equal distances off a wall are dimensioned once, and one
// whose number does not fit is only given in the list below the plan.
func (d *drawing) dims(things []scene.Thing) {
	for _, t := range things {
		if t.Surface != d.Surface {
			continue
		}
		for _, m := range t.From {
			k := scene.Dim{Ref: m.Ref, Axis: m.Axis, Dist: m.Dist}
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
func (d *drawing) ends(t scene.Thing, m scene.Dim) (from, to sheet.Point) {
	across := m.Axis.Other()
	end := t.At.With(m.Axis, t.At.On(m.Axis)+m.Edge).With(across, t.At.On(across)+m.Off)
	return d.at(end.With(m.Axis, m.Wall)), d.at(end)
}

// dim draws one dimension. The number goes into its line or, if that is too short or
// something is in the way, beside it. It reports whether the number fits.
func (d *drawing) dim(t scene.Thing, m scene.Dim, size float64) bool {
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
	d.page.Line(sheet.Pen{Ink: sheet.DimInk, W: 1.4}, a, b)
	d.page.Arrow(sheet.DimInk, a, b)
	d.page.Arrow(sheet.DimInk, b, a)
	d.page.Shapes = append(d.page.Shapes, mask...)
	return true
}
