package boarding

import (
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
)

// cuts takes what is cut out: "cut out the two pots", "both lights cut", "duct is open", "all cut". A part of
// the line that denies it denies it of all its things: "duct not".
func (l *line) cuts(h *hung) {
	if !l.any(cutOut) {
		return
	}
	from, denied := 0, false
	take := func(to int) {
		things, all := 0, len(h.cut)
		for i := from; i < to; i++ {
			w := &l.words[i]
			switch {
			case w.is(thing) && (hides[l.at(i-1).text] || hides[l.at(i-2).text]): // "up over the duct"
			case w.is(thing):
				things++
				if w.used = true; !denied && len(l.namesBehind(i)) == 0 { // "lights l1 l2"
					h.cut = append(h.cut, l.named(i))
				}
			case denied && (w.text == "not" || isnt[w.text] || w.is(still|cutOut) || buried[w.text]):
				w.used = true
			}
		}
		if things == 0 && !denied && l.part(cutOut, from, to) {
			l.every(h, from, to)
		}
		if len(h.cut) > all && !denied || things > 0 {
			for i := from; i < to; i++ {
				l.words[i].used = l.words[i].used || l.words[i].is(cutOut) || l.words[i].is(every) && l.at(i+1).is(thing|count|cutOut|small)
			}
		}
		denied = false
	}
	for i := 0; i <= len(l.words); i++ {
		switch w := l.at(i); {
		case i == len(l.words), w.is(sep), w.is(but) && l.part(thing, from, i):
			take(i)
			if from = i + 1; i < len(l.words) && !w.is(sep) { // "cut l1 but not l2"
				l.words[i].used, denied = true, true
			}
		case w.text == "not" || w.is(still) || isnt[w.text]:
			if l.part(thing, from, i) && l.part(cutOut, from, i) { // "cut l1 not l2"
				take(i)
				from = i
			}
			denied = true
		}
	}
}

var hides = lex.Set("over", "behind", "under", "around", "past", "above")

var isnt, buried = lex.Set("isnt", "isn't", "aint", "ain't", "arent", "aren't"), lex.Set("buried", "covered", "left")

// every takes all things, if a part of the line has a word for that beside the one for the cut.
func (l *line) every(h *hung, from, to int) {
	for i := from; i < to; i++ {
		n, said := l.at(i+1), "all things"
		if !l.words[i].is(every) || !(l.at(i-1).is(cutOut) || n.is(cutOut) || l.at(i+2).is(cutOut)) {
			continue
		}
		if n.is(count) && n.n > 0 {
			said += " x " + strconv.Itoa(n.n)
			l.words[i+1].used = true
		}
		h.cut = append(h.cut, said)
		l.words[i].used = true
		return
	}
}

// named returns the thing at i as it is cut: by its name, or all of its kind.
func (l *line) named(i int) string {
	w := l.words[i]
	if !w.many && w.n == 0 {
		return w.value
	}
	name, n := "all "+lex.Plural(w.value), w.n
	if prev := l.at(i - 1); prev.is(count) && n == 0 {
		n = prev.n
		l.words[i-1].used = true
	}
	if n > 0 {
		name += " x " + strconv.Itoa(n)
	}
	return name
}

// namesBehind returns the names right behind a kind.
func (l *line) namesBehind(i int) (all []string) {
	for k := i + 1; l.at(k).is(thing) && !l.at(k).many && lex.ThingOf[l.at(k).value] == ""; k++ {
		all = append(all, l.at(k).value)
	}
	return all
}

// opened is what was cut out of board that is up already: "downlight cut, alarm wire pulled thru", "all 3 cut".
func (l *line) opened(h *hung) []string {
	if l.any(row|on|long|isUp|done|noun|but|used|short|last) || !slices.ContainsFunc(l.words, func(w word) bool {
		return w.is(cutOut) && !strings.HasPrefix("opened up through", w.text) && w.text != "out" && w.text != "thru"
	}) {
		return nil // "lights out"
	}
	l.cuts(h)
	if len(h.cut) == 0 || l.numbers() || l.denies() || l.any(stuff) || l.lost() > 0 {
		return nil
	}
	l.doubt = true // it may be another cut
	return []string{"open " + strings.Join(h.cut, ", ")}
}
