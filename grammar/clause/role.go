package clause

import (
	"regexp"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/places"
	"strapline/grammar/topic"
)

func (l *line) at(i int) item {
	if i < 0 || i >= len(l.items) {
		return item{}
	}
	return l.items[i]
}

// next returns the index of the first item after i that is no filler.
func (l *line) next(i int) int {
	for i++; i < len(l.items) && l.items[i].is == filler; i++ {
	}
	return i
}

func (l *line) prev(i int) int {
	for i--; i >= 0 && l.items[i].is == filler; i-- {
	}
	return i
}

// use marks items as having a part.
func (l *line) use(all ...int) {
	for _, i := range all {
		if i >= 0 && i < len(l.items) {
			l.items[i].used = true
		}
	}
}

// number gives the number at i its role. ok is false if it has none.
func (f *frame) number(i int) (ok bool) {
	l := f.line
	if l.items[i].used {
		return true
	}
	if l.at(i-1).is == about { // which is asked about
		l.items[i].text = l.at(i-1).low + " " + l.items[i].text
	}
	if it := &l.items[i]; it.n > 0 && !it.spelt && l.metric != "" && (l.at(l.next(i)).is == off || l.at(l.next(i)).is == up) { // 45 beside "60 cm", 950 beside 1.2 m
		if l.metric != "m" {
			it.text += " " + l.metric
		} else if it.n > 99 {
			it.text += " mm"
		}
	}
	n := l.items[i]
	j, h := l.next(i), l.prev(i)
	if k := l.next(j); l.at(j).is == toward && l.at(k).is == side {
		j = k
	}
	to, before := l.at(j), l.at(h)
	l.use(i)
	switch {
	case f.runsOn(i), topic.Numbered[before.low], before.is == near && (before.low == "for" || before.low == "over") && h == i-1, l.at(i+1).is == filler && articles[l.at(i+1).low] && to.is == off:
		return false // a word misheard
	case before.is == kind && (to.is == gang || to.is == kind && strings.HasPrefix(to.low, "gang")): // "box 3 gang 26": 3 1/2?
		return false
	case to.joins && to.is == other && !to.used: // 16s
		return false
	case to.is == by && l.at(l.next(j)).is == number || to.is == by && l.at(l.next(j)).is == kind:
		return f.pair(i, j)
	case before.is == numbering && n.n > 0 && n.n < 100:
		l.use(h)
		if l.at(l.prev(h)).is == kind {
			f.cur.Number = n.text
		} else {
			f.number3 = n.text
		}
		return true
	case to.is == evenly && l.at(l.next(j)).is == row && n.n > 0: // "two even rows"
		l.use(j)
		f.cur.Even = true
		f.rowsOf(i, l.next(j))
		return true
	case to.is == row && n.n > 0:
		f.rowsOf(i, j)
		return true
	case to.is == gang || to.is == kind && strings.HasPrefix(to.low, "gang"):
		if k := l.next(j); to.is == gang && l.at(k).is != kind && l.at(l.next(k)).is != kind { // it is one
			l.items[j] = item{is: kind, text: "box", low: "gang"}
		} else if to.is == gang {
			l.use(j)
		}
		f.label = gangs[n.n] + " gang"
		return gangs[n.n] != ""
	case to.is == apart, before.is == apart && to.is != off, before.low == "every" && to.is != up && to.is != off && !f.listed(j):
		l.use(j, h)
		f.cur.Steps = append(f.cur.Steps, f.step(n.text, i, j))
		return true
	case f.gridded && n.n > 0 && n.n < 13 && to.low == "across" && f.cur.Per == 0: // "3 across 2 down"
		l.use(j)
		f.cur.Per = n.n
		return true
	case f.gridded && n.n > 0 && n.n < 13 && to.is == down && f.cur.Per > 0 && f.cur.Rows == 0:
		l.use(j)
		f.cur.Rows = n.n
		f.cur.Steps = append(f.cur.Steps, Step{Along: "ew"})
		return true
	case to.is == one && to.low == "other" && len(f.cur.Steps) == 1: // "5 foot apart one way and 4 the other"
		l.use(j)
		if far := f.cur.Steps[0].Far; n.n > 0 && inFeet.MatchString(far) {
			n.text += " foot"
		}
		f.cur.Steps = append(f.cur.Steps, Step{Far: n.text})
		return true
	case to.is == up && (to.low == "up" || !f.framed() && !(f.cur.broad && f.cur.High == "")), to.is == off && l.at(l.next(j)).is == floor:
		l.use(j)
		if to.is == off {
			l.use(l.next(j))
		}
		f.up(i, n.text+" up")
		return true
	case to.is == tag && floors[to.text], to.is == off && floors[l.at(l.next(j)).text]:
		l.use(j)
		if to.is == off {
			l.use(l.next(j))
			to = l.at(l.next(j))
		}
		f.up(i, n.text+" up off "+to.text)
		l.Doubt = l.Doubt || f.framed() // they are read back without it
		return true
	case to.is == up && to.low != "up" && f.cur.High == "" && (f.framed() || f.cur.broad), to.is == deep && f.cur.Wide != "" && f.cur.High == "":
		l.use(j)
		f.cur.High = n.text
		return true
	case to.is == wide && f.cur.Wide == "":
		l.use(j)
		f.cur.Wide, f.cur.broad = n.text, true
		return true
	case before.is == sill, to.is == sill, before.is == on && l.at(l.prev(h)).is == sill:
		if to.is == sill {
			l.use(j)
		}
		f.up(i, n.text+" up")
		return true
	case to.is == down, to.is == off && l.at(l.next(j)).is == ceiling:
		l.use(j, l.next(j))
		f.up(i, n.text+" down")
		return true
	case f.cur.What != "" && f.cur.Wide == "" && n.n == 0 && places.SizeSaid.MatchString(n.text) && (before.is == and || before.is == of) && (to.is == and || j >= len(l.items)) && !f.listed(j): // ", 6 inch,"
		f.cur.Wide = n.text
		return true
	case before.is == kind && f.cur.Wide == "" && places.SizeSaid.MatchString(n.text):
		f.cur.Wide = n.text
		return true
	case to.is == round && f.wide == "":
		l.use(j)
		if f.cur.What == "" || l.at(l.next(j)).is == kind {
			f.wide = n.text
		} else if f.cur.Wide == "" {
			f.cur.Wide = n.text
		} else {
			return false
		}
		return true
	case to.is == corner && (before.is == every || n.spelt) && (n.n == 4 || n.n == 2): // "all four corners"
		f.cur.Corner = f.cur.Corner || n.n == 4
		return n.n == 4
	case to.is == wall && n.spelt: // "the two north corners"
		return false
	case to.is == kind && n.n > 0 && to.plural && f.count == 0:
		f.count = n.n
		return true
	case to.is == kind && f.wide == "" && !n.spelt || to.is == kind && n.n == 0:
		l.Doubt = l.Doubt || n.n > 0 // 4 of "4 box"
		f.wide = n.text
		return true
	case to.is == other && l.at(l.next(j)).is == kind && n.n > 1 && l.at(l.next(j)).plural && f.count == 0: // "two pot lights"
		f.count = n.n
		return true
	case n.n > 1 && to.is == of && l.at(l.next(j)).is == pronoun: // "2 of them"
		l.use(j, l.next(j))
		f.cur.Count = n.n
		return true
	case to.is == off:
		return f.off(i, j)
	case to.is == every, to.is == on && l.at(l.next(j)).is == every:
		return f.each(i, j)
	case to.is == side:
		return f.handed(i, j)
	case to.is == wall && l.at(l.next(j)).is == of && l.at(l.next(l.next(j))).is == named: // "18 south of d1"
		k := l.next(l.next(j))
		l.use(j, l.next(j), k)
		f.add(Dist{n.text + " " + to.text + " of " + l.at(k).text, to.text, n.text, false}, i)
		return true
	case to.is == wall && l.at(l.next(j)).is == of:
		return false // south of what nobody noted
	case to.is == wall && !(l.at(l.next(j)).is == number && f.heads(j)) && l.at(j+1).is != wallish:
		l.use(j)
		f.Bare = true
		f.add(Dist{n.text + " off " + to.text, to.text, n.text, false}, i)
		return true
	case (to.is == number || to.is == and && to.low != ":" && l.at(l.next(j)).is == number) && !n.spelt: // "30, 60 and 90 off west"
		f.pending = append(f.pending, i)
		l.use(j)
		if to.is == number {
			l.items[j].used, f.Close = false, true
		}
		return true
	case before.is == on && before.low != "in" && l.at(l.prev(h)).low == "other" && len(f.cur.Dists) > 0 && f.cur.Dists[len(f.cur.Dists)-1].Wall != "": // "one 3 ft off west, the other at 9 ft"
		d := f.cur.Dists[len(f.cur.Dists)-1]
		f.add(Dist{n.text + " off " + d.Wall, d.Wall, n.text, false}, i)
		return true
	case (before.is == on && before.low != "in" && before.low != "on" || before.is == every) && f.cur.On != "ceiling" && len(f.cur.Ups) == 0 && !(to.is == and && f.listed(j)):
		f.up(i, n.text+" up") // "all at 16"
		f.Loose = true
		return true
	case before.is == kind && n.n == 0 && f.cur.Wide == "":
		f.cur.Wide = n.text
		return true
	}
	return false
}

// floors are what a height may be off.
var floors = lex.Set("finished floor", "subfloor")

// runsOn reports whether the "one" before the number at i may be a part of it: "one 26", "one and six".
func (f *frame) runsOn(i int) bool {
	k := i - 1
	if f.at(k).is == and {
		k--
	}
	return f.at(k).low == "one" && f.at(k-1).is != start && (f.at(i).spelt || !f.Others)
}

// listed reports whether a number follows the comma at j, in a list.
func (f *frame) listed(j int) bool { return f.at(f.next(j)).is == number }

// gangs are boxes by how many devices they hold.
var gangs = map[int]string{1: "single", 2: "double", 3: "triple", 4: "quad"}

// pair is two lengths with an x between them: the size of what follows or precedes, or the rows of a grid.
func (f *frame) pair(i, j int) bool {
	l := f.line
	k := l.next(j)
	a, b := l.at(i), l.at(k)
	if b.is != number || b.used {
		return false
	}
	l.use(j, k)
	if a.n > 0 && a.n < 13 && b.n > 0 && b.n < 13 && f.gridded {
		f.cur.Rows, f.cur.Per = b.n, a.n // columns east-west by rows, as we read it
		return true
	}
	for _, at := range []int{l.next(k), l.next(l.next(k))} { // "4 x 14 heat reg"
		if l.at(at).is == kind && (at == l.next(k) || l.at(l.next(k)).is == other || l.at(l.next(k)).is == round) {
			f.wide, f.high = a.text, b.text
			return true
		}
	}
	if f.cur.Wide != "" {
		return false
	}
	f.cur.Wide, f.cur.High = a.text, b.text
	return true
}

// rowsOf is "2 rows of 3".
func (f *frame) rowsOf(i, j int) {
	l := f.line
	l.use(j)
	f.cur.Rows = l.at(i).n
	o := l.next(j)
	if k := l.next(o); l.at(o).is == of && l.at(k).is == number && l.at(k).n > 0 {
		l.use(o, k)
		f.cur.Per = l.at(k).n
	}
}

// step is a spacing, with the direction that follows it.
func (f *frame) step(far string, i, j int) Step {
	l := f.line
	for k := l.next(i); k < len(l.items) && k < i+5; k = l.next(k) {
		switch it := l.at(k); it.is {
		case along:
			l.use(k)
			return Step{far, it.text}
		case number, kind, off:
			return Step{Far: far}
		}
	}
	return Step{Far: far}
}

// up notes a height, and those that wait for one.
func (f *frame) up(i int, text string) {
	how := strings.TrimPrefix(text, f.line.at(i).text)
	for _, far := range f.waiting(i) {
		f.cur.Ups = append(f.cur.Ups, far+how)
	}
	f.cur.UpHead = f.cur.UpHead || len(f.cur.Dists) == 0
	f.cur.Ups = append(f.cur.Ups, text+f.tags(i))
}

// tags are the words that say what a distance is to, right behind what it is off.
func (f *frame) tags(i int) (all string) {
	l := f.line
	if l.toEdge {
		all = " to edge"
	}
	for k := l.next(i); k < len(l.items); k = l.next(k) {
		switch it := l.at(k); {
		case it.is == tag && !it.used:
			l.use(k)
			all += " " + it.text
		case !it.used || it.is == number:
			return all
		}
	}
	return all
}

// waiting returns the lengths of a list that the number at i ends, in its unit if they have none: "2 and 4 foot".
func (f *frame) waiting(i int) (all []string) {
	for _, k := range f.pending {
		all = append(all, f.like(k, i))
		f.mixed = f.mixed || len(f.pending) == 1 && f.line.next(k) == k+1 && f.at(k+1).is == number && f.at(k).n > 0 && f.at(i).n > 0 // "12 40 off north"
	}
	f.pending = nil
	return all
}

// like is the length at k in the feet of the one at i, if it has no unit.
func (f *frame) like(k, i int) string {
	one, unit := f.line.at(k), f.line.at(i)
	if m := inFeet.FindString(unit.text); m != "" && one.n > 0 {
		return one.text + " foot"
	} else if inFeet.MatchString(one.text) && unit.n > 0 {
		f.mixed = true // "2 foot and 4 off west": of what?
	}
	return one.text
}

var inFeet = regexp.MustCompile(`(?i)\d ?(?:'|’|′|ft|foot|feet)$`)

// add notes a distance, and those that wait for what it is off.
func (f *frame) add(d Dist, i int) {
	for _, far := range f.waiting(i) {
		text := far + strings.TrimPrefix(d.Text, d.Far)
		if f.toEdge {
			text += " to edge"
		}
		f.cur.Dists = append(f.cur.Dists, Dist{text, d.Wall, far, f.cur.starts})
	}
	d.Text += f.tags(i)
	d.Head = f.cur.starts
	f.cur.Dists = append(f.cur.Dists, d)
}
