package sense

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
)

// frame is a thing that a line may say.
type frame struct {
	fill func(*line) []string // the possible meanings, in canonical words
	// own are the words and types that it accounts for. A line of those and small words alone is sure; with
	// none it is always asked about.
	own   map[string]bool
	types []lex.Type
}

// tellings are the frames, in the order they are tried.
var tellings = []frame{
	{fill: (*line).misses},
	{fill: (*line).gaps},
	{(*line).coats, set("coat coats first second third tape taping bed fill finish st nd rd on done in"), []lex.Type{lex.Room}},
	{fill: (*line).passes},
	{fill: (*line).opens},
	{fill: (*line).flaws},
}

func number(n int) string { return strconv.Itoa(n) }

// turned reports whether a word negates or changes the line.
func (l *line) turned() bool {
	return slices.ContainsFunc(l.items, func(it item) bool {
		return it.typ != lex.Number && !it.used && (changing[it.low] || changing[it.value])
	})
}

// rest reports whether all numbers are used.
func (l *line) rest() bool { return len(l.numbers()) == 0 }

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

// qualifies are words that distinguish rooms of a kind: those of any room, and the sides of the house.
var qualifies = func() map[string]bool {
	all := set("north south east west side")
	maps.Copy(all, lex.Qualifies)
	return all
}()

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

// flaws is a defect to fix later; material that is only set aside is none.
func (l *line) flaws() []string {
	if !l.any(flawed) || !l.any(flawedWork) || l.has("count", "stock", "using", "used", "nobody", "left", "spare") {
		return nil
	}
	return []string{"snag " + l.said}
}

// gaps is a gap by its two ends, or the rip that closes it.
func (l *line) gaps() []string {
	if l.turned() || l.has("off", "x", "screw", "screws", "nail", "nails", "pops") || !l.has("gap", "rip", "opening") || l.hasType(lex.Thing) {
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
