package sketch

import (
	"slices"

	"strapline/bot/scene"
	"strapline/bot/sheet"
	"strapline/calc/site"
)

// names draws the names of things.
func (d *drawing) names(things []scene.Thing) {
	for _, t := range things {
		if t.Surface != d.Surface {
			continue
		}
		ink := sheet.Black
		if t.State == site.Covered {
			ink = sheet.HiddenInk
		}
		b := d.thingBox(t)
		if t.Framed { // inside the opening
			l := sheet.OneLine(sheet.Fitted(t.Name, usual, true, b.X1-b.X0), usual, true, ink)
			l.Mask = true
			d.place.Place(l, sheet.PositionsWithin(b)[9:]...)
			continue
		}
		d.name(t.Name, ink, b.Middle(), max(b.X1-b.X0, b.Y1-b.Y0)/2)
	}
}

func (d *drawing) name(s string, ink sheet.Ink, at sheet.Point, half float64) {
	l := sheet.OneLine(sheet.Fitted(s, usual, true, 300), usual, true, ink)
	w, h := l.Size()
	d.place.Place(l, sheet.PositionsAround(at, half, w, h)...)
}

// otherNames draws the names of runs and marks.
func (d *drawing) otherNames() {
	for _, r := range d.Runs {
		l := sheet.OneLine(sheet.Fitted(r.What+" "+r.Name, small, true, 300), small, true, sheet.RunInk)
		w, h := l.Size()
		var at []sheet.Point
		for i := range len(r.Path) - 1 {
			a, b := d.at(r.Path[i]), d.at(r.Path[i+1])
			side := d.strip(r) + 8
			for _, f := range []float64{.5, .3, .7, .15, .85, 0, 1} {
				m := sheet.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}
				at = append(at, sheet.Point{X: m.X + side + w/2, Y: m.Y}, sheet.Point{X: m.X - side - w/2, Y: m.Y}, sheet.Point{X: m.X, Y: m.Y - side - h/2}, sheet.Point{X: m.X, Y: m.Y + side + h/2})
			}
		}
		d.place.Place(l, at...)
	}
	for _, m := range d.Marks {
		d.name(m.Name, sheet.Black, d.at(m.At), 9)
	}
}

// piece writes a piece's ID, cut size and rip into it, in several lines or one. If they do
// not fit, it writes only the ID, and the sizes go below the plan.
func (d *drawing) piece(p scene.Piece) {
	id := sheet.Text{S: sheet.Printable(p.ID), Bold: true, Ink: sheet.BoardInk}
	cut, rip := d.Cut(p), d.Rip(p)
	say := func(s string) sheet.Text { return sheet.Text{S: s, Ink: sheet.BoardInk} }
	var all [][]sheet.Text
	switch {
	case p.Cut == 0:
		all = [][]sheet.Text{{id}}
	case p.Rip:
		all = [][]sheet.Text{{id, say(cut), say(rip)}, {id, say(cut + " " + rip)}, {say(id.S + ": " + cut + " " + rip)}}
	default:
		all = [][]sheet.Text{{id, say(cut)}, {say(id.S + ": " + cut)}}
	}
	for _, lines := range all {
		if d.fit(d.box(p.Rect), lines) {
			return
		}
	}
	d.fit(d.box(p.Rect), []sheet.Text{id})
	d.short = append(d.short, p)
}

// fit writes lines into a box, level or, if that does not work and the box is higher than
// wide, upward, in the largest letters that fit. It reports whether they fit.
func (d *drawing) fit(b sheet.Box, lines []sheet.Text) bool {
	for _, up := range []bool{false, b.Y1-b.Y0 > b.X1-b.X0} {
		for _, size := range []float64{usual, small, least} {
			l := sheet.Label{Lines: slices.Clone(lines), Mask: true}
			for i := range l.Lines {
				l.Lines[i].Size, l.Lines[i].Up = size, up
			}
			w, h := l.Size()
			var at []sheet.Point
			for _, m := range sheet.PositionsWithin(b) {
				if (sheet.Box{X0: m.X - w/2, Y0: m.Y - h/2, X1: m.X + w/2, Y1: m.Y + h/2}).In(b.Grown(-2)) {
					at = append(at, m)
				}
			}
			if d.place.Place(l, at...) {
				return true
			}
		}
	}
	return false
}
