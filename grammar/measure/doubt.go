package measure

import (
	"strapline/calc/length"
	"strapline/grammar/quantity"
)

// homophones are words a phone writes for a number, and people for themselves.
var homophones = map[string]int64{"to": 2, "too": 2, "for": 4, "fore": 4, "ate": 8}

// guesses are said before a number that was not measured well.
var guesses = map[string]bool{"about": true, "around": true, "roughly": true, "approx": true, "approximately": true,
	"maybe": true, "nearly": true, "almost": true, "probably": true, "circa": true}

// doubts are said behind one.
var doubts = [][]string{{"ish"}, {"or", "so"}, {"give", "or", "take"}, {"more", "or", "less"}, {"i", "think"}, {"i", "guess"},
	{"or", "thereabouts"}, {"maybe"}, {"roughly"}, {"about"}, {"approx"}, {"approximately"}, {"probably"}}

// tags leave out "light", which is a thing to note before it is a bit under.
var tags = map[string]length.Tag{
	"strong": length.Strong, "heavy": length.Strong, "plus": length.Strong, "fat": length.Strong, "full": length.Strong,
	"shy": length.Shy, "scant": length.Shy, "weak": length.Shy, "minus": length.Shy,
}

// guessed returns where the number begins behind a word that makes a guess of
// it: "about 96", "~96"; 0 when there is none.
func (r reader) guessed() int {
	t := quantity.Next(r.S, 0)
	if t.Spaced || !guesses[t.Word] && !t.Is('~') {
		return 0
	}
	e := quantity.Next(r.S, t.To)
	if t.Word == "approx" && e.Tight('.') {
		e = quantity.Next(r.S, e.To)
	}
	return e.From
}

// guess reads the number behind such a word.
func (r reader) guess(at int) (readings []Reading, n int, why string) {
	b := reader{quantity.Text{S: r.S[at:], U: r.U, Slot: r.Slot}}
	if !b.starts() {
		return nil, 0, ""
	}
	f := b.read()
	if f.to == 0 || !b.Ends(f.to) {
		return nil, 0, ""
	}
	end, _ := b.doubt(f.to)
	readings, n, why = b.doubted(bounded(f), end)
	return readings, at + n, why
}

// starts reports whether figures or a number word stand first: "about a foot"
// is a guess, "about to" is none.
func (r reader) starts() bool {
	t := quantity.Next(r.S, 0)
	_, heard := homophones[t.Word]
	return t.Kind != quantity.Word || !heard
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
	t := quantity.Next(r.S, pos)
	for _, said := range doubts {
		if to, ok := r.saying(pos, said); ok {
			return r.by(to, said[0] == "give"), true
		}
	}
	switch e := quantity.Next(r.S, t.To); {
	case t.Tight('-') && e.Says("ish") && !e.Spaced:
		return e.To, true
	case t.Is('±'), t.Is('+') && e.Tight('-'):
		if t.Is('+') {
			t = e
		}
		return r.by(t.To, true), true
	case t.Is('+') && e.Tight('/'):
		if m := quantity.Next(r.S, e.To); m.Tight('-') {
			return r.by(m.To, true), true
		}
	case t.Says("plus") && e.Says("or"):
		if m := quantity.Next(r.S, e.To); m.Says("minus") {
			return r.by(m.To, true), true
		}
	}
	return pos, false
}

// changed reads a part of an inch that is put to a length or taken off it: "96
// minus 1/8", "96 - 1/8", which may be a dash too.
func (r reader) changed(f found) found {
	t := quantity.Next(r.S, f.to)
	dash, less := t.Is('-'), t.Says("minus") || t.Says("less")
	if len(f.ls) != 1 || f.why != "" || !dash && !less && !t.Is('+') && !t.Says("plus") {
		return f
	}
	part, ok := r.Fraction(t.To, false)
	if !ok || part.Why != "" {
		return f
	}
	n := quantity.Number{To: part.To, Num: part.Num, Den: part.Den}
	unit, to, ok := r.UnitOf(n)
	if ok && unit != length.Inch || !r.Ends(part.To) {
		return f
	}
	if !ok {
		to = part.To
	}
	by, _ := n.In(length.Inch)
	l := f.ls[0]
	f = found{to: to, why: "is that the length?"}
	if !less && !(dash && l%length.Inch != 0) {
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
		t := quantity.Next(r.S, pos)
		if !t.Says(w) {
			return 0, false
		}
		pos = t.To
	}
	// In "26 about 41" the word belongs to the second number.
	return pos, r.Ends(pos) && !(guesses[words[0]] && r.NumberAt(pos))
}

// by passes how far off a guess may be: an eighth, 1/8".
func (r reader) by(pos int, may bool) int {
	if !may {
		return pos
	}
	t := quantity.Next(r.S, pos)
	b := reader{quantity.Text{S: r.S[t.From:], U: r.U, Slot: List}}
	f := b.read()
	if f.to == 0 || !b.Ends(f.to) {
		return pos
	}
	return t.From + f.to
}

// tag reads "strong", "shy" and their cousins behind a number. A + is a tag
// when it is glued to the number and no other number is behind it.
func (r reader) tag(pos int) (tag length.Tag, to int, why string) {
	t := quantity.Next(r.S, pos)
	if hair := quantity.Next(r.S, t.To); t.Says("a") && (hair.Says("hair") || hair.Says("bit") || hair.Says("touch")) {
		if e := quantity.Next(r.S, hair.To); tags[e.Word] != length.Exact && e.Word != "plus" && e.Word != "minus" {
			t = e
		}
	}
	e := quantity.Next(r.S, t.To)
	number := r.NumberAt(t.To)
	switch {
	case t.Tight('+'):
		if number || e.Is('+') || e.Is('-') || e.Is('/') {
			return length.Exact, pos, ""
		}
		return length.Strong, t.To, ""
	case t.Kind != quantity.Word:
		return length.Exact, pos, ""
	case t.Word == "short":
		if e.Says("of") || number {
			return length.Exact, pos, ""
		}
		return length.Shy, t.To, "a bit under, or cut off by that much?"
	case t.Word == "full" && !r.Inches(t.To),
		(t.Word == "plus" || t.Word == "minus") && (number || e.Says("or")):
		return length.Exact, pos, ""
	}
	tag, ok := tags[t.Word]
	if !ok || !r.Ends(t.To) {
		return length.Exact, pos, ""
	}
	return tag, t.To, ""
}
