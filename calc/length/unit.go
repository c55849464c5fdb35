package length

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// unsure stands for an "in" that may be inches or the way into a room.
const unsure Length = -1

// unitOf reads the unit behind n: ', ", ft, in, mm, cm, m, "of an inch".
func (r reader) unitOf(n number) (unit Length, to int, ok bool) {
	if n.den != 0 && n.mant == 0 {
		t := next(r.s, n.to)
		if t.says("of") {
			t = next(r.s, t.to)
		}
		if t.says("a") || t.says("an") {
			if u := next(r.s, t.to); units[u.word] != 0 {
				return units[u.word], u.to, true
			}
		}
	}
	unit, to, ok = r.unit(n.to)
	if r.inward(unit, to) && n.den == 0 {
		unit = unsure
	}
	if unit == unsure && (n.den != 0 || n.scale == 0 && n.mant >= 100) {
		return 0, 0, false
	}
	return unit, to, ok
}

// inward reports whether the "in" that ends at pos may be the way in from a wall: "600 in from the west".
// On a metric tape nobody measures 100 inches, and less than that is asked about.
func (r reader) inward(unit Length, pos int) bool {
	t := next(r.s, pos)
	return r.u == Metric && unit == Inch && strings.HasSuffix(r.s[:pos], " in") && (t.says("from") || t.says("off"))
}

func (r reader) unit(pos int) (unit Length, to int, ok bool) {
	t := next(r.s, pos)
	switch {
	case t.tight('\'') && !r.contraction(t):
		return Foot, t.to, true
	case t.tight('"'):
		return Inch, t.to, true
	case t.tight('-'): // 6-inch
		if t = next(r.s, t.to); t.spaced {
			return 0, 0, false
		}
	}
	unit, ok = units[t.word]
	if !ok {
		return 0, 0, false
	}
	if t.word == "in" && t.spaced && !r.inches(t.to) {
		if r.u == Metric {
			return unsure, t.to, true
		}
		return 0, 0, false
	}
	if t.word == "in" || t.word == "ft" {
		if dot := next(r.s, t.to); dot.tight('.') {
			if e := next(r.s, dot.to); e.spaced || e.kind != word && e.kind != digits {
				return unit, dot.to, true
			}
		}
	}
	return unit, t.to, true
}

// contraction reports the quote of "one's".
func (r reader) contraction(quote token) bool {
	before, _ := utf8.DecodeLastRuneInString(r.s[:quote.from])
	e := next(r.s, quote.to)
	return unicode.IsLetter(before) && e.kind == word && !e.spaced
}

// inches reports whether the "in" that ends at pos can be inches by what
// comes after it.
func (r reader) inches(pos int) bool {
	t := next(r.s, pos)
	if t.kind != word {
		return true
	}
	if compass[t.word] {
		return next(r.s, t.to).says("of")
	}
	return followers[t.word] || r.numberAt(pos)
}

// ends reports whether a length may end at pos: not in "2nd", "16s", "45°".
func (r reader) ends(pos int) bool {
	t := next(r.s, pos)
	if t.spaced || t.kind == nothing {
		return true
	}
	before, _ := utf8.DecodeLastRuneInString(r.s[:pos])
	quoted := fold(before) == '\'' || fold(before) == '"'
	switch {
	case t.kind == word:
		return followers[t.word] || quoted
	case t.kind != sign:
		return quoted
	case t.sign == '%', t.sign == '°':
		return false
	case t.sign == '.', t.sign == '/', t.sign == ':':
		return !next(r.s, t.to).figures()
	case t.sign == '\'':
		return !r.contraction(t)
	}
	return true
}

// tag reads "strong", "shy" and their cousins behind a number. A + is a tag
// when it is glued to the number and no other number is behind it.
func (r reader) tag(pos int) (tag Tag, to int, why string) {
	t := next(r.s, pos)
	if hair := next(r.s, t.to); t.says("a") && (hair.says("hair") || hair.says("bit") || hair.says("touch")) {
		if e := next(r.s, hair.to); tags[e.word] != Exact && e.word != "plus" && e.word != "minus" {
			t = e
		}
	}
	e := next(r.s, t.to)
	number := r.numberAt(t.to)
	switch {
	case t.tight('+'):
		if number || e.is('+') || e.is('-') || e.is('/') {
			return Exact, pos, ""
		}
		return Strong, t.to, ""
	case t.kind != word:
		return Exact, pos, ""
	case t.word == "short":
		if e.says("of") || number {
			return Exact, pos, ""
		}
		return Shy, t.to, "a bit under, or cut off by that much?"
	case t.word == "full" && !r.inches(t.to),
		(t.word == "plus" || t.word == "minus") && (number || e.says("or")):
		return Exact, pos, ""
	}
	tag, ok := tags[t.word]
	if !ok || !r.ends(t.to) {
		return Exact, pos, ""
	}
	return tag, t.to, ""
}

func (r reader) numberAt(pos int) bool {
	t := next(r.s, pos)
	_, one := ones[t.word]
	_, ten := tens[t.word]
	return one || ten || t.kind == digits || t.kind == glyph || t.is('.')
}
