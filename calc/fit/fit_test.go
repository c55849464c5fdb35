package fit_test

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/fit"
	"strapline/calc/length"
)

const in = length.Inch

// The cut is 1/4 in less than the smaller reading.
// By hand: 118-3/8 - 1/4 = 118-1/8 in = 118.125 x 25.4 = 3000.375 mm.
func ExampleSize() {
	c := fit.Size(118*in+3*in/8, 118*in+5*in/8, in/4, length.Imperial)
	fmt.Printf("%.3f mm, taper %v\n", float64(c.A)/1e6, c.Taper)
	// Output: 3000.375 mm, taper false
}

// Common practice, no source: 1/4 in overall clearance; ends more than 1/4 in apart taper.
func TestSize(t *testing.T) {
	for _, tt := range []struct {
		name        string
		a, b, clear length.Length
		u           length.Units
		want        fit.Cut
	}{
		{"one end", 96 * in, 0, in / 4, length.Imperial, fit.Cut{A: 95*in + 3*in/4, OneEnd: true}},
		{"just no taper", 96 * in, 96*in + in/4, in / 4, length.Imperial, fit.Cut{A: 95*in + 3*in/4}},
		{"just a taper", 96*in + 5*in/16, 96 * in, in / 4, length.Imperial, fit.Cut{A: 96*in + in/16, B: 95*in + 3*in/4, Taper: true}},
		{"rounds down to 1/16", 96*in + in/32, 0, in / 4, length.Imperial, fit.Cut{A: 95*in + 3*in/4, OneEnd: true}},
		{"metric rounds down to 1 mm", 2400*length.Millimetre + 900_000, 0, 6 * length.Millimetre, length.Metric, fit.Cut{A: 2394 * length.Millimetre, OneEnd: true}},
		{"never below zero", in / 8, 0, in / 4, length.Imperial, fit.Cut{OneEnd: true}},
	} {
		if got := fit.Size(tt.a, tt.b, tt.clear, tt.u); got != tt.want {
			t.Errorf("%s: got %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

// Checked in rational arithmetic: the cut is the largest multiple of 1/16 in that leaves
// the clearance.
func TestSizeAgainstRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := length.Length(rapid.Int64Range(int64(in), int64(200*in)).Draw(t, "a"))
		c := fit.Size(a, 0, in/4, length.Imperial)
		// in inches
		open := new(big.Rat).Sub(big.NewRat(int64(a), 25_400_000), big.NewRat(1, 4))
		cut := big.NewRat(int64(c.A), 25_400_000)
		left := new(big.Rat).Sub(open, cut)
		if left.Sign() < 0 || left.Cmp(big.NewRat(1, 16)) >= 0 {
			t.Fatalf("opening less clearance %s, cut %s", open, cut)
		}
		if n := new(big.Rat).Mul(cut, big.NewRat(16, 1)); !n.IsInt() {
			t.Fatalf("cut %s is no sixteenth", cut)
		}
	})
}

// By hand: 10 ft 8 in are 128 in, so 2 rows of 48 in and 32 in, ripped to 31-3/4 in; 12 ft 4 in less 1/4 in are 147-3/4 in.
func ExampleInRows() {
	r := fit.InRows(148*in, 128*in, 48*in, in/4, in/4, 6*in, length.Imperial)
	fmt.Println(r.N, length.Format(r.Cut, length.Imperial), length.Format(r.Last, length.Imperial))
	// Output: 3 12' 3-3/4" (147-3/4") 31-3/4"
}

// Worked by hand: whole boards, one row, a gap that the wall board covers, and 4 in that make (48+4)/2 - 1/4 in of the
// first and the last row.
func TestInRows(t *testing.T) {
	for _, tt := range []struct {
		across length.Length
		want   fit.Rows
	}{
		{144 * in, fit.Rows{N: 3, Last: 48 * in}},
		{47 * in, fit.Rows{N: 1, Last: 46*in + 3*in/4}},
		{144*in + in/4, fit.Rows{N: 3, Last: 48 * in}},
		{148 * in, fit.Rows{N: 4, Last: 25*in + 3*in/4, Shared: true}},
		{150 * in, fit.Rows{N: 4, Last: 5*in + 3*in/4}},
	} {
		tt.want.Cut = 95*in + 3*in/4
		if r := fit.InRows(96*in, tt.across, 48*in, in/4, in/4, 6*in, length.Imperial); r != tt.want {
			t.Errorf("across %s: %+v, want %+v", length.Format(tt.across, length.Imperial), r, tt.want)
		}
	}
}
