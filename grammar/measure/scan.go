// Package measure reads lengths as crews write and say them: what length a text that starts with a number means,
// or what is in doubt about it.
package measure

import (
	"slices"
	"strapline/calc/length"
	"strapline/grammar/quantity"
)

// Slot says how much a number may take to itself.
type Slot = quantity.Slot

const (
	One  = quantity.One
	List = quantity.List
)

// Reading is one way to understand a length.
type Reading struct {
	L   length.Length
	Tag length.Tag
	// Guess: one of several that supplies what was not said, as sixteenths for the
	// 2 of "84 2". It is asked even where no other reading fits.
	Guess bool
}

// Scan reads the longest length at the very start of s and returns its
// readings and the bytes it took. A unit or a fraction makes a number sure; a
// bare one is inches or, in a metric job, millimetres. Fractions are those of
// a tape, halves to 64ths; nothing is rounded, and no more than 1,000 m taken.
//
//   - One reading, why empty: sure.
//   - Several readings: ask. The likelier ones come first, and why says what
//     is in doubt ("2 what?").
//   - One reading and why: the sender had doubts, ask whether that is what was
//     measured.
//   - No reading, n > 0: it looks like a length and has no value, or none that
//     may be offered. why says so, and what to write.
//   - No reading, n 0: s does not start with a length.
func Scan(s string, u length.Units, slot Slot) (readings []Reading, n int, why string) {
	r := reader{quantity.Text{S: s, U: u, Slot: slot}}
	if at := r.guessed(); at > 0 {
		return r.guess(at)
	}
	f := r.read()
	if f.to == 0 || quantity.Next(s, 0).Spaced || !r.Ends(f.to) {
		return nil, 0, ""
	}
	f = bounded(f)
	f = r.changed(f)
	if end, ok := r.doubt(f.to); ok {
		return r.doubted(f, end)
	}
	if len(f.ls) == 0 {
		return nil, f.to, f.why
	}
	tag, to, doubt := r.tag(f.to)
	switch {
	case doubt != "" && f.why == "":
		return []Reading{{L: f.ls[0], Tag: tag}, {L: f.ls[0]}}, to, doubt
	case doubt != "": // one question at a time
		tag, to = length.Exact, f.to
	}
	for _, l := range f.ls {
		readings = append(readings, Reading{l, tag, f.guess(l)})
	}
	return readings, to, f.why
}

type reader struct{ quantity.Text }

// found is what a text may mean, and where it ends.
type found struct {
	to  int
	ls  []length.Length
	why string
	// said is the one reading in ls that all of it was said for, when the others
	// are guesses; below zero all are.
	said  length.Length
	hints bool // there are guesses among ls
}

func (f found) guess(l length.Length) bool { return f.hints && len(f.ls) > 1 && l != f.said }

func sure(l length.Length, why string, to int) found {
	if why != "" {
		return found{to: to, why: why}
	}
	return found{to: to, ls: []length.Length{l}}
}

func refused(to int, why string) found { return found{to: to, why: why} }

// bounded drops readings over 1,000 m and those said twice, and never lets a
// doubtful reading stand alone.
func bounded(f found) found {
	doubt := len(f.ls) > 1
	var ls []length.Length
	for _, l := range f.ls {
		if l <= quantity.Most && !slices.Contains(ls, l) {
			ls = append(ls, l)
		}
	}
	if len(ls) == 1 && doubt {
		ls = nil
	}
	if len(ls) == 0 && f.why == "" {
		f.why = quantity.TooLong
	}
	f.ls = ls
	return f
}

func (r reader) read() found {
	if f, ok := r.clock(); ok {
		return f
	}
	a, ok := r.Number(0)
	if !ok {
		return r.bareUnit()
	}
	unit, to, ok := r.UnitOf(a)
	if a.Why != "" {
		return refused(max(a.To, to), a.Why)
	}
	if a.NMore > 0 {
		switch {
		case !ok || unit == length.Inch:
			return r.row(a, unit, to)
		case unit == length.Millimetre:
			a = a.Run()
		default: // three twenty metres: 3.20 m?
			return refused(to, "one number or two? write it in figures")
		}
	}
	switch {
	case !ok:
		return r.bare(a)
	case unit == quantity.Unsure:
		return refused(to, `"in": inches, or in a room? write 26" or 26 mm`)
	case unit == length.Foot:
		return r.feet(a, to)
	case unit == length.Inch && a.Point:
		return r.decimals16(a, to)
	}
	l, why := a.In(unit)
	return sure(l, why, to)
}

// bare gives a number without a unit its size, and finds its second half.
func (r reader) bare(a quantity.Number) found {
	if a.Count() {
		if f, ok := r.heard(a); ok {
			return f
		}
		if f, ok := r.stroke(a); ok {
			return f
		}
		if f, ok := r.pair(a); ok {
			return f
		}
	}
	unit := length.Inch
	switch {
	case a.Den != 0: // no one cuts 3/8 of a millimetre
	case r.U == length.Metric && a.Scale != 0:
		return decimalsMetric(a)
	case r.U == length.Metric:
		unit = length.Millimetre
	case a.Scale != 0:
		return r.decimals16(a, a.To)
	}
	l, why := a.In(unit)
	return sure(l, why, a.To)
}
