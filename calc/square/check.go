package square

import (
	"cmp"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/slip"
)

// Sigma is the standard deviation of a reading: 1/16 in, so that two readings of a line
// mostly agree within 1/8 in. Our own estimate, no source.
const Sigma = length.Sixteenth

// Check says whether the readings agree with each other. It says nothing about the room,
// which may be far out of square while its readings close perfectly.
type Check struct {
	Crossed    bool          // all six lines are read, so there is a misclosure
	Misclosure length.Length // ne-sw as read, less ne-sw from the other five lines
	Bad        bool          // the readings do not close: at least one is bad, or it is the 1 in 100 false alarm
	Named      int           // index of the bad reading if the readings can tell, else -1
	Suspects   []Suspect     // slips that would close the figure, likeliest first
}

// Sound reports whether the shape can be used: the readings close, or do so without the
// bad one.
func (c Check) Sound() bool { return !c.Bad || c.Named >= 0 }

// Suspect is a slip that would make the readings close. Ask about it; never correct it
// silently.
type Suspect struct {
	Index int // of the reading
	slip.Reading
}

// maxSuspects is how many suspects are listed, to fit on a phone.
const maxSuspects = 6

// check checks the readings against the fit of all of them.
func (use observations) check(q quad) Check {
	c := Check{Named: -1}
	mean, _ := use.means()
	if !slices.Contains(mean[:], 0) {
		if five, ok := start(mean, 5); ok {
			c.Crossed, c.Misclosure = true, round(mean[5]-five.along(5))
		}
	}
	if c.Bad = !use.closes(q); !c.Bad {
		return c
	}
	// A reading may be the bad one if the others close without it.
	var could []int
	for i := range use {
		rest := use.without(i)
		if five, err := rest.fit(); err == nil && rest.closes(five) {
			could = append(could, i)
		}
	}
	if len(could) == 1 {
		c.Named = could[0]
	}
	c.Suspects = use.suspects(could)
	return c
}

// closes compares the sum of squares with the 99 % quantile of the chi-square distribution
// for the redundant readings.
func (use observations) closes(q quad) bool {
	spare := len(use) - 5
	return spare <= 0 || use.squares(q)/float64(Sigma*Sigma) <= chi99(spare)
}

// chi99 is the 99 % quantile of the chi-square distribution with n degrees of freedom,
// after Wilson and Hilferty (1931, from memory): within 1 % of the tables.
func chi99(n int) float64 {
	k := 2 / (9 * float64(n))
	return float64(n) * math.Pow(1-k+2.3263*math.Sqrt(k), 3)
}

// suspects lists the slips of the readings in could that would make all readings close.
func (use observations) suspects(could []int) []Suspect {
	type scored struct {
		Suspect
		score float64
	}
	var all []scored
	for _, i := range could {
		l := length.Length(use[i].value)
		for _, m := range slip.Misread(l, use[i].form) {
			if m.L <= 0 || m.L > Most {
				continue
			}
			other := use.with(i, float64(m.L))
			q, err := other.fit()
			if err != nil || !other.closes(q) {
				continue
			}
			likely := m.Weight * math.Exp(-other.squares(q)/(2*float64(Sigma*Sigma)))
			all = append(all, scored{Suspect{i, m}, likely})
		}
	}
	slices.SortStableFunc(all, func(a, b scored) int { return cmp.Compare(b.score, a.score) })
	var out []Suspect
	for _, s := range all[:min(len(all), maxSuspects)] {
		out = append(out, s.Suspect)
	}
	return out
}
