package slip_test

import (
	"math"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
)

// The west wall leans 3 in over 120 in, along x = y/40; north is y = 0. By hand: d in square
// to the wall are d x sqrt(1 + 1/1600) along x, so 26 off west and 41 off north are at
// x = 41/40 + 26.0081 = 27.0331. Swapped, x = 26/40 + 41.0128 = 41.6628 and y = 26. Off
// south, y = 120 - 41 = 79 and x = 79/40 + 26.0081 = 27.9831. The east wall is square to
// north at x = 160, so 26 off it is x = 134.
func TestLeaning(t *testing.T) {
	l := func(v float64) length.Length { return length.Length(math.Round(v * float64(in))) }
	n := slip.Note{Size: place.Size{A: 2 * in}}
	n.X = slip.Coord{Fix: place.Fix{How: place.OffWall, Said: length.Said{L: 26 * in}, Wall: place.West}, Grows: true, From: l(1.0331), Lean: 1.0 / 40, Mirror: l(134)}
	n.Y = slip.Coord{Fix: place.Fix{How: place.OffWall, Said: length.Said{L: 41 * in}, Wall: place.North}, Grows: true, Mirror: l(79)}
	s := slip.Scene{W: 160 * in, H: 120 * in, Empty: []place.Point{n.Place()}, Corners: []place.Point{{}, {X: 160 * in}, {X: 160 * in, Y: 120 * in}, {X: 3 * in, Y: 120 * in}}}
	want := map[slip.Kind][]place.Point{
		slip.Swapped: {{X: l(41.6628), Y: 26 * in}},
		slip.Mirror:  {{X: l(27.9831), Y: 79 * in}, {X: l(134), Y: 41 * in}},
	}
	found := map[place.Point]bool{}
	for _, p := range slip.Missed(s, n) {
		for _, w := range p.Ways {
			if len(w.Reasons) > 1 {
				continue
			}
			for _, at := range want[w.Reasons[0].Kind] {
				if d := math.Hypot(float64(w.At.X-at.X), float64(w.At.Y-at.Y)); d < float64(in)/16 {
					found[at] = true
				}
			}
		}
		if edge := float64(p.At.X) - float64(p.At.Y)/40; edge < 0 {
			t.Errorf("a hole at %v, beyond the wall", p.At)
		}
	}
	if len(found) != 3 {
		t.Errorf("found %v", found)
	}
	// With the board taken for the studs, a thing near the south end of that wall would be inside the wall.
	n.X.Said.L, n.X.From, n.Y.Said.L = 12*in, l(2.5), 100*in
	s.Empty = []place.Point{n.Place()}
	for _, p := range slip.Missed(s, n) {
		for _, w := range p.Ways {
			if float64(w.At.X-in)*40 < float64(w.At.Y-in) {
				t.Errorf("the thing itself would be in the wall at %v", w.At)
			}
		}
	}
}
