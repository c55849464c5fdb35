package clause

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/topic"
)

// frame gathers what a text says, clause by clause.
type frame struct {
	*line
	cur     *Clause
	pending []int // numbers whose reference comes with a later one
	// What was said before the kind that it is of.
	count          int
	wide, high     string
	called         bool // the label stands right before its kind
	label, number3 string
	about          string  // the opening or thing that was named last
	gridded        bool    // it has words for rows
	mixed          bool    // a number of a list may be in feet or in inches
	led            *Clause // what was said before any kind
}

func (f *frame) framed() bool {
	return f.cur.What == "door" || f.cur.What == "window" || f.cur.What == "skylight"
}

// item gives the item at i its part.
func (f *frame) item(i int) bool {
	l := f.line
	it := l.items[i]
	if it.used {
		return true
	}
	j := l.next(i)
	next := l.at(j)
	switch it.is {
	case number:
		return f.number(i)
	case kind:
		f.kind(i)
	case wall:
		return f.wall(i)
	case ceiling:
		if f.cur.On != "" && f.cur.On != "ceiling" {
			return false
		}
		f.cur.On = "ceiling"
	case floor, tag:
		return false
	case quarter:
		f.cur.In = it.text
		f.past(i)
	case mid:
		return f.middle(i)
	case every:
		f.everyOne(i)
	case corner:
		f.cur.Corner = strings.HasSuffix(it.low, "s") || f.cur.Corner
		if next.is == of {
			l.use(j)
		}
	case side:
		return f.leftOf(i)
	case head: // "top of the stairs"
		if k := l.next(j); next.is != of || l.at(k).is == pronoun || l.at(k).is == kind && l.at(k).text == f.cur.What { // a part of the thing
			return false
		}
		said, end := f.words(l.next(j))
		l.use(j)
		f.name(i, end, said+" "+it.low)
	case near:
		if it.low == "between" {
			axis, ok := f.between(i)
			if f.cur.Steps = append(f.cur.Steps, Step{Along: axis}); axis == "" {
				f.cur.Steps = f.cur.Steps[:len(f.cur.Steps)-1]
			}
			return ok
		}
		return f.landmark(i)
	case named:
		return false
	case toward:
		if next.is != mid && next.is != side {
			return false
		}
	case up, of, down, gang, wide, deep, by, off:
		if it.is == up && next.is == on || it.is == down && next.is == mid { // "up in the lid"
			return true
		}
		l.Strays = append(l.Strays, it.low)
	case on:
		if j >= len(l.items) {
			return false
		}
		if l.at(i+1).low == "square" || l.at(i+2).low == "square" { // four in a square
			f.cur.Square = true
		} else if said, end := f.words(j); said != "" && next.is == other {
			f.name(j-1, end, it.low+" "+said)
		}
	case pronoun:
		if next.is == wallish || next.is == wall {
			return f.thatWall(i)
		}
	case row:
		f.rowOf(i)
	case evenly:
		f.cur.Even = true
	case start:
		f.cur.starts = true
	case along:
		f.cur.Steps = append(f.cur.Steps, Step{Along: it.text})
	case one:
		f.cur.Shares = true
	case other:
		if lex.Shape(it.low) { // a name, which a rule reads
			return false
		}
		if lex.Ordinal[it.low] > 1 && next.is == row {
			return true
		}
		if topic.Heading[it.low] && next.is == wall { // "going east"
			return true
		}
		if it.low == "same" { // "the other 10 off west, same distance"
			n := len(f.cur.Dists)
			if !repeats[next.low] || n < 3 {
				return false
			}
			l.use(j)
			f.cur.Dists = append(f.cur.Dists, f.cur.Dists[n-2])
			return true
		}
		if it.low == "pair" || it.low == "couple" || it.low == "twin" {
			f.count = 2
			return true
		}
		if k := i + 1; len(it.low) > 1 && (l.at(k).is == kind || l.at(k).is == other && l.at(k+1).is == kind) { // "tv box"
			f.label, f.called, f.Doubt = strings.TrimSpace(f.label+" "+it.low), true, true
			return true
		}
		l.Strays = append(l.Strays, it.low)
	}
	return true
}

// repeats are words for a distance that was said before.
var repeats = lex.Set("distance", "measurement", "number", "dim")

// kind begins what is said of a kind of thing, or goes on with it.
func (f *frame) kind(i int) {
	l := f.line
	it := l.items[i]
	l.use(i)
	if l.at(l.next(i)).is == kind && l.next(i) == i+1 && !it.plural { // "fan box" is a box
		f.label, f.called = strings.TrimSpace(f.label+" "+it.low), true
		return
	}
	if f.cur.What != "" && f.cur.What != it.text || f.cur.What == it.text && f.wide+f.label+f.number3 != "" && !f.cur.Split {
		if f.cur.Split && f.cur.Dists == nil && f.cur.Ups == nil {
			f.cur.Split = false
		} else {
			next := &Clause{Shares: f.Shares}
			if first := f.Clauses[0]; first == f.led {
				next.On, next.Shares = first.On, true
			}
			f.Clauses = append(f.Clauses, next)
			f.cur = next
		}
		f.cur.Label, f.cur.Wide, f.cur.High, f.cur.Plural, f.cur.Count = "", "", "", false, 0
	}
	if f.cur.What == "" && f.cur == f.Clauses[0] && (f.cur.On != "" || f.cur.Dists != nil) {
		f.led, f.Led = f.cur, true
	}
	c := f.cur
	c.What, c.Plural = it.text, c.Plural || it.plural
	if f.wide != "" {
		c.Wide, c.High = f.wide, f.high
	}
	if f.count > 0 {
		c.Count = f.count
	}
	switch {
	case f.label != "" && f.framed():
		l.Strays = append(l.Strays, f.label)
	case f.label != "":
		c.Label, c.Called, f.called = f.label, f.called, false
	}
	if f.number3 != "" {
		c.Number = f.number3
	}
	f.wide, f.high, f.count, f.label, f.number3 = "", "", 0, "", ""
}

// wall is the wall that something is in, unless a number took it.
func (f *frame) wall(i int) bool {
	l := f.line
	w := l.items[i].text
	l.use(i)
	f.past(i)
	switch h := l.at(l.prev(i)); {
	case h.is == off:
		return false // off it, by no number
	case topic.Heading[h.low]:
		f.cur.Toward = w
		return true
	}
	c := f.cur
	switch {
	case c.On == "" || c.On == w:
		c.On = w
	case c.On == "ceiling":
		return false
	default: // another wall, with more of the same
		c.Parts = true
		next := &Clause{What: c.What, Parts: true, Wide: c.Wide, High: c.High, Label: c.Label, On: w, Split: true, Shares: true}
		f.Clauses = append(f.Clauses, next)
		f.cur = next
	}
	return true
}

// thatWall is the wall that something was noted in last.
func (f *frame) thatWall(i int) bool {
	if f.cur.On != "" {
		return false
	}
	f.line.use(i, f.line.next(i))
	f.cur.On = string(f.Last.Wall) // it is asked for if there is none
	return true
}

// middle is the middle of a wall, of the room, or of what no distance gives.
func (f *frame) middle(i int) bool {
	l := f.line
	h := l.at(l.prev(i))
	if h.is == toward { // a distance to its centre
		return !f.framed()
	}
	k := l.next(i)
	if it := l.at(i).low; l.at(k).is == number && h.is != on && it != "centred" && it != "centered" && it != "halfway" { // "center 4'3 from the west"
		return !f.framed()
	}
	for l.at(k).is == of || l.at(k).is == on || l.at(k).is == row || l.at(k).is == mid || l.at(k).is == wallish || l.at(k).is == way || l.at(k).is == every && l.at(l.next(k)).is == way ||
		(l.at(k).is == end || l.at(k).is == side || l.at(k).is == toward) && (l.at(l.next(k)).is == toward || l.at(l.prev(k)).is == toward || l.at(l.next(k)).is == side || l.at(l.next(k)).is == end) { // "side to side"
		l.use(k)
		k = l.next(k)
	}
	switch to := l.at(k); {
	case to.is == pronoun && (l.at(l.next(k)).is == wallish || l.at(l.next(k)).is == wall):
		if !f.thatWall(k) {
			return false
		}
	case to.is == near && upright[to.low]: // "centred over the table": a landmark
		return !f.framed()
	case to.is == along:
		l.use(k)
		f.cur.Steps = append(f.cur.Steps, Step{Along: to.text})
	}
	f.cur.Mid = true
	return true
}

// between is "between the walls", "between the west and the east wall": along which axis, if said. Nothing else
// can be between.
func (f *frame) between(i int) (axis string, ok bool) {
	l := f.line
	a := l.next(i)
	for l.at(a).is == every || l.at(a).low == "two" {
		l.use(a)
		a = l.next(a)
	}
	if l.at(a).is == wallish || l.at(a).is == end {
		l.use(i, a)
		return "", true
	}
	n := l.next(f.past(a))
	if l.at(a).is != wall || l.at(n).is != wall || eastWest[l.at(a).text] != eastWest[l.at(n).text] || l.at(a).text == l.at(n).text {
		return "", false
	}
	l.use(i, a, n)
	f.past(n)
	return AxisOf(l.at(a).text), true
}

// everyOne is "each", "both", "all": of the corners, of the ends of a wall, of what is noted, or of the things.
func (f *frame) everyOne(i int) {
	l := f.line
	f.cur.Shares, f.Shares = true, true
	k := l.next(i)
	for l.at(k).is == of {
		k = l.next(k)
	}
	switch to := l.at(k); to.is {
	case way:
		f.cur.Square = len(f.cur.Steps) > 0
	case corner:
		f.cur.Corner = true
		l.use(k)
	case end:
		l.use(k)
		o := l.next(k)
		if t := l.next(o); l.at(o).is == of && (l.at(t).is == named || l.at(t).is == kind) {
			l.use(o, t)
			f.cur.Around, f.about = l.at(t).text, l.at(t).text
			return
		}
		f.cur.Ends = true
	}
}

// leftOf is "left of the window": a landmark.
func (f *frame) leftOf(i int) bool {
	l := f.line
	o := l.next(i)
	if l.at(o).is != of { // "right up there", but not the left corner
		switch refs := f.cur.Refs; l.at(o).is {
		case end:
			if len(refs) == 1 && !strings.Contains(refs[0].Far, " ") { // "6 off the window, right side"
				l.use(o)
				refs[0].Far += " " + l.at(i).low
				return true
			}
			return false
		case corner, wall, wallish, number:
			return false
		}
		return l.at(i).low == "right"
	}
	said, end := f.words(l.next(o))
	if said == "" {
		return false
	}
	l.use(o)
	f.name(i, end, said+" "+l.at(i).low)
	return true
}

// landmark is what something is near. Above or below what was just noted, it shares its place along the wall.
func (f *frame) landmark(i int) bool {
	l := f.line
	j := l.next(i)
	if l.at(j).is == toward { // "next to"
		l.use(j)
		j = l.next(j)
	}
	to := l.at(j)
	if l.at(l.prev(i)).is == number && !l.at(l.prev(i)).used || to.is == number && (l.at(i).low == "for" || l.at(i).low == "over") {
		return false
	}
	if l.at(i).low == "for" && to.is == kind && f.cur.What == "" && l.at(l.prev(i)).is == round { // "6 in hole for a duct"
		return true
	}
	mine := func(what string) bool {
		return slices.ContainsFunc(f.Clauses, func(c *Clause) bool { return c.What == what && c != f.cur })
	}
	if upright[l.at(i).low] && (to.is == pronoun || to.is == kind && mine(to.text) && l.at(j+1).is != kind) {
		l.use(j)
		f.cur.Above, f.cur.Shares = true, true
		return len(f.Clauses) > 1
	}
	said, end := f.words(j)
	if said == "" {
		l.Strays = append(l.Strays, l.at(i).low)
		return true
	}
	prep := l.at(i).low
	if prep == "next" {
		prep = "by"
	}
	f.name(i, end, prep+" "+said)
	return true
}

// words returns the words from i on that name a landmark, and where they end.
func (f *frame) words(i int) (said string, end int) {
	l := f.line
	var all []string
	k := i
	for ; k < len(l.items) && len(all) < 3; k++ {
		it := l.items[k]
		switch {
		case it.is == filler && (len(all) == 0 || it.low == "the"): // "a" begins what follows
			continue
		case it.is == other, it.is == kind, it.is == named, it.is == wallish && len(all) > 0, it.is == head && (len(all) > 0 || l.at(k+1).is == kind || l.at(k+1).is == other):
			all = append(all, it.low)
			continue
		}
		break
	}
	return strings.Join(all, " "), k
}

var articles = lex.Set("the", "a", "an")

// name makes the words from i to end a label.
func (f *frame) name(i, end int, said string) {
	for k := i; k < end; k++ {
		f.line.use(k)
		if it := f.line.items[k]; it.is == kind || it.is == named {
			f.about = it.text
			f.cur.By = it.text
		}
	}
	switch {
	case f.cur.What == "" || f.line.at(end).is == kind:
		f.label = strings.TrimSpace(f.label + " " + said)
	case f.framed():
		f.line.Strays = append(f.line.Strays, said)
	case lex.ThingOf[f.cur.Label] != "": // "switch box by the door"
		f.cur.Label = said
	case f.cur.Label != "" && !f.cur.Called: // two landmarks
		f.mixed = true
	case len(strings.Fields(f.cur.Label+" "+said)) <= 4:
		f.cur.Label = strings.TrimSpace(f.cur.Label + " " + said)
	default:
		f.line.Strays = append(f.line.Strays, said)
	}
}

// rowOf is "row of 4 pots", "in a row".
func (f *frame) rowOf(i int) {
	l := f.line
	if h := l.at(l.prev(i)); h.is == start || lex.Ordinal[h.low] > 0 { // "first row 3 ft off north, second row ..."
		f.cur.starts = false
		return
	}
	f.cur.Rows = 1
	o := l.next(i)
	if k := l.next(o); l.at(o).is == of && l.at(k).is == number && l.at(k).n > 0 {
		l.use(o)
	}
}

// AxisOf is the axis along which distances off a wall are.
func AxisOf(w string) string {
	if eastWest[w] {
		return "ew"
	}
	return "ns"
}
