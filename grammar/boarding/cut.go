package boarding

import (
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/said"
)

// cuts takes what is cut out: "cut out the two pots", "both lights cut", "duct is open", "all cut". A part of
// the line that denies it denies it of all its things: "duct not".
func (l *line) cuts(h *hung) {
	if !l.Any(said.CutOut) {
		return
	}
	from, denied := 0, false
	take := func(to int) {
		things, all := 0, len(h.cut)
		for i := from; i < to; i++ {
			w := &l.Words[i]
			switch {
			case w.Is(said.Thing) && (hides[l.At(i-1).Text] || hides[l.At(i-2).Text]): // "up over the duct"
			case w.Is(said.Thing):
				things++
				if w.Used = true; !denied && len(l.namesBehind(i)) == 0 { // "lights l1 l2"
					h.cut = append(h.cut, l.named(i))
				}
			case denied && (w.Text == "not" || isnt[w.Text] || w.Is(said.Still|said.CutOut) || buried[w.Text]):
				w.Used = true
			}
		}
		if things == 0 && !denied && l.Part(said.CutOut, from, to) {
			l.every(h, from, to)
		}
		if len(h.cut) > all && !denied || things > 0 {
			for i := from; i < to; i++ {
				l.Words[i].Used = l.Words[i].Used || l.Words[i].Is(said.CutOut) || l.Words[i].Is(said.Every) && l.At(i+1).Is(said.Thing|said.Count|said.CutOut|said.Small)
			}
		}
		denied = false
	}
	for i := 0; i <= len(l.Words); i++ {
		switch w := l.At(i); {
		case i == len(l.Words), w.Is(said.Sep), w.Is(said.But) && l.Part(said.Thing, from, i):
			take(i)
			if from = i + 1; i < len(l.Words) && !w.Is(said.Sep) { // "cut l1 but not l2"
				l.Words[i].Used, denied = true, true
			}
		case w.Text == "not" || w.Is(said.Still) || isnt[w.Text]:
			if l.Part(said.Thing, from, i) && l.Part(said.CutOut, from, i) { // "cut l1 not l2"
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
		return
	}
}

// named returns the thing at i as it is cut: by its name, or all of its kind.
func (l *line) named(i int) string {
	w := l.Words[i]
	if !w.Many && w.N == 0 {
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

// opened is what was cut out of board that is up already: "downlight cut, alarm wire pulled thru", "all 3 cut".
func (l *line) opened(h *hung) []string {
	if l.Any(said.Row|said.On|said.Long|said.IsUp|said.Done|said.Noun|said.But|said.Used|said.Short|said.Last) || !slices.ContainsFunc(l.Words, func(w said.Word) bool {
		return w.Is(said.CutOut) && !strings.HasPrefix("opened up through", w.Text) && w.Text != "out" && w.Text != "thru"
	}) {
		return nil // "lights out"
	}
	l.cuts(h)
	if len(h.cut) == 0 || l.Numbers() || l.Denies() || l.Any(said.Stuff) || l.Lost() > 0 {
		return nil
	}
	l.Doubt = true // it may be another cut
	return []string{"open " + strings.Join(h.cut, ", ")}
}
