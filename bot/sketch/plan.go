package sketch

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// The layout of the plan on its page, in pixels.
const (
	edge    = 24.0   // the margin of the page
	beside  = 146.0  // left and right of the outline, for wall names, numbers and dimensions
	over    = 92.0   // the same above and below it
	highest = 1000.0 // the height of the outline at most
)

// Letter sizes in pixels. On a phone 65 mm wide, 30 is 1.8 mm, like a newspaper's small
// print.
const (
	least = 22.0
	small = 26.0
	usual = 30.0
	large = 44.0
)

// drawing is a scene being laid out on a page.
type drawing struct {
	Scene
	page  *Page
	place placer
	scale float64      // pixels per unit of length.Length
	x0    float64      // left edge of the outline
	y0    float64      // top edge of the outline
	short []Piece      // pieces whose sizes do not fit into them
	done  map[Dim]bool // dimensions drawn, with Wall zero
}

// Plan draws the surface and below it the list of what is noted, on a page of at most high
// pixels. rest is the number of lines of the list that did not fit.
func (s Scene) Plan(high float64) (page *Page, rest int) {
	page, rest, room := s.plan(high, highest)
	if over := page.H - high; over > 0 { // shrink the plan to make room for the legend
		page, rest, _ = s.plan(high, room-over)
	}
	return page, rest
}

// plan draws the surface at a height of at most most pixels. room is the height that it
// has.
func (s Scene) plan(high, most float64) (page *Page, rest int, room float64) {
	page = &Page{}
	d := &drawing{Scene: s, page: page, done: map[Dim]bool{}}
	d.scale = min((Width-2*beside)/float64(s.EW), most/float64(s.NS))
	d.x0 = (Width - d.scale*float64(s.EW)) / 2
	d.y0 = d.header() + over
	bottom := d.y0 + d.scale*float64(s.NS)
	d.place = placer{page: page, sheet: box{edge, d.y0 - over, Width - edge, bottom + over}}

	d.boards()
	d.supports()
	d.edges()
	d.runs()
	d.cutOut()
	d.outline()
	d.under()
	d.outside()
	d.reserve()
	first := 0
	if s.Sought != "" && len(d.Things) > 0 {
		first = 1
	}
	d.otherNames()
	for _, some := range [][]Thing{d.Things[:first], d.Things[first:]} {
		d.names(some)
		d.dims(some)
	}
	for _, o := range d.Openings {
		d.place.taken = append(d.place.taken, d.box(o))
	}
	for _, p := range d.Pieces {
		d.piece(p)
	}
	d.lows()
	d.symbols()

	y := d.legend(bottom + over)
	y, rest = d.list(y, high)
	page.H = math.Ceil(y + edge)
	return page, rest, bottom - d.y0
}

// at converts a place on the surface to one on the page.
func (d *drawing) at(p place.Point) pt {
	x, y := float64(p.X), float64(p.Y)
	if d.mirrored() {
		x = float64(d.EW) - x
	}
	if d.Surface != place.Ceiling {
		y = float64(d.NS) - y
	}
	return pt{d.x0 + d.scale*x, d.y0 + d.scale*y}
}

func (d *drawing) box(r place.Rect) box {
	a, b := d.at(place.Point{X: r.X0, Y: r.Y0}), d.at(place.Point{X: r.X1, Y: r.Y1})
	return box{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}
}

func (d *drawing) room() box { return d.box(place.Rect{X1: d.EW, Y1: d.NS}) }

func (d *drawing) text(x, y, size float64, bold bool, ink Ink, s string, wide float64) {
	d.page.text(x, y, size, bold, ink, s, wide)
}

// text draws a text with its upper edge at y, cut to a width.
func (p *Page) text(x, y, size float64, bold bool, ink Ink, s string, wide float64) {
	if s = fitted(s, size, bold, wide); s != "" {
		p.Texts = append(p.Texts, Text{X: x, Y: y + above*size, Size: size, Bold: bold, Ink: ink, S: s})
	}
}

// header draws the title of the picture and returns the y below it.
func (d *drawing) header() float64 {
	wide := Width - 2*edge
	date := d.Now.In(d.Loc).Format("2 Jan 2006 15:04")
	right := fitted(fmt.Sprintf("%s, entry %d", date, d.Entry), small, false, wide/2)
	w := textWidth(right, small, false)
	d.text(Width-edge-w, edge+14, small, false, greyInk, right, w+1)
	d.text(edge, edge, large, true, black, d.Room+" "+d.Surface.Name(), wide-w-20)
	size := d.size()
	if d.Walls != nil {
		var long []string
		for _, w := range d.Walls {
			long = append(long, fmt.Sprintf("%s %s", w.Name, d.Tape(w.Long)))
		}
		size = "walls, as measured: " + strings.Join(long, ", ")
	}
	d.text(edge, edge+56, usual, false, black, size, wide)
	how := d.seen()
	d.text(edge, edge+96, usual, true, black, how, wide)
	y := edge + 136
	if d.Job != "" {
		d.text(edge, y, usual, false, greyInk, d.Job, wide)
		y += 40
	}
	d.page.line(Pen{greyInk, 1, nil}, pt{edge, y + 6}, pt{Width - edge, y + 6})
	return y + 6
}

// boards hatches the pieces that are up.
func (d *drawing) boards() {
	d.page.rect(white, Pen{}, d.room())
	for _, p := range d.Pieces {
		if p.Hung {
			d.page.hatch(Pen{hatchInk, 1.3, nil}, d.box(p.Rect), 18, false)
		}
	}
}

// supports draws each support as a band with a centre line.
func (d *drawing) supports() {
	for _, s := range d.Supports {
		to := s.To
		if to == 0 {
			if to = d.EW; s.Lie == place.Y {
				to = d.NS
			}
		}
		half := max(s.Wide/2, length.Length(1.5/d.scale))
		r := place.Rect{X0: s.From, X1: to, Y0: s.Pos - half, Y1: s.Pos + half}
		a, b := place.Point{X: s.From, Y: s.Pos}, place.Point{X: to, Y: s.Pos}
		if s.Lie == place.Y {
			r = place.Rect{X0: r.Y0, X1: r.Y1, Y0: s.From, Y1: to}
			a, b = place.Point{X: s.Pos, Y: s.From}, place.Point{X: s.Pos, Y: to}
		}
		d.page.rect(strapInk, Pen{}, d.box(r))
		d.page.line(Pen{centreInk, 1.3, chain}, d.at(a), d.at(b))
	}
}

// edges draws the edges of the pieces.
func (d *drawing) edges() {
	for _, p := range d.Pieces {
		pen := Pen{boardInk, 2, nil}
		d.page.rect(none, pen, d.box(p.Rect))
	}
}

// runs draws each run, with the dashed edges of the strip to keep screws out of.
func (d *drawing) runs() {
	for _, r := range d.Runs {
		for i := range len(r.Path) - 1 {
			a, b := d.at(r.Path[i]), d.at(r.Path[i+1])
			long := math.Hypot(b.X-a.X, b.Y-a.Y)
			if long == 0 {
				continue
			}
			w := d.strip(r)
			nx, ny := w*(a.Y-b.Y)/long, w*(b.X-a.X)/long
			for _, s := range []float64{-1, 1} {
				d.page.line(Pen{runInk, 1.5, dashes}, pt{a.X + s*nx, a.Y + s*ny}, pt{b.X + s*nx, b.Y + s*ny})
			}
			for at := 9.0; at < long; at += 18 { // ticks across the strip
				x, y := a.X+(b.X-a.X)*at/long, a.Y+(b.Y-a.Y)*at/long
				d.page.line(Pen{runInk, 1, nil}, pt{x - nx*.6, y - ny*.6}, pt{x + nx*.6, y + ny*.6})
			}
			d.page.line(Pen{runInk, runWidth, nil}, a, b)
		}
		for _, p := range r.Plates {
			d.page.rect(black, Pen{}, d.plate(p))
		}
	}
}

// outside draws what goes around the outline: wall names, overall dimensions and support
// numbers.
func (d *drawing) outside() {
	r := d.room()
	m := r.middle()
	const name = 30.0
	top, bottom, left, right := d.sides()
	d.place.place(oneLine(top, name, true, black), pt{m.X, r.Y0 - 66})
	d.place.place(oneLine(bottom, name, true, black), pt{m.X, r.Y1 + 72})
	d.place.place(oneLine(left, name, true, black), pt{max(r.X0-94, edge+max(38, 4+textWidth(left, name, true)/2)), m.Y})
	d.place.place(oneLine(right, name, true, black), pt{min(r.X1+94, Width-edge-max(38, 4+textWidth(right, name, true)/2)), m.Y})

	short := func(l length.Length) string {
		text, _, _ := strings.Cut(d.Len(l), " (")
		return text
	}
	across := func(text string, a, b, at pt, tick pt) {
		pen := Pen{dimInk, 1.3, nil}
		d.page.line(pen, a, b)
		for _, end := range []pt{a, b} {
			d.page.line(pen, pt{end.X - tick.X, end.Y - tick.Y}, pt{end.X + tick.X, end.Y + tick.Y})
		}
		d.page.arrow(dimInk, a, b)
		d.page.arrow(dimInk, b, a)
		d.place.place(oneLine(text, small, false, dimInk), at)
	}
	y, x := r.Y1+30, r.X1+42
	ew, ns := d.EW, d.NS
	if d.Walls != nil { // dimension the walls that the lines are beside
		if ew, ns = d.Walls[2].Long, d.Walls[1].Long; d.Up {
			ns = d.Walls[3].Long
		}
	}
	across(short(ew), pt{r.X0, y}, pt{r.X1, y}, pt{r.X0 + (r.X1-r.X0)/4, y}, pt{0, 10})
	if r.Y1-r.Y0 > 140 {
		mid := max(x, r.X1+10+textWidth(short(ns), small, false)/2)
		across(short(ns), pt{x, r.Y0}, pt{x, r.Y1}, pt{mid, r.Y0 + (r.Y1-r.Y0)/4}, pt{10, 0})
	}
	d.numbers(r)
}

// numbers draws the supports' numbers in circles, left of the outline or above it. Where
// the supports are too close together, only every second, fifth and so on has one.
func (d *drawing) numbers(r box) {
	if len(d.Supports) == 0 {
		return
	}
	const radius = 17.0
	gap := math.Inf(1)
	for i := 1; i < len(d.Supports); i++ {
		gap = min(gap, math.Abs(d.scale*float64(d.Supports[i].Pos-d.Supports[i-1].Pos)))
	}
	every := 1
	for _, n := range []int{2, 5, 10, 20, 50, 100} {
		if gap*float64(every) >= 2*radius+2 {
			break
		}
		every = n
	}
	for _, s := range d.Supports {
		if s.N%every != 0 && every > 1 {
			continue
		}
		var at, end pt
		if s.Lie == place.X {
			end = d.at(place.Point{Y: s.Pos})
			end.X = r.X0
			at = pt{end.X - radius - 12, end.Y}
		} else {
			end = d.at(place.Point{X: s.Pos})
			end.Y = r.Y0
			at = pt{end.X, end.Y - radius - 12}
		}
		l := oneLine(strconv.Itoa(s.N), least, false, black)
		l.Mask = false
		n := len(d.page.Texts)
		if d.place.place(l, at) && len(d.page.Texts) > n {
			d.page.line(Pen{centreInk, 1.3, nil}, end, at)
			d.page.circle(white, Pen{greyInk, 1.5, nil}, at, radius)
			d.place.taken = append(d.place.taken, box{at.X - radius, at.Y - radius, at.X + radius, at.Y + radius})
		}
	}
}

// symbol draws a thing: with a thin outline and centre lines if it is noted, dashed and
// hatched if it is covered, and with a thick outline and crossed lines if the hole is cut.
func (p *Page) symbol(b box, round bool, st site.Standing) {
	pen := Pen{black, 2, nil}
	switch st {
	case site.Covered:
		pen = Pen{hiddenInk, 3, dashes}
	case site.Open:
		pen = Pen{black, 4, nil}
	}
	m := b.middle()
	shape := func(fill Ink, pen Pen) {
		if round {
			p.circle(fill, pen, m, (b.X1-b.X0)/2)
			return
		}
		p.rect(fill, pen, b)
	}
	shape(white, Pen{})
	w, h := (b.X1-b.X0)/2, (b.Y1-b.Y0)/2
	in := 1.0
	if round {
		in = math.Sqrt2 / 2
	}
	switch st {
	case site.Covered:
		inner := box{m.X - w*in, m.Y - h*in, m.X + w*in, m.Y + h*in}
		p.hatch(Pen{hiddenInk, 1.5, nil}, inner, 9, true)
	case site.Open:
		p.line(Pen{black, 1.5, nil}, pt{m.X - w*in, m.Y - h*in}, pt{m.X + w*in, m.Y + h*in})
		p.line(Pen{black, 1.5, nil}, pt{m.X - w*in, m.Y + h*in}, pt{m.X + w*in, m.Y - h*in})
	default:
		p.line(Pen{black, 1.2, []float64{9, 3, 2, 3}}, pt{m.X - w - 8, m.Y}, pt{m.X + w + 8, m.Y})
		p.line(Pen{black, 1.2, []float64{9, 3, 2, 3}}, pt{m.X, m.Y - h - 8}, pt{m.X, m.Y + h + 8})
	}
	shape(none, pen)
}

// minHalf is the smallest half size of a symbol, so that it can be seen.
const minHalf = 9.0

func (d *drawing) thingBox(t Thing) box {
	m := d.at(t.At)
	hx, hy := max(d.scale*float64(t.Size.Half(place.X)), minHalf), max(d.scale*float64(t.Size.Half(place.Y)), minHalf)
	return box{m.X - hx, m.Y - hy, m.X + hx, m.Y + hy}
}

// soughtWidth is the line width of the ring around the thing that was looked for.
const soughtWidth = 6.0

// ringRadius is the radius of that ring.
func (d *drawing) ringRadius(t Thing) float64 {
	b := d.thingBox(t)
	return math.Hypot(b.X1-b.X0, b.Y1-b.Y0)/2 + 12
}

// reserve keeps labels off the symbols and the runs and, if there is room elsewhere, off
// the dimension lines.
func (d *drawing) reserve() {
	for _, t := range d.Things {
		if t.Surface != d.Surface || t.Framed {
			continue
		}
		b := d.thingBox(t)
		d.place.taken = append(d.place.taken, b.grown(3))
		if t.Name == d.Sought {
			m := b.middle()
			d.place.taken = append(d.place.taken, box{m.X, m.Y, m.X, m.Y}.grown(d.ringRadius(t)+3))
		}
		for _, m := range t.From {
			a, b := d.ends(t, m)
			d.place.thin = append(d.place.thin, box{min(a.X, b.X) - 1, min(a.Y, b.Y) - 1, max(a.X, b.X) + 1, max(a.Y, b.Y) + 1})
		}
	}
	for _, m := range d.Marks {
		c := d.at(m.At)
		d.place.taken = append(d.place.taken, box{c.X, c.Y, c.X, c.Y}.grown(11))
	}
	for _, r := range d.Runs {
		w := d.strip(r)
		for i := range len(r.Path) - 1 {
			a, b := d.at(r.Path[i]), d.at(r.Path[i+1])
			parts := math.Ceil(math.Hypot(b.X-a.X, b.Y-a.Y)/(2*w)) + 1
			for n := 0.0; n <= parts; n++ {
				f := n / parts
				m := pt{a.X + f*(b.X-a.X), a.Y + f*(b.Y-a.Y)}
				d.place.taken = append(d.place.taken, box{m.X, m.Y, m.X, m.Y}.grown(w))
			}
		}
		for _, p := range r.Plates {
			d.place.taken = append(d.place.taken, d.plate(p))
		}
	}
}

// runWidth is the line width of a run.
const runWidth = 3.5

// strip is half the width of a run's strip, at least 7 so that it can be seen.
func (d *drawing) strip(r Run) float64 { return max(d.scale*float64(r.Keep), 7) }

// plate is the box of a plate, enlarged if it is too small to be seen.
func (d *drawing) plate(r place.Rect) box {
	b := d.box(r)
	m := b.middle()
	return box{min(b.X0, m.X-6), min(b.Y0, m.Y-6), max(b.X1, m.X+6), max(b.Y1, m.Y+6)}
}

// symbols draws the things and marks, on top of all lines.
func (d *drawing) symbols() {
	for _, t := range d.Things {
		if t.Surface != d.Surface || t.Framed {
			continue
		}
		b := d.thingBox(t)
		d.page.symbol(b, t.Size.B == 0, t.State)
		if t.Name == d.Sought {
			d.page.circle(none, Pen{black, soughtWidth, nil}, b.middle(), d.ringRadius(t))
		}
	}
	for _, m := range d.Marks {
		d.page.cross(d.at(m.At))
	}
}

// cross draws a mark on the framing.
func (p *Page) cross(c pt) {
	pen := Pen{black, 2.5, nil}
	p.line(pen, pt{c.X - 8, c.Y - 8}, pt{c.X + 8, c.Y + 8})
	p.line(pen, pt{c.X - 8, c.Y + 8}, pt{c.X + 8, c.Y - 8})
}
