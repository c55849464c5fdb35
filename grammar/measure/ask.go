package measure

import (
	"fmt"
	"strapline/calc/length"
	"strapline/grammar/quantity"
	"strings"
)

// tallest is the most feet that a number without a foot mark is taken for.
const tallest = 40

// steps are the fractions that b counts: quarters, eighths, sixteenths.
func steps(b int64) (ls []length.Length) {
	for _, den := range []int64{4, 8, 16} {
		if 0 < b && b < den {
			ls = append(ls, length.Length(b)*length.Inch/length.Length(den))
		}
	}
	return ls
}

// two gives the meanings of two whole numbers that stand for one length:
// "10 6", "36-12", "84 & 2". The second is inches when the first may be feet
// (at most 40), and a count of quarters, eighths or sixteenths.
func two(a, b int64, to int) found {
	f := found{to: to, why: fmt.Sprintf("%d what?", b), hints: true, said: -1}
	if a > int64(quantity.Most/length.Inch) {
		return refused(to, quantity.TooLong)
	}
	if a <= tallest && b <= 12 {
		f.ls = append(f.ls, length.Length(a)*length.Foot+length.Length(b)*length.Inch)
		if b < 12 {
			f.said = f.ls[0]
		}
	}
	if b == 0 {
		f.ls = append(f.ls, length.Length(a)*length.Inch)
	}
	for _, l := range steps(b) {
		f.ls = append(f.ls, length.Length(a)*length.Inch+l)
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
	return 0 < a && a < b && b <= 64 && quantity.Fraction{Num: a, Den: b}.Checked().Why == ""
}

// pair reads the second half of a whole number without a unit.
func (r reader) pair(a quantity.Number) (found, bool) {
	t := quantity.Next(r.S, a.To)
	var b quantity.Number
	var ok bool
	tight := false
	switch {
	case t.Tight('-') && quantity.Next(r.S, t.To).Figures():
		tight = true
		b, ok = r.Number(t.To)
	case t.Is('&'), t.Says("and") && r.Slot == One:
		b, ok = r.Number(t.To)
		ok = ok && b.Count() && b.Mant < 16
	case t.Kind == quantity.Digits && r.Slot == One && !a.Said:
		if t.To-t.From == 3 && a.Mant < 1000 && (r.U == length.Metric || r.millimetres(t.To)) {
			return r.spaced(a, t)
		}
		b, ok = r.Number(a.To)
	}
	if !ok && t.Spaced && r.NumberAt(a.To) && a.Said != (t.Kind == quantity.Word) {
		// In a list "strap four 22 off east" has two numbers, "forty 8" has one.
		one := r.Slot == One || a.Said && a.Mant >= 20 && a.Mant%10 == 0 && t.To-t.From == 1
		if one && t.Kind != quantity.Sign {
			return refused(a.To, "one length or two? write it in figures"), true
		}
	}
	if !ok || b.NMore > 0 {
		return found{}, false
	}
	unit, to, hasUnit := r.UnitOf(b)
	if !hasUnit || unit == quantity.Unsure {
		to = b.To
	}
	measured := hasUnit && unit != length.Inch && unit != quantity.Unsure
	if !tight && (measured || b.Why != "" || b.Mant >= 16 && b.Scale == 0 || !r.Ends(to) || quantity.Next(r.S, to).Says("oc")) {
		return found{}, false
	}
	switch {
	case b.Why != "":
		return refused(to, b.Why), true
	case measured, r.U == length.Metric && b.Count():
		return refused(to, "one length or two? two take a comma between"), true
	case !b.Count():
		return r.feetInches(a, b, to, tight)
	}
	if c, end, ok := r.third(to, tight); ok {
		f := found{to: end, why: fmt.Sprintf("%d what?", c), hints: true, said: -1}
		if a.Mant <= tallest && b.Mant < 12 {
			for _, l := range steps(c) {
				f.ls = append(f.ls, length.Length(a.Mant)*length.Foot+length.Length(b.Mant)*length.Inch+l)
			}
		}
		if tight && a.Mant > tallest && dashed(b.Mant, c) { // 96-5-8
			l, _ := quantity.Number{Mant: a.Mant, Num: b.Mant, Den: c}.In(length.Inch)
			return found{to: end, ls: []length.Length{l}, why: fmt.Sprintf("a fraction, %d/%d?", b.Mant, c)}, true
		}
		switch {
		case len(f.ls) == 0 || r.Slot == List || len(f.ls) == 1 && !tight:
			return refused(end, "one length or three? several take a comma between"), true
		case len(f.ls) == 1: // feet-inches-sixteenths
			f.why = ""
		}
		return f, true
	}
	f := two(a.Mant, b.Mant, to)
	if tight && len(f.ls) > 0 && dashed(a.Mant, b.Mant) {
		f.ls = append(f.ls, length.Length(a.Mant)*length.Inch/length.Length(b.Mant))
	}
	return f, true
}

// stroke reads 96 5-8 and 167 5 8: most likely a fraction whose stroke was
// lost, but they may be two or three lengths.
func (r reader) stroke(a quantity.Number) (found, bool) {
	n := quantity.Next(r.S, a.To)
	d := quantity.Next(r.S, n.To)
	dash := d.Tight('-')
	if dash {
		d = quantity.Next(r.S, d.To)
	}
	if n.Kind != quantity.Digits || !n.Spaced || d.Kind != quantity.Digits || d.Spaced == dash || !r.Ends(d.To) {
		return found{}, false
	}
	num, _ := quantity.Atoi(r.S[n.From:n.To])
	den, _ := quantity.Atoi(r.S[d.From:d.To])
	if !dashed(num, den) || !dash && (a.Mant <= tallest || num%2 == 0) {
		return found{}, false
	}
	if _, _, ok := r.Unit(d.To); ok {
		return found{}, false
	}
	l, why := quantity.Number{Mant: a.Mant, Num: num, Den: den}.In(length.Inch)
	if why != "" {
		return refused(d.To, why), true
	}
	return found{to: d.To, ls: []length.Length{l}, why: fmt.Sprintf("a fraction, %d/%d?", num, den)}, true
}

// third reads one more count in the way the second was joined to the first.
func (r reader) third(pos int, tight bool) (c int64, to int, ok bool) {
	t := quantity.Next(r.S, pos)
	if tight {
		if !t.Tight('-') {
			return 0, 0, false
		}
		t = quantity.Next(r.S, t.To)
	}
	if t.Kind != quantity.Digits || t.Spaced == tight || !r.Ends(t.To) {
		return 0, 0, false
	}
	if _, _, ok := r.Unit(t.To); ok {
		return 0, 0, false
	}
	c, ok = quantity.Atoi(r.S[t.From:t.To])
	return c, t.To, ok && (tight || c < 16)
}

// feetInches reads 9 8 10/16, 9-8-5/8, 9 8.625.
func (r reader) feetInches(a, b quantity.Number, to int, tight bool) (found, bool) {
	in, why := b.In(length.Inch)
	switch {
	case why != "":
		return refused(to, why), true
	case in >= length.Foot && !tight:
		return found{}, false
	case in >= length.Foot, a.Mant > tallest:
		return refused(to, "feet and inches, or two lengths? write the marks"), true
	case b.Point || in%length.SixtyFourth != 0 && b.Scale != 0:
		return refused(to, "no mark on a tape: write sixteenths"), true
	}
	return sure(length.Length(a.Mant)*length.Foot+in, "", to), true
}

func (r reader) millimetres(pos int) bool {
	unit, _, ok := r.Unit(pos)
	return ok && unit == length.Millimetre
}

// spaced reads 2 962 in a metric job, and 2 962 mm in any.
func (r reader) spaced(a quantity.Number, t quantity.Token) (found, bool) {
	b, _ := quantity.Atoi(r.S[t.From:t.To])
	unit, to, ok := r.Unit(t.To)
	if !ok {
		to = t.To
	}
	if a.Mant > 9 || ok && unit != length.Millimetre {
		return refused(to, "one number or two?"), true
	}
	return sure(length.Length(a.Mant*1000+b)*length.Millimetre, "", to), true
}

// decimals16 reads a bare decimal in inches. It is sure when it is a 64th,
// which no other decimal comes out at; else it may be feet and inches, eighths,
// or decimal feet.
func (r reader) decimals16(a quantity.Number, to int) found {
	l, why := a.In(length.Inch)
	if why != "" || l%length.SixtyFourth == 0 && !a.Point {
		return sure(l, why, to)
	}
	pow := int64(1)
	for range a.Scale {
		pow *= 10
	}
	whole, part := a.Mant/pow, a.Mant%pow
	f := found{to: to, why: "inches, or what of an inch?", hints: true, said: l}
	var eighths length.Length
	if a.Scale == 1 && part < 8 {
		eighths = length.Length(whole)*length.Inch + length.Length(part)*length.Inch/8
	}
	if eighths == 0 || eighths != length.RoundNearest(l, length.Imperial) {
		f.ls = append(f.ls, l)
	}
	if eighths != 0 {
		f.ls = append(f.ls, eighths)
	}
	if whole <= tallest {
		switch feet, why := a.In(length.Foot); {
		case a.Scale == 1, a.Scale == 2 && part > 9 && part < 12:
			f.ls = append(f.ls, length.Length(whole)*length.Foot+length.Length(part)*length.Inch)
		case a.Scale >= 3 && why == "":
			f.ls = append(f.ls, feet)
		}
	}
	if len(f.ls) == 1 {
		n := length.RoundNearest(l, length.Imperial)
		return refused(to, "no mark on a tape: "+length.Canon(n)+" is the nearest")
	}
	return f
}

// decimalsMetric reads a bare decimal in a metric job in mm, cm and m, as far
// as that gives whole tenths of a millimetre.
func decimalsMetric(a quantity.Number) found {
	f := found{to: a.To, why: "mm, cm or m?"}
	for _, unit := range []length.Length{length.Metre, length.Millimetre, length.Centimetre} {
		if l, why := a.In(unit); why == "" && l%(length.Millimetre/10) == 0 {
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
	h := quantity.Next(r.S, 0)
	if h.Kind != quantity.Digits {
		return found{}, false
	}
	colon := quantity.Next(r.S, h.To)
	m := quantity.Next(r.S, colon.To)
	if !colon.Tight(':') || !m.Figures() {
		return found{}, false
	}
	a, _ := quantity.Atoi(r.S[h.From:h.To])
	b, _ := quantity.Atoi(r.S[m.From:m.To])
	n := r.WithFraction(quantity.Number{To: m.To, Mant: b})
	to := n.To
	if unit, end, ok := r.Unit(to); ok && unit == length.Inch {
		to = end
	}
	in, why := n.In(length.Inch)
	if r.U == length.Metric || why != "" || b > 11 || a == 0 || a > tallest {
		return refused(to, "a clock time, not a length"), true
	}
	tail := length.Length(10)
	if b > 9 {
		tail = 100
	}
	ls := []length.Length{length.Length(a)*length.Foot + in, length.Length(a)*tail*length.Inch + in}
	return found{to: to, why: "a clock time, or a length?", ls: ls, hints: true, said: -1}, true
}

// heard looks for a word behind a whole number that a phone wrote for a
// number: "forty for and a half".
func (r reader) heard(a quantity.Number) (found, bool) {
	if a.Mant >= 20 && a.Mant < 100 && a.Mant%10 == 0 {
		return r.heardAs(a.To, 0, a.Mant)
	}
	f, ok := r.heardAs(a.To, 0, 0)
	f.ls = nil
	return f, ok
}

// heardAs reads a homophone at pos as a number on top of the feet and the
// tens before it. It is a plain word where an ordinary word follows: "8 foot
// to the edge".
func (r reader) heardAs(pos int, feet length.Length, tens int64) (found, bool) {
	t := quantity.Next(r.S, pos)
	v, ok := homophones[t.Word]
	if !ok {
		return found{}, false
	}
	n := r.WithFraction(quantity.Number{To: t.To, Mant: v})
	unit, to, measured := r.UnitOf(n)
	if !measured || unit == length.Foot || unit == quantity.Unsure {
		to = n.To
		if unit = length.Inch; r.U == length.Metric && feet == 0 && n.Den == 0 {
			unit = length.Millimetre
		}
	}
	switch e := quantity.Next(r.S, t.To); {
	case n.Why != "":
		return refused(n.To, n.Why), true
	case n.To > t.To, measured, e.Kind == quantity.Nothing:
	case e.Kind == quantity.Sign && strings.ContainsRune(",.;+&×", e.Sign):
	case e.Says("x"), e.Says("by"), e.Says("off"), e.Says("up"), e.Says("down"), tags[e.Word] != length.Exact:
	default:
		return found{}, false
	}
	n.Mant = tens + v
	with, _ := n.In(unit)
	n.Mant = tens
	without, _ := n.In(unit)
	why := fmt.Sprintf("is %q a number? write it in figures", t.Word)
	return found{to: to, ls: []length.Length{feet + with, feet + without}, why: why, hints: true, said: -1}, true
}

// row gives the meanings of numbers said one after the other: feet and
// inches, or the digits of one number. Never a list: that takes commas.
func (r reader) row(a quantity.Number, unit length.Length, to int) found {
	if unit == 0 {
		if to, unit = a.To, length.Inch; r.U == length.Metric && a.Den == 0 {
			unit = length.Millimetre
		}
	}
	run, b := a.Run(), a.More[0]
	part, _ := quantity.Number{Num: a.Num, Den: a.Den}.In(length.Inch)
	if f, ok := r.heardAs(to, 0, 0); ok {
		return refused(f.to, f.why)
	}
	if unit == length.Inch && (run.Mant >= 1000 || run.Why != "") {
		// No one says more than 999 inches in this way.
		run.Why = quantity.TooLong
		if a.NMore == 1 && a.Den == 0 && b.Value < 16 {
			return two(a.Mant, b.Value, to)
		}
	}
	if a.NMore == 2 && run.Why != "" && a.Mant < 10 && b.Value < 10 && !b.Two && a.More[1].Value < 10 && !a.More[1].Two { // one six seven
		run.Mant, run.Why = a.Mant*100+b.Value*10+a.More[1].Value, ""
		if l, why := run.In(unit); why == "" {
			return found{to: to, ls: []length.Length{l}, why: "one number, digit by digit?"}
		}
	}
	f := found{to: to, why: "feet and inches, or one number?"}
	feet := a.NMore == 1 && 0 < a.Mant && a.Mant <= tallest && b.Value < 12 && (unit == length.Inch || !b.Two)
	if feet {
		f.ls = append(f.ls, length.Length(a.Mant)*length.Foot+length.Length(b.Value)*length.Inch+part)
	}
	if l, why := run.In(unit); why == "" {
		f.ls = append(f.ls, l)
	}
	switch {
	case len(f.ls) == 2:
		return f
	case len(f.ls) == 1 && (!feet || r.Slot == One):
		return sure(f.ls[0], "", to)
	}
	return refused(to, "one length or two? write it in figures")
}
