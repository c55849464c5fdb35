// Package finish estimates how soon the next coat may go on.
//
// The only published drying times used here are coarse bands and one maker's
// figure, which disagree. So every answer is a range, and the label of the
// compound and a look at the coat take precedence.
package finish

import "time"

// Fahrenheit is a temperature. The published thresholds are in degrees Fahrenheit.
type Fahrenheit float64

// Celsius converts a temperature from degrees Celsius.
func Celsius(c float64) Fahrenheit { return Fahrenheit(c*9/5 + 32) }

// Air is what the crew knows about the air in the room. Nil means unknown.
type Air struct {
	Temp     *Fahrenheit
	Humidity *float64 // relative, percent
}

const (
	// Cold: no taping below 50 F / 10 C for 48 h before (ProForm guide p.16;
	// NBC 9.29.5.10), nor for 48 h after (NBC) or until dry (ProForm).
	Cold Fahrenheit = 50
	// Good drying is above 70 F and below 40 % humidity (freemandrywall.com).
	GoodTemp     Fahrenheit = 70
	GoodHumidity float64    = 40
)

// damp is the relative humidity from which drying counts as slow, in percent. The
// published bands give no limits; this is our own.
const damp = 70.0

// Wait is how long after a coat of 1/16 in the next may go on: not before From, likely by To, possibly later if Open.
// Thicker coats take longer. OK is false if there is no range.
type Wait struct {
	From, To time.Duration
	Open, OK bool
	Cold     bool // below 50 F: no taping, so no range
	Slow     bool // heat and ventilate, or use a setting compound (wconline.com 84384)
}

// The bands of the drying chart for a 1/16 in coat, with rising humidity: 2, 6, 10,
// 17 to 19, 48 h, 3 to 5 days (DWFC chart, info.5y1.org). A maker says about
// 24 h in good conditions (ProForm machine-grade sheet). Which bands apply to a
// room is our own choice, wide on purpose: in good air from the fastest band to
// the maker's figure, in damp air from the fourth band to the slowest.
const (
	fastest = 2 * time.Hour
	third   = 10 * time.Hour
	fourth  = 17 * time.Hour
	maker   = 24 * time.Hour
	fifth   = 48 * time.Hour
	slowest = 5 * 24 * time.Hour
)

// NextCoat is the wait for the next coat in this air.
func NextCoat(a Air) Wait {
	if a.bad() {
		return Wait{}
	}
	if a.Temp != nil && *a.Temp < Cold {
		return Wait{Cold: true}
	}
	w := Wait{OK: true}
	switch warm := a.Temp != nil && *a.Temp > GoodTemp; {
	case a.Humidity == nil:
		w.From, w.To, w.Open = fastest, slowest, true
		if a.Temp != nil && !warm {
			w.From = third
		}
	case *a.Humidity >= damp:
		w.From, w.To, w.Open, w.Slow = fourth, slowest, true, true
	case a.Temp == nil && *a.Humidity < GoodHumidity:
		w.From, w.To = fastest, fifth
	case warm && *a.Humidity < GoodHumidity:
		w.From, w.To = fastest, maker
	default:
		w.From, w.To = third, fifth
	}
	return w
}

// bad reports an impossible reading, NaN included.
func (a Air) bad() bool {
	in := func(x, lo, hi float64) bool { return lo <= x && x <= hi }
	return a.Humidity != nil && !in(*a.Humidity, 0, 100) || a.Temp != nil && !in(float64(*a.Temp), -60, 150)
}
