package square_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

func index(w place.Wall) int { return slices.Index(place.Walls[:], w) }

// A turned room keeps its sizes, and the wall is along its axis. In a widened room every wall
// is that much farther from a point in it, and narrowing it restores it. At agrees with
// Resolve.
func TestTurnedAndWidened(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all []length.Length
		for _, v := range measure(quads(t)) {
			all = append(all, length.Length(v*float64(in)))
		}
		flat, err := square.Fit(readings(all...))
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range place.Walls {
			r := flat.Along(w)
			for _, l := range square.Lines {
				if d := r.Measure(l) - flat.Measure(l); d < -2 || d > 2 {
					t.Fatalf("along %s: %s grew by %d nm", w, l, d)
				}
			}
			ends := [4][2]int{{0, 1}, {1, 2}, {3, 2}, {0, 3}}[index(w)]
			from, to := r.Corners[ends[0]], r.Corners[ends[1]]
			if (w == place.North || w == place.South) && (from.Y != to.Y || to.X <= from.X) || (w == place.East || w == place.West) && (from.X != to.X || to.Y <= from.Y) {
				t.Fatalf("along %s: %v to %v", w, from, to)
			}
			var by, back [4]length.Length
			for i := range by {
				by[i] = length.Length(rapid.Int64Range(0, int64(in)).Draw(t, "board"))
				back[i] = -by[i]
			}
			p := place.Point{X: 48 * in, Y: 48 * in}
			was, now := r.Locate(p), r.Wider(by).Locate(p)
			for i := range by {
				if d := now[i].L - was[i].L - by[i]; d < -2 || d > 2 {
					t.Fatalf("%s of %v: %d nm", place.Walls[i], by, d)
				}
			}
			for i, c := range r.Wider(by).Wider(back).Corners {
				if d := math.Hypot(float64(c.X-r.Corners[i].X), float64(c.Y-r.Corners[i].Y)); d > 10 {
					t.Fatalf("corner %d is %v nm off", i, d)
				}
			}
			for _, off := range r.Locate(p) {
				a := p.X
				other := p.Y
				if off.Wall == place.North || off.Wall == place.South {
					a, other = p.Y, p.X
				}
				if d := r.At(off.Wall, off.L, other) - a; d < -2 || d > 2 {
					t.Fatalf("%s: %d nm", off.Wall, d)
				}
			}
		}
	})
}
