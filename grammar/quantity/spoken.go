package quantity

import "strconv"

// words reads a number in words and the ones said right after it: "one
// sixteen", "twenty-nine sixty-two", "eight five seventy-three".
func (r Text) words(t Token) (Number, bool) {
	v, to, ok := r.cardinal(t)
	if !ok {
		return Number{}, false
	}
	n := Number{To: to, Mant: v, Said: true}
	if e := Next(r.S, to); e.Says("point") {
		if part, to, ok := r.pointPart(e.To); ok {
			n = pointed(strconv.FormatInt(v, 10), part, to)
			n.Said = true
			return n, true
		}
	}
	for n.Mant < 100 {
		more, to, ok := r.another(r.afterDash(n.To))
		if !ok {
			break
		}
		if n.NMore == len(n.More) {
			n.To, n.Why = to, "too many numbers in a row: write it in figures"
			return n, true
		}
		n.More[n.NMore] = more
		n.To = to
		n.NMore++
	}
	return n, true
}

// another reads the next number under 100 of a row of them.
func (r Text) another(t Token) (m saidNext, to int, ok bool) {
	if t.Word == "oh" || t.Word == "o" {
		e := Next(r.S, t.To)
		v, ok := Ones[e.Word]
		return saidNext{Value: v, Two: true}, e.To, ok && 0 < v && v < 10
	}
	if f, ok := r.Fraction(t.From, false); ok && !f.improper() {
		return m, 0, false
	}
	v, to, ok := r.cardinal(t)
	return saidNext{Value: v, Two: v >= 10}, to, ok && v < 100
}

// cardinal reads "twelve", "one hundred and sixteen", "thirty-six hundred",
// "two thousand nine hundred and sixty two".
func (r Text) cardinal(t Token) (v int64, to int, ok bool) {
	v, to, ok = r.hundreds(t)
	if e := Next(r.S, to); ok && e.Says("thousand") {
		rest, end := r.rest(e.To, r.hundreds)
		v, to = v*1000+rest, end
	}
	return v, to, ok
}

func (r Text) hundreds(t Token) (v int64, to int, ok bool) {
	if e := Next(r.S, t.To); t.Word == "a" && (e.Says("hundred") || e.Says("thousand")) {
		v, to, ok = 1, t.To, true
	} else {
		v, to, ok = r.under100(t)
	}
	if e := Next(r.S, to); ok && e.Says("hundred") {
		rest, end := r.rest(e.To, r.under100)
		v, to = v*100+rest, end
	}
	return v, to, ok
}

// rest reads what follows a hundred or a thousand, unless it is a fraction.
func (r Text) rest(pos int, read func(Token) (int64, int, bool)) (v int64, to int) {
	e := Next(r.S, pos)
	and := e.Says("and")
	if and {
		e = Next(r.S, e.To)
	}
	if f, ok := r.Fraction(e.From, and); ok && !f.improper() || e.Word == "a" {
		return 0, pos
	}
	if o := Next(r.S, e.To); (e.Says("oh") || e.Says("o")) && Ones[o.Word] > 0 && Ones[o.Word] < 10 { // two hundred oh four
		e = o
	}
	if v, to, ok := read(e); ok {
		return v, to
	}
	return 0, pos
}

// under100 reads "twenty-nine", and leaves the "five" of "twenty five
// eighths" to the fraction.
func (r Text) under100(t Token) (v int64, to int, ok bool) {
	if v, to, ok = r.numerator(t); ok && to > t.To {
		if _, _, parts := r.parts(to); parts {
			return Tens[t.Word], t.To, true
		}
	}
	return v, to, ok
}

func (r Text) afterDash(pos int) Token {
	e := Next(r.S, pos)
	if e.Tight('-') {
		if e := Next(r.S, e.To); !e.Spaced {
			return e
		}
	}
	return e
}

// numerator reads the count of a fraction in words, at most 63.
func (r Text) numerator(t Token) (v int64, to int, ok bool) {
	if v, ok := Ones[t.Word]; ok {
		return v, t.To, true
	}
	v, ok = Tens[t.Word]
	if !ok {
		return 0, 0, false
	}
	if e := r.afterDash(t.To); Ones[e.Word] > 0 && Ones[e.Word] < 10 {
		return v + Ones[e.Word], e.To, true
	}
	return v, t.To, true
}

// pointPart reads what is said after "point": figures, or digits in words.
func (r Text) pointPart(pos int) (part string, to int, ok bool) {
	t := Next(r.S, pos)
	if t.Kind == Digits {
		return r.S[t.From:t.To], t.To, true
	}
	to = pos
	for len(part) < 7 {
		t := Next(r.S, to)
		v, ok := Ones[t.Word]
		if !ok || v > 9 {
			break
		}
		part += strconv.FormatInt(v, 10)
		to = t.To
	}
	return part, to, part != ""
}

// Run writes the numbers of a row behind each other: "one sixteen" is 116,
// "eight five seventy-three" 8573. Only a first number may stand for one digit
// before two, so "twelve four" is no run.
func (a Number) Run() Number {
	v, why := a.Mant, ""
	for i, m := range a.More[:a.NMore] {
		switch {
		case m.Two:
			v = v*100 + m.Value
		case a.Mant < 10 && a.Mant > 0 && (a.NMore == 1 || i == 0) && m.Value > 0:
			v = v*10 + m.Value
		default:
			why = "two numbers said in a row: write it in figures"
		}
	}
	a.Mant, a.NMore, a.Why = v, 0, why
	return a
}
