package length

// feet reads the inches behind a number of feet that ends at pos.
func (r reader) feet(a number, pos int) found {
	feet, why := a.in(Foot)
	if why != "" {
		return refused(pos, why)
	}
	t := next(r.s, pos)
	at, tight := pos, false
	switch {
	case t.is('-'):
		at, tight = t.to, true
	case (t.says("oh") || t.says("o")) && r.numberAt(t.to): // nine foot oh eight
		at = t.to
	case t.tight('.') && next(r.s, t.to).figures():
		b, _ := r.number(pos)
		_, to, _ := r.unit(b.to)
		return refused(max(b.to, to), "a decimal point, or the end of a word?")
	case t.says("and"), t.is('&'):
		f, ok := r.fraction(t.to, true)
		if !ok {
			return sure(feet, "", pos)
		}
		return r.footAnd(feet, f)
	}
	if f, ok := r.heardAs(pos, feet, 0); ok {
		return f
	}
	if !a.count() {
		return sure(feet, "", pos)
	}
	b, ok := r.number(at)
	if !ok {
		return sure(feet, "", pos)
	}
	unit, to, has := r.unitOf(b)
	if !has || unit == unsure {
		unit, to = 0, b.to
	}
	in, why := b.in(Inch)
	if b.nMore > 0 {
		why = "too many numbers in a row: write it in figures"
	}
	tight = tight || !next(r.s, at).spaced
	other := unit != 0 && unit != Inch
	switch {
	case tight && other:
		return refused(to, "one length or two? two take a comma between")
	case !tight && (other || !r.ends(to) || why == "" && in >= Foot):
		return sure(feet, "", pos)
	case why != "":
		return refused(to, why)
	case in >= Foot:
		return refused(to, "twelve inches or more: write the feet with them")
	case b.point || unit == 0 && in%SixtyFourth != 0 && b.scale != 0:
		f := r.decimals16(b, to)
		var ls []Length
		for _, l := range f.ls {
			if l < Foot {
				ls = append(ls, feet+l)
			}
		}
		if len(ls) < 2 {
			return refused(to, "no mark on a tape: write sixteenths")
		}
		return found{to: to, ls: ls, why: f.why, hints: true, said: -1}
	}
	if f, ok := r.fraction(at, false); ok && f.said && unit == 0 { // nine foot a half
		return r.footAnd(feet, f)
	}
	if unit == 0 && b.count() {
		if f, ok := r.heardAs(to, 0, 0); ok {
			return refused(f.to, f.why)
		}
		if f, ok := r.more(feet+in, to); ok && !b.said {
			return f
		}
	}
	return sure(feet+in, "", to)
}

// more looks at a count behind feet and bare inches: 9'-8-10, 9' 8 5.
func (r reader) more(l Length, pos int) (found, bool) {
	tight := next(r.s, pos).tight('-')
	c, to, ok := r.third(pos, tight)
	switch {
	case !ok && r.slot == List && next(r.s, pos).kind == digits:
		c := next(r.s, pos)
		if _, _, ok := r.unit(c.to); ok || !r.ends(c.to) {
			return found{}, false
		}
		return refused(c.to, "one length or two? two take a comma between"), true
	case !ok:
		return found{}, false
	case r.slot == List && !tight:
		return refused(to, "one length or two? two take a comma between"), true
	}
	f := found{to: to, why: "what of an inch?", hints: true, said: -1}
	for _, s := range steps(c) {
		f.ls = append(f.ls, l+s)
	}
	if len(f.ls) == 0 || len(f.ls) == 1 && !tight {
		return refused(to, "one length or two? two take a comma between"), true
	}
	if len(f.ls) == 1 {
		f.why = ""
	}
	return f, true
}

// footAnd reads "nine foot and a half": half a foot, or half an inch?
func (r reader) footAnd(feet Length, f fraction) found {
	if f.why != "" {
		return refused(f.to, f.why)
	}
	n := number{to: f.to, num: f.num, den: f.den}
	in, _ := n.in(Inch)
	unit, to, ok := r.unitOf(n)
	switch {
	case ok && unit == Inch:
		return sure(feet+in, "", to)
	case f.den > 4:
		return sure(feet+in, "", f.to)
	}
	ft, _ := n.in(Foot)
	return found{to: f.to, ls: []Length{feet + ft, feet + in}, why: "of a foot, or of an inch?", hints: true, said: -1}
}

// bareUnit reads lengths that start with no number: "half an inch", "a foot
// and a half".
func (r reader) bareUnit() found {
	t := next(r.s, 0)
	e := next(r.s, t.to)
	switch t.word {
	case "half", "quarter":
		if e.says("a") || e.says("an") {
			e = next(r.s, e.to)
		}
		if unit := units[e.word]; unit != 0 && e.word != "in" && e.word != "m" {
			return sure(unit/Length(parts[t.word]), "", e.to)
		}
	case "a", "an":
		unit := units[e.word]
		if unit != Inch && unit != Foot || e.word == "in" {
			break
		}
		and := next(r.s, e.to)
		if f, ok := r.fraction(and.to, true); ok && and.says("and") {
			if unit == Foot {
				return r.footAnd(Foot, f)
			}
			l, why := number{to: f.to, mant: 1, num: f.num, den: f.den, why: f.why}.in(Inch)
			return sure(l, why, f.to)
		}
		return sure(unit, "", e.to)
	case "to", "too", "for", "fore", "ate":
		if f, ok := r.fraction(e.to, true); ok && e.says("and") {
			return refused(f.to, "is \""+t.word+"\" a number? write it in figures")
		}
	}
	return found{}
}
