package layout_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/work"
)

// TestAnyInput: whatever the numbers, there is a layout that verifies or a Problem, never a panic.
func TestAnyInput(t *testing.T) {
	planned := 0
	rapid.Check(t, func(t *rapid.T) {
		// One number in some twenty is nonsense.
		num := func(name string) length.Length {
			if rapid.IntRange(0, 19).Draw(t, name+" odd") == 19 {
				return rapid.SampledFrom([]length.Length{0, 1, -1, -foot, math.MaxInt64, math.MinInt64, 48 * inch}).Draw(t, name)
			}
			return length.Length(rapid.IntRange(1, 250*16).Draw(t, name)) * length.Sixteenth
		}
		rects := func(name string) (out []layout.Rect) {
			for range rapid.IntRange(0, 2).Draw(t, name) {
				out = append(out, layout.Rect{X: num("x"), Y: num("y"), W: num("w"), H: num("h")})
			}
			return out
		}
		in := layout.Input{
			Surface: layout.Surface{W: num("w"), H: num("h"), Notches: rects("notches"), Openings: rects("openings"), Things: rects("things")},
			Lie:     place.Axis(rapid.IntRange(0, 1).Draw(t, "lie")),
			Along:   rapid.IntRange(0, 4).Draw(t, "along") == 4,
			Far:     rapid.Bool().Draw(t, "far"),
			Stock:   []layout.Stock{{Width: 48 * inch, Length: 12 * foot, Count: -1}},
		}
		if rapid.IntRange(0, 9).Draw(t, "line") == 9 {
			in.Longest = num("longest")
		}
		for at := 16 * inch; at < 250*inch; at += 16 * inch {
			in.Supports = append(in.Supports, layout.Support{At: at})
		}
		for range rapid.IntRange(0, 3).Draw(t, "supports") {
			in.Supports = append(in.Supports, layout.Support{At: num("at"), From: num("from"), To: num("to"), Face: num("face")})
		}
		for range rapid.IntRange(0, 2).Draw(t, "stock") {
			in.Stock = append(in.Stock, layout.Stock{Width: rapid.SampledFrom([]length.Length{48 * inch, 54 * inch, 1200 * length.Millimetre, 0}).Draw(t, "width"),
				Length: rapid.SampledFrom([]length.Length{8 * foot, 10 * foot, 2400 * length.Millimetre, 1, math.MaxInt64}).Draw(t, "length"),
				Count:  rapid.SampledFrom([]int{-1, 3, 0, -2}).Draw(t, "count")})
		}
		if rapid.IntRange(0, 4).Draw(t, "hang") == 4 {
			in.Hung = []layout.Hung{{Row: rapid.IntRange(-1, 4).Draw(t, "row"), From: num("from"), To: num("to")}}
		}
		l, err := layout.Plan(in, &work.Budget{Steps: 3_000_000})
		if err != nil {
			if _, ok := errors.AsType[*layout.Problem](err); !ok {
				t.Fatalf("%v", err)
			}
			return
		}
		planned++
		if len(in.Hung) > 0 {
			return // a hung piece may hang anywhere
		}
		for _, w := range verify(in, l) {
			t.Error(w)
		}
	})
	if planned < 20 {
		t.Errorf("only %d inputs could be planned", planned)
	}
}

// A surface that its notches take up whole has no boards, and no plan is better than that.
func TestNothingToBoard(t *testing.T) {
	l, err := layout.Plan(layout.Input{
		Surface:  layout.Surface{W: inch, H: inch, Notches: []layout.Rect{{W: inch, H: inch}, {W: inch, H: inch}}},
		Supports: []layout.Support{{At: 16 * inch}, {At: 32 * inch}},
		Stock:    []layout.Stock{{Width: 48 * inch, Length: 12 * foot, Count: -1}, {Width: 54 * inch, Length: 8 * foot, Count: -1}},
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if l.Bought != 0 || !l.Proven {
		t.Errorf("bought %g, proven %v", l.Bought, l.Proven)
	}
}
