package sense

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
)

func (l *line) hasType(typ lex.Type) bool { _, i := l.first(typ); return i >= 0 }

// otherDay are words for another day than that of the message, from which drying would be reckoned.
var otherDay = set("yesterday monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thurs fri sat sun ago last")

// coats is a coat of compound, that goes on as it is told: one of another day is only kept.
func (l *line) coats() []string {
	if l.any(otherDay) {
		return nil
	}
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

// passes is what an inspector or the lead has approved, a line for each.
func (l *line) passes() []string {
	var all []string
	for i, it := range l.items {
		what := checks[it.low]
		if it.low == "test" && l.at(i-1).low != "pressure" && checks[l.at(i-1).low] == "" {
			what = checks["pressure"]
		}
		if what == "" || !l.rest() || l.hasType(lex.Wall) || l.has("off") && !l.has("signed") {
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
