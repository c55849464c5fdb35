package length

// guessed returns where the number begins behind a word that makes a guess of
// it: "about 96", "~96"; 0 when there is none.
func (r reader) guessed() int {
	t := next(r.s, 0)
	if t.spaced || !guesses[t.word] && !t.is('~') {
		return 0
	}
	e := next(r.s, t.to)
	if t.word == "approx" && e.tight('.') {
		e = next(r.s, e.to)
	}
	return e.from
}

// guess reads the number behind such a word.
func (r reader) guess(at int) (readings []Reading, n int, why string) {
	b := reader{r.s[at:], r.u, r.slot}
	if !b.starts() {
		return nil, 0, ""
	}
	f := b.read()
	if f.to == 0 || !b.ends(f.to) {
		return nil, 0, ""
	}
	end, _ := b.doubt(f.to)
	readings, n, why = b.doubted(bounded(f), end)
	return readings, at + n, why
}

// starts reports whether figures or a number word stand first: "about a foot"
// is a guess, "about to" is none.
func (r reader) starts() bool {
	t := next(r.s, 0)
	_, heard := homophones[t.word]
	return t.kind != word || !heard
}

// doubted is what a length means whose sender was not sure of it: nothing
// without a question. One doubt is asked at a time.
func (r reader) doubted(f found, end int) (readings []Reading, n int, why string) {
	for _, l := range f.ls {
		readings = append(readings, Reading{L: l})
	}
	if why = f.why; why == "" {
		why = "is that what the tape says?"
	}
	return readings, end, why
}

// doubt reads what makes a guess of the number that ends at pos: "ish",
// "give or take an eighth", "+/- 1/8".
func (r reader) doubt(pos int) (to int, ok bool) {
	t := next(r.s, pos)
	for _, said := range doubts {
		if to, ok := r.saying(pos, said); ok {
			return r.by(to, said[0] == "give"), true
		}
	}
	switch e := next(r.s, t.to); {
	case t.tight('-') && e.says("ish") && !e.spaced:
		return e.to, true
	case t.is('±'), t.is('+') && e.tight('-'):
		if t.is('+') {
			t = e
		}
		return r.by(t.to, true), true
	case t.is('+') && e.tight('/'):
		if m := next(r.s, e.to); m.tight('-') {
			return r.by(m.to, true), true
		}
	case t.says("plus") && e.says("or"):
		if m := next(r.s, e.to); m.says("minus") {
			return r.by(m.to, true), true
		}
	}
	return pos, false
}

// changed reads a part of an inch that is put to a length or taken off it: "96
// minus 1/8", "96 - 1/8", which may be a dash too.
func (r reader) changed(f found) found {
	t := next(r.s, f.to)
	dash, less := t.is('-'), t.says("minus") || t.says("less")
	if len(f.ls) != 1 || f.why != "" || !dash && !less && !t.is('+') && !t.says("plus") {
		return f
	}
	part, ok := r.fraction(t.to, false)
	if !ok || part.why != "" {
		return f
	}
	n := number{to: part.to, num: part.num, den: part.den}
	unit, to, ok := r.unitOf(n)
	if ok && unit != Inch || !r.ends(part.to) {
		return f
	}
	if !ok {
		to = part.to
	}
	by, _ := n.in(Inch)
	l := f.ls[0]
	f = found{to: to, why: "is that the length?"}
	if !less && !(dash && l%Inch != 0) {
		f.ls = append(f.ls, l+by)
	}
	if (less || dash) && l >= by {
		f.ls = append(f.ls, l-by)
	}
	if len(f.ls) == 0 {
		f.why = "less than nothing"
	}
	return f
}

// saying returns where the words end that stand at pos.
func (r reader) saying(pos int, words []string) (to int, ok bool) {
	for _, w := range words {
		t := next(r.s, pos)
		if !t.says(w) {
			return 0, false
		}
		pos = t.to
	}
	// In "26 about 41" the word belongs to the second number.
	return pos, r.ends(pos) && !(guesses[words[0]] && r.numberAt(pos))
}

// by passes how far off a guess may be: an eighth, 1/8".
func (r reader) by(pos int, may bool) int {
	if !may {
		return pos
	}
	t := next(r.s, pos)
	b := reader{r.s[t.from:], r.u, List}
	f := b.read()
	if f.to == 0 || !b.ends(f.to) {
		return pos
	}
	return t.from + f.to
}
