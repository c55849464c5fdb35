package sketch

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"strapline/bot/say"
	"strapline/bot/scene"
	"strapline/bot/sheet"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/site"
)

// legend draws the scale and explains the symbols that occur, followed by notes. It returns
// the y below them.
func (d *drawing) legend(y float64) float64 {
	d.bar(y)
	x, top := edge, y+58
	item := func(words string, draw func(b sheet.Box)) {
		w := 44 + sheet.TextWidth(words, small, false) + 30
		if x+w > sheet.Width-edge+30 {
			x, top = edge, top+44
		}
		draw(sheet.Box{X0: x, Y0: top, X1: x + 34, Y1: top + 26})
		d.text(x+44, top+2, small, false, sheet.Black, words, sheet.Width)
		x += w
	}
	for _, st := range []struct {
		st    site.Standing
		words string
	}{{site.Noted, "noted"}, {site.Covered, "covered, not cut"}, {site.Open, "open"}} {
		for _, t := range d.Things {
			if t.State == st.st && t.Surface == d.Surface {
				item(st.words, func(b sheet.Box) {
					round := sheet.Box{X0: b.X0 + 4, Y0: b.Y0, X1: b.X0 + 30, Y1: b.Y0 + 26}
					if st.st == site.Noted {
						round = round.Grown(-5)
					}
					symbol(d.page, round, true, st.st)
				})
				break
			}
		}
	}
	for _, p := range d.Pieces {
		if p.Hung {
			item("board up", func(b sheet.Box) {
				d.page.Hatch(sheet.Pen{Ink: sheet.HatchInk, W: 1.6}, b, 10, false)
				d.page.Rect(sheet.None, sheet.Pen{Ink: sheet.BoardInk, W: 2}, b)
			})
			break
		}
	}
	if len(d.Supports) > 0 {
		item(string(d.Supports[0].Kind), func(b sheet.Box) {
			d.page.Rect(sheet.StrapInk, sheet.Pen{}, sheet.Box{X0: b.X0, Y0: b.Y0 + 7, X1: b.X1, Y1: b.Y1 - 7})
			d.page.Line(sheet.Pen{Ink: sheet.CentreInk, W: 1.3, Dash: []float64{12, 4, 2, 4}}, sheet.Point{X: b.X0, Y: b.Middle().Y}, sheet.Point{X: b.X1, Y: b.Middle().Y})
		})
	}
	if len(d.Marks) > 0 {
		item("mark", func(b sheet.Box) { cross(d.page, b.Middle()) })
	}
	plates := false
	for _, r := range d.Runs {
		plates = plates || len(r.Plates) > 0
	}
	if len(d.Runs) > 0 {
		item("no screws in this strip", func(b sheet.Box) {
			m := b.Middle().Y
			d.page.Line(sheet.Pen{Ink: sheet.RunInk, W: runWidth}, sheet.Point{X: b.X0, Y: m}, sheet.Point{X: b.X1, Y: m})
			for _, s := range []float64{-10, 10} {
				d.page.Line(sheet.Pen{Ink: sheet.RunInk, W: 1.5, Dash: []float64{6, 4}}, sheet.Point{X: b.X0, Y: m + s}, sheet.Point{X: b.X1, Y: m + s})
			}
			for x := b.X0 + 6; x < b.X1; x += 11 {
				d.page.Line(sheet.Pen{Ink: sheet.RunInk, W: 1}, sheet.Point{X: x, Y: m - 6}, sheet.Point{X: x, Y: m + 6})
			}
		})
	}
	if plates {
		item("plate", func(b sheet.Box) {
			d.page.Rect(sheet.Black, sheet.Pen{}, sheet.Box{X0: b.X0 + 8, Y0: b.Y0 + 5, X1: b.X0 + 26, Y1: b.Y1 - 5})
		})
	}
	y = top + 46
	note := func(ink sheet.Ink, words string) {
		for _, l := range sheet.Wrapped(words, small, false, sheet.Width-2*edge) {
			d.text(edge, y, small, false, ink, l, sheet.Width-2*edge)
			y += 34
		}
	}
	var pieces []string
	for _, p := range d.short {
		if p.Cut == 0 {
			continue
		}
		text := p.ID + " " + d.Cut(p)
		if p.Rip {
			text += " " + d.Rip(p)
		}
		pieces = append(pieces, text)
	}
	if len(pieces) > 0 {
		note(sheet.BoardInk, "Not all written above: "+strings.Join(say.Most(pieces, 40), ", "))
	}
	if d.Two != "" {
		note(sheet.BoardInk, "Where the walls lean, "+d.Two+".")
	}
	note(sheet.GreyInk, "Only what was noted. No pipe or wire drawn is not none: look before you screw.")
	if len(d.Things) == 0 {
		return y + 8
	}
	from := "Distances: to the centre, off the studs"
	if slices.ContainsFunc(d.Things, func(t scene.Thing) bool { return t.Framed }) {
		from = "Distances: to the centre, of doors and windows to both edges, off the studs"
	}
	if d.Boarded {
		from += ", or a boarded wall's board"
	}
	if d.Finished {
		from += ", or a finished wall's face"
	}
	note(sheet.GreyInk, from+".")
	return y + 8
}

// bar draws a scale bar in feet or metres, in alternating black and white.
func (d *drawing) bar(y float64) {
	unit, word := length.Foot, "ft"
	if d.Units == length.Metric {
		unit, word = length.Metre, "m"
	}
	if d.scale*float64(unit) > 360 { // a small room such as a closet
		if unit, word = length.Inch, "in"; d.Units == length.Metric {
			unit, word = length.Centimetre, "cm"
		}
	}
	n := 1
	for _, try := range []int{2, 4, 8, 20, 40, 100} {
		if d.scale*float64(unit)*float64(try) > 360 {
			break
		}
		n = try
	}
	parts := min(n, 4)
	step := d.scale * float64(unit) * float64(n) / float64(parts)
	x := edge + 2
	for i := range parts {
		fill := sheet.Black
		if i%2 == 1 {
			fill = sheet.White
		}
		d.page.Rect(fill, sheet.Pen{Ink: sheet.Black, W: 1.5}, sheet.Box{X0: x + step*float64(i), Y0: y + 8, X1: x + step*float64(i+1), Y1: y + 20})
	}
	d.text(x+step*float64(parts)+10, y+2, small, false, sheet.Black, fmt.Sprintf("0 to %d %s", n, word), 200)
}

// list draws as many lines of the list as fit above high, and returns how many are left.
func (d *drawing) list(y, high float64) (bottom float64, rest int) {
	all := d.Lines()
	for i, l := range all {
		more := len(all) - i
		if y+float64(min(more, 2))*lineHigh+edge > high {
			d.text(edge, y, usual, false, sheet.GreyInk, fmt.Sprintf("and %d more", more), sheet.Width)
			return y + lineHigh, more
		}
		listed(d.page, l, y)
		y += lineHigh
	}
	return y, 0
}

// lineHigh is the height of a line of the list: two lines of text.
const lineHigh = 84.0

// listed draws one line of the list.
func listed(p *sheet.Page, l scene.Line, y float64) {
	const in = 46.0
	ink, b := sheet.Black, sheet.Box{X0: edge + 2, Y0: y + 3, X1: edge + 28, Y1: y + 29}
	switch {
	case l.Run:
		ink = sheet.RunInk
		p.Line(sheet.Pen{Ink: ink, W: runWidth}, sheet.Point{X: b.X0, Y: b.Middle().Y}, sheet.Point{X: b.X1, Y: b.Middle().Y})
	case l.Thing == nil:
		cross(p, b.Middle())
	default:
		switch l.Thing.State {
		case site.Covered:
			ink = sheet.HiddenInk
		case site.Noted: // leave room for the centre lines
			b = b.Grown(-5)
		}
		symbol(p, b, l.Thing.Size.B == 0, l.Thing.State)
	}
	state := sheet.Fitted(l.State, usual, false, 340)
	w := sheet.TextWidth(state, usual, false)
	p.Text(sheet.Width-edge-w, y, usual, false, ink, state, w+1)
	p.Text(edge+in, y, usual, true, ink, l.Name, sheet.Width-2*edge-in-w-16)
	p.Text(edge+in, y+37, usual, false, ink, l.Where, sheet.Width-2*edge-in)
}

// Lists lays out, on pages of at most high pixels, the last left lines of the list, which
// did not fit below the plan, the cut list, and what is covered.
func Lists(s scene.Scene, high float64, left int) []*sheet.Page {
	w := &lists{Scene: s, high: high}
	w.newPage()
	if left > 0 {
		w.head("Also noted")
		all := s.Lines()
		for _, l := range all[len(all)-left:] {
			w.need(lineHigh)
			listed(w.page, l, w.y)
			w.y += lineHigh
		}
		w.y += 16
	}
	if len(s.ToCut) > 0 {
		w.head("Cut list: " + w.count())
		for _, g := range w.groups() {
			w.board(g)
		}
	}
	w.covered()
	w.page.H = math.Ceil(w.y + edge)
	return w.pages
}

// lists fills pages from the top.
type lists struct {
	scene.Scene
	high  float64
	pages []*sheet.Page
	page  *sheet.Page
	y     float64
}

// newPage finishes the page and begins the next.
func (w *lists) newPage() {
	if w.page != nil {
		w.page.H = math.Ceil(w.y + edge)
	}
	w.page = &sheet.Page{}
	w.pages = append(w.pages, w.page)
	w.page.Text(edge, edge, usual, false, sheet.GreyInk, fmt.Sprintf("%s %s, %s, entry %d", w.Room, w.Surface.Name(), w.Now.In(w.Loc).Format("2 Jan 2006 15:04"), w.Entry), sheet.Width-2*edge)
	w.y = edge + 44
}

// need begins a new page unless h pixels are left on this one.
func (w *lists) need(h float64) {
	if w.y+h+edge > w.high && w.y > edge+44 {
		w.newPage()
	}
}

func (w *lists) head(s string) {
	w.need(140)
	w.page.Text(edge, w.y, 36, true, sheet.Black, s, sheet.Width-2*edge)
	w.y += 50
}

func (w *lists) count() string {
	n, off := 0, 0
	for _, c := range w.ToCut {
		if c.Offcut {
			off++
		} else {
			n++
		}
	}
	text := fmt.Sprintf("%d %s", n, say.Plural(n, "board"))
	if off > 0 {
		text += fmt.Sprintf(", %d %s", off, say.Plural(off, "offcut"))
	}
	return text
}

// group is a number of boards that are cut alike.
type group struct {
	layout.Cut
	ids []string // the pieces of each board, such as "r1.1 + r2.3"
}

func (w *lists) groups() (out []group) {
	at := map[string]int{}
	for _, c := range w.ToCut {
		key, ids := fmt.Sprint(c.Width, c.Length, c.Offcut), []string{}
		for _, st := range c.Strips {
			key += fmt.Sprint("|", st.Width, st.Left, st.Keep)
			for _, id := range st.Pieces {
				key += fmt.Sprint(",", w.Sizes[id].Cut, w.Sizes[id].Width)
				ids = append(ids, id)
			}
		}
		if _, ok := at[key]; !ok {
			at[key] = len(out)
			out = append(out, group{Cut: c})
		}
		g := &out[at[key]]
		g.ids = append(g.ids, strings.Join(ids, " + "))
	}
	return out
}

// board draws a board, to scale along its length, with the pieces cut from it.
func (w *lists) board(g group) {
	longest := length.Length(0)
	for _, c := range w.ToCut {
		longest = max(longest, c.Length)
	}
	size := w.Board(g.Length)
	if g.Offcut {
		size = "offcut of " + w.Len(length.RoundDown(g.Length, w.Units))
	}
	lines := sheet.Wrapped(fmt.Sprintf("%d x %s for %s", len(g.ids), size, strings.Join(g.ids, ", ")), usual, true, sheet.Width-2*edge)
	lines = say.Most(lines, 6)
	strip := 46.0
	high := 38*float64(len(lines)) + strip*float64(len(g.Strips)) + 30
	w.need(high)
	for _, l := range lines {
		w.page.Text(edge, w.y, usual, true, sheet.Black, l, sheet.Width-2*edge)
		w.y += 38
	}
	scale := (sheet.Width - 2*edge) / float64(longest)
	whole := sheet.Box{X0: edge, Y0: w.y + 2, X1: edge + scale*float64(g.Length), Y1: w.y + 2 + strip*float64(len(g.Strips))}
	for i, st := range g.Strips {
		x, y := edge, w.y+2+strip*float64(i)
		for _, id := range st.Pieces {
			pc := w.Sizes[id]
			b := sheet.Box{X0: x, Y0: y, X1: min(x+scale*float64(pc.Cut), whole.X1), Y1: y + strip}
			w.page.Rect(sheet.White, sheet.Pen{Ink: sheet.BoardInk, W: 2}, b)
			text := w.Lies.Cut(pc, w.Tape)
			if pc.Rip {
				text += " rip " + w.Lies.Rip(pc, w.Tape)
			}
			if len(g.ids) == 1 {
				text = id + ": " + text
			}
			short := w.Tape(pc.Cut)
			if pc.Tapered() { // its two lengths are on the plan
				short = id + ", taper"
			}
			for _, s := range []string{text, w.Lies.Cut(pc, w.Tape), short} {
				if tw := sheet.TextWidth(s, usual, false); tw < b.X1-b.X0-8 {
					w.page.Text(b.Middle().X-tw/2, b.Middle().Y-usual/2, usual, false, sheet.Black, s, tw+1)
					break
				}
			}
			x = b.X1
		}
		if left := (sheet.Box{X0: x, Y0: y, X1: whole.X1, Y1: y + strip}); left.X1-left.X0 > 1 {
			w.page.Hatch(sheet.Pen{Ink: sheet.HatchInk, W: 1.5}, left, 12, true)
			if st.Keep {
				s := "keep " + w.Tape(length.RoundDown(st.Left, w.Units))
				if tw := sheet.TextWidth(s, usual, false); tw < left.X1-left.X0-10 {
					m := left.Middle()
					w.page.Rect(sheet.White, sheet.Pen{}, sheet.Box{X0: m.X - tw/2 - 4, Y0: m.Y - 17, X1: m.X + tw/2 + 4, Y1: m.Y + 17})
					w.page.Text(m.X-tw/2, m.Y-usual/2, usual, false, sheet.Black, s, tw+1)
				}
			}
		}
	}
	w.page.Rect(sheet.None, sheet.Pen{Ink: sheet.Black, W: 3}, whole)
	w.y = whole.Y1 + 24
}

// covered lists the things that are covered and not cut out.
func (w *lists) covered() {
	n := 0
	for _, t := range w.Things {
		if t.State == site.Covered {
			n++
		}
	}
	if n == 0 {
		w.head("Nothing covered that is not open")
		return
	}
	w.head(fmt.Sprintf("%d covered, not cut", n))
	for _, t := range w.Things {
		if t.State != site.Covered {
			continue
		}
		where := w.Off(t.From)
		if t.Surface != w.Surface {
			where = t.Surface.Name() + ", " + w.Coords(t.Surface, t.At)
		}
		text := fmt.Sprintf("%s%s: %s, under %s since %s", t.Name, w.Size(t.Size), where, t.Over, w.Clock(t.Since))
		lines := sheet.Wrapped(text, usual, false, sheet.Width-2*edge-40)
		w.need(38*float64(len(lines)) + 6)
		symbol(w.page, sheet.Box{X0: edge + 2, Y0: w.y + 3, X1: edge + 28, Y1: w.y + 29}, t.Size.B == 0, t.State)
		for _, l := range lines {
			w.page.Text(edge+40, w.y, usual, false, sheet.Black, l, sheet.Width-2*edge-40)
			w.y += 38
		}
		w.y += 6
	}
}
