package layout_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/work"
)

// wall makes up a wall: studs from a corner, doors and windows that keep a foot apart, boxes, boards lying level or standing.
func wall(seed uint64) layout.Input {
	r := rand.New(rand.NewPCG(seed, 12))
	some := func(lo, hi int) length.Length {
		return length.Length(lo)*inch + length.Length(r.IntN((hi-lo)*16))*length.Sixteenth
	}
	in := layout.Input{Lie: place.Y, Along: r.IntN(3) == 0}
	in.Far = !in.Along || r.IntN(2) == 0
	in.Surface.W, in.Surface.H = some(30, 300), some(88, 130)
	w, h := in.Surface.W, in.Surface.H
	for at := inch * 3 / 4; at < w; at += 16 * inch {
		in.Supports = append(in.Supports, layout.Support{At: at, Face: 3 * inch / 2})
	}
	in.Supports = append(in.Supports, layout.Support{At: w - inch*3/4, Face: 3 * inch / 2})
	for x := some(2, 60); ; x += some(12, 80) {
		o := layout.Rect{X: x, W: some(24, 72), H: some(76, 84)}
		if r.IntN(2) == 0 {
			o.Y = some(20, 44)
			o.H = min(some(20, 60), h-o.Y-inch)
		}
		if o.X+o.W > w-2*inch {
			break
		}
		in.Surface.Openings = append(in.Surface.Openings, o)
		// king studs beside it
		in.Supports = append(in.Supports, layout.Support{At: o.X - inch*3/4, Face: 3 * inch / 2}, layout.Support{At: o.X + o.W + inch*3/4, Face: 3 * inch / 2})
		x += o.W
	}
	if r.IntN(4) == 0 { // a notch of the room stands at its end
		n := min(some(12, 50), w/3)
		in.Surface.Notches = append(in.Surface.Notches, layout.Rect{X: w - n, W: n, H: h})
	}
	for range r.IntN(4) {
		in.Surface.Things = append(in.Surface.Things, layout.Rect{X: length.Length(r.Int64N(int64(w))), Y: some(10, 60), W: 2 * inch, H: 4 * inch})
	}
	for _, l := range [][]int{{8, 12}, {8, 10, 12}, {12}, {9, 10, 12, 14}}[r.IntN(4)] {
		in.Stock = append(in.Stock, layout.Stock{Width: 48 * inch, Length: length.Length(l) * foot, Count: -1})
	}
	return in
}

func TestRandomWalls(t *testing.T) {
	n, steps := uint64(120), int64(8_000_000)
	if *long {
		n = 5_000
	}
	planned, cut := 0, 0
	for seed := range n {
		in := wall(seed)
		l, err := layout.Plan(in, &work.Budget{Steps: steps})
		if err != nil {
			if _, ok := errors.AsType[*layout.Problem](err); !ok {
				t.Errorf("wall %d: %v", seed, err)
			}
			continue
		}
		planned++
		for _, row := range l.Rows {
			for _, p := range row.Pieces {
				cut += len(p.Notches)
			}
		}
		for _, w := range verify(in, l) {
			t.Errorf("wall %d: %s", seed, w)
		}
	}
	t.Logf("%d of %d walls planned, %d cut-outs", planned, n, cut)
	if planned < int(n)*9/10 || cut < int(n) {
		t.Errorf("%d of %d walls planned, %d cut-outs: too few to tell", planned, n, cut)
	}
}
