package length_test

import (
	"math"
	"testing"

	. "strapline/calc/length"
)

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
		for _, u := range []Units{Imperial, Metric} {
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

func in(whole, num, den int) Length {
	return Length(whole)*Inch + Length(num)*Inch/Length(den)
}

func mm(tenths int) Length { return Length(tenths) * Millimetre / 10 }
