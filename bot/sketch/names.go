package sketch

import (
	"slices"

	"strapline/calc/site"
)

// names draws the names of things.
func (d *drawing) names(things []Thing) {
	for _, t := range things {
		if t.Surface != d.Surface {
			continue
		}
		ink := black
		if t.State == site.Covered {
			ink = hiddenInk
		}
		b := d.thingBox(t)
		if t.Framed { // inside the opening
			l := oneLine(fitted(t.Name, usual, true, b.X1-b.X0), usual, true, ink)
			l.Mask = true
			d.place.place(l, positionsWithin(b)[9:]...)
			continue
		}
		d.name(t.Name, ink, b.middle(), max(b.X1-b.X0, b.Y1-b.Y0)/2)
	}
}

func (d *drawing) name(s string, ink Ink, at pt, half float64) {
	l := oneLine(fitted(s, usual, true, 300), usual, true, ink)
	w, h := l.size()
	d.place.place(l, positionsAround(at, half, w, h)...)
}

// otherNames draws the names of runs and marks.
func (d *drawing) otherNames() {
	for _, r := range d.Runs {
		l := oneLine(fitted(r.What+" "+r.Name, small, true, 300), small, true, runInk)
		w, h := l.size()
		var at []pt
		for i := range len(r.Path) - 1 {
			a, b := d.at(r.Path[i]), d.at(r.Path[i+1])
			side := d.strip(r) + 8
			for _, f := range []float64{.5, .3, .7, .15, .85, 0, 1} {
				m := pt{a.X + f*(b.X-a.X), a.Y + f*(b.Y-a.Y)}
				at = append(at, pt{m.X + side + w/2, m.Y}, pt{m.X - side - w/2, m.Y}, pt{m.X, m.Y - side - h/2}, pt{m.X, m.Y + side + h/2})
			}
		}
		d.place.place(l, at...)
	}
	for _, m := range d.Marks {
		d.name(m.Name, black, d.at(m.At), 9)
	}
}

// piece writes a piece's ID, cut size and rip into it, in several lines or one. If they do
// not fit, it writes only the ID, and the sizes go below the plan.
func (d *drawing) piece(p Piece) {
	id := Text{S: printable(p.ID), Bold: true, Ink: boardInk}
	cut, rip := d.cut(p), d.rip(p)
	say := func(s string) Text { return Text{S: s, Ink: boardInk} }
	var all [][]Text
	switch {
	case p.Cut == 0:
		all = [][]Text{{id}}
	case p.Rip:
		all = [][]Text{{id, say(cut), say(rip)}, {id, say(cut + " " + rip)}, {say(id.S + ": " + cut + " " + rip)}}
	default:
		all = [][]Text{{id, say(cut)}, {say(id.S + ": " + cut)}}
	}
	for _, lines := range all {
		if d.fit(d.box(p.Rect), lines) {
			return
		}
	}
	d.fit(d.box(p.Rect), []Text{id})
	d.short = append(d.short, p)
}

// fit writes lines into a box, level or, if that does not work and the box is higher than
// wide, upward, in the largest letters that fit. It reports whether they fit.
func (d *drawing) fit(b box, lines []Text) bool {
	for _, up := range []bool{false, b.Y1-b.Y0 > b.X1-b.X0} {
		for _, size := range []float64{usual, small, least} {
			l := label{Lines: slices.Clone(lines), Mask: true}
			for i := range l.Lines {
				l.Lines[i].Size, l.Lines[i].Up = size, up
			}
			w, h := l.size()
			var at []pt
			for _, m := range positionsWithin(b) {
				if (box{m.X - w/2, m.Y - h/2, m.X + w/2, m.Y + h/2}).in(b.grown(-2)) {
					at = append(at, m)
				}
			}
			if d.place.place(l, at...) {
				return true
			}
		}
	}
	return false
}
