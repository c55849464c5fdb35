package square

import (
	"cmp"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/slip"
)

// Sigma is how far a reading of a room strays, one standard deviation: 1/16 in,
// so that two readings of a line mostly agree within 1/8 in. Our own estimate,
// no source.
const Sigma = length.Sixteenth

// Check is what the readings say of themselves. It doubts readings, never the
// room: a room may be far out of square and its readings close to the hair.
type Check struct {
	Spare      int           // readings to spare: their number less five. 0 checks nothing
	Crossed    bool          // all six lines are read, so there is a misclosure
	Misclosure length.Length // ne-sw as read, less ne-sw as the other five lines make it
	Bad        bool          // the readings do not close: at least one is bad, one time in a hundred wrongly so
	Named      int           // index of the bad reading where the readings can tell, else -1
	Suspects   []Suspect     // slips that would close the figure, likeliest first
}

// Sound reports whether the room can be worked from: the readings close, or close without the bad one.
func (c Check) Sound() bool { return !c.Bad || c.Named >= 0 }

// Suspect is a slip that would make the readings close, to be asked about, never
// to be put right in silence.
type Suspect struct {
	Index int // of the reading
	slip.Reading
}

// mostSuspects is how many are worth a line on a phone.
const mostSuspects = 6

// check judges the readings by the fit of all of them.
func (use observations) check(q quad) Check {
	c := Check{Spare: len(use) - 5, Named: -1}
	mean, _ := use.means()
	if !slices.Contains(mean[:], 0) {
		if five, ok := start(mean, 5); ok {
			c.Crossed, c.Misclosure = true, round(mean[5]-five.along(5))
		}
	}
	if c.Bad = !use.closes(q); !c.Bad {
		return c
	}
	// A reading may be the bad one when the others close without it.
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

// closes is the test of the sum of squares against the chi-square of the
// readings to spare, at 99 in 100.
func (use observations) closes(q quad) bool {
	spare := len(use) - 5
	return spare <= 0 || use.squares(q)/float64(Sigma*Sigma) <= chi99(spare)
}

// chi99 is the value that a chi-square of n degrees of freedom passes once in a
// hundred, after Wilson and Hilferty (1931, from memory): within 1 % of the tables.
func chi99(n int) float64 {
	k := 2 / (9 * float64(n))
	return float64(n) * math.Pow(1-k+2.3263*math.Sqrt(k), 3)
}

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
	for _, s := range all[:min(len(all), mostSuspects)] {
		out = append(out, s.Suspect)
	}
	return out
}
