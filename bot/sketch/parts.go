package sketch

import (
	"slices"

	"strapline/bot/sheet"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/shell"
	"strapline/calc/site"
)

// Low is a part of the ceiling's plan that a slope or a bulkhead takes.
type Low struct {
	On   place.Surface
	Rect place.Rect
	Up   length.Length // along the slope, or across the bulkhead
}

// low returns what is drawn lower than the ceiling.
func low(r *shell.Room) (out []Low) {
	for _, on := range r.Surfaces() {
		if q, ok := r.OnPlan(on); ok {
			_, up := r.Extent(on)
			out = append(out, Low{on, q, up})
		}
	}
	return out
}

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

// AddParts adds the scenes of the slopes and bulkheads of the room to that of its ceiling, for its sheet.
func (s *Scene) AddParts(st *site.State, plans *inforce.Plans) error {
	r := st.Room(s.Room)
	if r == nil || s.Surface != place.Ceiling {
		return nil
	}
	for _, on := range r.Shell().Surfaces() {
		if part, _, _ := on.BulkheadOf(); on.SlopeTo() == "" && part == "" {
			continue
		}
		p, err := Room(st, plans, s.Room, on, s.Speech, false)
		if err != nil {
			return err
		}
		s.Parts = append(s.Parts, p)
	}
	return nil
}

const (
	partScale = 0.5 // at which a part is drawn on the sheet of the ceiling: two side by side
	partsMost = 0.5 // the most of that sheet that parts take; the others go on the next
)

// sheets lays out the plan with the parts below it, on as many pages as that takes, and then the lists of
// all of them.
func (s Scene) sheets(most float64) (pages []*sheet.Page) {
	var rows [][2]*sheet.Page
	var lists []*sheet.Page
	for pair := range slices.Chunk(s.Parts, 2) {
		var row [2]*sheet.Page
		for i, p := range pair {
			plan, left := p.Plan(most * partsMost / partScale)
			if row[i] = plan; left > 0 || len(p.ToCut) > 0 {
				lists = append(lists, p.Lists(most, left)...)
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
	plan, left := s.Plan(most - taken)
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
	return append(append(pages, s.Lists(most, left)...), lists...)
}
