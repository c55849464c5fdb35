package clause

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/places"
	"strapline/grammar/topic"
)

// number gives the number at i its role. ok is false if it has none.
func (f *frame) number(i int) (ok bool) {
	l := f.line
	if l.At(i-1).Is == about { // which is asked about
		l.Items[i].Text = l.At(i-1).Low + " " + l.Items[i].Text
	}
	if it := &l.Items[i]; it.N > 0 && !it.Spelt && l.Metric != "" && (l.At(l.Next(i)).Is == off || l.At(l.Next(i)).Is == up) { // 45 beside "60 cm", 950 beside 1.2 m
		if l.Metric != "m" {
			it.Text += " " + l.Metric
		} else if it.N > 99 {
			it.Text += " mm"
		}
	} else if l.Metric == "m" && strings.Trim(it.Text, "0123456789") == "." { // 1.2 beside 1 m
		it.Text += " m"
	}
	n := l.Items[i]
	j, h := l.Next(i), l.Prev(i)
	switch k := l.Next(j); {
	case l.At(j).Is == toward && l.At(k).Is == side:
		j = k
	case l.At(j).Is == toward && l.At(k).Is == wall && l.At(h).Is != off: // "62 to the south wall"
		l.Items[j].Is, f.Doubt = off, true
	}
	if m := l.Next(j); l.At(j).Is == toward && l.At(m).Is == mid && l.At(l.Next(m)).Is == off { // "30 to centre from the west wall"
		l.Use(j, m)
		j = l.Next(m)
	}
	to, before := l.At(j), l.At(h)
	l.Use(i)
	switch {
	case before.Is == by && n.N > 1 && l.At(l.Prev(h)).Is == kind && f.cur.Count == 0: // "pots x 3"
		f.cur.Count, f.cur.Plural = n.N, true
		return true
	case n.N > 1 && to.Is == number && l.At(l.Next(j)).Is == kind && l.At(l.Next(j)).Plural && f.count == 0 && places.SizeSaid.MatchString(to.Text): // `six 4" pots`
		f.count = n.N
		return true
	case n.N > 1 && (to.Is == of && l.At(l.Next(j)).Is == pronoun || before.Low == "other" && (to.Is == number || to.Is == and || to.Low == "same" || j >= len(l.Items))): // "2 of them", "the other two"
		return f.some(i, h, j)
	case to.Is == mid && middles[to.Low] && l.At(l.Next(j)).Is != of, to.Is == toward && l.At(l.Next(j)).Is == mid && l.At(l.Next(l.Next(j))).Is != of:
		if f.cur.On == "ceiling" || len(f.cur.Ups) > 0 || !boxes[f.cur.What] && f.cur.On == "" { // "42 to center"
			break
		}
		l.Use(j, l.Next(j))
		f.up(i, n.Text+" up")
		f.Doubt = true
		return true
	case f.runsOn(i), topic.Numbered[before.Low], before.Is == near && (before.Low == "for" || before.Low == "over") && h == i-1, l.At(i+1).Is == filler && articles[l.At(i+1).Low] && to.Is == off:
		return false // a word misheard
	case before.Is == kind && (to.Is == gang || to.Is == kind && strings.HasPrefix(to.Low, "gang")): // "box 3 gang 26": 3 1/2?
		return false
	case to.Joins && to.Is == other && !to.Used: // 16s
		return false
	case to.Is == toward && l.At(l.Next(j)).Is == number && f.from.far == "": // "34 to 42 up"
		l.Use(j)
		return f.reaches(edge{far: n.Text})
	case to.Is == by && l.At(l.Next(j)).Is == kind && l.At(l.Next(j)).Plural && n.N > 0 && f.count == 0: // "4x spots"
		l.Use(j)
		f.count = n.N
		return true
	case to.Is == by && l.At(l.Next(j)).Is == number || to.Is == by && l.At(l.Next(j)).Is == kind:
		return f.pair(i, j)
	case before.Low == ":" && l.At(l.Prev(h)).Plural && n.Spelt && f.cur.Count == 0, // "pots: four, 30 off each wall"
		before.Is == kind && n.N > 1 && (pieces[to.Low] || before.Plural && f.gridded && to.Is == and && f.cur.Count == 0): // "pots, six pieces"
		l.Use(j)
		f.cur.Count = n.N
		return true
	case to.Is == near && to.Low == "above" && l.At(l.Next(j)).Is == floor: // "26 above the floor"
		l.Use(j, l.Next(j))
		f.up(i, n.Text+" up")
		return true
	case before.Is == numbering && n.N > 0 && n.N < 100:
		l.Use(h)
		f.number3 = n.Text
		return true
	case to.Is == evenly && l.At(l.Next(j)).Is == row && n.N > 0: // "two even rows"
		l.Use(j)
		f.cur.Even = true
		f.rowsOf(i, l.Next(j))
		return true
	case to.Is == row && n.N > 0 && f.cur.Rows > 0 && articles[l.At(i+1).Low]: // "three a row"
		l.Use(j)
		f.cur.Per = n.N
		return true
	case to.Is == row && n.N > 0:
		f.rowsOf(i, j)
		return true
	case to.Is == gang || to.Is == kind && strings.HasPrefix(to.Low, "gang"):
		if k := l.Next(j); to.Is == gang && l.At(k).Is != kind && !(l.At(k).Is == other && l.At(l.Next(k)).Is == kind) { // it is one
			l.Items[j] = item{Is: kind, Text: "box", Low: "gang"}
		} else if to.Is == gang {
			l.Use(j)
		}
		f.label, f.called = gangs[n.N]+" gang", true
		return gangs[n.N] != ""
	case n.N > 0 && (to.Is == every && l.At(l.Next(j)).Is == row || to.Is == on && l.At(l.Next(j)).Is == every && l.At(l.Next(l.Next(j))).Is == and && f.cur.Plural): // "3 per row", "three in each,"
		l.Use(j, l.Next(j))
		f.cur.Per = n.N
		return true
	case to.Is == then && l.At(j+1).Is == every && l.At(j+2).Is == number && l.At(j+3).Is == off: // "30 then every 48 off the west wall"
		l.Use(j, j+1, j+2)
		f.cur.Steps = append(f.cur.Steps, Step{Far: l.At(j + 2).Text})
		f.cur.starts = true
		return f.off(i, j+3)
	case f.steps(i, h, j):
		if n := len(f.cur.Dists); n > 0 && (before.Is == then || l.At(l.Prev(h)).Is == then || to.Is == then) { // from there
			f.cur.Dists[n-1].Head = true
		}
		l.Use(j, h)
		f.cur.Steps = append(f.cur.Steps, f.step(n.Text, i, j))
		return true
	case f.again(i, h, j):
		return true
	case f.gridded && n.N > 0 && n.N < 13 && to.Low == "across" && f.cur.Per == 0: // "3 across 2 down"
		l.Use(j)
		f.cur.Per = n.N
		return true
	case f.gridded && n.N > 0 && n.N < 13 && to.Is == down && f.cur.Per > 0 && f.cur.Rows == 0:
		l.Use(j)
		f.cur.Rows = n.N
		f.cur.Steps = append(f.cur.Steps, Step{Along: "ew"})
		return true
	case to.Is == up && to.Low == "high" && f.cur.Full && len(f.cur.Ups) == 1 && f.cur.High == "": // it is 6 high
		l.Use(j)
		f.cur.High = n.Text
		return true
	case to.Is == up && (to.Low == "up" || !f.framed() && !(f.cur.broad && f.cur.High == "")), to.Is == off && l.At(l.Next(j)).Is == floor:
		l.Use(j)
		if to.Is == off {
			l.Use(l.Next(j))
		}
		f.up(i, n.Text+" up")
		return true
	case to.Is == tag && floors[to.Text], to.Is == off && floors[l.At(l.Next(j)).Text]:
		l.Use(j)
		if to.Is == off {
			l.Use(l.Next(j))
			to = l.At(l.Next(j))
		}
		f.up(i, n.Text+" up off "+to.Text)
		l.Doubt = l.Doubt || f.framed() // they are read back without it
		return true
	case to.Is == up && to.Low != "up" && f.cur.High == "" && (f.framed() || f.cur.broad), to.Is == deep && f.cur.Wide != "" && f.cur.High == "":
		l.Use(j)
		f.cur.High = n.Text
		return true
	case to.Is == wide && f.cur.Wide == "":
		l.Use(j)
		f.cur.Wide, f.cur.broad = n.Text, true
		return true
	case before.Is == sill, to.Is == sill, before.Is == on && l.At(l.Prev(h)).Is == sill:
		f.up(i, n.Text+" up")
		return true
	case to.Is == down, to.Is == off && l.At(l.Next(j)).Is == ceiling:
		l.Use(j, l.Next(j))
		f.up(i, n.Text+" down")
		return true
	case (f.from.up || f.from.off) && to.Is != off && to.Is != number: // "20 off north to 80 in"
		return f.reaches(edge{far: n.Text, up: f.from.up, off: f.from.off})
	case f.cur.What != "" && f.cur.Wide == "" && n.N == 0 && places.SizeSaid.MatchString(n.Text) && (before.Is == and || before.Is == of) && (to.Is == and || j >= len(l.Items)) && !f.listed(j): // ", 6 inch,"
		f.cur.Wide = n.Text
		return true
	case before.Is == kind && f.cur.Wide == "" && to.Is != off && places.SizeSaid.MatchString(n.Text):
		f.cur.Wide = n.Text
		return true
	case to.Is == round && f.wide == "":
		l.Use(j)
		if f.cur.What == "" || l.At(l.Next(j)).Is == kind {
			f.wide = n.Text
		} else if f.cur.Wide == "" {
			f.cur.Wide = n.Text
		} else {
			return false
		}
		return true
	case to.Is == wall && n.Spelt: // "the two north corners"
		return false
	case to.Is == kind && n.N > 0 && (to.Plural || f.gridded && n.N > 1 && n.N < 41) && f.count == 0: // "8 downlight, 2 rows of 4"
		f.count = n.N
		return true
	case to.Is == kind && f.wide == "" && !n.Spelt || to.Is == kind && n.N == 0:
		l.Doubt = l.Doubt || n.N > 0 // 4 of "4 box"
		f.wide = n.Text
		return true
	case to.Is == other && l.At(l.Next(j)).Is == kind && n.N > 1 && l.At(l.Next(j)).Plural && f.count == 0: // "two pot lights"
		f.count = n.N
		return true
	case to.Is == off:
		return f.off(i, j)
	case to.Is == every, to.Is == on && l.At(l.Next(j)).Is == every:
		return f.each(i, j)
	case to.Is == side:
		return f.handed(i, j)
	case to.Is == wall && l.At(l.Next(j)).Is == of && l.At(l.Next(l.Next(j))).Is == named: // "18 south of d1"
		k := l.Next(l.Next(j))
		l.Use(j, l.Next(j), k)
		f.add(Dist{n.Text + " " + to.Text + " of " + l.At(k).Text, to.Text, n.Text, false}, i)
		return true
	case to.Is == wall && l.At(l.Next(j)).Is == of && l.At(l.Next(l.Next(j))).Is == kind: // "6 west of the door"
		k := l.Next(l.Next(j))
		l.Use(j, l.Next(j), k)
		f.cur.Refs = append(f.cur.Refs, Ref{n.Text + " " + to.Text, l.At(k).Text})
		return true
	case to.Is == wall && l.At(l.Next(j)).Is == of:
		return false // south of what nobody noted
	case to.Is == wall && !(l.At(l.Next(j)).Is == number && f.heads(j)) && l.At(j+1).Is != wallish:
		l.Use(j)
		f.Bare = true
		f.add(Dist{n.Text + " off " + to.Text, to.Text, n.Text, false}, i)
		return true
	case to.Is == and && f.oneOf(h) && f.oneOf(l.Next(j)) && len(f.cur.Ups) == 0: // "one at 3 foot and the other at 9 foot off west"
		f.pending = append(f.pending, i)
		l.Use(j)
		return true
	case (to.Is == number || to.Is == and && to.Low != ":" && l.At(l.Next(j)).Is == number) && !n.Spelt: // "30, 60 and 90 off west"
		f.pending = append(f.pending, i)
		l.Use(j)
		if to.Is == number {
			l.Items[j].Used, f.Close = false, true
		}
		return true
	case (before.Is == on && before.Low != "in" && before.Low != "on" || before.Is == every) && f.cur.On != "ceiling" && len(f.cur.Ups) == 0 && !(to.Is == and && f.listed(j)):
		f.up(i, n.Text+" up") // "all at 16"
		f.Loose = true
		return true
	case before.Is == kind && n.N == 0 && f.cur.Wide == "":
		f.cur.Wide = n.Text
		return true
	}
	return false
}

// middles are words for the centre of a thing, to which its distances go anyway.
var middles = lex.Set("center", "centre", "ctr", "cntr")

// boxes are in a wall unless it is said otherwise.
var boxes = lex.Set("outlet", "switch", "thermostat", "low voltage")

// pieces are words behind a count of what was named before.
var pieces = lex.Set("pieces", "pcs", "pc", "units", "total", "altogether")

// steps reports whether the number at i is a spacing: "40 apart", "every 40", "then each 40", "40 after that". h and j
// are the items beside it.
func (f *frame) steps(i, h, j int) bool {
	to, before := f.At(j), f.At(h)
	behind := f.At(f.Next(j)).Is
	switch {
	case to.Is == apart:
		return true
	case to.Is == up, to.Is == toward, to.Is == off:
		return false
	case before.Is == apart:
		return true
	case before.Low == "every":
		return !f.listed(j)
	case len(f.cur.Dists) == 0:
		return false
	case before.Is == then, before.Is == every && f.At(f.Prev(h)).Is == then:
		return to.Is != wall && !f.listed(j)
	case to.Low == "between":
		return behind != wall && behind != wallish && behind != end
	}
	last := j >= len(f.Items) || to.Is == and
	return before.Low == "each" && last && f.At(f.Prev(h)).Is == and || to.Is == then && behind != number && behind != wall || to.Low == "each" && before.Is == and && (j+1 >= len(f.Items) || behind == and || behind == way)
}

// oneOf reports whether one of several stands at i, with or without a word for where it is, and a number off something behind it or before.
func (f *frame) oneOf(i int) bool {
	if f.At(i).Is == on {
		i = f.Prev(i)
	}
	return f.At(i).Is == one
}

// again takes the number at i for one off the same wall as the one before it: "first row 30 off north and the second
// 90", "one 3 ft off west, the other at 9 ft".
func (f *frame) again(i, h, j int) bool {
	if f.At(h).Is == on && f.At(h).Low != "in" || f.At(h).Is == row {
		h = f.Prev(h)
	}
	to := f.At(j).Is
	if w := f.At(h).Low; lex.Ordinal[w] < 2 && w != "next" && w != "other" || to == off || to == up || to == number || to == toward || len(f.cur.Dists) == 0 {
		return false
	}
	d := f.cur.Dists[len(f.cur.Dists)-1]
	if d.Wall == "" {
		return false
	}
	f.line.Use(h)
	f.add(Dist{f.line.At(i).Text + " off " + d.Wall, d.Wall, f.line.At(i).Text, false}, i)
	return true
}

// floors are what a height may be off.
var floors = lex.Set("finished floor", "subfloor")

// runsOn reports whether the "one" before the number at i may be a part of it: "one 26", "one and six".
func (f *frame) runsOn(i int) bool {
	k := i - 1
	if f.At(k).Is == and {
		k--
	}
	return f.At(k).Low == "one" && f.At(k-1).Is != start && (f.At(i).Spelt || !f.Others)
}

// listed reports whether a number follows the comma at j, in a list.
func (f *frame) listed(j int) bool { return f.At(f.Next(j)).Is == number }

// gangs are boxes by how many devices they hold.
var gangs = map[int]string{1: "single", 2: "double", 3: "triple", 4: "quad"}

// pair is two lengths with an x between them: the size of what follows or precedes, or the rows of a grid.
func (f *frame) pair(i, j int) bool {
	l := f.line
	k := l.Next(j)
	a, b := l.At(i), l.At(k)
	if b.Is != number || b.Used {
		return false
	}
	l.Use(j, k)
	if a.N > 0 && a.N < 13 && b.N > 0 && b.N < 13 && (f.gridded || f.cur.Count > 1 && f.cur.Count == a.N*b.N) {
		f.cur.Rows, f.cur.Per = b.N, a.N // columns east-west by rows, as we read it
		return true
	}
	for _, at := range []int{l.Next(k), l.Next(l.Next(k))} { // "4 x 14 heat reg"
		if l.At(at).Is == kind && (at == l.Next(k) || l.At(l.Next(k)).Is == other || l.At(l.Next(k)).Is == round) {
			f.wide, f.high = a.Text, b.Text
			return true
		}
	}
	if f.cur.Wide != "" {
		return false
	}
	f.cur.Wide, f.cur.High = a.Text, b.Text
	return true
}

// rowsOf is "2 rows of 3".
func (f *frame) rowsOf(i, j int) {
	l := f.line
	l.Use(j)
	f.cur.Rows = l.At(i).N
	o := l.Next(j)
	if k := l.Next(o); l.At(o).Is == of && l.At(k).Is == number && l.At(k).N > 0 {
		l.Use(o, k)
		f.cur.Per = l.At(k).N
	}
}

// step is a spacing, with the direction that follows it.
func (f *frame) step(far string, i, j int) Step {
	l := f.line
	for k := l.Next(i); k < len(l.Items) && k < i+5; k = l.Next(k) {
		switch it := l.At(k); it.Is {
		case along:
			l.Use(k)
			return Step{far, it.Text}
		case number, kind, off:
			return Step{Far: far}
		}
	}
	return Step{Far: far}
}

// up notes a height, and those that wait for one.
func (f *frame) up(i int, text string) {
	if far, ok := strings.CutSuffix(text, " up"); ok && f.from.far != "" {
		f.mixed = !f.reaches(edge{far: far, up: true}) || f.mixed
		return
	}
	how := strings.TrimPrefix(text, f.line.At(i).Text)
	for _, far := range f.waiting(i) {
		f.cur.Ups = append(f.cur.Ups, far+how)
	}
	f.cur.UpHead = f.cur.UpHead || len(f.cur.Dists) == 0
	f.cur.Ups = append(f.cur.Ups, text+f.tags(i))
}

// tags are the words that say what a distance is to, right behind what it is off.
func (f *frame) tags(i int) (all string) {
	l := f.line
	if l.ToEdge {
		all = " to edge"
	}
	for k := l.Next(i); k < len(l.Items); k = l.Next(k) {
		switch it := l.At(k); {
		case it.Is == tag && !it.Used:
			l.Use(k)
			all += " " + it.Text
		case !it.Used || it.Is == number:
			return all
		}
	}
	return all
}

// waiting returns the lengths of a list that the number at i ends, in its unit if they have none: "2 and 4 foot".
func (f *frame) waiting(i int) (all []string) {
	for _, k := range f.pending {
		all = append(all, f.like(k, i))
		f.mixed = f.mixed || len(f.pending) == 1 && f.line.Next(k) == k+1 && f.At(k+1).Is == number && f.At(k).N > 0 && f.At(i).N > 0 // "12 40 off north"
	}
	f.pending = nil
	return all
}

// like is the length at k in the feet of the one at i, if it has no unit.
func (f *frame) like(k, i int) string {
	one, unit := f.line.At(k), f.line.At(i)
	if m := inFeet.FindString(unit.Text); m != "" && one.N > 0 {
		return one.Text + " foot"
	} else if inFeet.MatchString(one.Text) && unit.N > 0 {
		f.mixed = true // "2 foot and 4 off west": of what?
	}
	return one.Text
}

var inFeet = regexp.MustCompile(`(?i)\d ?(?:'|’|′|ft|foot|feet)$`)

// add notes a distance, and those that wait for what it is off.
func (f *frame) add(d Dist, i int) {
	if f.total > 0 && f.At(f.Prev(i)).Low == "all" { // "two of them ..., the others ..., all 30 off north"
		for _, c := range f.Clauses {
			c.Dists = append(slices.Clip(c.Dists), d)
		}
		return
	}
	if f.parted {
		f.more()
	}
	if f.from.far != "" {
		f.mixed = !f.reaches(edge{d.Far, d.Wall, false, true}) || f.mixed
		return
	}
	for _, far := range f.waiting(i) {
		text := far + strings.TrimPrefix(d.Text, d.Far)
		if f.ToEdge {
			text += " to edge"
		}
		f.cur.Dists = append(f.cur.Dists, Dist{text, d.Wall, far, f.cur.starts})
	}
	d.Text += f.tags(i)
	d.Head = f.cur.starts
	f.cur.Dists = append(f.cur.Dists, d)
}
