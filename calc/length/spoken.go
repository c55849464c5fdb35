package length

import "strconv"

// words reads a number in words and the ones said right after it: "one
// sixteen", "twenty-nine sixty-two", "eight five seventy-three".
func (r reader) words(t token) (number, bool) {
	v, to, ok := r.cardinal(t)
	if !ok {
		return number{}, false
	}
	n := number{to: to, mant: v, said: true}
	if e := next(r.s, to); e.says("point") {
		if part, to, ok := r.pointPart(e.to); ok {
			n = pointed(strconv.FormatInt(v, 10), part, to)
			n.said = true
			return n, true
		}
	}
	for n.mant < 100 {
		more, to, ok := r.another(r.afterDash(n.to))
		if !ok {
			break
		}
		if n.nMore == len(n.more) {
			n.to, n.why = to, "too many numbers in a row: write it in figures"
			return n, true
		}
		n.more[n.nMore] = more
		n.to = to
		n.nMore++
	}
	return n, true
}

// another reads the next number under 100 of a row of them.
func (r reader) another(t token) (m saidNext, to int, ok bool) {
	if t.word == "oh" || t.word == "o" {
		e := next(r.s, t.to)
		v, ok := ones[e.word]
		return saidNext{value: v, two: true}, e.to, ok && 0 < v && v < 10
	}
	if f, ok := r.fraction(t.from, false); ok && !f.improper() {
		return m, 0, false
	}
	v, to, ok := r.cardinal(t)
	return saidNext{value: v, two: v >= 10}, to, ok && v < 100
}

// cardinal reads "twelve", "one hundred and sixteen", "thirty-six hundred",
// "two thousand nine hundred and sixty two".
func (r reader) cardinal(t token) (v int64, to int, ok bool) {
	v, to, ok = r.hundreds(t)
	if e := next(r.s, to); ok && e.says("thousand") {
		rest, end := r.rest(e.to, r.hundreds)
		v, to = v*1000+rest, end
	}
	return v, to, ok
}

func (r reader) hundreds(t token) (v int64, to int, ok bool) {
	if e := next(r.s, t.to); t.word == "a" && (e.says("hundred") || e.says("thousand")) {
		v, to, ok = 1, t.to, true
	} else {
		v, to, ok = r.under100(t)
	}
	if e := next(r.s, to); ok && e.says("hundred") {
		rest, end := r.rest(e.to, r.under100)
		v, to = v*100+rest, end
	}
	return v, to, ok
}

// rest reads what follows a hundred or a thousand, unless it is a fraction.
func (r reader) rest(pos int, read func(token) (int64, int, bool)) (v int64, to int) {
	e := next(r.s, pos)
	and := e.says("and")
	if and {
		e = next(r.s, e.to)
	}
	if f, ok := r.fraction(e.from, and); ok && !f.improper() || e.word == "a" {
		return 0, pos
	}
	if o := next(r.s, e.to); (e.says("oh") || e.says("o")) && ones[o.word] > 0 && ones[o.word] < 10 { // two hundred oh four
		e = o
	}
	if v, to, ok := read(e); ok {
		return v, to
	}
	return 0, pos
}

// under100 reads "twenty-nine", and leaves the "five" of "twenty five
// eighths" to the fraction.
func (r reader) under100(t token) (v int64, to int, ok bool) {
	if v, ok := ones[t.word]; ok {
		return v, t.to, true
	}
	v, ok = tens[t.word]
	if !ok {
		return 0, 0, false
	}
	e := r.afterDash(t.to)
	if d, ok := ones[e.word]; ok && 0 < d && d < 10 {
		if _, _, ok := r.parts(e.to); !ok {
			return v + d, e.to, true
		}
	}
	return v, t.to, true
}

func (r reader) afterDash(pos int) token {
	e := next(r.s, pos)
	if e.tight('-') {
		if e := next(r.s, e.to); !e.spaced {
			return e
		}
	}
	return e
}

// numerator reads the count of a fraction in words, at most 63.
func (r reader) numerator(t token) (v int64, to int, ok bool) {
	if v, ok := ones[t.word]; ok {
		return v, t.to, true
	}
	v, ok = tens[t.word]
	if !ok {
		return 0, 0, false
	}
	if e := r.afterDash(t.to); ones[e.word] > 0 && ones[e.word] < 10 {
		return v + ones[e.word], e.to, true
	}
	return v, t.to, true
}

// pointPart reads what is said after "point": figures, or digits in words.
func (r reader) pointPart(pos int) (part string, to int, ok bool) {
	t := next(r.s, pos)
	if t.kind == digits {
		return r.s[t.from:t.to], t.to, true
	}
	to = pos
	for len(part) < 7 {
		t := next(r.s, to)
		v, ok := ones[t.word]
		if !ok || v > 9 {
			break
		}
		part += strconv.FormatInt(v, 10)
		to = t.to
	}
	return part, to, part != ""
}

// row gives the meanings of numbers said one after the other: feet and
// inches, or the digits of one number. Never a list: that takes commas.
func (r reader) row(a number, unit Length, to int) found {
	if unit == 0 {
		if to, unit = a.to, Inch; r.u == Metric && a.den == 0 {
			unit = Millimetre
		}
	}
	run, b := a.run(), a.more[0]
	part, _ := number{num: a.num, den: a.den}.in(Inch)
	if f, ok := r.heardAs(to, 0, 0); ok {
		return refused(f.to, f.why)
	}
	if unit == Inch && (run.mant >= 1000 || run.why != "") {
		// No one says more than 999 inches in this way.
		run.why = tooLong
		if a.nMore == 1 && a.den == 0 && b.value < 16 {
			return two(a.mant, b.value, to)
		}
	}
	if a.nMore == 2 && run.why != "" && a.mant < 10 && b.value < 10 && !b.two && a.more[1].value < 10 && !a.more[1].two { // one six seven
		run.mant, run.why = a.mant*100+b.value*10+a.more[1].value, ""
		if l, why := run.in(unit); why == "" {
			return found{to: to, ls: []Length{l}, why: "one number, digit by digit?"}
		}
	}
	f := found{to: to, why: "feet and inches, or one number?"}
	feet := a.nMore == 1 && 0 < a.mant && a.mant <= tallest && b.value < 12 && (unit == Inch || !b.two)
	if feet {
		f.ls = append(f.ls, Length(a.mant)*Foot+Length(b.value)*Inch+part)
	}
	if l, why := run.in(unit); why == "" {
		f.ls = append(f.ls, l)
	}
	switch {
	case len(f.ls) == 2:
		return f
	case len(f.ls) == 1 && (!feet || r.slot == One):
		return sure(f.ls[0], "", to)
	}
	return refused(to, "one length or two? write it in figures")
}

// run writes the numbers of a row behind each other: "one sixteen" is 116,
// "eight five seventy-three" 8573. Only a first number may stand for one digit
// before two, so "twelve four" is no run.
func (a number) run() number {
	v, why := a.mant, ""
	for i, m := range a.more[:a.nMore] {
		switch {
		case m.two:
			v = v*100 + m.value
		case a.mant < 10 && a.mant > 0 && (a.nMore == 1 || i == 0) && m.value > 0:
			v = v*10 + m.value
		default:
			why = "two numbers said in a row: write it in figures"
		}
	}
	a.mant, a.nMore, a.why = v, 0, why
	return a
}
