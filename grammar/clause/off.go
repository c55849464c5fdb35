package clause

import (
	"strings"

	"strapline/grammar/lex"
)

// off is a number and what it is off.
func (f *frame) off(i, j int) bool {
	l := f.line
	n := l.at(i)
	l.use(j)
	k := l.next(j)
	switch to := l.at(k); to.is {
	case wall:
		walls := []string{to.text}
		l.use(k)
		for m := f.past(k); l.at(m).is == and && l.at(l.next(m)).is == wall && !f.heads(l.next(m)) && l.at(l.prev(i)).is != one; m = f.past(m) { // "off north and west"
			w := l.next(m)
			if l.at(l.next(w)).is == number { // it begins what follows
				break
			}
			l.use(m, w)
			walls = append(walls, l.at(w).text)
			m = w
		}
		if after := l.at(f.past(k)); len(walls) == 1 && after.is == wall && !(l.at(l.next(f.past(k))).is == number) && l.at(f.past(k)+1).is != wallish { // "off north west"
			return false
		}
		for _, w := range walls {
			f.add(Dist{n.text + " off " + w, w, n.text, false}, i)
		}
		f.Others = f.Others || len(walls) == 2 && AxisOf(walls[0]) == AxisOf(walls[1]) // one off each
		return len(walls) < 3
	case every:
		return f.each(i, k)
	case corner, end, wallish, pronoun:
		l.use(k)
		if to.is == pronoun { // off what was said last
			if f.about == "" {
				return false
			}
			f.cur.Refs = append(f.cur.Refs, Ref{n.text, f.about})
			return true
		}
		if f.cur.Ends || f.cur.Corner {
			f.cur.Each = n.text
			return true
		}
		f.add(Dist{n.text + " off", "", n.text, false}, i)
		return true
	case named, kind:
		l.use(k)
		if jambs[l.at(l.next(k)).low] {
			l.use(l.next(k))
		}
		f.cur.Refs = append(f.cur.Refs, Ref{n.text, to.text})
		return true
	case 0:
		if k < len(l.items) {
			return false // off what nobody noted
		}
	case side: // "12 off the left side of the window"
		e := l.next(k)
		if t := l.next(l.next(e)); (l.at(e).is == end || l.at(e).low == "edge") && l.at(l.next(e)).is == of && (l.at(t).is == kind || l.at(t).is == named) {
			l.use(k, e, l.next(e), t)
			f.cur.Refs = append(f.cur.Refs, Ref{n.text + " " + to.low, l.at(t).text})
			return true
		}
		return false
	case quarter, near, head:
		return false
	}
	f.add(Dist{n.text + " off", "", n.text, false}, i)
	return true
}

// jambs are words for the edge of an opening, which a distance off it is off anyway.
var jambs = lex.Set("jamb", "casing", "opening", "edge", "frame", "trim")

// past returns what follows the words for a corner, an end or the wall after a wall.
func (f *frame) past(i int) int {
	k := f.line.next(i)
	for is := f.line.at(k).is; is == corner || is == end || is == wallish; is = f.line.at(k).is {
		f.line.use(k)
		k = f.line.next(k)
	}
	return k
}

// heads reports whether the wall at i is the one that what follows is in, and not what it is off: a distance
// off a wall that meets it follows, "north wall 18 from the west corner".
func (f *frame) heads(i int) bool {
	l := f.line
	for k := l.next(i); k < len(l.items); k = l.next(k) {
		switch it := l.at(k); it.is {
		case number, on, wallish, every:
		case and:
		case off, of:
			w := l.at(l.next(k))
			return w.is == wall && eastWest[w.text] != eastWest[l.at(i).text]
		case up:
			return true
		default:
			return false
		}
	}
	return false
}

var eastWest = lex.Set("east", "west")

// each is a distance off every wall, corner or end.
func (f *frame) each(i, j int) bool {
	l := f.line
	l.use(j)
	sided, side := false, false
	f.cur.Corner = f.cur.Corner || l.at(l.next(j)).is == corner
	for k := l.next(j); k < len(l.items); k = l.next(k) {
		switch l.at(k).is {
		case wallish, corner, way, end, of:
			sided = sided || l.at(k).is == end
			side = side || strings.HasPrefix(l.at(k).low, "side")
			l.use(k)
			continue
		}
		break
	}
	switch was := f.cur.Each; {
	case was != "" && (!sided || !f.cur.Ends || f.cur.Sides != ""):
		return false
	case was != "" && side: // "4 foot off each end and 3 off each side"
		f.cur.Sides = l.at(i).text
		return true
	case was != "":
		f.cur.Sides = was
	}
	f.cur.Each = l.at(i).text
	f.cur.Ends = f.cur.Ends || sided
	return true
}

// handed is a distance left or right of what is noted: "10 left of the door".
func (f *frame) handed(i, j int) bool {
	l := f.line
	o := l.next(j)
	k := l.next(o)
	if l.at(o).is != of && l.at(o).is != off || l.at(k).is != named && l.at(k).is != kind {
		return false
	}
	l.use(j, o, k)
	f.cur.Refs = append(f.cur.Refs, Ref{l.at(i).text + " " + l.at(j).low, l.at(k).text})
	return true
}
