package sketch

import (
	"math"

	"strapline/calc/place"
)

// dims dimensions the things' distances off two walls, each on a thin line from the wall's
// face to the thing's centre line. Equal distances off a wall are dimensioned once, and one
// whose number does not fit is only given in the list below the plan.
func (d *drawing) dims(things []Thing) {
	for _, t := range things {
		if t.Surface != d.Surface {
			continue
		}
		for _, m := range t.From {
			k := Dim{Ref: m.Ref, Axis: m.Axis, Dist: m.Dist}
			if !d.done[k] && (d.dim(t, m, small) || d.dim(t, m, least)) {
				d.done[k] = true
			}
		}
	}
}

// dim draws one dimension. The number goes into its line or, if that is too short or
// something is in the way, beside it. It reports whether the number fits.
func (d *drawing) dim(t Thing, m Dim, size float64) bool {
	a, b := d.at(t.At.With(m.Axis, m.Wall)), d.at(t.At)
	l := oneLine(d.Tape(m.Dist), size, false, dimInk)
	w, h := l.size()
	long, half, beside := math.Hypot(b.X-a.X, b.Y-a.Y), w/2, pt{0, h/2 + 5}
	if m.Axis == place.Y {
		half, beside = h/2, pt{w/2 + 5, 0}
	}
	var at, off []pt
	for _, f := range []float64{.5, .4, .6, .3, .7, .2, .8} {
		c := pt{a.X + f*(b.X-a.X), a.Y + f*(b.Y-a.Y)}
		if long*min(f, 1-f)-14 >= half {
			at = append(at, c)
		}
		off = append(off, pt{c.X - beside.X, c.Y - beside.Y}, pt{c.X + beside.X, c.Y + beside.Y})
	}
	n := len(d.page.Shapes)
	if !d.place.place(l, append(at, off...)...) {
		return false
	}
	// Draw the line before the mask of its own number.
	mask := append([]Shape(nil), d.page.Shapes[n:]...)
	d.page.Shapes = d.page.Shapes[:n]
	d.page.line(Pen{dimInk, 1.4, nil}, a, b)
	d.page.arrow(dimInk, a, b)
	d.page.arrow(dimInk, b, a)
	d.page.Shapes = append(d.page.Shapes, mask...)
	return true
}
