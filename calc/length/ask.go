package length

import (
	"fmt"
	"strings"
)

// tallest is the most feet that a number without a foot mark is taken for.
const tallest = 40

// steps are the fractions that b counts: quarters, eighths, sixteenths.
func steps(b int64) (ls []Length) {
	for _, den := range []int64{4, 8, 16} {
		if 0 < b && b < den {
			ls = append(ls, Length(b)*Inch/Length(den))
		}
	}
	return ls
}

// two gives the meanings of two whole numbers that stand for one length:
// "10 6", "36-12", "84 & 2". The second is inches when the first may be feet
// (at most 40), and a count of quarters, eighths or sixteenths.
func two(a, b int64, to int) found {
	f := found{to: to, why: fmt.Sprintf("%d what?", b), hints: true, said: -1}
	if a > int64(most/Inch) {
		return refused(to, tooLong)
	}
	if a <= tallest && b <= 12 {
		f.ls = append(f.ls, Length(a)*Foot+Length(b)*Inch)
		if b < 12 {
			f.said = f.ls[0]
		}
	}
	if b == 0 {
		f.ls = append(f.ls, Length(a)*Inch)
	}
	for _, l := range steps(b) {
		f.ls = append(f.ls, Length(a)*Inch+l)
	}
	if len(f.ls) == 1 {
		f.ls = nil
	}
	if len(f.ls) == 0 {
		f.why = "one length or two? two take a comma between"
	}
	return f
}

// dashed reports whether the counts may be a fraction with a dash for its
// stroke, "5-8".
func dashed(a, b int64) bool {
	return 0 < a && a < b && b <= 64 && fraction{num: a, den: b}.checked().why == ""
}

// pair reads the second half of a whole number without a unit.
func (r reader) pair(a number) (found, bool) {
	t := next(r.s, a.to)
	var b number
	var ok bool
	tight := false
	switch {
	case t.tight('-') && next(r.s, t.to).figures():
		tight = true
		b, ok = r.number(t.to)
	case t.is('&'), t.says("and") && r.slot == One:
		b, ok = r.number(t.to)
		ok = ok && b.count() && b.mant < 16
	case t.kind == digits && r.slot == One && !a.said:
		if t.to-t.from == 3 && a.mant < 1000 && (r.u == Metric || r.millimetres(t.to)) {
			return r.spaced(a, t)
		}
		b, ok = r.number(a.to)
	}
	if !ok && t.spaced && r.numberAt(a.to) && a.said != (t.kind == word) {
		// In a list "strap four 22 off east" has two numbers, "forty 8" has one.
		one := r.slot == One || a.said && a.mant >= 20 && a.mant%10 == 0 && t.to-t.from == 1
		if one && t.kind != sign {
			return refused(a.to, "one length or two? write it in figures"), true
		}
	}
	if !ok || b.nMore > 0 {
		return found{}, false
	}
	unit, to, hasUnit := r.unitOf(b)
	if !hasUnit || unit == unsure {
		to = b.to
	}
	measured := hasUnit && unit != Inch && unit != unsure
	if !tight && (measured || b.why != "" || b.mant >= 16 && b.scale == 0 || !r.ends(to) || next(r.s, to).says("oc")) {
		return found{}, false
	}
	switch {
	case b.why != "":
		return refused(to, b.why), true
	case measured, r.u == Metric && b.count():
		return refused(to, "one length or two? two take a comma between"), true
	case !b.count():
		return r.feetInches(a, b, to, tight)
	}
	if c, end, ok := r.third(to, tight); ok {
		f := found{to: end, why: fmt.Sprintf("%d what?", c), hints: true, said: -1}
		if a.mant <= tallest && b.mant < 12 {
			for _, l := range steps(c) {
				f.ls = append(f.ls, Length(a.mant)*Foot+Length(b.mant)*Inch+l)
			}
		}
		if tight && a.mant > tallest && dashed(b.mant, c) { // 96-5-8
			l, _ := number{mant: a.mant, num: b.mant, den: c}.in(Inch)
			return found{to: end, ls: []Length{l}, why: fmt.Sprintf("a fraction, %d/%d?", b.mant, c)}, true
		}
		switch {
		case len(f.ls) == 0 || r.slot == List || len(f.ls) == 1 && !tight:
			return refused(end, "one length or three? several take a comma between"), true
		case len(f.ls) == 1: // feet-inches-sixteenths
			f.why = ""
		}
		return f, true
	}
	f := two(a.mant, b.mant, to)
	if tight && len(f.ls) > 0 && dashed(a.mant, b.mant) {
		f.ls = append(f.ls, Length(a.mant)*Inch/Length(b.mant))
	}
	return f, true
}

// stroke reads 96 5-8 and 167 5 8: most likely a fraction whose stroke was
// lost, but they may be two or three lengths.
func (r reader) stroke(a number) (found, bool) {
	n := next(r.s, a.to)
	d := next(r.s, n.to)
	dash := d.tight('-')
	if dash {
		d = next(r.s, d.to)
	}
	if n.kind != digits || !n.spaced || d.kind != digits || d.spaced == dash || !r.ends(d.to) {
		return found{}, false
	}
	num, _ := atoi(r.s[n.from:n.to])
	den, _ := atoi(r.s[d.from:d.to])
	if !dashed(num, den) || !dash && (a.mant <= tallest || num%2 == 0) {
		return found{}, false
	}
	if _, _, ok := r.unit(d.to); ok {
		return found{}, false
	}
	l, why := number{mant: a.mant, num: num, den: den}.in(Inch)
	if why != "" {
		return refused(d.to, why), true
	}
	return found{to: d.to, ls: []Length{l}, why: fmt.Sprintf("a fraction, %d/%d?", num, den)}, true
}

// third reads one more count in the way the second was joined to the first.
func (r reader) third(pos int, tight bool) (c int64, to int, ok bool) {
	t := next(r.s, pos)
	if tight {
		if !t.tight('-') {
			return 0, 0, false
		}
		t = next(r.s, t.to)
	}
	if t.kind != digits || t.spaced == tight || !r.ends(t.to) {
		return 0, 0, false
	}
	if _, _, ok := r.unit(t.to); ok {
		return 0, 0, false
	}
	c, ok = atoi(r.s[t.from:t.to])
	return c, t.to, ok && (tight || c < 16)
}

// feetInches reads 9 8 10/16, 9-8-5/8, 9 8.625.
func (r reader) feetInches(a, b number, to int, tight bool) (found, bool) {
	in, why := b.in(Inch)
	switch {
	case why != "":
		return refused(to, why), true
	case in >= Foot && !tight:
		return found{}, false
	case in >= Foot, a.mant > tallest:
		return refused(to, "feet and inches, or two lengths? write the marks"), true
	case b.point || in%SixtyFourth != 0 && b.scale != 0:
		return refused(to, "no mark on a tape: write sixteenths"), true
	}
	return sure(Length(a.mant)*Foot+in, "", to), true
}

func (r reader) millimetres(pos int) bool {
	unit, _, ok := r.unit(pos)
	return ok && unit == Millimetre
}

// spaced reads 2 962 in a metric job, and 2 962 mm in any.
func (r reader) spaced(a number, t token) (found, bool) {
	b, _ := atoi(r.s[t.from:t.to])
	unit, to, ok := r.unit(t.to)
	if !ok {
		to = t.to
	}
	if a.mant > 9 || ok && unit != Millimetre {
		return refused(to, "one number or two?"), true
	}
	return sure(Length(a.mant*1000+b)*Millimetre, "", to), true
}

// decimals16 reads a bare decimal in inches. It is sure when it is a 64th,
// which no other decimal comes out at; else it may be feet and inches, eighths,
// or decimal feet.
func (r reader) decimals16(a number, to int) found {
	l, why := a.in(Inch)
	if why != "" || l%SixtyFourth == 0 && !a.point {
		return sure(l, why, to)
	}
	pow := int64(1)
	for range a.scale {
		pow *= 10
	}
	whole, part := a.mant/pow, a.mant%pow
	f := found{to: to, why: "inches, or what of an inch?", hints: true, said: l}
	var eighths Length
	if a.scale == 1 && part < 8 {
		eighths = Length(whole)*Inch + Length(part)*Inch/8
	}
	if eighths == 0 || eighths != RoundNearest(l, Imperial) {
		f.ls = append(f.ls, l)
	}
	if eighths != 0 {
		f.ls = append(f.ls, eighths)
	}
	if whole <= tallest {
		switch feet, why := a.in(Foot); {
		case a.scale == 1, a.scale == 2 && part > 9 && part < 12:
			f.ls = append(f.ls, Length(whole)*Foot+Length(part)*Inch)
		case a.scale >= 3 && why == "":
			f.ls = append(f.ls, feet)
		}
	}
	if len(f.ls) == 1 {
		n := RoundNearest(l, Imperial)
		return refused(to, "no mark on a tape: "+inches(n)+" is the nearest")
	}
	return f
}

// decimalsMetric reads a bare decimal in a metric job in mm, cm and m, as far
// as that gives whole tenths of a millimetre.
func decimalsMetric(a number) found {
	f := found{to: a.to, why: "mm, cm or m?"}
	for _, unit := range []Length{Metre, Millimetre, Centimetre} {
		if l, why := a.in(unit); why == "" && l%(Millimetre/10) == 0 {
			f.ls = append(f.ls, l)
		}
	}
	switch len(f.ls) {
	case 0:
		f.why = "finer than a tenth of a millimetre"
	case 1:
		f.why = ""
	}
	return f
}

// clock reads 9:08 1/2, which is what some phones make of nine eight and a half.
func (r reader) clock() (found, bool) {
	h := next(r.s, 0)
	if h.kind != digits {
		return found{}, false
	}
	colon := next(r.s, h.to)
	m := next(r.s, colon.to)
	if !colon.tight(':') || !m.figures() {
		return found{}, false
	}
	a, _ := atoi(r.s[h.from:h.to])
	b, _ := atoi(r.s[m.from:m.to])
	n := r.withFraction(number{to: m.to, mant: b})
	to := n.to
	if unit, end, ok := r.unit(to); ok && unit == Inch {
		to = end
	}
	in, why := n.in(Inch)
	if r.u == Metric || why != "" || b > 11 || a == 0 || a > tallest {
		return refused(to, "a clock time, not a length"), true
	}
	tail := Length(10)
	if b > 9 {
		tail = 100
	}
	ls := []Length{Length(a)*Foot + in, Length(a)*tail*Inch + in}
	return found{to: to, why: "a clock time, or a length?", ls: ls, hints: true, said: -1}, true
}

// heard looks for a word behind a whole number that a phone wrote for a
// number: "forty for and a half".
func (r reader) heard(a number) (found, bool) {
	if a.mant >= 20 && a.mant < 100 && a.mant%10 == 0 {
		return r.heardAs(a.to, 0, a.mant)
	}
	f, ok := r.heardAs(a.to, 0, 0)
	f.ls = nil
	return f, ok
}

// heardAs reads a homophone at pos as a number on top of the feet and the
// tens before it. It is a plain word where an ordinary word follows: "8 foot
// to the edge".
func (r reader) heardAs(pos int, feet Length, tens int64) (found, bool) {
	t := next(r.s, pos)
	v, ok := homophones[t.word]
	if !ok {
		return found{}, false
	}
	n := r.withFraction(number{to: t.to, mant: v})
	unit, to, measured := r.unitOf(n)
	if !measured || unit == Foot || unit == unsure {
		to = n.to
		if unit = Inch; r.u == Metric && feet == 0 && n.den == 0 {
			unit = Millimetre
		}
	}
	switch e := next(r.s, t.to); {
	case n.why != "":
		return refused(n.to, n.why), true
	case n.to > t.to, measured, e.kind == nothing:
	case e.kind == sign && strings.ContainsRune(",.;+&×", e.sign):
	case e.says("x"), e.says("by"), e.says("off"), e.says("up"), e.says("down"), tags[e.word] != Exact:
	default:
		return found{}, false
	}
	n.mant = tens + v
	with, _ := n.in(unit)
	n.mant = tens
	without, _ := n.in(unit)
	why := fmt.Sprintf("is %q a number? write it in figures", t.word)
	return found{to: to, ls: []Length{feet + with, feet + without}, why: why, hints: true, said: -1}, true
}
