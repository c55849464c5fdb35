package sense

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
)

// hangs is board that is up: rows, a ceiling, a wall.
func (l *line) hangs() []string {
	rows := l.rows()
	if l.turned() || l.hasType(lex.Key) && l.has("x") || !l.any(hung) && !(len(rows) == 1 && l.has("+", "plus")) {
		return nil
	}
	if len(rows) == 0 {
		return l.surface()
	}
	slices.Sort(rows)
	l.doubt = !l.any(hung)
	pieces := []string{}
	said := l.numbers()
	for _, i := range said { // "two pieces"
		if l.at(i+1).is("piece", "pieces", "bits") && l.items[i].n == len(said)-1 && !l.items[i].unit {
			l.items[i].used = true
		}
	}
	for _, i := range l.numbers() {
		if l.items[i].is("1 full", "one full") && l.at(i+1).typ == lex.Number { // "1 full 2400"
			l.items[i].used = true
			continue
		}
		if n := l.items[i].n; !l.items[i].unit && n >= 8 && n <= 16 && len(l.numbers()) > 1 { // a board's length, in feet
			l.items[i].used = true
			pieces = append(pieces, number(n)+"'")
			continue
		}
		if !l.items[i].unit && l.items[i].n < 17 || l.at(i+1).typ == lex.Wall || l.at(i+1).is("off") {
			return nil
		}
		pieces = append(pieces, l.take(i))
	}
	cut := ""
	if l.has("done") && len(pieces) == 0 {
		l.doubt = true // it may be taped
	}
	if l.has("cut") && !l.hasType(lex.Name) && len(pieces) == 0 || slices.ContainsFunc(l.items, func(it item) bool { return it.typ == lex.Name && lex.IsPiece(it.value) }) {
		return nil
	}
	if name, i := l.first(lex.Name); i >= 0 && l.has("cut") && !l.several() {
		cut = " cut " + name.value
	}
	switch {
	case len(rows) == 1 && len(pieces) > 0:
		return []string{"hung " + strings.Join(pieces, " + ") + " row " + number(rows[0]) + cut}
	case len(pieces) > 0:
		return nil
	case len(rows) == 1:
		return []string{"hung row " + number(rows[0]) + cut}
	case rows[len(rows)-1]-rows[0] == len(rows)-1:
		return []string{"rows " + number(rows[0]) + " to " + number(rows[len(rows)-1]) + " up"}
	}
	return nil
}

// surface is a whole ceiling or a wall that is up.
func (l *line) surface() []string {
	if !l.rest() || l.has("when", "once", "what", "before", "after") {
		return nil
	}
	closed := l.any(set("up hung closed boarded done finished"))
	if w, i := l.first(lex.Wall); i >= 0 && closed && !l.has("off") && !l.hasType(lex.Thing) {
		return []string{w.value + " wall up"}
	}
	if l.has("ceiling") && closed && !l.hasType(lex.Thing) {
		return []string{"ceiling up"}
	}
	return nil
}

func (l *line) hasType(typ lex.Type) bool { _, i := l.first(typ); return i >= 0 }

// coats is a coat of compound.
func (l *line) coats() []string {
	for i, it := range l.items {
		if !it.is("coat", "coats") {
			continue
		}
		n := max(lex.Ordinal[l.at(i-1).low], coatNames[l.at(i-1).low])
		if b := l.at(i - 1); n == 0 && b.is("st", "nd", "rd") && l.at(i-2).n > 0 {
			n = l.at(i - 2).n
		}
		if n > 0 && n < 5 && l.any(set("on done in finished up")) && !l.turned() {
			return []string{"coat " + number(n)}
		}
	}
	return nil
}

// size is a number of boards and their length.
type size struct{ count, length string }

// sizes finds boards by count and length: "22 sheets 4x12", "40 sht 1/2 x 4x12", "5 12s", "three twelves and
// a ten", "9 of 3600", "24 of 2400x1200", "10 ten footers". The count is "" if none was said.
func (l *line) sizes() (all []size) {
	metric := l.names.Units == "metric"
	for i, it := range l.items {
		var s size
		next, wide := l.at(i+1), l.at(i+2)
		foot := it.typ == lex.Number && it.n >= 8 && it.n <= 16
		switch {
		case it.used:
			continue
		case it.typ == lex.Number && next.is("x") && (it.n == 4 || it.n == 48) && wide.feet >= 8 && wide.feet <= 16:
			s.length = number(wide.feet) + "'"
			l.items[i+2].used = true
		case metric && it.typ == lex.Number && it.n >= 1800 && it.n <= 6000 && !l.at(i-1).is("x"):
			if s.length = it.value; next.is("x") && wide.n >= 600 && wide.n < 1300 {
				l.items[i+2].used = true
			}
		case foot && (next.is("oc") || next.low == "footers" || next.low == "footer"):
			s.length = number(it.n) + "'"
		case footers[it.low] != "":
			s.length = footers[it.low] + "'"
		case (len(all) > 0 || l.any(delivered) || l.any(used)) && (next.typ == 0 || next.list):
			n, long := whole(it.count), it.n
			if first, rest, ok := strings.Cut(it.value, " "); ok && whole(first) < 100 { // "5 12s and 1 8", "4 eights"
				n, long = whole(first), max(whole(rest), whole(footers[rest]))
			} else if len(all) == 0 {
				continue
			} else if b := l.at(i - 1); n == 0 && b.typ == lex.Number && b.n < 100 && !b.unit && !b.used {
				n = b.n
			}
			if it.typ != lex.Number || n == 0 || long < 8 || long > 16 {
				continue
			}
			s.count, s.length = number(n), number(long)+"'"
		default:
			continue
		}
		l.items[i].used = true
		for k := i - 1; k >= 0 && k >= i-6; k-- {
			if b := l.at(k); b.typ == lex.Number && thicknesses[b.value] != "" {
				l.items[k].used = true
			} else if b.typ == lex.Number {
				l.items[k].used = l.items[k].used || b.n > 0
				if b.is("a") {
					s.count = "1"
				} else if b.n > 0 && b.n < 1000 && !b.unit && !(l.at(k+1).is("x") && b.n == 4) {
					s.count = number(b.n)
				}
				break
			} else if !boards[b.low] && !b.is("of", "x", "at", "more", "full", "green", "type", "moisture") {
				break
			}
		}
		all = append(all, s)
	}
	return all
}

// counts is boards that were delivered, used or broken, or that are left.
func (l *line) counts() []string {
	sizes := l.sizes()
	if len(sizes) == 0 || l.turned() || l.has("hung", "row") {
		return nil
	}
	var said []string
	for _, s := range sizes {
		switch {
		case s.count != "":
			said = append(said, s.count+" x "+s.length)
		case l.any(broken) || l.any(used):
			said = append(said, "1 x "+s.length)
		default:
			return nil
		}
	}
	for _, i := range l.numbers() {
		if thicknesses[l.items[i].value] == "" {
			return nil // something other than boards was said too
		}
	}
	list := strings.Join(said, " ")
	switch {
	case l.any(broken), l.any(used):
		return []string{"used " + list}
	case l.any(delivered):
		return []string{"delivered " + list}
	case l.any(counted) || l.has("on hand"):
		l.doubt = true
		return []string{"stock " + list}
	case l.any(boards) || l.has("got"):
		return []string{"delivered " + list, "stock " + list}
	}
	return nil
}

// passes is what an inspector or the lead has approved, a line for each.
func (l *line) passes() []string {
	var all []string
	for i, it := range l.items {
		what := checks[it.low]
		if it.low == "test" && l.at(i-1).low != "pressure" && checks[l.at(i-1).low] == "" {
			what = checks["pressure"]
		}
		if what == "" || !l.rest() || l.hasType(lex.Wall) || l.has("off") {
			continue
		}
		after := slices.ContainsFunc(l.items[i+1:], func(it item) bool { return passed[it.value] })
		switch {
		case l.any(failed), l.has("not") && after:
			all = append(all, "check "+what+" failed")
		case l.turned():
		case after || l.has("passed", "approved", "signed") || strings.HasSuffix(it.low, "ed"):
			all = append(all, "check "+what+" ok")
		}
	}
	if all = slices.Compact(all); len(all) == 0 {
		return nil
	}
	return []string{strings.Join(all, "\n")}
}
