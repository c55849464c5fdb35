package boarding

import (
	"strconv"

	"strapline/grammar/lex"
)

// cuts takes what is cut out: "cut out the two pots", "both lights cut", "duct is open", "cut everything out".
func (l *line) cuts(h *hung) {
	verbs, things := 0, 0
	for _, w := range l.words {
		if w.is(cutOut) {
			verbs++
		}
		if w.is(thing) {
			things++
		}
	}
	if verbs == 0 {
		return
	}
	skip, from := false, 0
	for i := range l.words {
		w := &l.words[i]
		if w.is(sep) || i == 0 { // a part of the line that denies it denies it of all its things: "duct not"
			from = i
			skip = l.leaves(i + 1)
			h.uncut = h.uncut || skip
		}
		switch {
		case skip && i > from && (w.text == "not" || w.is(still) || w.text == "isn't" || w.text == "isnt" || w.text == "aint"):
			w.used = true
			continue
		case w.text == "not" || w.is(still) || w.is(but) && things > 0:
			w.used, skip, h.uncut = true, true, true
			continue
		case w.is(every) && things == 0 && (l.at(i-1).is(cutOut) || l.at(i+1).is(cutOut) || l.at(i+2).is(cutOut)):
			h.cut = append(h.cut, "all things")
			w.used = true
			continue
		case w.is(sep), !w.is(thing):
			if skip && (w.text == "buried" || w.text == "covered" || w.text == "left") {
				w.used = true
			}
			continue
		}
		w.used = true
		if skip {
			continue
		}
		name := w.value
		if prev := l.at(i - 1); w.many || w.n > 0 {
			name = "all "
			n := w.n
			if prev.is(count) && n == 0 {
				n = prev.n
				l.words[i-1].used = true
			}
			name += lex.Plural(w.value)
			if n > 0 {
				name += " x " + strconv.Itoa(n)
			}
			if names := l.namesBehind(i); len(names) > 0 { // "lights l1 l2"
				continue
			}
		}
		h.cut = append(h.cut, name)
	}
	if len(h.cut) == 0 {
		return
	}
	for i := range l.words {
		if w := &l.words[i]; w.is(cutOut) || w.is(every) && l.nearThing(i) {
			w.used = true
		}
	}
}

// leaves reports whether the part of the line from i on, up to the next separator, ends with a word that denies what
// it is about: "duct not", "l2 isnt".
func (l *line) leaves(i int) bool {
	for ; i < len(l.words) && !l.words[i].is(sep); i++ {
		next := l.at(i + 1)
		switch l.words[i].text {
		case "not", "isnt", "isn't", "aint", "ain't", "arent", "aren't":
			if next.text == "" || next.is(sep) || next.text == "yet" || next.is(cutOut) {
				return true
			}
		}
	}
	return false
}

// nearThing reports whether a thing follows within two words: "all the pots".
func (l *line) nearThing(i int) bool {
	return l.at(i+1).is(thing) || l.at(i+2).is(thing) || l.at(i+3).is(thing)
}

// namesBehind returns the names right behind a kind.
func (l *line) namesBehind(i int) (all []string) {
	for k := i + 1; l.at(k).is(thing) && !l.at(k).many && lex.ThingOf[l.at(k).value] == ""; k++ {
		all = append(all, l.at(k).value)
	}
	return all
}
