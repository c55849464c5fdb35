package clause

import (
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/parts"
)

// off is a number and what it is off.
func (f *frame) off(i, j int) bool {
	l := f.line
	n := l.At(i)
	l.Use(j)
	k := l.Next(j)
	switch to := l.At(k); to.Is {
	case wall:
		walls := []string{to.Text}
		l.Use(k)
		for m := f.past(k); l.At(m).Is == and && l.At(l.Next(m)).Is == wall && !f.heads(l.Next(m)) && l.At(l.Prev(i)).Is != one; m = f.past(m) { // "off north and west"
			w := l.Next(m)
			if l.At(l.Next(w)).Is == number { // it begins what follows
				break
			}
			l.Use(m, w)
			walls = append(walls, l.At(w).Text)
			m = w
		}
		if after := l.At(f.past(k)); len(walls) == 1 && after.Is == wall && !(l.At(l.Next(f.past(k))).Is == number) && l.At(f.past(k)+1).Is != wallish { // "off north west"
			return false
		}
		for _, w := range walls {
			f.add(Dist{n.Text + " off " + w, w, n.Text, false}, i)
		}
		f.Others = f.Others || len(walls) == 2 && AxisOf(walls[0]) == AxisOf(walls[1]) // one off each
		return len(walls) < 3
	case every:
		return f.each(i, k)
	case corner, end, wallish, pronoun:
		if to.Is != pronoun && (strings.HasSuffix(to.Low, "s") || l.At(l.Next(k)).Low == "walls") { // "40 off the side walls"
			return f.each(i, j)
		}
		l.Use(k)
		if to.Is == pronoun { // off what was said last
			if f.about == "" {
				return false
			}
			f.cur.Refs = append(f.cur.Refs, Ref{n.Text, f.about})
			return true
		}
		if f.cur.Ends || f.cur.Corner {
			f.cur.Each = n.Text
			return true
		}
		f.add(Dist{n.Text + " off", "", n.Text, false}, i)
		return true
	case named, kind:
		l.Use(k)
		if jambs[l.At(l.Next(k)).Low] {
			l.Use(l.Next(k))
		}
		f.cur.Refs = append(f.cur.Refs, Ref{n.Text, to.Text})
		return true
	case 0:
		if end := l.At(l.Next(k)).Is; to.Low == "same" && (end == corner || end == wallish || end == parts.End) && len(f.cur.Dists) > 0 {
			d := f.cur.Dists[len(f.cur.Dists)-1]
			l.Use(k, l.Next(k))
			f.add(Dist{n.Text + strings.TrimPrefix(d.Text, d.Far), d.Wall, n.Text, false}, i)
			return d.Wall != ""
		}
		if k < len(l.Items) {
			return false // off what nobody noted
		}
	case side: // "12 off the left side of the window"
		e := l.Next(k)
		if t := l.Next(l.Next(e)); (l.At(e).Is == end || l.At(e).Low == "edge") && l.At(l.Next(e)).Is == of && (l.At(t).Is == kind || l.At(t).Is == named) {
			l.Use(k, e, l.Next(e), t)
			f.cur.Refs = append(f.cur.Refs, Ref{n.Text + " " + to.Low, l.At(t).Text})
			return true
		}
		return false
	case near, head:
		return false
	case tag: // the frame of the door
		if f.about != "" && to.Low == "frame" {
			l.Use(k)
			f.cur.Refs = append(f.cur.Refs, Ref{n.Text, f.about})
			return f.Seen[f.about] != ""
		}
	}
	f.add(Dist{n.Text + " off", "", n.Text, false}, i)
	return true
}

// jambs are words for the edge of an opening, which a distance off it is off anyway.
var jambs = lex.Set("jamb", "casing", "opening", "edge", "frame", "trim")

// past returns what follows the words for a corner, an end or the wall after a wall.
func (f *frame) past(i int) int {
	k := f.line.Next(i)
	for is := f.line.At(k).Is; is == corner || is == end || is == wallish; is = f.line.At(k).Is {
		f.line.Use(k)
		k = f.line.Next(k)
	}
	return k
}

// heads reports whether the wall at i is the one that what follows is in, and not what it is off: a distance
// off a wall that meets it follows, "north wall 18 from the west corner".
func (f *frame) heads(i int) bool {
	l := f.line
	for k := l.Next(i); k < len(l.Items); k = l.Next(k) {
		switch it := l.At(k); it.Is {
		case number, on, wallish, every:
			if strings.HasSuffix(it.Low, "s") { // "off the north and south walls and 40 off the east"
				return false
			}
		case and:
		case off, of:
			w := l.At(l.Next(k))
			return w.Is == wall && AxisOf(w.Text) != AxisOf(l.At(i).Text)
		case up:
			return true
		default:
			return false
		}
	}
	return false
}

// each is a distance off every wall, corner or end.
func (f *frame) each(i, j int) bool {
	l := f.line
	l.Use(j)
	if f.parted {
		f.more()
	}
	if k := l.Next(j); l.At(k).Is == end { // "30 either side of the window"
		if o := l.Next(k); l.At(o).Is == of {
			t := l.Next(o)
			if to := l.At(t); to.Is == kind || to.Is == named || to.Is == mid {
				l.Use(k, o, t)
				f.cur.Around, f.cur.Each, f.about = to.Text, l.At(i).Text, to.Text
				return f.cur.On != "ceiling"
			}
		}
	}
	sided, side := false, false
	f.cur.Corner = f.cur.Corner || l.At(l.Next(j)).Is == corner
	for k := l.Next(j); k < len(l.Items); k = l.Next(k) {
		switch l.At(k).Is {
		case wallish, corner, way, end, of:
			sided = sided || l.At(k).Is == end
			side = side || strings.HasPrefix(l.At(k).Low, "side")
			l.Use(k)
			continue
		}
		break
	}
	switch was := f.cur.Each; {
	case was != "" && (!sided || !f.cur.Ends || f.cur.Sides != ""):
		return false
	case was != "" && side: // "4 foot off each end and 3 off each side"
		f.cur.Sides = l.At(i).Text
		return true
	case was != "":
		f.cur.Sides = was
	}
	f.cur.Each = l.At(i).Text
	f.cur.Ends = f.cur.Ends || sided
	return true
}

// handed is a distance left or right of what is noted: "10 left of the door".
func (f *frame) handed(i, j int) bool {
	l := f.line
	o := l.Next(j)
	k := l.Next(o)
	if l.At(o).Is != of && l.At(o).Is != off || l.At(k).Is != named && l.At(k).Is != kind {
		return false
	}
	l.Use(j, o, k)
	f.cur.Refs = append(f.cur.Refs, Ref{l.At(i).Text + " " + l.At(j).Low, l.At(k).Text})
	return true
}
