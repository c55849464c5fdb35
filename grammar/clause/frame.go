package clause

import (
	"slices"
	"strings"

	"strapline/calc/place"
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
	total          int     // how many there are, if some are told apart from others
	apart          bool    // it is said of one part before its place
	parted         bool    // what follows is of others of them
	from           edge    // where an extent begins whose end is not said yet
}

func (f *frame) framed() bool {
	return f.cur.What == "door" || f.cur.What == "window" || f.cur.What == "skylight"
}

// item gives the item at i its part.
func (f *frame) item(i int) bool {
	l := f.line
	it := l.Items[i]
	if it.Used {
		return true
	}
	j := l.Next(i)
	next := l.At(j)
	switch it.Is {
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
	case floor, tag, named:
		return false
	case mid:
		return f.middle(i)
	case every:
		f.everyOne(i)
	case corner:
		f.cur.Corner = strings.HasSuffix(it.Low, "s") || f.cur.Corner
		if next.Is == of {
			l.Use(j)
		}
	case side:
		return f.leftOf(i)
	case head: // "top of the stairs"
		if next.Is == on {
			next, j = l.At(l.Next(j)), l.Next(j)
		}
		if next.Is == number && (it.Low == "top" || it.Low == "bottom") { // "bottom at 76, top at 84"
			l.Use(j, l.Next(j))
			return f.reaches(edge{far: next.Text, up: true})
		}
		if k := l.Next(j); next.Is != of || l.At(k).Is == pronoun || l.At(k).Is == kind && l.At(k).Text == f.cur.What { // a part of the thing
			return false
		}
		said, end := f.words(l.Next(j))
		l.Use(j)
		f.name(i, end, said+" "+it.Low)
	case near:
		if it.Low == "between" {
			axis, ok := f.between(i)
			if f.cur.Steps = append(f.cur.Steps, Step{Along: axis}); axis == "" {
				f.cur.Steps = f.cur.Steps[:len(f.cur.Steps)-1]
			}
			return ok
		}
		return f.landmark(i)
	case toward:
		if next.Is == number {
			return f.fromHere(i)
		}
		if next.Is != mid && next.Is != side {
			return false
		}
	case full:
		f.cur.Full = true
	case up, of, down, gang, wide, deep, by, off:
		switch before := l.At(i - 1).Is; {
		case it.Is == up && next.Is == on, it.Is == down && next.Is == mid, // "up in the lid"
			it.Is == off && next.Is == number, it.Is == of && before == full, next.Is == full, next.Low == "whole", next.Low == "entire": // "from 30 to 60", "across the whole wall"
			return true
		}
		l.Strays = append(l.Strays, it.Low)
	case on:
		if j >= len(l.Items) {
			return false
		}
		if l.At(i+1).Low == "square" || l.At(i+2).Low == "square" { // four in a square
			f.cur.Square = true
		} else if said, end := f.words(j); said != "" && next.Is == other && next.Low != "whole" && next.Low != "entire" {
			f.name(j-1, end, it.Low+" "+said)
		}
	case pronoun:
		if next.Is == wallish || next.Is == wall {
			return f.thatWall(i)
		}
	case row:
		f.rowOf(i)
	case evenly:
		f.cur.Even = true
	case start:
		f.cur.starts = true
	case along:
		f.cur.Steps = append(f.cur.Steps, Step{Along: it.Text})
	case one:
		f.cur.Shares = true
	case other:
		if lex.Shape(it.Low) { // a name, which a rule reads
			return false
		}
		if lex.Ordinal[it.Low] > 1 && (next.Is == row || next.Is == number) || it.Low == "next" && next.Is == number {
			return true
		}
		if topic.Heading[it.Low] && next.Is == wall { // "going east"
			return true
		}
		if it.Low == "same" {
			return f.same(j)
		}
		if (it.Low == "whole" || it.Low == "entire") && (next.Is == wall || next.Is == wallish) {
			f.cur.Full = true
			return true
		}
		if it.Low == "pair" || it.Low == "couple" || it.Low == "twin" {
			f.count = 2
			return true
		}
		if k := i + 1; len(it.Low) > 1 && (l.At(k).Is == kind || l.At(k).Is == other && l.At(k+1).Is == kind) { // "tv box"
			f.label, f.called, f.Doubt = strings.TrimSpace(f.label+" "+it.Low), true, true
			return true
		}
		l.Strays = append(l.Strays, it.Low)
	}
	return true
}

// kind begins what is said of a kind of thing, or goes on with it.
func (f *frame) kind(i int) {
	l := f.line
	it := l.Items[i]
	l.Use(i)
	if k := l.Next(i + 1); it.Text == "door" && l.At(i+1).Is == other && l.At(k).Is == kind { // "garage door motor outlet"
		f.label = strings.TrimSpace(f.label + " door " + l.At(i+1).Low)
		l.Use(i + 1)
		return
	}
	if it.Text == "box" && it.Plural && f.cur.Count > 1 { // of those lights
		return
	}
	if l.At(l.Next(i)).Is == kind && l.Next(i) == i+1 && !it.Plural { // "fan box" is a box
		f.label, f.called = strings.TrimSpace(f.label+" "+it.Low), true
		return
	}
	if f.cur.What != "" && f.cur.What != it.Text || f.cur.What == it.Text && f.wide+f.label+f.number3 != "" && !f.cur.Split {
		next := &Clause{Shares: f.Shares}
		if first := f.Clauses[0]; first == f.led {
			next.On, next.Shares = first.On, true
		}
		f.Clauses = append(f.Clauses, next)
		f.cur = next
		f.cur.Label, f.cur.Wide, f.cur.High, f.cur.Plural, f.cur.Count = "", "", "", false, 0
	}
	if f.cur.What == "" && f.cur == f.Clauses[0] && (f.cur.On != "" || f.cur.Dists != nil) {
		f.led, f.Led = f.cur, true
	}
	c := f.cur
	c.What, c.Plural = it.Text, c.Plural || it.Plural
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
	w := l.Items[i].Text
	l.Use(i)
	if refs := f.cur.Refs; l.At(l.Next(i)).Is == end && len(refs) > 0 && !strings.Contains(refs[len(refs)-1].Far, w) && l.At(l.Prev(i)).Is == on { // "6 off the door, on the west side"
		l.Use(l.Next(i))
		refs[len(refs)-1].Far += " " + w
		return true
	}
	f.past(i)
	if topic.Heading[l.At(l.Prev(i)).Low] {
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
	f.line.Use(i, f.line.Next(i))
	f.cur.On = string(f.Last.Wall) // it is asked for if there is none
	return true
}

// middle is the middle of a wall, of the room, or of what no distance gives.
func (f *frame) middle(i int) bool {
	l := f.line
	h := l.At(l.Prev(i))
	if h.Is == toward { // a distance to its centre
		return !f.framed()
	}
	k := l.Next(i)
	if it := l.At(i).Low; l.At(k).Is == number && h.Is != on && it != "centred" && it != "centered" && it != "halfway" { // "center 4'3 from the west"
		return !f.framed()
	}
	for l.At(k).Is == of || l.At(k).Is == on || l.At(k).Is == row || l.At(k).Is == mid || l.At(k).Is == wallish || l.At(k).Is == way || l.At(k).Is == every && l.At(l.Next(k)).Is == way ||
		(l.At(k).Is == end || l.At(k).Is == side || l.At(k).Is == toward) && (l.At(l.Next(k)).Is == toward || l.At(l.Prev(k)).Is == toward || l.At(l.Next(k)).Is == side || l.At(l.Next(k)).Is == end) { // "side to side"
		l.Use(k)
		k = l.Next(k)
	}
	switch to := l.At(k); {
	case to.Is == near && upright[to.Low]: // "centred over the table": a landmark
		return !f.framed()
	case k < len(l.Items) && to.Is == other && !topic.RoomNoun[to.Low] && l.At(k-1).Is != number && k > l.Next(i): // "centred on the sink"
		said, end := f.words(k)
		if f.At(end).Is == ceiling { // of another ceiling
			return false
		}
		f.name(k, end, "by "+said)
		f.Doubt = true
		return !f.framed()
	case to.Is == along:
		l.Use(k)
		f.cur.Steps = append(f.cur.Steps, Step{Along: to.Text})
	}
	f.cur.Mid = true
	return true
}

// between is "between the walls", "between the west and the east wall": along which axis, if said. Nothing else
// can be between.
func (f *frame) between(i int) (axis string, ok bool) {
	l := f.line
	a := l.Next(i)
	for l.At(a).Is == every || l.At(a).Low == "two" {
		l.Use(a)
		a = l.Next(a)
	}
	n := l.Next(f.past(a))
	if l.At(a).Is != wall || l.At(n).Is != wall {
		return "", l.At(a).Is != number && f.landmark(i)
	}
	if AxisOf(l.At(a).Text) != AxisOf(l.At(n).Text) || l.At(a).Text == l.At(n).Text {
		return "", false
	}
	l.Use(i, a, n)
	f.past(n)
	return AxisOf(l.At(a).Text), true
}

// everyOne is "each", "both", "all": of the corners, of the ends of a wall, of what is noted, or of the things.
func (f *frame) everyOne(i int) {
	l := f.line
	f.cur.Shares, f.Shares = true, true
	k := l.Next(i)
	for l.At(k).Is == of {
		k = l.Next(k)
	}
	switch to := l.At(k); to.Is {
	case way:
		f.cur.Square = len(f.cur.Steps) > 0
	case corner:
		f.cur.Corner = true
		l.Use(k)
	case end:
		l.Use(k)
		o := l.Next(k)
		if t := l.Next(o); l.At(o).Is == of && (l.At(t).Is == named || l.At(t).Is == kind) {
			l.Use(o, t)
			f.cur.Around, f.about = l.At(t).Text, l.At(t).Text
			return
		}
		f.cur.Ends = true
	}
}

// leftOf is "left of the window": a landmark.
func (f *frame) leftOf(i int) bool {
	l := f.line
	o := l.Next(i)
	if l.At(o).Is != of { // "right up there", but not the left corner
		switch refs := f.cur.Refs; l.At(o).Is {
		case end:
			if len(refs) == 1 && !strings.Contains(refs[0].Far, " ") { // "6 off the window, right side"
				l.Use(o)
				refs[0].Far += " " + l.At(i).Low
				return true
			}
			return false
		case corner, wall, wallish, number:
			return false
		}
		return l.At(i).Low == "right"
	}
	said, end := f.words(l.Next(o))
	if said == "" {
		return false
	}
	l.Use(o)
	f.name(i, end, said+" "+l.At(i).Low)
	return true
}

// landmark is what something is near. Above or below what was just noted, it shares its place along the wall.
func (f *frame) landmark(i int) bool {
	l := f.line
	j := l.Next(i)
	to := l.At(j)
	if l.At(i).Low == "for" && (to.Is == number && to.N > 1 && to.N <= f.cur.Count || to.Is == one) { // "for two of them"
		return true
	}
	if l.At(l.Prev(i)).Is == number && !l.At(l.Prev(i)).Used || to.Is == number && (l.At(i).Low == "for" || l.At(i).Low == "over") {
		return false
	}
	if l.At(i).Low == "for" && to.Is == kind && f.cur.What == "" && l.At(l.Prev(i)).Is == round { // "6 in hole for a duct"
		return true
	}
	mine := func(what string) bool {
		return slices.ContainsFunc(f.Clauses, func(c *Clause) bool { return c.What == what && c != f.cur })
	}
	if upright[l.At(i).Low] && (to.Is == pronoun || to.Is == kind && mine(to.Text) && l.At(j+1).Is != kind) {
		l.Use(j)
		f.cur.Above, f.cur.Shares = true, true
		return len(f.Clauses) > 1
	}
	said, end := f.words(j)
	if said == "" {
		l.Strays = append(l.Strays, l.At(i).Low)
		return true
	}
	prep := l.At(i).Low
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
	for ; k < len(l.Items) && len(all) < 3; k++ {
		it := l.Items[k]
		switch {
		case it.Is == filler && (len(all) == 0 || it.Low == "the"): // "a" begins what follows
			continue
		case it.Is == other, it.Is == kind, it.Is == named, it.Is == wallish && len(all) > 0, it.Is == head && (len(all) > 0 || l.At(k+1).Is == kind || l.At(k+1).Is == other):
			all = append(all, it.Low)
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
		f.line.Use(k)
		if it := f.line.Items[k]; it.Is == kind || it.Is == named {
			f.about = it.Text
			f.cur.By = it.Text
		}
	}
	switch {
	case f.cur.What == "" || f.line.At(end).Is == kind:
		f.label = strings.TrimSpace(f.label + " " + said)
	case f.framed():
		f.line.Strays = append(f.line.Strays, said)
	case lex.ThingOf[f.cur.Label] != "": // "switch box by the door" is a switch
		f.cur.What, f.cur.Label = lex.ThingOf[f.cur.Label], said
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
	if h := l.At(l.Prev(i)); h.Is == start || lex.Ordinal[h.Low] > 0 { // "first row 3 ft off north, second row ..."
		f.cur.starts = false
		f.cur.Rows = max(f.cur.Rows, lex.Ordinal[h.Low])
		return
	}
	o := l.Next(i)
	if n := l.At(o); (n.Is == number || n.Is == one) && rowNumber(n) > 0 && (l.At(l.Next(o)).Is == number || l.At(l.Next(o)).Is == on && l.At(l.Next(l.Next(o))).Is == number) { // "row two is at 90"
		l.Use(o)
		l.Items[o].Low = lex.Ordinals[rowNumber(n)-1]
		f.cur.Rows, f.cur.starts = max(f.cur.Rows, rowNumber(n)), false
		return
	}
	f.cur.Rows = max(1, f.cur.Rows)
	if k := l.Next(o); l.At(o).Is == of && l.At(k).Is == number && l.At(k).N > 0 {
		l.Use(o)
	}
}

// rowNumber is which row is said by its number, 0 if it is none.
func rowNumber(it item) int {
	switch {
	case it.Is == one:
		return map[bool]int{true: 1}[it.Low == "one"]
	case it.N <= len(lex.Ordinals):
		return it.N
	}
	return 0
}

// AxisOf is the axis along which distances off a wall are.
func AxisOf(w string) string {
	if place.Wall(w).EastWest() {
		return "ew"
	}
	return "ns"
}

// upright reports whether a landmark puts a thing above or below another: they share their distance along
// the wall.
var upright = lex.Set("above", "over", "under", "underneath", "below", "beneath")
