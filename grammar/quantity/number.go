// Package quantity reads numbers and units as they stand in a text, in figures and in words. What a length is
// made of them is for package measure.
package quantity

import (
	"fmt"
	"math/bits"
	"strapline/calc/length"
	"strings"
)

// Most is the longest length taken from a person: 1,000 m.
const Most = 1000 * length.Metre

const (
	TooLong  = "longer than 1,000 m"
	tooFine  = "finer than can be measured"
	improper = "a fraction of one or more: write the whole number before it"
)

// Number is a number as it stands in a text, before a unit gives it a size:
// mant / 10^scale + num / den.
type Number struct {
	To       int
	Mant     int64
	Scale    int
	Num, Den int64 // den 0: no fraction
	Point    bool  // "4 point 3"
	grouped  bool  // 2,962
	Said     bool  // in words
	Why      string

	// Numbers under 100 said right after the first, as in "six four".
	More  [2]saidNext
	NMore int
}

type saidNext struct {
	Value int64
	Two   bool // takes two digits: "sixteen", "oh six"
}

// Count reports a number without decimals or a fraction.
func (n Number) Count() bool { return n.Scale == 0 && n.Den == 0 && !n.Point }

// In gives n in the unit, or says why it has no length there.
func (n Number) In(unit length.Length) (length.Length, string) {
	if n.Why != "" {
		return 0, n.Why
	}
	size, div := int64(unit), int64(1)
	for range n.Scale {
		div *= 10
	}
	g := gcd(size, div)
	size, div = size/g, div/g
	if n.Mant%div != 0 {
		return 0, tooFine
	}
	hi, lo := bits.Mul64(uint64(n.Mant/div), uint64(size))
	if hi != 0 || lo > uint64(Most) {
		return 0, TooLong
	}
	l := length.Length(lo)
	if n.Den != 0 {
		l += unit * length.Length(n.Num) / length.Length(n.Den) // 64 parts make any unit
	}
	if l > Most {
		return 0, TooLong
	}
	return l, ""
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Atoi reads a run of digits; more than 12 of them stand for a number that is
// too long in any unit.
func Atoi(s string) (v int64, ok bool) {
	s = strings.TrimLeft(s, "0")
	if len(s) > 12 {
		return 0, false
	}
	for _, c := range []byte(s) {
		v = v*10 + int64(c-'0')
	}
	return v, true
}

// Number reads one number at pos with the fraction that belongs to it. A bare
// space joins a whole number and its fraction, and no other two numbers.
func (r Text) Number(pos int) (Number, bool) {
	t := Next(r.S, pos)
	if f, ok := r.Fraction(pos, false); ok && (t.Kind != Word || !f.improper()) {
		n := Number{To: f.To, Num: f.Num, Den: f.Den, Said: f.Said, Why: f.Why}
		if n.Why == "" && t.Kind == Word && f.Num > 20 && f.Num%10 != 0 {
			n.Why = "one fraction, or a number and a fraction? write it in figures"
		}
		return n, true
	}
	var n Number
	switch {
	case t.Kind == Digits:
		n = r.figures(t)
	case t.Is('.') && Next(r.S, t.To).Figures():
		n = r.decimals(t.From, t.From)
	case t.Kind == Word:
		var ok bool
		if n, ok = r.words(t); !ok {
			return Number{}, false
		}
	default:
		return Number{}, false
	}
	if n.Why != "" {
		return n, true
	}
	n = r.WithFraction(n)
	if e := Next(r.S, n.To); e.Kind == Word && n.Den == 0 && e.Word != "half" && e.Word != "quarter" && e.Word != "fourth" {
		if _, to, ok := r.parts(n.To); ok { // ten eighths
			n.To, n.Why = to, improper
		}
	}
	return n, true
}

// figures reads a number that starts with the digits t.
func (r Text) figures(t Token) Number {
	e := Next(r.S, t.To)
	switch {
	case e.Tight('.') && Next(r.S, e.To).Figures():
		return r.decimals(t.From, t.To)
	case e.Tight(','):
		if n, ok := r.groups(t); ok {
			return n
		}
	case e.Says("point"):
		if part, to, ok := r.pointPart(e.To); ok {
			return pointed(r.S[t.From:t.To], part, to)
		}
	}
	v, ok := Atoi(r.S[t.From:t.To])
	n := Number{To: t.To, Mant: v}
	if !ok {
		n.Why = TooLong
	}
	return n
}

// decimals reads 116.625: the whole part is s[from:dot], and may be empty.
func (r Text) decimals(from, dot int) Number {
	d := Next(r.S, dot+1)
	n := decimal(r.S[from:dot], r.S[d.From:d.To], d.To)
	if e := Next(r.S, d.To); e.Tight('.') && Next(r.S, e.To).Figures() {
		n.To, n.Why = Next(r.S, e.To).To, "two points in one number"
	}
	return n
}

func pointed(whole, part string, to int) Number {
	n := decimal(whole, part, to)
	n.Point = true
	return n
}

func decimal(whole, part string, to int) Number {
	n := Number{To: to}
	part = strings.TrimRight(part, "0")
	w, ok := Atoi(whole)
	switch {
	case !ok:
		n.Why = TooLong
		return n
	case len(part) > 6: // 12 digits and 6 more fit an int64
		n.Why = tooFine
		return n
	}
	n.Mant, n.Scale = w, len(part)
	for _, c := range []byte(part) {
		n.Mant = n.Mant*10 + int64(c-'0')
	}
	return n
}

// groups reads 2,962. It is one number only with mm behind it, or in a metric
// job below 10,000 mm; what else a tight comma stands for is asked.
func (r Text) groups(t Token) (Number, bool) {
	d := Next(r.S, Next(r.S, t.To).To)
	if !d.Figures() {
		return Number{}, false
	}
	if d.To-d.From != 3 || t.To-t.From > 3 {
		u, _, ok := r.Unit(d.To)
		metres := ok && (u == length.Metre || u == length.Centimetre)
		if metres || r.Slot == One || r.U == length.Metric && t.To-t.From == 1 {
			return Number{To: d.To, Why: "a decimal takes a point, two numbers a space after the comma"}, true
		}
		return Number{}, false
	}
	end, text := d.To, r.S[t.From:t.To]+r.S[d.From:d.To]
	for {
		comma := Next(r.S, end)
		d := Next(r.S, comma.To)
		if !comma.Tight(',') || !d.Figures() {
			break
		}
		end, text = d.To, text+r.S[d.From:d.To]
		if len(text) > 12 || d.To-d.From != 3 {
			return Number{To: end, Why: "two numbers take a space after the comma"}, true
		}
	}
	v, _ := Atoi(text)
	n := Number{To: end, Mant: v, grouped: true}
	u, _, ok := r.Unit(end)
	if v, _ := Atoi(text); !(ok && u == length.Millimetre || !ok && r.U == length.Metric && v < 10_000) {
		n.Why = "one number or two? two take a space after the comma"
	}
	return n, true
}

// Fraction is a part of one: 5/8, ⅝, 5 8ths, five eighths, a half.
type Fraction struct {
	To       int
	Num, Den int64
	Said     bool
	Why      string
}

// Fraction reads a part of one at pos. With a whole number before it and
// "and" between, "half" and "quarter" need no number of their own.
func (r Text) Fraction(pos int, and bool) (Fraction, bool) {
	t := Next(r.S, pos)
	switch t.Kind {
	case glyph:
		return Fraction{To: t.To, Num: t.num, Den: t.den}.Checked(), true
	case Digits:
		if den, to, ok := r.parts(t.To); ok {
			num, _ := Atoi(r.S[t.From:t.To])
			return Fraction{To: to, Num: num, Den: den, Said: true}.Checked(), true
		}
		slash := Next(r.S, t.To)
		d := Next(r.S, slash.To)
		if !slash.Is('/') || d.Kind != Digits {
			return Fraction{}, false
		}
		if apart := slash.Spaced || d.Spaced; apart && !r.Ends(d.To) {
			return Fraction{}, false
		}
		num, ok1 := Atoi(r.S[t.From:t.To])
		den, ok2 := Atoi(r.S[d.From:d.To])
		f := Fraction{To: d.To, Num: num, Den: den}
		if !ok1 || !ok2 {
			f.Den = 0
		}
		if e := Next(r.S, f.To); e.Tight('/') && Next(r.S, e.To).Figures() {
			f.To, f.Why = Next(r.S, e.To).To, "a date, or two fractions?"
			return f, true
		} else if e.Kind == Word && !e.Spaced && (e.Word == "ths" || e.Word == "th") {
			f.To = e.To
		}
		return f.Checked(), true
	case Word:
		if t.Word == "a" || t.Word == "an" || and && (t.Word == "half" || t.Word == "quarter") {
			at := t.To
			if t.Word == "half" || t.Word == "quarter" {
				at = pos
			}
			den, to, ok := r.parts(at)
			return Fraction{To: to, Num: 1, Den: den, Said: true}.Checked(), ok
		}
		num, to, ok := r.numerator(t)
		if !ok {
			return Fraction{}, false
		}
		den, to, ok := r.parts(to)
		return Fraction{To: to, Num: num, Den: den, Said: true}.Checked(), ok
	}
	return Fraction{}, false
}

// improper reports 25/8, which in words is more likely 20-5/8.
func (f Fraction) improper() bool { return f.Den > 0 && f.Num >= f.Den }

// Checked refuses what is not on a tape, and never rounds it to what is.
func (f Fraction) Checked() Fraction {
	switch {
	case f.Den < 0:
		f.Why = fmt.Sprintf("misheard? if that is %d/%d, write it so", f.Num, -f.Den)
	case f.Den == 0 || f.Den > 64 || f.Den&(f.Den-1) != 0 || f.Den == 1:
		f.Why = "no such mark on a tape: halves to 64ths are"
	case f.Num == 0:
		f.Why = "a fraction of nothing"
	case f.Num >= f.Den:
		f.Why = improper
	}
	return f
}

// parts reads a denominator in words or with its ending: eighths,
// thirty-seconds, 16ths.
func (r Text) parts(pos int) (den int64, to int, ok bool) {
	t := Next(r.S, pos)
	switch t.Kind {
	case Digits:
		e := Next(r.S, t.To)
		if !t.Spaced || e.Spaced || e.Kind != Word {
			return 0, 0, false
		}
		switch e.Word {
		case "ths", "nds", "th", "nd":
			den, ok := Atoi(r.S[t.From:t.To])
			return den, e.To, ok
		}
	case Word:
		if den, ok := Parts[t.Word]; ok {
			return den, t.To, true
		}
		e := Next(r.S, t.To)
		if e.Tight('-') {
			e = Next(r.S, e.To)
		}
		switch {
		case t.Word == "thirty" && (e.Says("seconds") || e.Says("second")):
			return 32, e.To, true
		case t.Word == "sixty" && (e.Says("fourths") || e.Says("fourth")):
			return 64, e.To, true
		}
	}
	return 0, 0, false
}

// WithFraction adds the fraction that belongs to the whole number n.
func (r Text) WithFraction(n Number) Number {
	t := Next(r.S, n.To)
	at, and := n.To, false
	switch {
	case t.Tight('-'):
		if Next(r.S, t.To).Spaced {
			return n
		}
		at = t.To
	case t.Says("and"), t.Is('&'):
		at, and = t.To, true
	}
	f, ok := r.Fraction(at, and)
	if !ok || !and && f.Said && f.improper() {
		return n
	}
	n.To, n.Num, n.Den = f.To, f.Num, f.Den
	switch {
	case f.Why != "":
		n.Why = f.Why
	case n.Scale != 0:
		n.Why = "a decimal and a fraction"
	case n.grouped:
		n.Why = "a comma and a fraction"
	}
	return n
}
