package sketch

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"strapline/bot/say"
	"strapline/bot/scene"
	"strapline/bot/sheet"
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
	scene.Scene
	page  *sheet.Page
	place sheet.Placer
	scale float64            // pixels per unit of length.Length
	x0    float64            // left edge of the outline
	y0    float64            // top edge of the outline
	short []scene.Piece      // pieces whose sizes do not fit into them
	done  map[scene.Dim]bool // dimensions drawn, with Wall zero
}

// Plan draws the surface and below it the list of what is noted, on a page of at most high
// pixels. rest is the number of lines of the list that did not fit.
func Plan(s scene.Scene, high float64) (page *sheet.Page, rest int) {
	page, rest, room := plan(s, high, highest)
	if over := page.H - high; over > 0 { // shrink the plan to make room for the legend
		page, rest, _ = plan(s, high, room-over)
	}
	return page, rest
}

// plan draws the surface at a height of at most most pixels. room is the height that it
// has.
func plan(s scene.Scene, high, most float64) (page *sheet.Page, rest int, room float64) {
	page = &sheet.Page{}
	d := &drawing{Scene: s, page: page, done: map[scene.Dim]bool{}}
	d.scale = min((sheet.Width-2*beside)/float64(s.EW), most/float64(s.NS))
	d.x0 = (sheet.Width - d.scale*float64(s.EW)) / 2
	d.y0 = d.header() + over
	bottom := d.y0 + d.scale*float64(s.NS)
	d.place = sheet.Placer{Page: page, Sheet: sheet.Box{X0: edge, Y0: d.y0 - over, X1: sheet.Width - edge, Y1: bottom + over}}

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
	for _, some := range [][]scene.Thing{d.Things[:first], d.Things[first:]} {
		d.names(some)
		d.dims(some)
	}
	for _, o := range d.Openings {
		d.place.Taken = append(d.place.Taken, d.box(o))
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
func (d *drawing) at(p place.Point) sheet.Point {
	x, y := float64(p.X), float64(p.Y)
	if d.Mirrored() {
		x = float64(d.EW) - x
	}
	if d.Surface != place.Ceiling {
		y = float64(d.NS) - y
	}
	return sheet.Point{X: d.x0 + d.scale*x, Y: d.y0 + d.scale*y}
}

func (d *drawing) box(r place.Rect) sheet.Box {
	a, b := d.at(place.Point{X: r.X0, Y: r.Y0}), d.at(place.Point{X: r.X1, Y: r.Y1})
	return sheet.Box{X0: min(a.X, b.X), Y0: min(a.Y, b.Y), X1: max(a.X, b.X), Y1: max(a.Y, b.Y)}
}

func (d *drawing) room() sheet.Box { return d.box(place.Rect{X1: d.EW, Y1: d.NS}) }

func (d *drawing) text(x, y, size float64, bold bool, ink sheet.Ink, s string, wide float64) {
	d.page.Text(x, y, size, bold, ink, s, wide)
}

// header draws the title of the picture and returns the y below it.
func (d *drawing) header() float64 {
	wide := sheet.Width - 2*edge
	date := d.Now.In(d.Loc).Format("2 Jan 2006 15:04")
	right := sheet.Fitted(fmt.Sprintf("%s, entry %d", date, d.Entry), small, false, wide/2)
	w := sheet.TextWidth(right, small, false)
	d.text(sheet.Width-edge-w, edge+14, small, false, sheet.GreyInk, right, w+1)
	d.text(edge, edge, large, true, sheet.Black, d.Room+" "+d.Surface.Name(), wide-w-20)
	size := d.Extent()
	if d.Walls != nil {
		size = "walls, as measured: " + strings.Join(say.Each(d.Walls, func(w scene.Wall) string { return fmt.Sprintf("%s %s", w.Name, d.Tape(w.Long)) }), ", ")
	}
	d.text(edge, edge+56, usual, false, sheet.Black, size, wide)
	how := d.Seen()
	d.text(edge, edge+96, usual, true, sheet.Black, how, wide)
	y := edge + 136
	if d.Job != "" {
		d.text(edge, y, usual, false, sheet.GreyInk, d.Job, wide)
		y += 40
	}
	d.page.Line(sheet.Pen{Ink: sheet.GreyInk, W: 1}, sheet.Point{X: edge, Y: y + 6}, sheet.Point{X: sheet.Width - edge, Y: y + 6})
	return y + 6
}

// boards hatches the pieces that are up.
func (d *drawing) boards() {
	d.page.Rect(sheet.White, sheet.Pen{}, d.room())
	for _, p := range d.Pieces {
		if p.Hung {
			d.page.Hatch(sheet.Pen{Ink: sheet.HatchInk, W: 1.3}, d.box(p.Rect), 18, false)
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
		d.page.Rect(sheet.StrapInk, sheet.Pen{}, d.box(r))
		d.page.Line(sheet.Pen{Ink: sheet.CentreInk, W: 1.3, Dash: sheet.Chain}, d.at(a), d.at(b))
	}
}

// edges draws the edges of the pieces.
func (d *drawing) edges() {
	for _, p := range d.Pieces {
		pen := sheet.Pen{Ink: sheet.BoardInk, W: 2}
		d.page.Rect(sheet.None, pen, d.box(p.Rect))
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
				d.page.Line(sheet.Pen{Ink: sheet.RunInk, W: 1.5, Dash: sheet.Dashes}, sheet.Point{X: a.X + s*nx, Y: a.Y + s*ny}, sheet.Point{X: b.X + s*nx, Y: b.Y + s*ny})
			}
			for at := 9.0; at < long; at += 18 { // ticks across the strip
				x, y := a.X+(b.X-a.X)*at/long, a.Y+(b.Y-a.Y)*at/long
				d.page.Line(sheet.Pen{Ink: sheet.RunInk, W: 1}, sheet.Point{X: x - nx*.6, Y: y - ny*.6}, sheet.Point{X: x + nx*.6, Y: y + ny*.6})
			}
			d.page.Line(sheet.Pen{Ink: sheet.RunInk, W: runWidth}, a, b)
		}
		for _, p := range r.Plates {
			d.page.Rect(sheet.Black, sheet.Pen{}, d.plate(p))
		}
	}
}

// outside draws what goes around the outline: wall names, overall dimensions and support
// numbers.
func (d *drawing) outside() {
	r := d.room()
	m := r.Middle()
	const name = 30.0
	top, bottom, left, right := d.Sides()
	d.place.Place(sheet.OneLine(top, name, true, sheet.Black), sheet.Point{X: m.X, Y: r.Y0 - 66})
	d.place.Place(sheet.OneLine(bottom, name, true, sheet.Black), sheet.Point{X: m.X, Y: r.Y1 + 72})
	d.place.Place(sheet.OneLine(left, name, true, sheet.Black), sheet.Point{X: max(r.X0-94, edge+max(38, 4+sheet.TextWidth(left, name, true)/2)), Y: m.Y})
	d.place.Place(sheet.OneLine(right, name, true, sheet.Black), sheet.Point{X: min(r.X1+94, sheet.Width-edge-max(38, 4+sheet.TextWidth(right, name, true)/2)), Y: m.Y})

	short := func(l length.Length) string {
		text, _, _ := strings.Cut(d.Len(l), " (")
		return text
	}
	across := func(text string, a, b, at sheet.Point, tick sheet.Point) {
		pen := sheet.Pen{Ink: sheet.DimInk, W: 1.3}
		d.page.Line(pen, a, b)
		for _, end := range []sheet.Point{a, b} {
			d.page.Line(pen, sheet.Point{X: end.X - tick.X, Y: end.Y - tick.Y}, sheet.Point{X: end.X + tick.X, Y: end.Y + tick.Y})
		}
		d.page.Arrow(sheet.DimInk, a, b)
		d.page.Arrow(sheet.DimInk, b, a)
		d.place.Place(sheet.OneLine(text, small, false, sheet.DimInk), at)
	}
	y, x := r.Y1+30, r.X1+42
	ew, ns := d.EW, d.NS
	if d.Walls != nil { // dimension the walls that the lines are beside
		if ew, ns = d.Walls[2].Long, d.Walls[1].Long; d.Up {
			ns = d.Walls[3].Long
		}
	}
	across(short(ew), sheet.Point{X: r.X0, Y: y}, sheet.Point{X: r.X1, Y: y}, sheet.Point{X: r.X0 + (r.X1-r.X0)/4, Y: y}, sheet.Point{X: 0, Y: 10})
	if r.Y1-r.Y0 > 140 {
		mid := max(x, r.X1+10+sheet.TextWidth(short(ns), small, false)/2)
		across(short(ns), sheet.Point{X: x, Y: r.Y0}, sheet.Point{X: x, Y: r.Y1}, sheet.Point{X: mid, Y: r.Y0 + (r.Y1-r.Y0)/4}, sheet.Point{X: 10, Y: 0})
	}
	d.numbers(r)
}

// numbers draws the supports' numbers in circles, left of the outline or above it. Where
// the supports are too close together, only every second, fifth and so on has one.
func (d *drawing) numbers(r sheet.Box) {
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
		var at, end sheet.Point
		if s.Lie == place.X {
			end = d.at(place.Point{Y: s.Pos})
			end.X = r.X0
			at = sheet.Point{X: end.X - radius - 12, Y: end.Y}
		} else {
			end = d.at(place.Point{X: s.Pos})
			end.Y = r.Y0
			at = sheet.Point{X: end.X, Y: end.Y - radius - 12}
		}
		l := sheet.OneLine(strconv.Itoa(s.N), least, false, sheet.Black)
		l.Mask = false
		n := len(d.page.Texts)
		if d.place.Place(l, at) && len(d.page.Texts) > n {
			d.page.Line(sheet.Pen{Ink: sheet.CentreInk, W: 1.3}, end, at)
			d.page.Circle(sheet.White, sheet.Pen{Ink: sheet.GreyInk, W: 1.5}, at, radius)
			d.place.Taken = append(d.place.Taken, sheet.Box{X0: at.X - radius, Y0: at.Y - radius, X1: at.X + radius, Y1: at.Y + radius})
		}
	}
}

// symbol draws a thing: with a thin outline and centre lines if it is noted, dashed and
// hatched if it is covered, and with a thick outline and crossed lines if the hole is cut.
func symbol(p *sheet.Page, b sheet.Box, round bool, st site.Standing) {
	pen := sheet.Pen{Ink: sheet.Black, W: 2}
	switch st {
	case site.Covered:
		pen = sheet.Pen{Ink: sheet.HiddenInk, W: 3, Dash: sheet.Dashes}
	case site.Open:
		pen = sheet.Pen{Ink: sheet.Black, W: 4}
	}
	m := b.Middle()
	shape := func(fill sheet.Ink, pen sheet.Pen) {
		if round {
			p.Circle(fill, pen, m, (b.X1-b.X0)/2)
			return
		}
		p.Rect(fill, pen, b)
	}
	shape(sheet.White, sheet.Pen{})
	w, h := (b.X1-b.X0)/2, (b.Y1-b.Y0)/2
	in := 1.0
	if round {
		in = math.Sqrt2 / 2
	}
	switch st {
	case site.Covered:
		inner := sheet.Box{X0: m.X - w*in, Y0: m.Y - h*in, X1: m.X + w*in, Y1: m.Y + h*in}
		p.Hatch(sheet.Pen{Ink: sheet.HiddenInk, W: 1.5}, inner, 9, true)
	case site.Open:
		p.Line(sheet.Pen{Ink: sheet.Black, W: 1.5}, sheet.Point{X: m.X - w*in, Y: m.Y - h*in}, sheet.Point{X: m.X + w*in, Y: m.Y + h*in})
		p.Line(sheet.Pen{Ink: sheet.Black, W: 1.5}, sheet.Point{X: m.X - w*in, Y: m.Y + h*in}, sheet.Point{X: m.X + w*in, Y: m.Y - h*in})
	default:
		centre := sheet.Pen{Ink: sheet.Black, W: 1.2, Dash: []float64{9, 3, 2, 3}}
		p.Line(centre, sheet.Point{X: m.X - w - 8, Y: m.Y}, sheet.Point{X: m.X + w + 8, Y: m.Y})
		p.Line(centre, sheet.Point{X: m.X, Y: m.Y - h - 8}, sheet.Point{X: m.X, Y: m.Y + h + 8})
	}
	shape(sheet.None, pen)
}

// minHalf is the smallest half size of a symbol, so that it can be seen.
const minHalf = 9.0

func (d *drawing) thingBox(t scene.Thing) sheet.Box {
	m := d.at(t.At)
	hx, hy := max(d.scale*float64(t.Size.Half(place.X)), minHalf), max(d.scale*float64(t.Size.Half(place.Y)), minHalf)
	return sheet.Box{X0: m.X - hx, Y0: m.Y - hy, X1: m.X + hx, Y1: m.Y + hy}
}

// soughtWidth is the line width of the ring around the thing that was looked for.
const soughtWidth = 6.0

// ringRadius is the radius of that ring.
func (d *drawing) ringRadius(t scene.Thing) float64 {
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
		d.place.Taken = append(d.place.Taken, b.Grown(3))
		if t.Name == d.Sought {
			m := b.Middle()
			d.place.Taken = append(d.place.Taken, m.Box().Grown(d.ringRadius(t)+3))
		}
		for _, m := range t.From {
			a, b := d.ends(t, m)
			d.place.Thin = append(d.place.Thin, sheet.Box{X0: min(a.X, b.X) - 1, Y0: min(a.Y, b.Y) - 1, X1: max(a.X, b.X) + 1, Y1: max(a.Y, b.Y) + 1})
		}
	}
	for _, m := range d.Marks {
		c := d.at(m.At)
		d.place.Taken = append(d.place.Taken, c.Box().Grown(11))
	}
	for _, r := range d.Runs {
		w := d.strip(r)
		for i := range len(r.Path) - 1 {
			a, b := d.at(r.Path[i]), d.at(r.Path[i+1])
			parts := math.Ceil(math.Hypot(b.X-a.X, b.Y-a.Y)/(2*w)) + 1
			for n := 0.0; n <= parts; n++ {
				f := n / parts
				m := sheet.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}
				d.place.Taken = append(d.place.Taken, m.Box().Grown(w))
			}
		}
		for _, p := range r.Plates {
			d.place.Taken = append(d.place.Taken, d.plate(p))
		}
	}
}

// runWidth is the line width of a run.
const runWidth = 3.5

// strip is half the width of a run's strip, at least 7 so that it can be seen.
func (d *drawing) strip(r scene.Run) float64 { return max(d.scale*float64(r.Keep), 7) }

// plate is the box of a plate, enlarged if it is too small to be seen.
func (d *drawing) plate(r place.Rect) sheet.Box {
	b := d.box(r)
	m := b.Middle()
	return sheet.Box{X0: min(b.X0, m.X-6), Y0: min(b.Y0, m.Y-6), X1: max(b.X1, m.X+6), Y1: max(b.Y1, m.Y+6)}
}

// symbols draws the things and marks, on top of all lines.
func (d *drawing) symbols() {
	for _, t := range d.Things {
		if t.Surface != d.Surface || t.Framed {
			continue
		}
		b := d.thingBox(t)
		symbol(d.page, b, t.Size.B == 0, t.State)
		if t.Name == d.Sought {
			d.page.Circle(sheet.None, sheet.Pen{Ink: sheet.Black, W: soughtWidth}, b.Middle(), d.ringRadius(t))
		}
	}
	for _, m := range d.Marks {
		cross(d.page, d.at(m.At))
	}
}

// cross draws a mark on the framing.
func cross(p *sheet.Page, c sheet.Point) {
	pen := sheet.Pen{Ink: sheet.Black, W: 2.5}
	p.Line(pen, sheet.Point{X: c.X - 8, Y: c.Y - 8}, sheet.Point{X: c.X + 8, Y: c.Y + 8})
	p.Line(pen, sheet.Point{X: c.X - 8, Y: c.Y + 8}, sheet.Point{X: c.X + 8, Y: c.Y - 8})
}

// openings draws doors and windows, crossed with two thin lines.
func (d *drawing) openings() {
	for _, o := range d.Openings {
		b := d.box(o)
		d.page.Rect(sheet.White, sheet.Pen{Ink: sheet.Black, W: 3}, b)
		d.page.Line(sheet.Pen{Ink: sheet.Black, W: 1.2}, sheet.Point{X: b.X0, Y: b.Y0}, sheet.Point{X: b.X1, Y: b.Y1})
		d.page.Line(sheet.Pen{Ink: sheet.Black, W: 1.2}, sheet.Point{X: b.X0, Y: b.Y1}, sheet.Point{X: b.X1, Y: b.Y0})
	}
}
