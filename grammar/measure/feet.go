package measure

import (
	"strapline/calc/length"
	"strapline/grammar/quantity"
)

// feet reads the inches behind a number of feet that ends at pos.
func (r reader) feet(a quantity.Number, pos int) found {
	feet, why := a.In(length.Foot)
	if why != "" {
		return refused(pos, why)
	}
	t := quantity.Next(r.S, pos)
	at, tight := pos, false
	switch {
	case t.Is('-'):
		at, tight = t.To, true
	case (t.Says("oh") || t.Says("o")) && r.NumberAt(t.To): // nine foot oh eight
		at = t.To
	case t.Tight('.') && quantity.Next(r.S, t.To).Figures():
		b, _ := r.Number(pos)
		_, to, _ := r.Unit(b.To)
		return refused(max(b.To, to), "a decimal point, or the end of a word?")
	case t.Says("and"), t.Is('&'):
		f, ok := r.Fraction(t.To, true)
		if !ok {
			return sure(feet, "", pos)
		}
		return r.footAnd(feet, f)
	}
	if f, ok := r.heardAs(pos, feet, 0); ok {
		return f
	}
	if !a.Count() {
		return sure(feet, "", pos)
	}
	b, ok := r.Number(at)
	if !ok {
		return sure(feet, "", pos)
	}
	unit, to, has := r.UnitOf(b)
	if !has || unit == quantity.Unsure {
		unit, to = 0, b.To
	}
	in, why := b.In(length.Inch)
	if b.NMore > 0 {
		why = "too many numbers in a row: write it in figures"
	}
	tight = tight || !quantity.Next(r.S, at).Spaced
	other := unit != 0 && unit != length.Inch
	switch {
	case tight && other:
		return refused(to, "one length or two? two take a comma between")
	case !tight && (other || !r.Ends(to) || why == "" && in >= length.Foot):
		return sure(feet, "", pos)
	case why != "":
		return refused(to, why)
	case in >= length.Foot:
		return refused(to, "twelve inches or more: write the feet with them")
	case b.Point || unit == 0 && in%length.SixtyFourth != 0 && b.Scale != 0:
		f := r.decimals16(b, to)
		var ls []length.Length
		for _, l := range f.ls {
			if l < length.Foot {
				ls = append(ls, feet+l)
			}
		}
		if len(ls) < 2 {
			return refused(to, "no mark on a tape: write sixteenths")
		}
		return found{to: to, ls: ls, why: f.why, hints: true, said: -1}
	}
	if f, ok := r.Fraction(at, false); ok && f.Said && unit == 0 { // nine foot a half
		return r.footAnd(feet, f)
	}
	if unit == 0 && b.Count() {
		if f, ok := r.heardAs(to, 0, 0); ok {
			return refused(f.to, f.why)
		}
		if f, ok := r.more(feet+in, to); ok && !b.Said {
			return f
		}
	}
	return sure(feet+in, "", to)
}

// more looks at a count behind feet and bare inches: 9'-8-10, 9' 8 5.
func (r reader) more(l length.Length, pos int) (found, bool) {
	tight := quantity.Next(r.S, pos).Tight('-')
	c, to, ok := r.third(pos, tight)
	switch {
	case !ok && r.Slot == List && quantity.Next(r.S, pos).Kind == quantity.Digits:
		c := quantity.Next(r.S, pos)
		if _, _, ok := r.Unit(c.To); ok || !r.Ends(c.To) {
			return found{}, false
		}
		return refused(c.To, "one length or two? two take a comma between"), true
	case !ok:
		return found{}, false
	case r.Slot == List && !tight:
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
func (r reader) footAnd(feet length.Length, f quantity.Fraction) found {
	if f.Why != "" {
		return refused(f.To, f.Why)
	}
	n := quantity.Number{To: f.To, Num: f.Num, Den: f.Den}
	in, _ := n.In(length.Inch)
	unit, to, ok := r.UnitOf(n)
	switch {
	case ok && unit == length.Inch:
		return sure(feet+in, "", to)
	case f.Den > 4:
		return sure(feet+in, "", f.To)
	}
	ft, _ := n.In(length.Foot)
	return found{to: f.To, ls: []length.Length{feet + ft, feet + in}, why: "of a foot, or of an inch?", hints: true, said: -1}
}

// bareUnit reads lengths that start with no number: "half an inch", "a foot
// and a half".
func (r reader) bareUnit() found {
	t := quantity.Next(r.S, 0)
	e := quantity.Next(r.S, t.To)
	switch t.Word {
	case "half", "quarter":
		if e.Says("a") || e.Says("an") {
			e = quantity.Next(r.S, e.To)
		}
		if unit := quantity.Units[e.Word]; unit != 0 && e.Word != "in" && e.Word != "m" {
			return sure(unit/length.Length(quantity.Parts[t.Word]), "", e.To)
		}
	case "a", "an":
		unit := quantity.Units[e.Word]
		if unit != length.Inch && unit != length.Foot || e.Word == "in" {
			break
		}
		and := quantity.Next(r.S, e.To)
		if f, ok := r.Fraction(and.To, true); ok && and.Says("and") {
			if unit == length.Foot {
				return r.footAnd(length.Foot, f)
			}
			l, why := quantity.Number{To: f.To, Mant: 1, Num: f.Num, Den: f.Den, Why: f.Why}.In(length.Inch)
			return sure(l, why, f.To)
		}
		return sure(unit, "", e.To)
	case "to", "too", "for", "fore", "ate":
		if f, ok := r.Fraction(e.To, true); ok && e.Says("and") {
			return refused(f.To, "is \""+t.Word+"\" a number? write it in figures")
		}
	}
	return found{}
}
