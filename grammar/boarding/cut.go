package boarding

import (
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/said"
)

// clause is a part of the line that may say what became of things that board hides.
type clause struct {
	from, to int
	things   []int
	of       said.Fate
}

// clauses returns the parts of the line as they are told of things: up to a sign, an exception or another verb.
func (l *line) clauses() (all []clause) {
	from := 0
	take := func(to int) {
		p := clause{from: from, to: to, of: l.FateOf(from, to)}
		for i := from; i < to; i++ {
			if w := &l.Words[i]; w.Is(said.Thing) && (said.Hides[l.At(i-1).Text] || said.Hides[l.At(i-2).Text]) && l.Part(said.IsUp, from, i) { // "up over the duct"
				w.Used = true
			} else if w.Is(said.Thing) {
				p.things = append(p.things, i)
			}
		}
		all, from = append(all, p), to
	}
	for i, w := range l.Words {
		told, end := l.Part(said.CutOut|said.Shut, from, i), i+1
		for w.Is(said.But) && end < len(l.Words) && !l.Words[end].Is(said.Sep) {
			end++
		}
		switch thing := l.Part(said.Thing, from, i); {
		case w.Is(said.Sep), w.Is(said.But) && (thing || told || l.hidden(i+1) || l.At(i+1).Is(said.Small) && l.hidden(i+2) || l.Part(said.CutOut|said.Shut, i, end)), thing && told && (w.Text == "other" || said.Negates[w.Text]), // "cut l1 not l2"
			(w.Is(said.Every|said.Thing|said.CutOut) || said.Negates[w.Text]) && !told && !thing && !w.Is(said.IsUp) && !said.Hides[l.At(i-1).Text] && !said.Hides[l.At(i-2).Text] && l.upBefore(from, i), // "rows 1 and 2 up all cut in 2"
			w.Is(said.Row) && w.N > 0 && told && l.upBefore(i, l.nextRow(i)),
			l.hidden(i) && (l.toldOf(from, i) || told && l.deniedOf(i)): // "l1 cut fan not", "cut l1 fan not"
			take(i)
		}
	}
	take(len(l.Words))
	return all
}

// cuts takes what is cut out and what board is over, part by part: "cut out the two pots", "both lights cut, duct
// not", "all cut but the fan", "alarm and fan still covered". A part without a word for that goes with the one behind
// it if it begins a list, else with the one before. It is vague if something is left out that has no name.
func (l *line) cuts(h *hung) {
	if !l.Any(said.CutOut|said.Shut|said.Hole|said.Done) && !l.Has("no") {
		return
	}
	parts := l.clauses()
	last := said.Unsaid // of what is denied what a later part denies
	for i := range parts {
		p, prev := &parts[i], clause{}
		if i > 0 {
			prev = parts[i-1]
		}
		if at := l.but(*p); at >= 0 {
			l.Words[at].Used = true
			if told := p.of == said.IsCut && prev.of == said.Unsaid; told || p.of == said.Unsaid && prev.of == said.IsCut {
				h.vague = told || !l.spares(h, *p) || h.vague
				continue
			}
		}
		if p.of == said.Unsaid && len(p.things) > 0 {
			for k := i + 1; k < len(parts) && p.of == said.Unsaid && len(parts[k].things) > 0 && l.but(parts[k]) < 0 && !l.Part(said.IsUp|said.Row, p.things[0], p.to); k++ {
				if first := parts[k].things[0]; !l.Part(said.CutOut|said.Shut, parts[k].from, first) { // "alarm and fan are covered"
					p.of = parts[k].of
				}
			}
		}
		if p.of == said.Refuted && len(p.things) > 0 && i+1 < len(parts) && len(parts[i+1].things) == 0 && parts[i+1].of == said.IsCut && l.MadeGood(p.from, len(l.Words)) { // "forgot the fan, its cut now"
			p.of = said.IsCut
			l.usedUp(parts[i+1].from, parts[i+1].to, p.of)
		}
		if p.of == said.Unsaid && len(p.things) > 0 && i+1 < len(parts) && len(parts[i+1].things) == 0 && parts[i+1].of == said.IsShut { // "it is over the alarm, not cut yet"
			p.of = said.IsShut
		}
		if first := append(p.things, len(l.Words))[0]; p.of == said.Refuted && last == said.Unsaid && l.At(first-1).Text == "no" { // "no outlets in it"
			l.Words[first-1].Used = true
			l.namesOf(p.things)
			continue
		}
		switch {
		case p.of == said.Refuted:
			p.of = said.Opposite[last]
		case i > 0 && p.of == said.Unsaid && len(p.things) > 0 && !l.strange(*p):
			p.of = prev.of
		default:
			last = p.of
		}
		switch {
		case p.of == said.Unclear:
			h.vague = true
			continue
		case p.of == said.Unsaid, p.of == said.Refuted && len(p.things) > 0:
			continue
		case len(p.things) == 0 && p.of == said.IsCut:
			l.every(h, *p, prev)
			continue
		case len(p.things) == 0 && prev.of == said.Unsaid && !l.Part(said.Hole|said.CutOut, p.from, p.to): // "row 1 is covered"
			continue
		}
		names := l.namesOf(p.things)
		switch p.of {
		case said.IsCut:
			if l.inRows(h, *p, names) || l.inRowsOf(h, prev, names) {
				break
			}
			h.cut = append(h.cut, names...)
		case said.IsShut:
			h.shut = append(h.shut, names...)
		}
		l.usedUp(p.from, p.to, p.of)
	}
}

// inRows takes things that are cut in rows of their own: "1 to 3 up, lights cut in 1 and 3", "row 3 fan cut". It returns
// false if none is named beside them.
func (l *line) inRows(h *hung, p clause, names []string) bool {
	at := slices.IndexFunc(l.Words[p.from:p.to], func(w said.Word) bool { return w.Is(said.Row) && w.N > 0 }) + p.from
	first := append(p.things, p.from)[0]
	if at < p.from || len(names) == 0 || l.Part(said.IsUp, p.from, p.to) || !l.Part(said.IsUp|said.Done, 0, p.from) || at > first && !within[strings.TrimPrefix(l.At(at-1).Text, "cut ")] {
		return false
	}
	if h.within == nil {
		h.within = map[int][]string{}
	}
	l.Words[at].Used = true
	for _, n := range l.Words[at].Rows {
		h.within[n] = append(h.within[n], names...)
		h.vague = h.vague || !slices.ContainsFunc(l.Words[:at], func(w said.Word) bool { return slices.Contains(w.Rows, n) })
	}
	return true
}

// inRowsOf takes things that are cut in the rows told to be up right before them, if others are told to be up apart from
// these: "row 1 up light cut, row 2 up".
func (l *line) inRowsOf(h *hung, before clause, names []string) bool {
	up, rows := 0, []int(nil)
	for i, w := range l.Words {
		if !w.Is(said.Row) || w.N == 0 || !l.upBefore(i, l.nextRow(i)) {
			continue
		}
		if up++; before.from <= i && i < before.to {
			rows = append(rows, w.Rows...)
		}
	}
	if up < 2 || len(rows) == 0 {
		return false
	}
	if h.within == nil {
		h.within = map[int][]string{}
	}
	for _, n := range rows {
		h.within[n] = append(h.within[n], names...)
	}
	return true
}

// nextRow is the place of the next row behind i, or the end.
func (l *line) nextRow(i int) int {
	for i++; i < len(l.Words) && !l.Words[i].Is(said.Row); i++ {
	}
	return i
}

// strange reports whether a part has a word that tells something else of its things than that before it: "lights next".
func (l *line) strange(p clause) bool {
	for i := p.from; i < p.to; i++ {
		if w := l.Words[i]; w.Class == 0 && w.Text != "" && !l.At(i+1).Is(said.Thing) || w.Is(said.Another|said.Later|said.Due|said.Last|said.Rest) {
			return true
		}
	}
	return false
}

// but returns the place of the word by which a part is an exception, -1 if it is none.
func (l *line) but(p clause) int {
	at := p.from
	if l.At(at).Is(said.Sep) {
		at++
	}
	if l.At(at).Is(said.But) {
		return at
	}
	return -1
}

// leaves reports whether something is left out that no frame has taken.
func (l *line) leaves() bool {
	return slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Is(said.But) && !w.Is(said.Small) && !w.Used })
}

// toldOf reports whether those words say what became of a thing before that: "l1 cut".
func (l *line) toldOf(from, to int) bool {
	for i := from; i < to; i++ {
		if l.hidden(i) {
			return l.Part(said.CutOut|said.Shut, i, to)
		}
	}
	return false
}

// upBefore reports whether those words say that rows are up.
func (l *line) upBefore(from, to int) bool {
	row := slices.IndexFunc(l.Words[from:to], func(w said.Word) bool { return w.Is(said.Row) && w.N > 0 })
	return row >= 0 && l.Part(said.IsUp|said.Done, from+row, to)
}

// deniedOf reports whether what follows the thing at i says that it is not cut: "fan not", "fan is still covered".
func (l *line) deniedOf(i int) bool {
	tells := func(w said.Word) bool { return said.Negates[w.Text] || w.Is(said.Shut|said.Still) }
	for i++; l.At(i).Is(said.Small) && !tells(l.At(i)); i++ {
	}
	next := i + 1
	for l.At(next).Is(said.Small) && !l.At(next).Is(said.Thing) {
		next++
	}
	return tells(l.At(i)) && !l.At(next).Is(said.Thing)
}

// hidden reports whether word i is a thing that board hides.
func (l *line) hidden(i int) bool { return l.At(i).Is(said.Thing) && !lex.IsPiece(l.At(i).Value) }

// spares takes what a part leaves out of all that is cut: "but the fan", "except the one by the door". It returns false if
// that has no name.
func (l *line) spares(h *hung, p clause) bool {
	names := l.namesOf(p.things)
	for i := p.from; i < p.to; i++ {
		w := &l.Words[i]
		if names == nil && (w.Class == 0 || w.Is(said.Denied)) { // "but i cant find the one"
			return false
		}
		if l.Doubt = l.Doubt || !w.Is(said.Small|said.But|said.Thing|said.Sep|said.CutOut); w.Text == "one" && names == nil {
			names = []string{"one"}
		}
		w.Used = true
	}
	last := len(h.cut) - 1
	if last < 0 || names == nil || !strings.HasPrefix(h.cut[last], "all ") {
		return false
	}
	for _, n := range names {
		if n = strings.TrimPrefix(n, "all "); strings.HasSuffix(n, " x 1") {
			n = "one"
		}
		h.cut[last] += " but " + n
	}
	return true
}

// namesOf takes the things at those places, by their names.
func (l *line) namesOf(things []int) (names []string) {
	for _, i := range things {
		l.Words[i].Used = true
		if b := l.At(i - 1); b.Class == 0 && len(b.Text) > 2 && !b.Used { // "the middle light"
			l.Words[i-1].Used, l.Doubt = true, true
			if w := &l.Words[i]; l.Noted(b.Text) && !w.Many { // "opener box"
				w.Value = b.Text + " " + w.Value
			}
		}
		if next := l.At(i + 1); !next.Is(said.Thing) || next.Many || lex.ThingOf[next.Value] != "" || lex.ThingOf[l.Words[i].Value] == "" { // else "lights l1 l2"
			names = append(names, l.named(i))
		}
	}
	return names
}

// usedUp marks the words that say what became of the things.
func (l *line) usedUp(from, to int, of said.Fate) {
	for i := from; i < to; i++ {
		w := &l.Words[i]
		w.Used = w.Used || w.Is(said.CutOut|said.Hole|said.Shut) && (of == said.IsCut || w.Is(said.Shut) || !w.Is(said.IsUp)) || w.Is(said.Every) && l.At(i+1).Is(said.Thing|said.Count|said.CutOut|said.Small) ||
			of == said.IsCut && w.Is(said.Still) && l.MadeGood(i, len(l.Words)) || of != said.IsCut && (said.Negates[w.Text] || w.Is(said.Still|said.Them|said.Fits) && !w.Is(said.IsUp) || w.Is(said.Noun) && (said.Hides[l.At(i-1).Text] || said.Hides[l.At(i-2).Text] || said.Hides[l.At(i+1).Text] || said.Hides[l.At(i+2).Text]) || w.Text == "other" || w.Text == "them")
	}
}

// every takes all things, if a part of the line has a word for that beside the one for the cut.
func (l *line) every(h *hung, p, before clause) {
	from, to := p.from, p.to
	for i := from; i < to; i++ {
		n, all := l.At(i+1), "all things"
		if !l.Words[i].Is(said.Every) || !l.At(i-1).Is(said.CutOut) && !l.Part(said.CutOut, i, min(i+4, to)) {
			continue
		}
		if n.Is(said.Count) && n.N > 0 {
			all += " x " + strconv.Itoa(n.N)
			l.Words[i+1].Used = true
		}
		if !l.inRows(h, p, []string{all}) && !l.inRowsOf(h, before, []string{all}) {
			h.cut = append(h.cut, all)
		}
		l.Words[i].Used = true
		l.usedUp(from, to, said.IsCut)
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
	if w.By != "" {
		name += " at " + w.By
	}
	return name
}

// opened is what was cut out of board that is up already, or what is found behind it: "downlight cut, alarm wire
// pulled thru", "all 3 cut", "the alarm is behind the board, nobody cut it".
func (l *line) opened(h *hung) []string {
	l.Each(said.Form{said.Fits, said.Row | said.On}, func(at []int) bool { return within[l.Words[at[0]].Text] })                                                                                                      // in which it is
	if first := slices.IndexFunc(l.Words, func(w said.Word) bool { return !w.Is(said.Row|said.Sep|said.Small) || w.Is(said.Thing) }); first > 0 && l.At(first).Is(said.Thing) && !l.At(first).Many && l.At(0).N > 0 { // "row 3 fan cut"
		l.Words[0].Used = true
	}
	if slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Is(said.Row|said.On) && !w.Used }) {
		return nil
	}
	if l.Any(said.Long|said.Used|said.Short|said.Last|said.Stuff) || !slices.ContainsFunc(l.Words, func(w said.Word) bool {
		return w.Is(said.CutOut) && !strings.HasPrefix("opened up through", w.Text) && w.Text != "out" && w.Text != "thru" || w.Is(said.Shut)
	}) {
		return nil // "lights out"
	}
	if l.leaves() || len(h.cut) > 0 && l.Strictly(said.IsUp|said.Done|said.Noun) && len(h.shut) == 0 || l.Numbers() || l.Denies() || l.Lost() > 0 {
		return nil
	}
	l.Doubt = len(h.cut) > 0 && !(l.Any(said.Every) && l.Any(said.Thing)) // it may be another cut, or not made yet
	if all := h.holes(); len(all) > 0 {
		return []string{strings.Join(all, "\n")}
	}
	return nil
}

var within = lex.Set("in", "on", "of")

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
