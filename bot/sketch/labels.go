package sketch

// placer finds room for labels, so that none overlaps another label or a symbol, or leaves
// the sheet.
type placer struct {
	page  *Page
	sheet box
	taken []box
	thin  []box // lines that a label should avoid if it can
}

// air is the clearance around a label, in pixels.
const air = 3.0

func (p *placer) free(b box) bool {
	if !b.in(p.sheet) {
		return false
	}
	for _, t := range p.taken {
		if b.hits(t) {
			return false
		}
	}
	return true
}

// label is one or more lines of text placed together, either all level or all upward.
type label struct {
	Lines []Text // X and Y are not set
	Mask  bool   // clear what is drawn below it
}

// oneLine makes a label of one line.
func oneLine(s string, size float64, bold bool, ink Ink) label {
	return label{Lines: []Text{{S: printable(s), Size: size, Bold: bold, Ink: ink}}, Mask: true}
}

// leading is the line height, as a multiple of the letter size.
const leading = 1.12

func (l label) size() (w, h float64) {
	for _, t := range l.Lines {
		w = max(w, textWidth(t.S, t.Size, t.Bold))
		h += t.Size * leading
	}
	if l.Lines[0].Up {
		return h, w
	}
	return w, h
}

// place puts a label at the best of several positions of its centre, and reports whether
// one has room. Earlier positions are preferred; each thin line crossed counts as four
// positions later.
func (p *placer) place(l label, middles ...pt) bool {
	w, h := l.size()
	best, cost := box{}, -1
	for i, m := range middles {
		b := box{m.X - w/2, m.Y - h/2, m.X + w/2, m.Y + h/2}
		if !p.free(b.grown(air)) {
			continue
		}
		c := i
		for _, t := range p.thin {
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
func (p *placer) set(l label, b box) {
	p.taken = append(p.taken, b.grown(air))
	if l.Mask {
		p.page.rect(white, Pen{}, b.grown(1))
	}
	off, m := 0.0, b.middle()
	for _, t := range l.Lines {
		along, across := textWidth(t.S, t.Size, t.Bold)/2, off+((leading-1)/2+above)*t.Size
		t.X, t.Y = m.X-along, b.Y0+across
		if t.Up {
			t.X, t.Y = b.X0+across, m.Y+along
		}
		p.page.Texts = append(p.page.Texts, t)
		off += t.Size * leading
	}
}

// positionsAround returns positions for the centre of a label of w by h around a symbol: at
// the corners, beside it, above and below, then the same farther away.
func positionsAround(at pt, half, w, h float64) (out []pt) {
	for _, gap := range []float64{6, 22, 44} {
		dx, dy := half+gap+w/2, half+gap+h/2
		diagX, diagY := half*0.7+gap+w/2, half*0.7+gap*0.4+h/2
		for _, d := range []pt{{diagX, -diagY}, {-diagX, -diagY}, {diagX, diagY}, {-diagX, diagY}, {dx, 0}, {-dx, 0}, {0, -dy}, {0, dy}} {
			out = append(out, pt{at.X + d.X, at.Y + d.Y})
		}
	}
	return out
}

// positionsWithin returns positions on a grid in a box, from the centre outwards.
func positionsWithin(b box) (out []pt) {
	c := b.middle()
	w, h := b.X1-b.X0, b.Y1-b.Y0
	for _, f := range []pt{{0, 0}, {0, -.2}, {0, .2}, {-.2, 0}, {.2, 0}, {-.2, -.2}, {.2, -.2}, {-.2, .2}, {.2, .2},
		{0, -.33}, {0, .33}, {-.33, 0}, {.33, 0}, {-.33, -.33}, {.33, -.33}, {-.33, .33}, {.33, .33}, {0, -.42}, {0, .42}, {-.42, 0}, {.42, 0}} {
		out = append(out, pt{c.X + f.X*w, c.Y + f.Y*h})
	}
	return out
}
