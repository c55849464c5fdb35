package length_test

import (
	"fmt"
	"math"
	"testing"

	. "strapline/calc/length"
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

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		l                Length
		imperial, metric string
	}{
		{0, `0"`, "0 mm"},
		{in(26, 1, 2), `26-1/2"`, "673 mm"},
		{in(0, 3, 4), `3/4"`, "19 mm"},
		{in(98, 1, 8), `98-1/8"`, "2492 mm"},
		{in(48, 0, 1), `48"`, "1219 mm"},
		{in(119, 15, 16), `119-15/16"`, "3046 mm"},
		{in(120, 0, 1), `10' (120")`, "3048 mm"},
		{in(120, 1, 2), `10' 0-1/2" (120-1/2")`, "3061 mm"},
		{in(126, 0, 1), `10' 6" (126")`, "3200 mm"},
		{in(160, 1, 2), `13' 4-1/2" (160-1/2")`, "4077 mm"},
		{-in(160, 1, 2), `-13' 4-1/2" (-160-1/2")`, "-4077 mm"},
		{-in(0, 1, 8), `-1/8"`, "-3 mm"},
		{in(0, 1, 64), `1/64"`, "0 mm"},
		{in(9, 13, 64), `9-13/64"`, "234 mm"},
		{mm(29620), `116-5/8"`, "2962 mm"}, // 2962 / 25.4 = 116.614; x 16 = 1865.8
		{in(120, 0, 1) - 1, `10' (120")`, "3048 mm"},
		{-1, `0"`, "0 mm"},
		{mm(5), `0"`, "1 mm"}, // half a millimetre goes up; 0.5 x 16 / 25.4 = 0.31
		{-mm(5), `0"`, "-1 mm"},
	} {
		if got := Format(c.l, Imperial); got != c.imperial {
			t.Errorf("Format(%d nm) = %s, want %s", c.l, got, c.imperial)
		}
		if got := Format(c.l, Metric); got != c.metric {
			t.Errorf("Format(%d nm) = %s, want %s", c.l, got, c.metric)
		}
	}
}

func TestCanon(t *testing.T) {
	for l, want := range map[Length]string{
		0: `0"`, in(160, 1, 2): `160-1/2"`, in(0, 3, 64): `3/64"`, -in(5, 1, 4): `-5-1/4"`,
		mm(2962): "296.2 mm", mm(29620): "2962 mm", 1: "0.000001 mm", -1: "-0.000001 mm", -mm(15): "-1.5 mm",
		296_240_000: "296.24 mm",
	} {
		if got := Canon(l); got != want {
			t.Errorf("Canon(%d nm) = %s, want %s", l, got, want)
		}
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		u                Units
		l, down, nearest Length
	}{
		{Imperial, in(26, 1, 2), in(26, 1, 2), in(26, 1, 2)},
		{Imperial, in(26, 33, 64), in(26, 1, 2), in(26, 1, 2)},
		{Imperial, in(26, 17, 32), in(26, 1, 2), in(26, 9, 16)},
		{Imperial, in(26, 35, 64), in(26, 1, 2), in(26, 9, 16)},
		{Imperial, -in(0, 1, 64), -in(0, 1, 16), 0},
		{Imperial, -in(0, 1, 32), -in(0, 1, 16), -in(0, 1, 16)},
		{Metric, mm(29624), mm(29620), mm(29620)},
		{Metric, mm(29625), mm(29620), mm(29630)},
		{Metric, -mm(29625), -mm(29630), -mm(29630)},
	} {
		if got := RoundDown(c.l, c.u); got != c.down {
			t.Errorf("RoundDown(%s, %s) = %s, want %s", Canon(c.l), c.u, Canon(got), Canon(c.down))
		}
		if got := RoundNearest(c.l, c.u); got != c.nearest {
			t.Errorf("RoundNearest(%s, %s) = %s, want %s", Canon(c.l), c.u, Canon(got), Canon(c.nearest))
		}
	}
}

// The ends of the type print something and do not panic.
func TestExtremes(t *testing.T) {
	for _, l := range []Length{math.MaxInt64, math.MaxInt64 - 1, math.MinInt64, math.MinInt64 + 1} {
		for _, u := range systems {
			got := Format(l, u)
			if (got[0] == '-') != (l < 0) {
				t.Errorf("Format(%d, %s) = %s", l, u, got)
			}
			for _, r := range []Length{RoundDown(l, u), RoundNearest(l, u)} {
				if (r < 0) != (l < 0) {
					t.Errorf("%d rounds to %d in %s", l, r, u)
				}
			}
		}
		if got := Canon(l); (got[0] == '-') != (l < 0) {
			t.Errorf("Canon(%d) = %s", l, got)
		}
	}
}
