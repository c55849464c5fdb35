package sense

import (
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
)

// tellings are the frames for what a line may say, in the order they are tried. Each returns the possible
// meaning in canonical words.
var tellings = []func(*line) []string{(*line).misses, (*line).deletes, (*line).fixes, (*line).swaps, (*line).hangs, (*line).gaps, (*line).coats, (*line).counts, (*line).passes, (*line).boarding, (*line).openings, (*line).bulkheads, (*line).slopes,
	(*line).supports, (*line).opens, (*line).rooms, (*line).things, (*line).runs, (*line).flaws}

func number(n int) string { return strconv.Itoa(n) }

// turned reports whether a word negates or changes the line.
func (l *line) turned() bool { return l.any(changing) }

// rest reports whether all numbers are used.
func (l *line) rest() bool { return len(l.numbers()) == 0 }

// supports is what boards are screwed to: straps, joists or studs with their spacing, or a single one that
// is somewhere else.
func (l *line) supports() []string {
	support, at := l.first(lex.Support)
	if at < 0 {
		return nil
	}
	if all := l.each(at); all != "" {
		return []string{support.value + " at " + all}
	}
	if n := l.at(at + 1); n.typ == lex.Number && n.n > 0 && !n.unit && !l.at(at+2).is("oc") && !spaced[l.at(at+2).low] && len(l.numbers()) < 4 && (len(l.numbers()) == 2 || l.turned()) {
		for i := len(l.items) - 1; i > at+1; i-- {
			if l.items[i].typ == lex.Number && l.at(i-1).is("at") {
				if !l.turned() && slices.ContainsFunc(l.items[:i-1], func(it item) bool { return it.is("at") }) {
					return nil // another one's too
				}
				return []string{strings.TrimSuffix(support.value, "s") + " " + n.value + " at " + l.items[i].value}
			}
		}
	}
	if l.turned() || l.has("length", "long", "left") {
		return nil
	}
	run, _ := l.first(lex.Direction)
	space, first := "", ""
	if l.has("oc") || l.any(spaced) || l.has("at") {
		l.pair() // their lumber: 1 x 3
	}
	for i, it := range l.items {
		if it.typ != lex.Number || it.used {
			continue
		}
		before, next := l.at(i-1), l.at(i+1)
		switch {
		case first == "" && l.before(i, "first", "starting", "starts", "start", "started"):
			if w := l.wallNear(i); w != "" {
				first = "first " + l.take(i) + " off " + w
			}
		case space == "" && (next.is("oc") || spaced[next.low] || before.is("every", "at", "oc") || next.is("on") && spaced[l.at(i+2).low]):
			space = l.take(i)
		}
	}
	if space == "" || !l.rest() {
		return nil
	}
	return []string{strings.Join(strings.Fields(support.value+" "+run.value+" "+space+" oc "+first), " ")}
}

// each is the position of each of several, in order: "strap 1 at 0, 2 at 16, 3 at 32".
func (l *line) each(at int) string {
	var all []string
	for i := at + 1; l.at(i).typ == lex.Number && l.at(i).n == len(all)+1 && l.at(i+1).is("at") && l.at(i+2).typ == lex.Number; i += 3 {
		all = append(all, l.take(i+2))
		l.items[i].used = true
	}
	if len(all) < 3 || !l.rest() {
		return ""
	}
	return strings.Join(all, " ")
}

// before reports whether one of the words is among the four before i.
func (l *line) before(i int, words ...string) bool {
	for k := i - 1; k >= 0 && k >= i-4; k-- {
		if l.items[k].is(words...) || slices.Contains(words, l.items[k].low) {
			return true
		}
		if l.items[k].typ == lex.Number {
			return false
		}
	}
	return false
}

// wallNear returns the wall that the number at i is off.
func (l *line) wallNear(i int) string {
	for k := i + 1; k <= i+3 && k < len(l.items); k++ {
		if l.items[k].typ == lex.Wall {
			return l.items[k].value
		}
	}
	return ""
}

// opens is what was cut out: "pots 1 and 2 in row 1".
func (l *line) opens() []string {
	if l.turned() || !l.any(cutOut) || l.has("list") {
		return nil
	}
	l.rows()
	var names []string
	for i, it := range l.items {
		switch {
		case it.typ == lex.Name:
			names = append(names, it.value)
		case it.typ == lex.Thing && l.at(i+1).typ != lex.Thing:
			name := it.value
			for k := i + 1; l.at(k).typ == lex.Number && l.at(k).n > 0 && !l.at(k).unit && !l.at(k).used; k++ {
				names, name = append(names, it.value+" "+number(l.at(k).n)), ""
				l.items[k].used = true
			}
			if l.toldApart(i) {
				name = l.at(i-1).low + " " + it.value
			}
			if name != "" {
				names = append(names, name)
			}
		}
	}
	if len(names) == 0 || !l.rest() {
		return nil
	}
	return []string{"open " + strings.Join(names, ", ")}
}

// rooms is a room with its sides and its height.
func (l *line) rooms() []string {
	a, b := l.pair()
	high := ""
	for _, i := range l.numbers() {
		if l.at(i+1).is("high", "ceiling", "ceilings", "tall") || l.at(i-1).is("height", "high", "ceiling") || l.at(i+1).low == "walls" {
			high = l.take(i)
			break
		}
	}
	if !l.rest() || l.turned() || l.hasType(lex.Thing) || l.hasType(lex.Service) || l.hasType(lex.Support) {
		return nil
	}
	name := ""
	for i, it := range l.items {
		if it.typ == lex.Word && rooms[it.low] && (name == "" || rooms[l.at(i-1).low] || it.is("room")) { // one room
			if b := l.at(i - 1); name == "" && qualifies[b.low] {
				name = b.low
			}
			if !slices.Contains(strings.Fields(name), it.low) {
				name = strings.TrimSpace(name + " " + it.low)
			}
		}
	}
	if name == "" {
		name = l.room
	}
	switch {
	case a != "" && name != "":
		text := "room " + name + " " + a + " x " + b
		if high != "" {
			text += " high " + high
		}
		return []string{text}
	case high != "" && a == "" && l.has("ceiling", "height", "high") && !l.has("kneewall", "knee", "wall", "walls", "door", "window", "slope"):
		return []string{"ceiling height " + high}
	}
	return nil
}

// qualifies are words that distinguish rooms of a kind.
var qualifies = set("front back upstairs downstairs guest master main small big second spare kids north south east west upper lower rear side")

// ref returns a thing as it is called, by its name or by its kind and number, and uses that number.
func (l *line) ref() string {
	if name, at := l.first(lex.Name); at >= 0 {
		return name.value
	}
	for i, it := range l.items {
		if it.typ != lex.Thing {
			continue
		}
		before, next := l.at(i-1), l.at(i+1)
		switch {
		case next.typ == lex.Number && next.n > 0 && !next.unit && !l.at(i+2).is("off", "up", "x") && l.at(i+2).typ != lex.Wall:
			l.items[i+1].used = true
			return it.value + " " + number(next.n)
		case l.toldApart(i):
			return before.low + " " + it.value
		}
		return it.value
	}
	return ""
}

// toldApart reports whether the word before a thing tells it from others of its kind: "first light",
// or "sink light" if one is called that.
func (l *line) toldApart(i int) bool {
	b := l.at(i - 1)
	return lex.Ordinal[b.low] > 0 || b.typ == lex.Word && l.names.Name != nil && l.names.Name(b.low+" "+l.items[i].value)
}

// misses is a thing that was not where it was noted.
func (l *line) misses() []string {
	if !l.has("find", "missed") || !l.has("cant", "can't", "couldnt", "couldn't", "didnt", "didn't", "missed", "not") || l.several() {
		return nil
	}
	if what := l.ref(); what != "" && l.rest() {
		return []string{"missed " + what}
	}
	return nil
}

// deletes is a thing to delete.
func (l *line) deletes() []string {
	if !l.any(dropped) || l.several() || l.any(hung) || l.hasType(lex.Wall) {
		return nil
	}
	if what := l.ref(); what != "" && l.rest() && l.strays() < 2 {
		return []string{"delete " + what}
	}
	return nil
}

// fixes is a noted thing that is somewhere else.
func (l *line) fixes() []string {
	if !l.any(corrected) || l.several() {
		return nil
	}
	what := l.ref()
	at := l.distances()
	for _, i := range l.numbers() {
		if l.before(i, "not") {
			l.items[i].used = true // the wrong one
		}
	}
	if what == "" || len(at) == 0 || len(at) > 2 || !l.rest() {
		return nil
	}
	return []string{"fix " + what + " " + strings.Join(at, ", ")}
}

// swaps is the right number for a wrong one: "that one is 1850 not 1800".
func (l *line) swaps() []string {
	var right, wrong string
	for i, it := range l.items {
		if it.typ != lex.Number || it.used {
			continue
		}
		if l.before(i, "not", "isnt", "isn't", "wasnt") && right != "" && wrong == "" {
			wrong = it.value
		} else if right == "" {
			right = it.value
		} else {
			return nil
		}
	}
	if wrong == "" || right == wrong {
		return nil
	}
	return []string{right + " not " + wrong}
}

// boarding is the board of the job: "five eighths type x, 4x12".
func (l *line) boarding() []string {
	if !l.any(boards) || l.turned() || l.hasType(lex.Wall) || l.has("gap", "rip", "cut", "row", "up") {
		return nil
	}
	thick, lengths := "", []string{}
	for i, it := range l.items {
		switch {
		case it.typ != lex.Number || it.used:
		case thicknesses[it.value] != "" && thick == "":
			thick = thicknesses[l.take(i)]
		case (it.n == 4 || it.n == 48) && l.at(i+1).is("x") && l.at(i+2).feet >= 8:
			lengths = append(lengths, number(l.at(i+2).feet))
			if rest := strings.TrimSpace(strings.TrimPrefix(l.at(i+2).value, number(l.at(i+2).feet))); thick == "" && thicknesses[rest] != "" {
				thick = thicknesses[rest]
			}
			l.items[i].used, l.items[i+2].used = true, true
		case it.n >= 8 && it.n <= 16 && (l.at(i+1).is("oc") || l.at(i+1).low == "foot"):
			lengths = append(lengths, l.take(i))
		}
	}
	if thick == "" || !l.rest() {
		return nil
	}
	text := "board " + thick
	if len(lengths) > 0 {
		text += " x 48 lengths " + strings.Join(lengths, " ")
	}
	for i, it := range l.items {
		if it.low == "type" && l.at(i+1).typ != lex.Number && l.at(i+1).low != "" {
			return []string{text + " type " + l.at(i+1).low}
		}
		if kindsOfBoard[it.low] {
			return []string{text + " type " + it.low}
		}
	}
	return []string{text}
}

// flaws is a defect to fix later.
func (l *line) flaws() []string {
	if !l.any(flawed) || !l.any(flawedWork) {
		return nil
	}
	return []string{"snag " + l.said}
}

// gaps is a gap by its two ends, or the rip that closes it.
func (l *line) gaps() []string {
	if l.turned() || l.has("off", "x") || !l.has("gap", "rip", "opening") || l.hasType(lex.Thing) {
		return nil
	}
	l.rows()
	var said []string
	for _, i := range l.numbers() {
		said = append(said, l.take(i))
	}
	switch gap := "gap " + strings.Join(said, ", "); {
	case len(said) == 1 && l.has("rip"):
		return []string{"note rip " + said[0], gap}
	case (len(said) == 1 || len(said) == 2) && l.has("gap"):
		return []string{gap}
	}
	return nil
}
