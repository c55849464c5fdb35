package quantity

import (
	"strapline/calc/length"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Slot says how much a number may take to itself.
type Slot int

const (
	// One: the slot takes one length and nothing else could own the number, so
	// feet and inches with bare spaces ("9 8 10/16") are read.
	One Slot = iota
	// List: lengths follow each other, so a bare space joins only a whole number and its fraction.
	List
)

// Text is a text that is read from its start, and how: in which units, and how much a number may take to itself.
type Text struct {
	S    string
	U    length.Units
	Slot Slot
}

// Unsure stands for an "in" that may be inches or the way into a room.
const Unsure length.Length = -1

// UnitOf reads the unit behind n: ', ", ft, in, mm, cm, m, "of an inch".
func (r Text) UnitOf(n Number) (unit length.Length, to int, ok bool) {
	if n.Den != 0 && n.Mant == 0 {
		t := Next(r.S, n.To)
		if t.Says("of") {
			t = Next(r.S, t.To)
		}
		if t.Says("a") || t.Says("an") {
			if u := Next(r.S, t.To); Units[u.Word] != 0 {
				return Units[u.Word], u.To, true
			}
		}
	}
	unit, to, ok = r.Unit(n.To)
	if r.inward(unit, to) && n.Den == 0 {
		unit = Unsure
	}
	if unit == Unsure && (n.Den != 0 || n.Scale == 0 && n.Mant >= 100) {
		return 0, 0, false
	}
	return unit, to, ok
}

// inward reports whether the "in" that ends at pos may be the way in from a wall: "600 in from the west".
// On a metric tape nobody measures 100 inches, and less than that is asked about.
func (r Text) inward(unit length.Length, pos int) bool {
	t := Next(r.S, pos)
	return r.U == length.Metric && unit == length.Inch && strings.HasSuffix(r.S[:pos], " in") && (t.Says("from") || t.Says("off"))
}

func (r Text) Unit(pos int) (unit length.Length, to int, ok bool) {
	t := Next(r.S, pos)
	switch {
	case t.Tight('\'') && !r.contraction(t):
		return length.Foot, t.To, true
	case t.Tight('"'):
		return length.Inch, t.To, true
	case t.Tight('-'): // 6-inch
		if t = Next(r.S, t.To); t.Spaced {
			return 0, 0, false
		}
	}
	unit, ok = Units[t.Word]
	if !ok {
		return 0, 0, false
	}
	if t.Word == "in" && t.Spaced && !r.Inches(t.To) {
		if r.U == length.Metric {
			return Unsure, t.To, true
		}
		return 0, 0, false
	}
	if t.Word == "in" || t.Word == "ft" {
		if dot := Next(r.S, t.To); dot.Tight('.') {
			if e := Next(r.S, dot.To); e.Spaced || e.Kind != Word && e.Kind != Digits {
				return unit, dot.To, true
			}
		}
	}
	return unit, t.To, true
}

// contraction reports the quote of "one's".
func (r Text) contraction(quote Token) bool {
	before, _ := utf8.DecodeLastRuneInString(r.S[:quote.From])
	e := Next(r.S, quote.To)
	return unicode.IsLetter(before) && e.Kind == Word && !e.Spaced
}

// Inches reports whether the "in" that ends at pos can be inches by what
// comes after it.
func (r Text) Inches(pos int) bool {
	t := Next(r.S, pos)
	if t.Kind != Word {
		return true
	}
	if compass[t.Word] {
		return Next(r.S, t.To).Says("of")
	}
	return followers[t.Word] || r.NumberAt(pos) || ways[t.Word] && offs[Next(r.S, t.To).Word]
}

// Ends reports whether a length may end at pos: not in "2nd", "16s", "45°".
func (r Text) Ends(pos int) bool {
	t := Next(r.S, pos)
	if t.Spaced || t.Kind == Nothing {
		return true
	}
	before, _ := utf8.DecodeLastRuneInString(r.S[:pos])
	quoted := fold(before) == '\'' || fold(before) == '"'
	switch {
	case t.Kind == Word:
		return followers[t.Word] || quoted
	case t.Kind != Sign:
		return quoted
	case t.Sign == '%', t.Sign == '°':
		return false
	case t.Sign == '.', t.Sign == '/', t.Sign == ':':
		return !Next(r.S, t.To).Figures()
	case t.Sign == '\'':
		return !r.contraction(t)
	}
	return true
}

func (r Text) NumberAt(pos int) bool {
	t := Next(r.S, pos)
	_, one := Ones[t.Word]
	_, ten := Tens[t.Word]
	return one || ten || t.Kind == Digits || t.Kind == glyph || t.Is('.')
}
