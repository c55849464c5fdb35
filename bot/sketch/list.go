package sketch

import (
	"fmt"
	"math"
	"strings"

	"strapline/bot/say"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// legend says what the lines mean, of what is drawn, and how long a foot is.
func (d *drawing) legend(y float64) float64 {
	d.bar(y)
	x, top := edge, y+58
	item := func(words string, draw func(b box)) {
		w := 44 + textWidth(words, small, false) + 30
		if x+w > Width-edge+30 {
			x, top = edge, top+40
		}
		draw(box{x, top, x + 34, top + 26})
		d.text(x+44, top+2, small, false, black, words, Width)
		x += w
	}
	for _, st := range []struct {
		st    site.Standing
		words string
	}{{site.Noted, "noted"}, {site.Covered, "covered, not cut"}, {site.Open, "open"}} {
		for _, t := range d.Things {
			if t.State == st.st && t.Surface == place.Ceiling {
				item(st.words, func(b box) { d.page.symbol(bullet(b.Y0, st.st).right(b.X0-edge), true, st.st) })
				break
			}
		}
	}
	for _, p := range d.Pieces {
		if p.Hung {
			item("board up", func(b box) {
				d.page.hatch(Pen{hatchInk, 1.6, nil}, b, 10, false)
				d.page.rect(none, Pen{boardInk, 2, nil}, b)
			})
			break
		}
	}
	if len(d.Supports) > 0 {
		item(string(d.Supports[0].Kind), func(b box) {
			d.page.rect(strapInk, Pen{}, box{b.X0, b.Y0 + 7, b.X1, b.Y1 - 7})
			d.page.line(Pen{centreInk, 1.3, []float64{12, 4, 2, 4}}, pt{b.X0, b.middle().Y}, pt{b.X1, b.middle().Y})
		})
	}
	if len(d.Marks) > 0 {
		item("mark", func(b box) { d.page.cross(b.middle()) })
	}
	plates := false
	for _, r := range d.Runs {
		plates = plates || len(r.Plates) > 0
	}
	if len(d.Runs) > 0 {
		item("no screws in this strip", func(b box) {
			m := b.middle().Y
			d.page.line(Pen{runInk, runWidth, nil}, pt{b.X0, m}, pt{b.X1, m})
			for _, s := range []float64{-10, 10} {
				d.page.line(Pen{runInk, 1.5, []float64{6, 4}}, pt{b.X0, m + s}, pt{b.X1, m + s})
			}
			for x := b.X0 + 6; x < b.X1; x += 11 {
				d.page.line(Pen{runInk, 1, nil}, pt{x, m - 6}, pt{x, m + 6})
			}
		})
	}
	if plates {
		item("plate", func(b box) { d.page.rect(black, Pen{}, box{b.X0 + 8, b.Y0 + 5, b.X0 + 26, b.Y1 - 5}) })
	}
	d.text(edge, top+40, small, false, greyInk, "Only what was noted. No pipe or wire drawn is not the same as none: look before you screw.", Width-2*edge)
	if len(d.Things) == 0 {
		return top + 76
	}
	from := "Distances: to the centre, off the studs"
	if d.Clear != (place.Rect{X1: d.EW, Y1: d.NS}) {
		from += ", or a boarded wall's board"
	}
	if d.Finished {
		from += ", or a finished wall's face"
	}
	d.text(edge, top+70, small, false, greyInk, from+".", Width-2*edge)
	return top + 108
}

// bar is the scale, in feet or metres, black and white by turns.
func (d *drawing) bar(y float64) {
	unit, word := length.Foot, "ft"
	if d.Units == length.Metric {
		unit, word = length.Metre, "m"
	}
	if d.scale*float64(unit) > 360 { // a closet
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
		fill := black
		if i%2 == 1 {
			fill = white
		}
		d.page.rect(fill, Pen{black, 1.5, nil}, box{x + step*float64(i), y + 8, x + step*float64(i+1), y + 20})
	}
	d.text(x+step*float64(parts)+10, y+2, small, false, black, fmt.Sprintf("0 to %d %s", n, word), 200)
}

// list names the things with their distances, as far as the height goes.
func (d *drawing) list(y, high float64) (bottom float64, rest int) {
	for i, t := range d.Things {
		more := len(d.Things) - i
		if y+float64(min(more, 2))*thingLine+edge > high {
			d.text(edge, y, usual, false, greyInk, fmt.Sprintf("and %d more", more), Width)
			return y + thingLine, more
		}
		d.page.thing(d.Scene, t, y)
		y += thingLine
	}
	return y, 0
}

// thingLine is the height of a line of the list.
const thingLine = 40.0

// thing is one line of the list.
func (p *Page) thing(s Scene, t Thing, y float64) {
	p.symbol(bullet(y, t.State), t.Size.B == 0, t.State)
	ink := black
	if t.State == site.Covered {
		ink = hiddenInk
	}
	name := t.Name
	if !strings.HasPrefix(name, t.What) && !strings.Contains(name, t.What) {
		name += " " + t.What
	}
	p.text(edge+42, y, usual, true, ink, name+s.Size(t.Size), 290)
	x := edge + 350.0
	if t.Surface != place.Ceiling {
		p.text(x, y, usual, false, ink, string(t.Surface)+" wall: "+s.Coords(t.Surface, t.At), 460)
	}
	for _, m := range t.From {
		p.text(x, y, usual, false, ink, s.Tape(m.Dist)+" off "+m.Ref, 225)
		x += 235
	}
	x = edge + 350 + 470
	words := map[site.Standing]string{site.Noted: "noted", site.Open: "open"}[t.State]
	if t.State == site.Covered {
		words = t.Over + ", not cut"
	}
	p.text(x, y, usual, false, ink, words, Width-edge-x)
}

// bullet is where a line of a list has its symbol; centre lines stand out of it.
func bullet(y float64, st site.Standing) box {
	b := box{edge + 2, y + 1, edge + 28, y + 27}
	if st == site.Noted {
		b = b.grown(-5)
	}
	return b
}

// Lists names the last of the things, those that the page of the plan left over, draws
// the boards that are still to be cut, and names what is covered, on pages of at
// most high pixels.
func (s Scene) Lists(high float64, left int) []*Page {
	w := &lists{Scene: s, high: high}
	w.turn()
	if left > 0 {
		w.head("Also noted")
		for _, t := range s.Things[len(s.Things)-left:] {
			w.need(thingLine)
			w.page.thing(s, t, w.y)
			w.y += thingLine
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

// lists are pages on the way, filled from the top.
type lists struct {
	Scene
	high  float64
	pages []*Page
	page  *Page
	y     float64
}

// turn begins a page.
func (w *lists) turn() {
	if w.page != nil {
		w.page.H = math.Ceil(w.y + edge)
	}
	w.page = &Page{}
	w.pages = append(w.pages, w.page)
	w.page.text(edge, edge, usual, false, greyInk, fmt.Sprintf("%s ceiling, %s, entry %d", w.Room, w.Now.In(w.Loc).Format("2 Jan 2006 15:04"), w.Entry), Width-2*edge)
	w.y = edge + 44
}

func (w *lists) need(h float64) {
	if w.y+h+edge > w.high && w.y > edge+44 {
		w.turn()
	}
}

func (w *lists) head(s string) {
	w.need(140)
	w.page.text(edge, w.y, 32, true, black, s, Width-2*edge)
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

// group is boards that are cut alike.
type group struct {
	layout.Cut
	ids []string // of each
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

// board draws one board to scale along its length, and says which pieces it gives.
func (w *lists) board(g group) {
	longest := length.Length(0)
	for _, c := range w.ToCut {
		longest = max(longest, c.Length)
	}
	size := w.Board(g.Length)
	if g.Offcut {
		size = "offcut of " + w.Len(length.RoundDown(g.Length, w.Units))
	}
	lines := wrapped(fmt.Sprintf("%d x %s for %s", len(g.ids), size, strings.Join(g.ids, ", ")), usual, true, Width-2*edge)
	lines = say.Most(lines, 6)
	strip := 46.0
	high := 32*float64(len(lines)) + strip*float64(len(g.Strips)) + 30
	w.need(high)
	for _, l := range lines {
		w.page.text(edge, w.y, usual, true, black, l, Width-2*edge)
		w.y += 32
	}
	scale := (Width - 2*edge) / float64(longest)
	whole := box{edge, w.y + 2, edge + scale*float64(g.Length), w.y + 2 + strip*float64(len(g.Strips))}
	for i, st := range g.Strips {
		x, y := edge, w.y+2+strip*float64(i)
		for _, id := range st.Pieces {
			pc := w.Sizes[id]
			b := box{x, y, min(x+scale*float64(pc.Cut), whole.X1), y + strip}
			w.page.rect(white, Pen{boardInk, 2, nil}, b)
			text := w.Tape(pc.Cut)
			if pc.Rip {
				text += " rip " + w.Tape(pc.Width)
			}
			if len(g.ids) == 1 {
				text = id + ": " + text
			}
			for _, s := range []string{text, w.Tape(pc.Cut)} {
				if tw := textWidth(s, usual, false); tw < b.X1-b.X0-8 {
					w.page.text(b.middle().X-tw/2, b.middle().Y-usual/2, usual, false, black, s, tw+1)
					break
				}
			}
			x = b.X1
		}
		if left := (box{x, y, whole.X1, y + strip}); left.X1-left.X0 > 1 {
			w.page.hatch(Pen{hatchInk, 1.5, nil}, left, 12, true)
			if st.Keep {
				s := "keep " + w.Tape(length.RoundDown(st.Left, w.Units))
				if tw := textWidth(s, usual, false); tw < left.X1-left.X0-10 {
					m := left.middle()
					w.page.rect(white, Pen{}, box{m.X - tw/2 - 4, m.Y - 15, m.X + tw/2 + 4, m.Y + 15})
					w.page.text(m.X-tw/2, m.Y-usual/2, usual, false, black, s, tw+1)
				}
			}
		}
	}
	w.page.rect(none, Pen{black, 3, nil}, whole)
	w.y = whole.Y1 + 24
}

// covered names what the board hides and nobody has cut.
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
		text := t.Name + w.Size(t.Size) + ": "
		for _, m := range t.From {
			text += w.Near(m.Dist) + " off " + m.Ref + ", "
		}
		if t.Surface != place.Ceiling {
			text += string(t.Surface) + " wall, " + w.Coords(t.Surface, t.At) + ", "
		}
		text += "under " + t.Over + " since " + w.Clock(t.Since)
		lines := wrapped(text, usual, false, Width-2*edge-40)
		w.need(34*float64(len(lines)) + 6)
		w.page.symbol(bullet(w.y, t.State), t.Size.B == 0, t.State)
		for _, l := range lines {
			w.page.text(edge+40, w.y, usual, false, black, l, Width-2*edge-40)
			w.y += 34
		}
		w.y += 6
	}
}
