package sketch

import (
	"math"
	"slices"

	"strapline/bot/scene"
	"strapline/bot/sheet"
	"strapline/calc/length"
	"strapline/calc/place"
)

// cutOut clears what is drawn beyond leaning walls and in notches, and draws the faces of
// boarded walls as thin lines.
func (d *drawing) cutOut() {
	for _, w := range d.Walls {
		a, b := d.at(w.From), d.at(w.To)
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		past := 3 + math.Max(math.Abs(b.X-a.X), math.Abs(b.Y-a.Y))/long*math.Min(math.Abs(b.X-a.X), math.Abs(b.Y-a.Y)) // how far pieces, which are rectangles, are drawn beyond it
		nx, ny := past*(b.Y-a.Y)/long, past*(a.X-b.X)/long
		if d.Up {
			nx, ny = -nx, -ny
		}
		d.page.Area(sheet.White, sheet.Pen{}, a, b, sheet.Point{X: b.X + nx, Y: b.Y + ny}, sheet.Point{X: a.X + nx, Y: a.Y + ny})
	}
	for _, w := range d.Walls {
		d.page.Line(sheet.Pen{Ink: sheet.Black, W: 1.5}, d.at(w.In), d.at(w.End))
	}
	if d.Walls == nil && d.Clear != (place.Rect{X1: d.EW, Y1: d.NS}) {
		d.page.Rect(sheet.None, sheet.Pen{Ink: sheet.Black, W: 1.5}, d.box(d.Clear))
	}
	for _, n := range d.Notches {
		d.page.Rect(sheet.White, sheet.Pen{}, d.box(n).Grown(2))
	}
	d.openings()
}

// outline draws the framing around the room and its notches as a thick line.
func (d *drawing) outline() {
	xs, ys := []length.Length{0, d.EW}, []length.Length{0, d.NS}
	for _, n := range d.Notches {
		xs, ys = append(xs, n.X0, n.X1), append(ys, n.Y0, n.Y1)
	}
	slices.Sort(xs)
	slices.Sort(ys)
	xs, ys = slices.Compact(xs), slices.Compact(ys)
	inside := func(i, k int) bool {
		if i < 0 || k < 0 || i+1 >= len(xs) || k+1 >= len(ys) || xs[i] < 0 || ys[k] < 0 || xs[i+1] > d.EW || ys[k+1] > d.NS {
			return false
		}
		m := place.Point{X: (xs[i] + xs[i+1]) / 2, Y: (ys[k] + ys[k+1]) / 2}
		return !slices.ContainsFunc(d.Notches, func(n place.Rect) bool { return n.Has(m) })
	}
	pen := sheet.Pen{Ink: sheet.Black, W: 5}
	wall := func(a, b place.Point) {
		p, q := d.at(a), d.at(b)
		d.page.Line(pen, p, q)
		d.place.Taken = append(d.place.Taken, sheet.Box{X0: min(p.X, q.X), Y0: min(p.Y, q.Y), X1: max(p.X, q.X), Y1: max(p.Y, q.Y)}.Grown(2.5))
	}
	for i, w := range d.Walls {
		for _, part := range d.beside(i, w) {
			wall(part[0], part[1])
		}
	}
	leans := d.Walls != nil // then only the sides of notches lie along the grid
	for i := range xs {
		for k := range ys {
			if k+1 < len(ys) && inside(i-1, k) != inside(i, k) && !(leans && (i == 0 || i+1 == len(xs))) {
				wall(place.Point{X: xs[i], Y: ys[k]}, place.Point{X: xs[i], Y: ys[k+1]})
			}
			if i+1 < len(xs) && inside(i, k-1) != inside(i, k) && !(leans && (k == 0 || k+1 == len(ys))) {
				wall(place.Point{X: xs[i], Y: ys[k]}, place.Point{X: xs[i+1], Y: ys[k]})
			}
		}
	}
}

// under takes off what lies over the slopes, and draws their lines.
func (d *drawing) under() {
	for _, line := range d.Under {
		a, b := d.at(line[0]), d.at(line[1])
		top := d.at(place.Point{Y: d.NS}).Y
		d.page.Area(sheet.White, sheet.Pen{Ink: sheet.White, W: 7}, a, b, sheet.Point{X: b.X, Y: top}, sheet.Point{X: a.X, Y: top})
		d.page.Line(sheet.Pen{Ink: sheet.Black, W: 5}, a, b)
		const steps = 32 // a slanted line takes the room of small boxes
		for i := range steps {
			t := (float64(i) + 0.5) / steps
			d.place.Taken = append(d.place.Taken, sheet.Box{X0: a.X + t*(b.X-a.X), Y0: a.Y + t*(b.Y-a.Y), X1: a.X + t*(b.X-a.X), Y1: a.Y + t*(b.Y-a.Y)}.Grown(5))
		}
	}
}

// beside are the parts of leaning wall i that no notch stands at.
func (d *drawing) beside(i int, w scene.Wall) (parts [][2]place.Point) {
	along := place.Walls[i].Along()
	at := func(v length.Length) place.Point {
		from, to := w.From.On(along), w.To.On(along)
		other := w.From.On(along.Other())
		other += length.Length(float64(v-from) / float64(to-from) * float64(w.To.On(along.Other())-other))
		return place.Point{}.With(along, v).With(along.Other(), other)
	}
	lo, hi := min(w.From.On(along), w.To.On(along)), max(w.From.On(along), w.To.On(along))
	cuts := []length.Length{lo, hi}
	var gone [][2]length.Length
	for _, n := range d.Notches {
		if [4]bool{n.Y0 <= 0, n.X1 >= d.EW, n.Y1 >= d.NS, n.X0 <= 0}[i] {
			from, to := n.Span(along)
			gone = append(gone, [2]length.Length{from, to})
			cuts = append(cuts, min(max(from, lo), hi), min(max(to, lo), hi))
		}
	}
	slices.Sort(cuts)
	for k := range len(cuts) - 1 {
		a, b := cuts[k], cuts[k+1]
		if a < b && !slices.ContainsFunc(gone, func(g [2]length.Length) bool { return g[0] <= a && b <= g[1] }) {
			parts = append(parts, [2]place.Point{at(a), at(b)})
		}
	}
	return parts
}
