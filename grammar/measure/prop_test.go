package measure_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	. "strapline/calc/length"
	. "strapline/grammar/measure"

	"pgregory.net/rapid"
)

// exact gives so many inches in nanometres, by rational arithmetic.
func exact(t *rapid.T, inches *big.Rat) Length {
	nm := new(big.Rat).Mul(inches, big.NewRat(25_400_000, 1))
	if !nm.IsInt() {
		t.Fatalf("%v in is no whole number of nanometres", inches)
	}
	return Length(nm.Num().Int64())
}

func mustRead(t *rapid.T, text string, u Units, slot Slot, want Length) {
	t.Helper()
	got, n, why := Scan(text, u, slot)
	if len(got) != 1 || got[0].L != want || got[0].Tag != Exact || n != len(text) || why != "" {
		t.Fatalf("Scan(%q, %s, %d): %v, took %q, why %q, want %d nm", text, u, slot, got, text[:n], why, want)
	}
}

// words spells n below 1,000 as it is said of a tape.
func words(n int) string {
	small := strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen " +
		"fourteen fifteen sixteen seventeen eighteen nineteen")
	ten := strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")
	switch {
	case n < 20:
		return small[n]
	case n < 100 && n%10 == 0:
		return ten[n/10]
	case n < 100:
		return ten[n/10] + " " + small[n%10]
	case n%100 == 0:
		return small[n/100] + " hundred"
	}
	return small[n/100] + " hundred and " + words(n%100)
}

var said = map[int]string{2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second", 64: "sixty-fourth"}

func saidFraction(num, den int) string {
	if den == 2 {
		return "a half"
	}
	text := words(num) + " " + said[den]
	if num > 1 {
		text += "s"
	}
	return text
}

// forms fills each form: {f} feet, {w} whole inches, {n}/{d} their fraction,
// {dec} the inches as a decimal; {F} {W} {N} the same in words.
func forms(feet, whole, num, den int, forms ...string) []string {
	sum := big.NewRat(int64(whole*den+num), int64(den))
	r := strings.NewReplacer("{f}", fmt.Sprint(feet), "{w}", fmt.Sprint(whole), "{n}", fmt.Sprint(num), "{d}", fmt.Sprint(den),
		"{dec}", sum.FloatString(6), "{F}", words(feet), "{W}", words(whole), "{N}", saidFraction(num, den))
	texts := make([]string, len(forms))
	for i, f := range forms {
		texts[i] = r.Replace(f)
	}
	return texts
}

func TestWholeAndFraction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		den := 1 << rapid.IntRange(1, 6).Draw(t, "log2 den")
		num := rapid.IntRange(1, den-1).Draw(t, "num")
		whole := rapid.IntRange(0, 999).Draw(t, "inches")
		u := rapid.SampledFrom(systems).Draw(t, "units")
		slot := rapid.SampledFrom(slots).Draw(t, "slot")
		want := exact(t, big.NewRat(int64(whole*den+num), int64(den)))
		for _, text := range forms(0, whole, num, den,
			`{w} {n}/{d}`, `{w}-{n}/{d}`, `{w} {n}/{d}"`, `{w}-{n}/{d}in`, `{w} and {n}/{d}`, `{w}–{n}⁄{d}”`, `{w} {n}/{d} inches`,
			`{w} & {n}/{d}''`, `{dec}"`, `{dec} inches`, `{W} and {N}`, `{W} AND {N} inches`, `{w} and {N}`, `{w} {n} {d}ths`) {
			mustRead(t, text, u, slot, want)
		}
	})
}

func TestFeetAndInches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		den := 1 << rapid.IntRange(1, 6).Draw(t, "log2 den")
		num := rapid.IntRange(1, den-1).Draw(t, "num")
		whole := rapid.IntRange(0, 11).Draw(t, "inches")
		feet := rapid.IntRange(0, 40).Draw(t, "feet")
		u := rapid.SampledFrom(systems).Draw(t, "units")
		want := exact(t, big.NewRat(int64((feet*12+whole)*den+num), int64(den)))
		for _, text := range forms(feet, whole, num, den,
			`{f}' {w} {n}/{d}"`, `{f}'{w} {n}/{d}`, `{f}'-{w} {n}/{d}"`, `{f}'-{w}-{n}/{d}`, `{f}’ {w}-{n}/{d}”`, `{f}′ {w} {n}⁄{d}″`,
			`{f}ft {w} {n}/{d}in`, `{f} feet {w} {n}/{d} inches`, `{f} ft. {w}-{n}/{d} in`, `{f}-{w}-{n}/{d}`, `{f}-{w} {n}/{d}`,
			`{f}' {dec}"`, `{f}ft {dec}in`, `{F} foot {W} and {N}`, `{f} foot {W} and {N}`, `{f}ft {w} and {N}`) {
			mustRead(t, text, u, One, want)
			mustRead(t, text, u, List, want)
		}
		bare := forms(feet, whole, num, den, `{f} {w} {n}/{d}`, `{f} {w}-{n}/{d}`)
		for _, text := range bare {
			mustRead(t, text, u, One, want)
			if got, n, _ := Scan(text, u, List); len(got) != 1 || n != len(fmt.Sprint(feet)) {
				t.Fatalf("Scan(%q, %s, List): %v, took %q", text, u, got, text[:n])
			}
		}
	})
}

func TestMetricForms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := rapid.IntRange(0, 9_999_999).Draw(t, "tenths of a millimetre")
		mm := big.NewRat(int64(tenths), 10)
		want := exact(t, new(big.Rat).Quo(mm, big.NewRat(254, 10)))
		u := rapid.SampledFrom(systems).Draw(t, "units")
		cm, m := new(big.Rat).Quo(mm, big.NewRat(10, 1)), new(big.Rat).Quo(mm, big.NewRat(1000, 1))
		for _, text := range []string{
			mm.FloatString(1) + "mm", mm.FloatString(1) + " millimetres", cm.FloatString(2) + " cm", m.FloatString(4) + " m",
			m.FloatString(4) + "m",
		} {
			mustRead(t, text, u, One, want)
			mustRead(t, text, u, List, want)
		}
		if tenths%10 == 0 {
			whole := fmt.Sprint(tenths / 10)
			mustRead(t, whole, Metric, List, want)
			if n := len(whole); n > 3 {
				mustRead(t, whole[:n-3]+","+whole[n-3:]+" mm", u, List, want)
			}
		}
	})
}

// Two bare whole numbers in a slot for one length never have one meaning,
// unless the second is too large to be a part of the first.
func TestTwoNumbersAsk(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.IntRange(0, 2000).Draw(t, "a"), rapid.IntRange(0, 40).Draw(t, "b")
		join := rapid.SampledFrom([]string{" ", "-", " & ", " and "}).Draw(t, "join")
		text := fmt.Sprint(a, join, b)
		readings, n, why := Scan(text, Imperial, One)
		switch {
		case len(readings) == 1 && (b < 16 || join == "-" || n != len(fmt.Sprint(a))):
			t.Fatalf("Scan(%q) is sure of %v", text, readings)
		case len(readings) != 1 && (n != len(text) || why == ""):
			t.Fatalf("Scan(%q): %v, took %q, why %q", text, readings, text[:n], why)
		}
	})
}

func lengths(most Length) *rapid.Generator[Length] {
	return rapid.OneOf(
		rapid.Map(rapid.Int64Range(0, int64(most)), func(n int64) Length { return Length(n) }),
		rapid.Map(rapid.Int64Range(0, int64(most/SixtyFourth)), func(n int64) Length { return Length(n) * SixtyFourth }),
		rapid.Map(rapid.Int64Range(0, int64(most/Millimetre)), func(n int64) Length { return Length(n) * Millimetre }),
	)
}

func TestCanonReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lengths(1000*Metre).Draw(t, "l")
		for _, u := range systems {
			mustRead(t, Canon(l), u, One, l)
			mustRead(t, Canon(l), u, List, l)
		}
		if l > 0 && Canon(-l) != "-"+Canon(l) {
			t.Fatalf("Canon(%d) = %s", -l, Canon(-l))
		}
	})
}

// What is shown is exact for 64ths, and else within 1/32 in or half a
// millimetre; both halves of a long length say the same.
func TestFormatIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lengths(100*Metre).Draw(t, "l")
		off := Sixteenth / 2
		if l%SixtyFourth == 0 {
			off = 0
		}
		text := Format(l, Imperial)
		feet, saw, long := strings.Cut(strings.TrimSuffix(text, ")"), " (")
		if long != (l >= 10*Foot-off) {
			t.Fatalf("Format(%d) = %s", l, text)
		}
		shown := []string{feet}
		if long {
			shown = append(shown, saw)
		}
		for _, s := range shown {
			got, n, why := Scan(s, Imperial, One)
			if len(got) != 1 || n != len(s) || why != "" || max(got[0].L-l, l-got[0].L) > off {
				t.Fatalf("Format(%d) = %s, of which %q reads as %v", l, text, s, got)
			}
		}
		mustRead(t, Format(l, Metric), Metric, List, RoundNearest(l, Metric))
		if l >= Millimetre && Format(-l, Metric) != "-"+Format(l, Metric) {
			t.Fatalf("Format(%d, metric) = %s", -l, Format(-l, Metric))
		}
	})
}

func TestRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lengths(100*Metre).Draw(t, "l")
		if rapid.Bool().Draw(t, "negative") {
			l = -l
		}
		for u, step := range map[Units]Length{Imperial: Sixteenth, Metric: Millimetre} {
			down, near := RoundDown(l, u), RoundNearest(l, u)
			if down%step != 0 || down > l || l-down >= step {
				t.Fatalf("RoundDown(%d, %s) = %d", l, u, down)
			}
			if near%step != 0 || 2*max(near-l, l-near) > step {
				t.Fatalf("RoundNearest(%d, %s) = %d", l, u, near)
			}
		}
	})
}
