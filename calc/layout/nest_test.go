package layout_test

import (
	"slices"
	"testing"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// A lean-to's end wall, 120 long, under a slope from its top at one end down to 24 above the lower edge at the other: 4 in
// 5. By hand: with 48 in rows from the top the first is a triangle 60 long, the second 120 at its lower edge and 60 at
// its upper one, the third a rectangle of 24. The triangle has the slant of the second row, whose board of 120 is used
// up but for the triangle that comes off it: turned around, the first row is that triangle. Flipped over the slope
// rises the other way, and the same holds.
func TestNestedTriangles(t *testing.T) {
	const in = length.Inch
	for _, under := range [][2]place.Point{{{X: 0, Y: 120 * in}, {X: 120 * in, Y: 24 * in}}, {{X: 0, Y: 24 * in}, {X: 120 * in, Y: 120 * in}}} {
		l := planned(t, under, 120*in)
		if want := []layout.Nest{{Piece: "r1.1", With: "r2.1", Board: 8 * 12 * in}}; !slices.Equal(l.Nests, want) && !slices.Equal(l.Nests, []layout.Nest{{Piece: "r1.1", With: "r2.1", Board: 10 * 12 * in}}) {
			t.Errorf("%v: got %+v of %+v", under, l.Nests, l.Rows)
		}
	}
	// Under two slopes that meet, the slants are mirror images, and no turning in the plane makes one of the other.
	two := planned(t, [2]place.Point{{X: 0, Y: 24 * in}, {X: 60 * in, Y: 120 * in}}, 120*in, [2]place.Point{{X: 60 * in, Y: 120 * in}, {X: 120 * in, Y: 24 * in}})
	for _, n := range two.Nests {
		t.Errorf("%+v", n)
	}
}

func planned(t *testing.T, under [2]place.Point, w length.Length, more ...[2]place.Point) *layout.Layout {
	t.Helper()
	const in = length.Inch
	input := layout.Input{Rules: layout.Defaults(), Lie: place.Y, Far: true}
	input.Surface.W, input.Surface.H = w, 120*in
	input.Surface.Under = append(more, under)
	for at := 15 * in; at < w; at += 15 * in {
		input.Supports = append(input.Supports, layout.Support{At: at, To: 120 * in, Face: 3 * in / 2})
	}
	for _, l := range []length.Length{8 * 12 * in, 10 * 12 * in} {
		input.Stock = append(input.Stock, layout.Stock{Width: 48 * in, Length: l, Count: 1 << 20})
	}
	out, err := layout.Plan(input, nil)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// By hand, on boards 48 wide: trapezoids of 90 and 30, and of 80 and 20, share a cut of 60 over 48. The second adds its short
// side, 20, to the board of the first. A mirror image never fits, nor one of another slope, another width or with both ends cut.
func TestBeside(t *testing.T) {
	const in = length.Inch
	end := func(long, short, lean length.Length) layout.Piece { // slanted at its end
		return layout.Piece{From: 0, To: long * in, Lo: 0, Hi: 48 * in, Cut: long * in, Width: 48 * in, Edges: [2]length.Length{long * in, short * in}, Lean: [2]length.Length{0, lean * in}}
	}
	start := end(80, 20, -60)
	start.Lean = [2]length.Length{-60 * in, 0}
	both, narrow, mirror := end(80, 20, -60), end(80, 20, -60), end(80, 20, 60)
	both.Lean[0], narrow.Width = 5*in, 40*in
	triangle := layout.Piece{From: 0, To: 58 * in, Lo: 0, Hi: 48 * in, Cut: 58 * in, Width: 46 * in, Ends: [2]length.Length{46*in + 2*in/5, 0}}
	large := triangle
	large.To, large.Ends[0] = 64*in, 51*in+in/5
	first := end(90, 30, -60)
	for _, tc := range []struct {
		name string
		p    layout.Piece
		left length.Length
		want bool
	}{
		{"another end", end(80, 20, -60), 20 * in, true}, {"too little left", end(80, 20, -60), 19 * in, false}, {"a start", start, 20 * in, true},
		{"its mirror image", mirror, 96 * in, false}, {"another slope", end(80, 30, -50), 96 * in, false}, {"both ends", both, 96 * in, false}, {"a narrow one", narrow, 96 * in, false},
		{"a triangle", triangle, 0, true}, {"a larger triangle", large, 0, false}, {"a rectangle", layout.Piece{To: 40 * in, Hi: 48 * in, Cut: 40 * in, Width: 48 * in}, 96 * in, false},
	} {
		if got := layout.Beside(tc.p, first, tc.left); got != tc.want {
			t.Errorf("%s: %v", tc.name, got)
		}
	}
}
