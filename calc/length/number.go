package length

import (
	"fmt"
	"math/bits"
	"strings"
)

// most is the longest length taken from a person: 1,000 m.
const most = 1000 * Metre

const (
	tooLong  = "longer than 1,000 m"
	tooFine  = "finer than can be measured"
	improper = "a fraction of one or more: write the whole number before it"
)

// number is a number as it stands in a text, before a unit gives it a size:
// mant / 10^scale + num / den.
type number struct {
	to       int
	mant     int64
	scale    int
	num, den int64 // den 0: no fraction
	point    bool  // "4 point 3"
	grouped  bool  // 2,962
	said     bool  // in words
	why      string

	// Numbers under 100 said right after the first, as in "six four".
	more  [2]saidNext
	nMore int
}

type saidNext struct {
	value int64
	two   bool // takes two digits: "sixteen", "oh six"
}

// count reports a number without decimals or a fraction.
func (n number) count() bool { return n.scale == 0 && n.den == 0 && !n.point }

// in gives n in the unit, or says why it has no length there.
func (n number) in(unit Length) (Length, string) {
	if n.why != "" {
		return 0, n.why
	}
	size, div := int64(unit), int64(1)
	for range n.scale {
		div *= 10
	}
	g := gcd(size, div)
	size, div = size/g, div/g
	if n.mant%div != 0 {
		return 0, tooFine
	}
	hi, lo := bits.Mul64(uint64(n.mant/div), uint64(size))
	if hi != 0 || lo > uint64(most) {
		return 0, tooLong
	}
	l := Length(lo)
	if n.den != 0 {
		l += unit * Length(n.num) / Length(n.den) // 64 parts make any unit
	}
	if l > most {
		return 0, tooLong
	}
	return l, ""
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// atoi reads a run of digits; more than 12 of them stand for a number that is
// too long in any unit.
func atoi(s string) (v int64, ok bool) {
	s = strings.TrimLeft(s, "0")
	if len(s) > 12 {
		return 0, false
	}
	for _, c := range []byte(s) {
		v = v*10 + int64(c-'0')
	}
	return v, true
}

// number reads one number at pos with the fraction that belongs to it. A bare
// space joins a whole number and its fraction, and no other two numbers.
func (r reader) number(pos int) (number, bool) {
	t := next(r.s, pos)
	if f, ok := r.fraction(pos, false); ok && (t.kind != word || !f.improper()) {
		n := number{to: f.to, num: f.num, den: f.den, said: f.said, why: f.why}
		if n.why == "" && t.kind == word && f.num > 20 && f.num%10 != 0 {
			n.why = "one fraction, or a number and a fraction? write it in figures"
		}
		return n, true
	}
	var n number
	switch {
	case t.kind == digits:
		n = r.figures(t)
	case t.is('.') && next(r.s, t.to).figures():
		n = r.decimals(t.from, t.from)
	case t.kind == word:
		var ok bool
		if n, ok = r.words(t); !ok {
			return number{}, false
		}
	default:
		return number{}, false
	}
	if n.why != "" {
		return n, true
	}
	n = r.withFraction(n)
	if e := next(r.s, n.to); e.kind == word && n.den == 0 && e.word != "half" && e.word != "quarter" && e.word != "fourth" {
		if _, to, ok := r.parts(n.to); ok { // ten eighths
			n.to, n.why = to, improper
		}
	}
	return n, true
}

// figures reads a number that starts with the digits t.
func (r reader) figures(t token) number {
	e := next(r.s, t.to)
	switch {
	case e.tight('.') && next(r.s, e.to).figures():
		return r.decimals(t.from, t.to)
	case e.tight(','):
		if n, ok := r.groups(t); ok {
			return n
		}
	case e.says("point"):
		if part, to, ok := r.pointPart(e.to); ok {
			return pointed(r.s[t.from:t.to], part, to)
		}
	}
	v, ok := atoi(r.s[t.from:t.to])
	n := number{to: t.to, mant: v}
	if !ok {
		n.why = tooLong
	}
	return n
}

// decimals reads 116.625: the whole part is s[from:dot], and may be empty.
func (r reader) decimals(from, dot int) number {
	d := next(r.s, dot+1)
	n := decimal(r.s[from:dot], r.s[d.from:d.to], d.to)
	if e := next(r.s, d.to); e.tight('.') && next(r.s, e.to).figures() {
		n.to, n.why = next(r.s, e.to).to, "two points in one number"
	}
	return n
}

func pointed(whole, part string, to int) number {
	n := decimal(whole, part, to)
	n.point = true
	return n
}

func decimal(whole, part string, to int) number {
	n := number{to: to}
	part = strings.TrimRight(part, "0")
	w, ok := atoi(whole)
	switch {
	case !ok:
		n.why = tooLong
		return n
	case len(part) > 6: // 12 digits and 6 more fit an int64
		n.why = tooFine
		return n
	}
	n.mant, n.scale = w, len(part)
	for _, c := range []byte(part) {
		n.mant = n.mant*10 + int64(c-'0')
	}
	return n
}

// groups reads 2,962. It is one number only with mm behind it, or in a metric
// job below 10,000 mm; what else a tight comma stands for is asked.
func (r reader) groups(t token) (number, bool) {
	d := next(r.s, next(r.s, t.to).to)
	if !d.figures() {
		return number{}, false
	}
	if d.to-d.from != 3 || t.to-t.from > 3 {
		u, _, ok := r.unit(d.to)
		metres := ok && (u == Metre || u == Centimetre)
		if metres || r.slot == One || r.u == Metric && t.to-t.from == 1 {
			return number{to: d.to, why: "a decimal takes a point, two numbers a space after the comma"}, true
		}
		return number{}, false
	}
	end, text := d.to, r.s[t.from:t.to]+r.s[d.from:d.to]
	for {
		comma := next(r.s, end)
		d := next(r.s, comma.to)
		if !comma.tight(',') || !d.figures() {
			break
		}
		end, text = d.to, text+r.s[d.from:d.to]
		if len(text) > 12 || d.to-d.from != 3 {
			return number{to: end, why: "two numbers take a space after the comma"}, true
		}
	}
	v, _ := atoi(text)
	n := number{to: end, mant: v, grouped: true}
	u, _, ok := r.unit(end)
	if v, _ := atoi(text); !(ok && u == Millimetre || !ok && r.u == Metric && v < 10_000) {
		n.why = "one number or two? two take a space after the comma"
	}
	return n, true
}

// fraction is a part of one: 5/8, ⅝, 5 8ths, five eighths, a half.
type fraction struct {
	to       int
	num, den int64
	said     bool
	why      string
}

// fraction reads a part of one at pos. With a whole number before it and
// "and" between, "half" and "quarter" need no number of their own.
func (r reader) fraction(pos int, and bool) (fraction, bool) {
	t := next(r.s, pos)
	switch t.kind {
	case glyph:
		return fraction{to: t.to, num: t.num, den: t.den}.checked(), true
	case digits:
		if den, to, ok := r.parts(t.to); ok {
			num, _ := atoi(r.s[t.from:t.to])
			return fraction{to: to, num: num, den: den, said: true}.checked(), true
		}
		slash := next(r.s, t.to)
		d := next(r.s, slash.to)
		if !slash.is('/') || d.kind != digits {
			return fraction{}, false
		}
		if apart := slash.spaced || d.spaced; apart && !r.ends(d.to) {
			return fraction{}, false
		}
		num, ok1 := atoi(r.s[t.from:t.to])
		den, ok2 := atoi(r.s[d.from:d.to])
		f := fraction{to: d.to, num: num, den: den}
		if !ok1 || !ok2 {
			f.den = 0
		}
		if e := next(r.s, f.to); e.tight('/') && next(r.s, e.to).figures() {
			f.to, f.why = next(r.s, e.to).to, "a date, or two fractions?"
			return f, true
		} else if e.kind == word && !e.spaced && (e.word == "ths" || e.word == "th") {
			f.to = e.to
		}
		return f.checked(), true
	case word:
		if t.word == "a" || t.word == "an" || and && (t.word == "half" || t.word == "quarter") {
			at := t.to
			if t.word == "half" || t.word == "quarter" {
				at = pos
			}
			den, to, ok := r.parts(at)
			return fraction{to: to, num: 1, den: den, said: true}.checked(), ok
		}
		num, to, ok := r.numerator(t)
		if !ok {
			return fraction{}, false
		}
		den, to, ok := r.parts(to)
		return fraction{to: to, num: num, den: den, said: true}.checked(), ok
	}
	return fraction{}, false
}

// improper reports 25/8, which in words is more likely 20-5/8.
func (f fraction) improper() bool { return f.den > 0 && f.num >= f.den }

// checked refuses what is not on a tape, and never rounds it to what is.
func (f fraction) checked() fraction {
	switch {
	case f.den < 0:
		f.why = fmt.Sprintf("misheard? if that is %d/%d, write it so", f.num, -f.den)
	case f.den == 0 || f.den > 64 || f.den&(f.den-1) != 0 || f.den == 1:
		f.why = "no such mark on a tape: halves to 64ths are"
	case f.num == 0:
		f.why = "a fraction of nothing"
	case f.num >= f.den:
		f.why = improper
	}
	return f
}

// parts reads a denominator in words or with its ending: eighths,
// thirty-seconds, 16ths.
func (r reader) parts(pos int) (den int64, to int, ok bool) {
	t := next(r.s, pos)
	switch t.kind {
	case digits:
		e := next(r.s, t.to)
		if !t.spaced || e.spaced || e.kind != word {
			return 0, 0, false
		}
		switch e.word {
		case "ths", "nds", "th", "nd":
			den, ok := atoi(r.s[t.from:t.to])
			return den, e.to, ok
		}
	case word:
		if den, ok := parts[t.word]; ok {
			return den, t.to, true
		}
		e := next(r.s, t.to)
		if e.tight('-') {
			e = next(r.s, e.to)
		}
		switch {
		case t.word == "thirty" && (e.says("seconds") || e.says("second")):
			return 32, e.to, true
		case t.word == "sixty" && (e.says("fourths") || e.says("fourth")):
			return 64, e.to, true
		}
	}
	return 0, 0, false
}

// withFraction adds the fraction that belongs to the whole number n.
func (r reader) withFraction(n number) number {
	t := next(r.s, n.to)
	at, and := n.to, false
	switch {
	case t.tight('-'):
		if next(r.s, t.to).spaced {
			return n
		}
		at = t.to
	case t.says("and"), t.is('&'):
		at, and = t.to, true
	}
	f, ok := r.fraction(at, and)
	if !ok || !and && f.said && f.improper() {
		return n
	}
	n.to, n.num, n.den = f.to, f.num, f.den
	switch {
	case f.why != "":
		n.why = f.why
	case n.scale != 0:
		n.why = "a decimal and a fraction"
	case n.grouped:
		n.why = "a comma and a fraction"
	}
	return n
}
