package layout_test

import (
	"testing"

	"strapline/calc/layout"
	"strapline/calc/length"
)

// hall is a rectangle on straps 16 in on centre, with 48 in boards of the usual lengths.
func hall(w, h int, lengths ...int) layout.Input {
	in := layout.Input{Lie: layout.Y, Surface: layout.Surface{W: length.Length(w) * foot, H: length.Length(h) * foot}}
	for at := 16 * inch; at < in.Surface.W; at += 16 * inch {
		in.Supports = append(in.Supports, layout.Support{At: at, Face: 5 * inch / 2})
	}
	for _, l := range lengths {
		in.Stock = append(in.Stock, layout.Stock{Width: 48 * inch, Length: length.Length(l) * foot, Count: -1})
	}
	return in
}

func BenchmarkHall40x25(b *testing.B) {
	in := hall(40, 25, 8, 9, 10, 12, 14)
	b.ReportAllocs()
	for b.Loop() {
		l, err := layout.Plan(in)
		if err != nil {
			b.Fatal(err)
		}
		_ = l
	}
	l, _ := layout.Plan(in)
	b.Logf("butts %d/%d bought %.2f bound %.2f proven %v stagger %.1f boards %v notes %v", l.Butts, l.BoundButts, l.Bought, l.Bound, l.Proven, in2(l.Stagger), l.Boards, l.Notes)
}
