package boarding

import (
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/said"
)

// fate is what a part of the line says of things that board may hide.
type fate int

const (
	unsaid fate = iota
	isCut
	isShut  // board is over it, and it is not cut
	isBare  // no board is over it yet
	denied  // what was said before is not so of it
	unclear // it is said both ways
)

// other is the fate of things of which is denied what was said of those before.
var other = map[fate]fate{isCut: isShut, isShut: isBare}

// cuts takes what is cut out and what board is over, part by part: "cut out the two pots", "both lights cut, duct
// not", "alarm and fan still covered". A part without a word for that goes with the one behind it if it begins a list,
// else with the one before.
func (l *line) cuts(h *hung) {
	if !l.Any(said.CutOut|said.Shut|said.Hole) && !l.Has("no") {
		return
	}
	type part struct {
		from, to int
		things   []int
		of       fate
	}
	var parts []part
	from := 0
	take := func(to int) {
		p := part{from: from, to: to, of: l.fateOf(from, to)}
		for i := from; i < to; i++ {
			if w := &l.Words[i]; w.Is(said.Thing) && (hides[l.At(i-1).Text] || hides[l.At(i-2).Text]) && l.Part(said.IsUp, from, i) { // "up over the duct"
				w.Used = true
			} else if w.Is(said.Thing) {
				p.things = append(p.things, i)
			}
		}
		if parts = append(parts, p); to < len(l.Words) && l.Words[to].Is(said.But) && !l.Words[to].Is(said.Sep) {
			l.Words[to].Used = true
		}
		from = to
	}
	for i, w := range l.Words {
		switch told := l.Part(said.Thing, from, i) && l.Part(said.CutOut|said.Shut, from, i); {
		case w.Is(said.Sep), w.Is(said.But) && l.Part(said.Thing, from, i), told && (w.Text == "not" || w.Text == "other" || isnt[w.Text]): // "cut l1 not l2"
			take(i)
		}
	}
	take(len(l.Words))
	last := unsaid // of what is denied what a later part denies
	for i := range parts {
		p := &parts[i]
		if p.of == unsaid && len(p.things) > 0 {
			for k := i + 1; k < len(parts) && p.of == unsaid && len(parts[k].things) > 0 && !l.Part(said.IsUp|said.Row, p.from, p.to); k++ {
				if first := parts[k].things[0]; !l.Part(said.CutOut|said.Shut, parts[k].from, first) { // "alarm and fan are covered"
					p.of = parts[k].of
				}
			}
		}
		if p.of == unsaid && len(p.things) > 0 && i+1 < len(parts) && len(parts[i+1].things) == 0 && parts[i+1].of == isShut { // "it is over the alarm, not cut yet"
			p.of = isShut
		}
		if first := append(p.things, len(l.Words))[0]; p.of == denied && last == unsaid && l.At(first-1).Text == "no" { // "no outlets in it"
			l.Words[first-1].Used = true
			l.namesOf(p.things)
			continue
		}
		switch {
		case p.of == denied:
			p.of = other[last]
		case i > 0 && p.of == unsaid && len(p.things) > 0 && !l.Part(said.Another|said.Later|said.Due|said.Last|said.Rest, p.from, p.to): // not "lights next"
			p.of = parts[i-1].of
		default:
			last = p.of
		}
		switch {
		case p.of == unclear, p.of == unsaid, p.of == denied && len(p.things) > 0:
			continue
		case len(p.things) == 0 && p.of == isCut:
			l.every(h, p.from, p.to)
			continue
		case len(p.things) == 0 && (i == 0 || parts[i-1].of == unsaid) && !l.Part(said.Hole|said.CutOut, p.from, p.to): // "row 1 is covered"
			continue
		}
		names := l.namesOf(p.things)
		switch p.of {
		case isCut:
			h.cut = append(h.cut, names...)
		case isShut:
			h.shut = append(h.shut, names...)
		}
		l.usedUp(p.from, p.to, p.of)
	}
}

// fateOf returns what the words from one place up to another say of the things among them.
func (l *line) fateOf(from, to int) fate {
	cut, shut, not, still := false, false, false, false
	for i := from; i < to; i++ {
		w := l.Words[i]
		not = not || denies[w.Text]
		still = still || w.Is(said.Still) && w.Text != "yet"
		shut = shut || w.Is(said.Shut) && !(l.Part(said.IsUp, from, i) && hides[w.Text])
		cut = cut || w.Is(said.CutOut|said.Hole)
	}
	shut = shut && (l.Part(said.Thing, from, to) || cut || not)
	switch {
	case cut && l.Part(said.But, from, to) && l.Part(said.Every, from, to): // "all cut but the fan"
		return unclear
	case cut && (not || still || shut && l.Part(said.Thing, from, to) && l.Has("uncut")):
		return isShut
	case cut && shut:
		return unclear
	case shut && not:
		return isBare
	case shut:
		return isShut
	case cut:
		return isCut
	case not || still:
		return denied
	}
	return unsaid
}

// denies are words by which a hole is not cut.
var denies = lex.Set("not", "no", "never", "nobody", "nothing", "none", "isnt", "isn't", "aint", "ain't", "arent", "aren't", "wasnt", "wasn't", "werent", "weren't", "havent", "haven't", "hasnt", "hasn't",
	"didnt", "didn't", "without")

// namesOf takes the things at those places, by their names.
func (l *line) namesOf(things []int) (names []string) {
	for _, i := range things {
		l.Words[i].Used = true
		if b := l.At(i - 1); b.Class == 0 && b.Text != "" && len(b.Text) > 2 && !b.Used { // "the middle light"
			l.Words[i-1].Used, l.Doubt = true, true
			if w := &l.Words[i]; l.Noted(b.Text) && !w.Many { // "opener box"
				w.Value = b.Text + " " + w.Value
			}
		}
		if len(l.namesBehind(i)) == 0 { // "lights l1 l2"
			names = append(names, l.named(i))
		}
	}
	return names
}

// usedUp marks the words that say what became of the things.
func (l *line) usedUp(from, to int, of fate) {
	for i := from; i < to; i++ {
		w := &l.Words[i]
		w.Used = w.Used || w.Is(said.CutOut|said.Hole|said.Shut) && (of == isCut || w.Is(said.Shut) || !w.Is(said.IsUp)) || w.Is(said.Every) && l.At(i+1).Is(said.Thing|said.Count|said.CutOut|said.Small) ||
			of != isCut && (denies[w.Text] || w.Is(said.Still|said.Them|said.Fits) && !w.Is(said.IsUp) || w.Is(said.Noun) && (hides[l.At(i-1).Text] || hides[l.At(i-2).Text] || hides[l.At(i+1).Text] || hides[l.At(i+2).Text]) || w.Text == "other" || w.Text == "them")
	}
}

var hides = lex.Set("over", "behind", "under", "around", "past", "above")

var isnt = lex.Set("isnt", "isn't", "aint", "ain't", "arent", "aren't")

// every takes all things, if a part of the line has a word for that beside the one for the cut.
func (l *line) every(h *hung, from, to int) {
	for i := from; i < to; i++ {
		n, all := l.At(i+1), "all things"
		if !l.Words[i].Is(said.Every) || !(l.At(i-1).Is(said.CutOut) || n.Is(said.CutOut) || l.At(i+2).Is(said.CutOut)) {
			continue
		}
		if n.Is(said.Count) && n.N > 0 {
			all += " x " + strconv.Itoa(n.N)
			l.Words[i+1].Used = true
		}
		h.cut = append(h.cut, all)
		l.Words[i].Used = true
		l.usedUp(from, to, isCut)
		return
	}
}

// named returns the thing at i as it is cut: by its name, or all of its kind.
func (l *line) named(i int) string {
	w := l.Words[i]
	if !w.Many && w.N == 0 {
		if prev := l.At(i - 1); prev.Is(said.Count) && prev.N == 1 && lex.ThingOf[w.Value] != "" { // "one light", of several
			l.Words[i-1].Used = true
			return "all " + lex.Plural(w.Value) + " x 1"
		}
		return w.Value
	}
	name, n := "all "+lex.Plural(w.Value), w.N
	if prev := l.At(i - 1); prev.Is(said.Count) && n == 0 {
		n = prev.N
		l.Words[i-1].Used = true
	}
	if n > 0 {
		name += " x " + strconv.Itoa(n)
	}
	return name
}

// namesBehind returns the names right behind a kind.
func (l *line) namesBehind(i int) (all []string) {
	for k := i + 1; l.At(k).Is(said.Thing) && !l.At(k).Many && lex.ThingOf[l.At(k).Value] == ""; k++ {
		all = append(all, l.At(k).Value)
	}
	return all
}

// opened is what was cut out of board that is up already, or what is found behind it: "downlight cut, alarm wire
// pulled thru", "all 3 cut", "the alarm is behind the board, nobody cut it".
func (l *line) opened(h *hung) []string {
	if l.Any(said.Row|said.On|said.Long|said.But|said.Used|said.Short|said.Last|said.Stuff) || !slices.ContainsFunc(l.Words, func(w said.Word) bool {
		return w.Is(said.CutOut) && !strings.HasPrefix("opened up through", w.Text) && w.Text != "out" && w.Text != "thru" || w.Is(said.Shut)
	}) {
		return nil // "lights out"
	}
	if len(h.cut) > 0 && l.Any(said.IsUp|said.Done|said.Noun) && len(h.shut) == 0 || l.Numbers() || l.Denies() || l.Lost() > 0 {
		return nil
	}
	l.Doubt = len(h.cut) > 0 // it may be another cut
	if all := h.holes(); len(all) > 0 {
		return []string{strings.Join(all, "\n")}
	}
	return nil
}

// holes are the lines of what is cut and what is not.
func (h *hung) holes() (all []string) {
	if len(h.cut) > 0 {
		all = append(all, "open "+strings.Join(h.cut, ", "))
	}
	if len(h.shut) > 0 {
		all = append(all, "buried "+strings.Join(h.shut, ", "))
	}
	return all
}
