package slip

import (
	"fmt"
	"strconv"

	"strapline/calc/length"
)

// Form is how a number was written, which determines its digits.
type Form string

const (
	Inches      Form = ""      // 116-5/8
	FeetInches  Form = "ft in" // 9' 8-5/8"
	Millimetres Form = "mm"    // 2962
)

// Reading is a length that may have been meant instead of the one said.
type Reading struct {
	Kind   Kind
	L      length.Length
	Weight float64 // in thousandths
}

// Misread lists the lengths that may have been meant instead of the one said, by slips
// in reading a tape or writing a number. None is negative or equal to said.
func Misread(said length.Length, f Form) []Reading {
	var out []Reading
	add := func(k Kind, meant ...length.Length) {
		from := len(out)
		for _, l := range meant {
			if l >= 0 && l != said {
				out = append(out, Reading{Kind: k, L: l})
			}
		}
		for i := from; i < len(out); i++ {
			out[i].Weight = row(k).Per / float64(len(out)-from)
		}
	}
	add(DigitsSwapped, swaps(said, f)...)
	if f == Millimetres {
		add(HundredBurned, said-100*length.Millimetre)
		if n := said / length.Millimetre; n <= 1000 {
			add(MMForInch, n*length.Inch)
		}
		return out
	}
	add(FootOut, said+length.Foot, said-length.Foot)
	add(InchBurned, said-length.Inch)
	add(TenBurned, said-10*length.Inch)
	add(Sixteenths, sixteenths(said)...)
	// 254 mm are 10 in, so n mm, said as n in, are n x 10 / 254 in.
	if inch := said / 254 * 10; f == Inches && inch >= length.Millimetre {
		add(MMForInch, inch)
	}
	return out
}

// swaps returns the lengths with two neighbouring digits of the whole number swapped. In
// feet and inches that is the feet only, since swapping 10 in gives 01, and 11 does not change.
func swaps(said length.Length, f Form) []length.Length {
	unit := map[Form]length.Length{Inches: length.Inch, FeetInches: length.Foot, Millimetres: length.Millimetre}[f]
	whole := int64(said / unit)
	s := []byte(strconv.FormatInt(whole, 10))
	var out []length.Length
	for i := range len(s) - 1 {
		if s[i] == s[i+1] || i == 0 && s[1] == '0' { // nobody writes 02 for 20
			continue
		}
		s[i], s[i+1] = s[i+1], s[i]
		if n, err := strconv.ParseInt(string(s), 10, 64); err == nil {
			out = append(out, said+length.Length(n-whole)*unit)
		}
		s[i], s[i+1] = s[i+1], s[i]
	}
	return out
}

// sixteenths returns the lengths whose fraction is easily confused on a tape: counted from
// the wrong end of the inch (3/8 for 5/8), or in eighths instead of sixteenths (5/8 for
// 5/16).
func sixteenths(said length.Length) []length.Length {
	whole, part := said/length.Inch*length.Inch, said%length.Inch
	if part == 0 || part%length.Sixteenth != 0 {
		return nil
	}
	var out []length.Length
	if part != length.Inch/2 {
		out = append(out, whole+length.Inch-part)
	}
	n := part / length.Sixteenth
	switch {
	case n%2 == 1 && n < 8: // n/16 said, n/8 meant
		out = append(out, whole+2*part)
	case n%2 == 0 && n/2%2 == 1: // n/8 said, n/16 meant
		out = append(out, whole+part/2)
	}
	return out
}

// words describes the slip, with the length that was meant.
func (r Reading) words(said length.Length) string {
	is := length.Canon(r.L)
	switch r.Kind {
	case FootOut:
		return fmt.Sprintf("a foot out: %s, not %s", is, length.Canon(said))
	case InchBurned:
		return "an inch burned: " + is
	case TenBurned:
		return "10 in burned: " + is
	case HundredBurned:
		return "100 mm burned: " + is
	case DigitsSwapped:
		return fmt.Sprintf("digits swapped: %s, not %s", is, length.Canon(said))
	case Sixteenths:
		return fmt.Sprintf("fraction misread: %s, not %s", is, length.Canon(said))
	}
	return "millimetres for inches: " + is
}
