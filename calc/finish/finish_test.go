package finish_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"strapline/calc/finish"
)

func air(f, rh float64) finish.Air {
	temp := finish.Fahrenheit(f)
	return finish.Air{Temp: &temp, Humidity: &rh}
}

func ExampleNextCoat() {
	// 60 F is not above 70 F, 55 % not below 40: neither is good, and it is not
	// damp, so the third (10 h) to the fifth band (48 h) of the chart.
	w := finish.NextCoat(air(60, 55))
	fmt.Println(w.From, w.To, w.Open, w.Slow)
	// Output: 10h0m0s 48h0m0s false false
}

func TestNextCoat(t *testing.T) {
	for _, tt := range []struct {
		name     string
		f, rh    float64
		from, to int // hours
		open, ok bool
		cold     bool
		slow     bool
	}{
		// Good: above 70 F, below 40 % (freemandrywall.com); about 24 h (ProForm
		// machine-grade sheet) against 2 h, the chart's fastest band (DWFC).
		{"good", 75, 35, 2, 24, false, true, false, false},
		{"70 F is not above 70", 70, 35, 10, 48, false, true, false, false},
		{"40 % is not below 40", 75, 40, 10, 48, false, true, false, false},
		// The chart's slow end: 17-19 h, 48 h, 3-5 days. Where it begins is our own split.
		{"damp", 75, 70, 17, 120, true, true, false, true},
		{"cool and damp", 60, 90, 17, 120, true, true, false, true},
		// 50 F (ProForm guide p.16) and 10 C (NBC 9.29.5.10) are the same.
		{"just warm enough", 50, 35, 10, 48, false, true, false, false},
		{"too cold", 49.9, 35, 0, 0, false, false, true, false},
		{"no such humidity", 70, 101, 0, 0, false, false, false, false},
		{"not a number", math.NaN(), 35, 0, 0, false, false, false, false},
	} {
		got := finish.NextCoat(air(tt.f, tt.rh))
		want := finish.Wait{From: time.Duration(tt.from) * time.Hour, To: time.Duration(tt.to) * time.Hour, Open: tt.open, OK: tt.ok, Cold: tt.cold, Slow: tt.slow}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s (-want +got)\n%s", tt.name, d)
		}
	}
}

func TestCelsius(t *testing.T) {
	// Fixed points of the two scales.
	for c, f := range map[float64]finish.Fahrenheit{0: 32, 100: 212, -40: -40, 10: finish.Cold} {
		if got := finish.Celsius(c); got != f {
			t.Errorf("%v C: got %v, want %v", c, got, f)
		}
	}
}

func TestMissingReadings(t *testing.T) {
	full := air(75, 35)
	for _, tt := range []struct {
		name string
		air  finish.Air
		to   time.Duration
	}{
		{"nothing known", finish.Air{}, 120 * time.Hour},
		{"no humidity", finish.Air{Temp: full.Temp}, 120 * time.Hour},
		{"no temperature", finish.Air{Humidity: full.Humidity}, 48 * time.Hour},
	} {
		if got := finish.NextCoat(tt.air); got.To != tt.to || !got.OK || got.Cold || got.Slow {
			t.Errorf("%s: %+v", tt.name, got)
		}
	}
}

// Cooler or damper air never shortens the wait, and knowing less never narrows it.
func TestDamperNeverSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, rh := rapid.Float64Range(50, 110).Draw(t, "f"), rapid.Float64Range(0, 100).Draw(t, "rh")
		cooler, damper := rapid.Float64Range(50, f).Draw(t, "cooler"), rapid.Float64Range(rh, 100).Draw(t, "damper")
		a, b := finish.NextCoat(air(f, rh)), finish.NextCoat(air(cooler, damper))
		if b.From < a.From || b.To < a.To || a.Open && !b.Open {
			t.Fatalf("%v F %v %%: %+v; %v F %v %%: %+v", f, rh, a, cooler, damper, b)
		}
		for _, less := range []finish.Air{{}, {Temp: air(f, rh).Temp}, {Humidity: air(f, rh).Humidity}} {
			if c := finish.NextCoat(less); c.From > a.From || c.To < a.To {
				t.Fatalf("%v F %v %%: %+v, knowing less %+v", f, rh, a, c)
			}
		}
	})
}
