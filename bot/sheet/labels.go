package sheet

// Placer finds room for labels, so that none overlaps another label or a symbol, or leaves
// the sheet.
type Placer struct {
	Page  *Page
	Sheet Box
	Taken []Box
	Thin  []Box // lines that a label should avoid if it can
}

// air is the clearance around a label, in pixels.
const air = 3.0

func (p *Placer) free(b Box) bool {
	if !b.In(p.Sheet) {
		return false
	}
	for _, t := range p.Taken {
		if b.hits(t) {
			return false
		}
	}
	return true
}

// Label is one or more lines of text placed together, either all level or all upward.
type Label struct {
	Lines []Text // X and Y are not set
	Mask  bool   // clear what is drawn below it
}

// OneLine makes a label of one line.
func OneLine(s string, size float64, bold bool, ink Ink) Label {
	return Label{Lines: []Text{{S: Printable(s), Size: size, Bold: bold, Ink: ink}}, Mask: true}
}

// leading is the line height, as a multiple of the letter size.
const leading = 1.12

// Size returns the width and height that a label takes.
func (l Label) Size() (w, h float64) {
	for _, t := range l.Lines {
		w = max(w, TextWidth(t.S, t.Size, t.Bold))
		h += t.Size * leading
	}
	if l.Lines[0].Up {
		return h, w
	}
	return w, h
}

// Place puts a label at the best of several positions of its centre, and reports whether
// one has room. Earlier positions are preferred; each thin line crossed counts as four
// positions later.
func (p *Placer) Place(l Label, middles ...Point) bool {
	w, h := l.Size()
	best, cost := Box{}, -1
	for i, m := range middles {
		b := Box{m.X - w/2, m.Y - h/2, m.X + w/2, m.Y + h/2}
		if !p.free(b.Grown(air)) {
			continue
		}
		c := i
		for _, t := range p.Thin {
			if b.hits(t) {
				c += 4
			}
		}
		if cost < 0 || c < cost {
			best, cost = b, c
		}
		if c == i { // no later one is better
			break
		}
	}
	if cost < 0 {
		return false
	}
	p.set(l, best)
	return true
}

// set draws a label in a box, its lines centred, and marks the box as taken.
func (p *Placer) set(l Label, b Box) {
	p.Taken = append(p.Taken, b.Grown(air))
	if l.Mask {
		p.Page.Rect(White, Pen{}, b.Grown(1))
	}
	off, m := 0.0, b.Middle()
	for _, t := range l.Lines {
		along, across := TextWidth(t.S, t.Size, t.Bold)/2, off+((leading-1)/2+above)*t.Size
		t.X, t.Y = m.X-along, b.Y0+across
		if t.Up {
			t.X, t.Y = b.X0+across, m.Y+along
		}
		p.Page.Texts = append(p.Page.Texts, t)
		off += t.Size * leading
	}
}

// PositionsAround returns positions for the centre of a label of w by h around a symbol: at
// the corners, beside it, above and below, then the same farther away.
func PositionsAround(at Point, half, w, h float64) (out []Point) {
	for _, gap := range []float64{6, 22, 44} {
		dx, dy := half+gap+w/2, half+gap+h/2
		diagX, diagY := half*0.7+gap+w/2, half*0.7+gap*0.4+h/2
		for _, d := range []Point{{diagX, -diagY}, {-diagX, -diagY}, {diagX, diagY}, {-diagX, diagY}, {dx, 0}, {-dx, 0}, {0, -dy}, {0, dy}} {
			out = append(out, Point{at.X + d.X, at.Y + d.Y})
		}
	}
	return out
}

// PositionsWithin returns positions on a grid in a box, from the centre outwards.
func PositionsWithin(b Box) (out []Point) {
	c := b.Middle()
	w, h := b.X1-b.X0, b.Y1-b.Y0
	for _, f := range []Point{{0, 0}, {0, -.2}, {0, .2}, {-.2, 0}, {.2, 0}, {-.2, -.2}, {.2, -.2}, {-.2, .2}, {.2, .2},
		{0, -.33}, {0, .33}, {-.33, 0}, {.33, 0}, {-.33, -.33}, {.33, -.33}, {-.33, .33}, {.33, .33}, {0, -.42}, {0, .42}, {-.42, 0}, {.42, 0}} {
		out = append(out, Point{c.X + f.X*w, c.Y + f.Y*h})
	}
	return out
}
