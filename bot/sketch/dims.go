package sketch

import (
	"math"

	"strapline/calc/length"
	"strapline/calc/place"
)

// dims are the distances of the things off two walls, each on a thin line from the
// wall's face to the thing's centre line. One distance is not dimensioned twice,
// and one whose number has no room is left to the list below.
func (d *drawing) dims() {
	type key struct {
		ref  string
		axis place.Axis
		dist length.Length
	}
	done := map[key]bool{}
	for _, t := range d.Things {
		for _, m := range t.From {
			k := key{m.Ref, m.Axis, m.Dist}
			if !done[k] && d.dim(t, m) {
				done[k] = true
			}
		}
	}
}

func (d *drawing) dim(t Thing, m Dim) bool {
	a, b := d.at(t.At.With(m.Axis, m.Wall)), d.at(t.At)
	l := one(d.Tape(m.Dist), small, false, dimInk)
	w, h := l.size()
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	var at []pt
	for _, f := range []float64{.5, .4, .6, .3, .7, .2, .8} {
		c := pt{a.X + f*(b.X-a.X), a.Y + f*(b.Y-a.Y)}
		room := long*min(f, 1-f) - 14
		if m.Axis == place.X && room < w/2 || m.Axis == place.Y && room < h/2 {
			continue
		}
		at = append(at, c)
	}
	n := len(d.page.Shapes)
	if !d.place.place(l, at...) {
		return false
	}
	// The line goes below the mask of its own number.
	mask := append([]Shape(nil), d.page.Shapes[n:]...)
	d.page.Shapes = d.page.Shapes[:n]
	d.page.line(Pen{dimInk, 1.4, nil}, a, b)
	d.page.arrow(dimInk, a, b)
	d.page.arrow(dimInk, b, a)
	d.page.Shapes = append(d.page.Shapes, mask...)
	return true
}
