package measure_test

import (
	"fmt"
	"testing"

	. "strapline/calc/length"
	. "strapline/grammar/measure"
)

// The sixteenths of an inch of 25.4 mm (international yard and pound
// agreement: yard 0.9144 m, in force since 1 July 1959), each the exact
// product n x 25.4 / 16.
var sixteenthsMM = []string{
	"0", "1.5875", "3.175", "4.7625", "6.35", "7.9375", "9.525", "11.1125", "12.7",
	"14.2875", "15.875", "17.4625", "19.05", "20.6375", "22.225", "23.8125", "25.4",
}

func TestInchOf1959(t *testing.T) {
	if yard, want := 3*Foot, 914_400_000*Nanometre; yard != want {
		t.Errorf("yard %d nm, want %d", yard, want)
	}
	read := func(text string, u Units) Length {
		t.Helper()
		got, n, why := Scan(text, u, One)
		if len(got) != 1 || n != len(text) {
			t.Fatalf("Scan(%q): %v, took %d, why %q", text, got, n, why)
		}
		return got[0].L
	}
	for n, want := range sixteenthsMM {
		text := fmt.Sprintf("%d/16", n)
		if n == 0 || n == 16 {
			text = fmt.Sprintf(`%d"`, n/16)
		}
		if got, want := read(text, Imperial), read(want+"mm", Metric); got != want {
			t.Errorf("%s: %d nm, want %d", text, got, want)
		}
	}
	// Board lengths and spacings in mm, from the same inch: ft x 304.8, in x 25.4.
	for text, want := range map[string]string{
		"1/32": "0.79375", "1/64": "0.396875",
		"4'": "1219.2", "8'": "2438.4", "10'": "3048", "12'": "3657.6", "14'": "4267.2", "16'": "4876.8",
		`16"`: "406.4", `24"`: "609.6", `19.2"`: "487.68",
	} {
		if got, want := read(text, Imperial), read(want+"mm", Metric); got != want {
			t.Errorf("%s: %d nm, want %d", text, got, want)
		}
		if got := fmt.Sprint(MM(read(text, Imperial))); got != want {
			t.Errorf("MM(%s) = %s, want %s", text, got, want)
		}
	}
}
