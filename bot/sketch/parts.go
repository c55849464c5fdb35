package sketch

import (
	"slices"

	"strapline/bot/scene"
	"strapline/bot/sheet"
	"strapline/calc/place"
)

// lows names the slopes and bulkheads on the plan of the ceiling.
func (d *drawing) lows() {
	for _, l := range d.Lows {
		b := d.box(l.Rect)
		d.page.Rect(sheet.None, sheet.Pen{Ink: sheet.GreyInk, W: 1.3, Dash: sheet.Dashes}, b)
		name, wide := string(l.On), d.Near(l.Up)+" up"
		if part, w, n := l.On.BulkheadOf(); part != "" {
			name, wide = place.Nth(n, string(w)+" bulkhead"), d.Near(l.Up)+" wide"
		}
		say := func(s string) sheet.Text { return sheet.Text{S: sheet.Printable(s), Ink: sheet.GreyInk} }
		if !d.fit(b, []sheet.Text{say(name), say(wide)}) && !d.fit(b, []sheet.Text{say(name + ", " + wide)}) {
			d.fit(b, []sheet.Text{say(name)})
		}
	}
}

const (
	partScale = 0.5 // at which a part is drawn on the sheet of the ceiling: two side by side
	partsMost = 0.5 // the most of that sheet that parts take; the others go on the next
)

// sheets lays out the plan with the parts below it, on as many pages as that takes, and then the lists of
// all of them.
func sheets(s scene.Scene, most float64) (pages []*sheet.Page) {
	var rows [][2]*sheet.Page
	var lists []*sheet.Page
	for pair := range slices.Chunk(s.Parts, 2) {
		var row [2]*sheet.Page
		for i, p := range pair {
			plan, left := Plan(p, most*partsMost/partScale)
			if row[i] = plan; left > 0 || len(p.ToCut) > 0 {
				lists = append(lists, Lists(p, most, left)...)
			}
		}
		rows = append(rows, row)
	}
	high := func(row [2]*sheet.Page) (h float64) {
		for _, p := range row {
			if p != nil {
				h = max(h, partScale*p.H)
			}
		}
		return h
	}
	n, taken := 0, 0.0
	for n < len(rows) && taken+high(rows[n]) <= most*partsMost {
		taken += high(rows[n])
		n++
	}
	plan, left := Plan(s, most-taken)
	pages = []*sheet.Page{plan}
	for i, row := range rows {
		page := pages[len(pages)-1]
		if i >= n && page.H+high(row) > most {
			page = &sheet.Page{}
			pages = append(pages, page)
		}
		for k, p := range row {
			if p != nil {
				page.Inset(p, sheet.Point{X: float64(k) * sheet.Width * partScale, Y: page.H}, partScale)
			}
		}
		page.H += high(row)
	}
	return append(append(pages, Lists(s, most, left)...), lists...)
}
