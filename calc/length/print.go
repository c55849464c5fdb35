package length

import (
	"math"
	"strconv"
	"strings"
)

// MM gives l in millimetres, the form of lengths in JSON.
func MM(l Length) float64 { return float64(l) / 1e6 }

// step is the finest mark that people in u cut and measure to.
func step(u Units) Length {
	if u == Metric {
		return Millimetre
	}
	return Sixteenth
}

// RoundDown takes l down to a whole 1/16 in, or 1 mm in a metric job: a cut
// size must go in.
func RoundDown(l Length, u Units) Length {
	s := step(u)
	over := l % s
	if over < 0 && l-over >= math.MinInt64+s {
		over += s
	}
	return l - over
}

// RoundNearest takes l to the nearest 1/16 in, or 1 mm in a metric job, halves
// away from zero: a position.
func RoundNearest(l Length, u Units) Length { return nearest(l, step(u)) }

// nearest rounds towards zero where the type ends.
func nearest(l, s Length) Length {
	over := l % s
	l -= over
	switch {
	case 2*over >= s && l <= math.MaxInt64-s:
		l += s
	case 2*over <= -s && l >= math.MinInt64+s:
		l -= s
	}
	return l
}

// Format prints l for a phone: tape fractions reduced (98-1/8"), feet and inches
// from 10 ft up with the inches beside it for the saw, whole millimetres in a
// metric job. What is no 64th of an inch is shown to the nearest 16th.
func Format(l Length, u Units) string {
	if u == Metric {
		return strconv.FormatInt(int64(nearest(l, Millimetre)/Millimetre), 10) + " mm"
	}
	if l%SixtyFourth != 0 {
		l = nearest(l, Sixteenth)
	}
	if -10*Foot < l && l < 10*Foot {
		return inches(l)
	}
	rest := l % Foot
	if rest < 0 {
		rest = -rest
	}
	text := strconv.FormatInt(int64(l/Foot), 10) + "'"
	switch {
	case rest != 0 && rest < Inch:
		text += " 0-" + inches(rest)
	case rest != 0:
		text += " " + inches(rest)
	}
	return text + " (" + inches(l) + ")"
}

// inches prints l, a whole number of 64ths, in inches: -26-1/2".
func inches(l Length) string {
	var b strings.Builder
	n := int64(l / SixtyFourth)
	if n < 0 {
		b.WriteByte('-')
		n = -n
	}
	whole, num, den := n/64, n%64, int64(64)
	if whole != 0 || num == 0 {
		b.WriteString(strconv.FormatInt(whole, 10))
		if num != 0 {
			b.WriteByte('-')
		}
	}
	if num != 0 {
		for num%2 == 0 {
			num, den = num/2, den/2
		}
		b.WriteString(strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10))
	}
	b.WriteByte('"')
	return b.String()
}

// Canon prints l exactly, in a form that Scan reads back to l in either units:
// inches where l is a whole number of 64ths, else millimetres.
func Canon(l Length) string {
	if l%SixtyFourth == 0 {
		return inches(l)
	}
	sign := ""
	if l < 0 {
		sign = "-"
	}
	whole, part := l/Millimetre, l%Millimetre
	text := sign + strconv.FormatUint(uint64(max(whole, -whole)), 10)
	if part != 0 {
		digits := strconv.FormatInt(int64(Millimetre+max(part, -part)), 10)[1:]
		text += "." + strings.TrimRight(digits, "0")
	}
	return text + " mm"
}

// Said is a length as said: its exact value and the bit over or under.
type Said struct {
	L   Length `json:"l,omitempty"`
	Tag Tag    `json:"t,omitempty"`
}

// String is the length exactly, with its tag.
func (v Said) String() string {
	s := Canon(v.L)
	if v.Tag != Exact {
		s += " " + string(v.Tag)
	}
	return s
}
