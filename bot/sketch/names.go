package sketch

import (
	"slices"

	"strapline/calc/place"
	"strapline/calc/site"
)

// names are those of runs, things and marks, then the pieces' ids and sizes.
func (d *drawing) names() {
	put := func(s string, size float64, ink Ink, at pt, half float64) {
		l := one(fitted(s, size, true, 240), size, true, ink)
		w, h := l.size()
		d.place.place(l, round(at, half, w, h)...)
	}
	for _, r := range d.Runs {
		l := one(fitted(r.What+" "+r.Name, small, true, 240), small, true, runInk)
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
	for _, t := range d.Things {
		if t.Surface != place.Ceiling {
			continue
		}
		ink := black
		if t.State == site.Covered {
			ink = hiddenInk
		}
		b := d.thingBox(t)
		put(t.Name, usual, ink, b.middle(), max(b.X1-b.X0, b.Y1-b.Y0)/2)
	}
	for _, m := range d.Marks {
		put(m.Name, usual, black, d.at(m.At), 9)
	}
	for _, p := range d.Pieces {
		d.piece(p)
	}
}

// piece writes a piece's id, its cut size and its rip into it, or as much of that as fits.
func (d *drawing) piece(p Piece) {
	b := d.box(p.Rect)
	id := Text{S: printable(p.ID), Size: 24, Bold: true, Ink: boardInk}
	size := Text{S: d.Tape(p.Cut), Size: 24, Ink: boardInk}
	rip := Text{S: "rip " + d.Tape(p.Width), Size: 24, Ink: boardInk}
	full := []Text{id}
	if p.Cut > 0 {
		full = append(full, size)
	}
	if p.Rip {
		full = append(full, rip)
	}
	for _, lines := range [][]Text{full, full[:min(2, len(full))], {id}} {
		for _, s := range []float64{1, 22.0 / 24, 20.0 / 24} {
			l := label{Lines: slices.Clone(lines), Mask: true}
			for i := range l.Lines {
				l.Lines[i].Size *= s
			}
			w, h := l.size()
			if w > b.X1-b.X0-6 || h > b.Y1-b.Y0-6 {
				continue
			}
			var at []pt
			for _, m := range within(b) {
				if (box{m.X - w/2, m.Y - h/2, m.X + w/2, m.Y + h/2}).in(b.grown(-2)) {
					at = append(at, m)
				}
			}
			if d.place.place(l, at...) {
				return
			}
		}
	}
}
