package measure_test

import (
	"strconv"
	"testing"
	"unicode/utf8"

	. "strapline/calc/length"
	. "strapline/grammar/measure"
)

func FuzzScan(f *testing.F) {
	for _, text := range []string{
		`116⅝"`, `9’-8 5⁄8”`, `9 8 10/16`, `nine foot eight and five eighths`, `twenty-nine sixty-two`, `2,962 mm`, `84 & 2`,
		`9:08 1/2`, `36-12`, `4 point 3`, `8 foot to off`, `forty for and a half`, `2 1/2 short`, `144+16`, `999999999999-0`,
		`about 96 1/2`, `96-ish`, `9' 8 give or take an eighth`, `96 +/- 1/8`, `96 - 1/8`, `167 5 8`, `one six seven five eighths`, `5 / 8`,
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, u := range systems {
			for _, slot := range slots {
				check(t, text, u, slot)
			}
		}
	})
}

// check holds Scan to its contract on any text.
func check(t *testing.T, text string, u Units, slot Slot) {
	readings, n, why := Scan(text, u, slot)
	switch {
	case n < 0 || n > len(text):
		t.Fatalf("%q (%s, %d): took %d of %d bytes", text, u, slot, n, len(text))
	case n < len(text) && !utf8.RuneStart(text[n]) && utf8.ValidString(text):
		t.Fatalf("%q (%s, %d): took %d bytes, in the middle of a rune", text, u, slot, n)
	case n == 0 && (len(readings) > 0 || why != ""),
		n > 0 && why == "" && len(readings) != 1:
		t.Fatalf("%q (%s, %d): %v, took %d, why %q", text, u, slot, readings, n, why)
	}
	for i, r := range readings {
		if r.L < 0 || r.L > 1000*Metre {
			t.Fatalf("%q (%s, %d): read as %d nm", text, u, slot, r.L)
		}
		for _, o := range readings[:i] {
			if o == r {
				t.Fatalf("%q (%s, %d): %v offered twice", text, u, slot, r)
			}
		}
		canon := Canon(r.L)
		for _, u := range systems {
			for _, slot := range slots {
				again, k, why := Scan(canon, u, slot)
				if len(again) != 1 || again[0] != (Reading{L: r.L}) || k != len(canon) || why != "" {
					t.Fatalf("%q (%s, %d): %s reads back as %v, why %q", text, u, slot, canon, again, why)
				}
			}
		}
	}
	if len(readings) == 1 && why == "" { // the words taken mean the same alone
		again, k, why := Scan(text[:n], u, slot)
		if len(again) != 1 || again[0] != readings[0] || k != n || why != "" {
			t.Fatalf("%q (%s, %d): %v, but %q alone %v, took %d, why %q", text, u, slot, readings, text[:n], again, k, why)
		}
	}
}

// The notes of the crew, as they are read at every place of a line. ParseFloat
// on a plain number is the yardstick: no notation, no unit, no doubt.
func BenchmarkScan(b *testing.B) {
	for name, text := range map[string]string{
		"fraction": `116-5/8" off west`, "feet": `9' 8 5/8" off west`, "said": `nine foot eight and five eighths off west`,
		"metric": `2962 off west`, "word": `kitchen light`, "asked": `10 6 x 14`,
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Scan(text, Imperial, One)
			}
		})
	}
	b.Run("yardstick", func(b *testing.B) {
		for b.Loop() {
			strconv.ParseFloat("116.625", 64)
		}
	})
}
