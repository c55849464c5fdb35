package measure_test

import (
	"testing"

	. "strapline/calc/length"
	. "strapline/grammar/measure"
)

// On a metric tape "in" before "from" is the way in from a wall, unless the number may be inches.
func TestInward(t *testing.T) {
	for _, c := range []struct {
		text, rest string
		want       Length // 0: asked about
	}{
		{`600 in from the west`, ` in from the west`, mm(6000)},
		{`100 in off`, ` in off`, mm(1000)},
		{`99 in from the west`, ` from the west`, 0},
		{`112.5 in from the west`, ` from the west`, 0},
		{`24 1/2 in from the west`, ` from the west`, in(24, 1, 2)},
		{`600" from the west`, ` from the west`, in(600, 0, 1)},
		{`600in from the west`, ` from the west`, in(600, 0, 1)},
		{`600 in of`, ` of`, in(600, 0, 1)},
	} {
		readings, n, why := Scan(c.text, Metric, One)
		if c.text[n:] != c.rest || (why != "") != (c.want == 0) || c.want > 0 && (len(readings) != 1 || readings[0].L != c.want) {
			t.Errorf("Scan(%q): %v, left %q, want %q, why %q", c.text, readings, c.text[n:], c.rest, why)
		}
	}
}
