package layout_test

import (
	"errors"
	"flag"
	"math/rand/v2"
	"testing"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/work"
)

var long = flag.Bool("long", false, "check 10,000 random rooms instead of 200")

const inch, foot = length.Inch, length.Foot

// room makes up a surface: sizes to the sixteenth, supports measured and sometimes stopping
// short, notches in corners and along walls, lights, a few lengths of board.
func room(seed uint64) layout.Input {
	r := rand.New(rand.NewPCG(seed, 7))
	ft := func(lo, hi int) length.Length {
		return length.Length(lo)*foot + length.Length(r.IntN((hi-lo)*12*16))*length.Sixteenth
	}
	in := layout.Input{Lie: place.Axis(r.IntN(2)), Far: r.IntN(4) == 0}
	in.Surface.W, in.Surface.H = ft(4, 34), ft(4, 24)
	w, h := in.Surface.W, in.Surface.H
	side, far := w, h
	if in.Lie == place.X {
		side, far = h, w
	}
	spacing := []length.Length{16 * inch, 16 * inch, 24 * inch, 12 * inch}[r.IntN(4)]
	for at := length.Length(r.IntN(16*16)+8) * length.Sixteenth; at < side; at += spacing {
		s := layout.Support{At: at, Face: 5 * inch / 2}
		if r.IntN(3) == 0 {
			s.At += length.Length(r.IntN(17)-8) * length.Sixteenth
		}
		if r.IntN(12) == 0 {
			if r.IntN(2) == 0 {
				s.From = far / 3
			} else {
				s.To = far * 2 / 3
			}
		}
		in.Supports = append(in.Supports, s)
	}
	if len(in.Supports) == 0 {
		in.Supports = []layout.Support{{At: side / 2}}
	}
	for range []int{0, 0, 1, 1, 2}[r.IntN(5)] {
		n := layout.Rect{W: ft(1, 5), H: ft(1, 4)}
		n.W, n.H = min(n.W, w/3), min(n.H, h/3)
		if n.X = 0; r.IntN(2) == 0 {
			n.X = w - n.W
		}
		switch r.IntN(3) {
		case 0:
			n.Y = h - n.H
		case 1:
			n.X = w / 3
		}
		in.Surface.Notches = append(in.Surface.Notches, n)
	}
	for range r.IntN(4) {
		in.Surface.Things = append(in.Surface.Things, layout.Rect{
			X: length.Length(r.Int64N(int64(w))), Y: length.Length(r.Int64N(int64(h))), W: 6 * inch, H: 6 * inch})
	}
	for _, l := range [][]int{{8}, {8, 12}, {8, 10, 12}, {8, 9, 10, 12, 14}, {10, 12, 14, 16}, {12}}[r.IntN(6)] {
		in.Stock = append(in.Stock, layout.Stock{Width: 48 * inch, Length: length.Length(l) * foot, Count: -1})
	}
	if r.IntN(6) == 0 {
		for i := range in.Stock {
			in.Stock[i].Count = 1 + r.IntN(12)
		}
	}
	if r.IntN(8) == 0 {
		in.Stock = append(in.Stock, layout.Stock{Width: 54 * inch, Length: 12 * foot, Count: -1})
	}
	if r.IntN(8) == 0 {
		in.Longest = length.Length(8+r.IntN(4)) * foot
	}
	if i := r.IntN(2 * len(in.Stock)); i < len(in.Stock) && in.Stock[i].Count > 0 {
		in.Stock[i].Count = 0 // run out
	}
	return in
}

func TestRandomRooms(t *testing.T) {
	n, steps := uint64(200), int64(15_000_000)
	if *long {
		n, steps = 10_000, 40_000_000
	}
	planned, provable, proven := 0, 0, 0 // provable: boards of one width, and enough of them
	for seed := range n {
		in := room(seed)
		l, err := layout.Plan(in, &work.Budget{Steps: steps})
		if err != nil {
			if p, ok := errors.AsType[*layout.Problem](err); !ok || p.Kind != layout.TooFar && p.Kind != layout.NoBoards {
				t.Errorf("room %d: %v", seed, err)
			}
			continue
		}
		planned++
		if one := in.Stock[len(in.Stock)-1].Width == in.Stock[0].Width; one && len(l.Short) == 0 {
			provable++
			if l.Proven {
				proven++
			}
		}
		for _, w := range verify(in, l) {
			t.Errorf("room %d: %s", seed, w)
		}
		if t.Failed() {
			t.FailNow()
		}
	}
	t.Logf("%d rooms planned, %d of %d proven best", planned, proven, provable)
	if planned < int(n)*8/10 || provable < planned*6/10 || proven < provable*3/4 {
		t.Errorf("%d of %d rooms planned, %d of %d proven", planned, n, proven, provable)
	}
}

// TestVerifyComplains: a layout that is spoilt in any way does not verify.
func TestVerifyComplains(t *testing.T) {
	in := ceiling(240*inch, 120*inch, 8, 12)
	in.Surface.Notches = []layout.Rect{{X: 200 * inch, Y: 0, W: 40 * inch, H: 30 * inch}}
	in.Supports[4].To = 60 * inch
	for name, spoil := range map[string]func(l *layout.Layout){
		"a hole":                func(l *layout.Layout) { l.Rows[0].Pieces = l.Rows[0].Pieces[1:] },
		"a piece too long":      func(l *layout.Layout) { l.Rows[1].Pieces[0].Cut += inch },
		"a piece too wide":      func(l *layout.Layout) { l.Rows[1].Pieces[0].Width += inch },
		"an overlap":            func(l *layout.Layout) { l.Rows[1].Pieces[0].To += inch },
		"a butt off its strap":  func(l *layout.Layout) { move(l, 1, 3*inch) },
		"a butt unsaid":         func(l *layout.Layout) { l.Rows[1].Butts = nil },
		"stagger":               func(l *layout.Layout) { l.Rows[2].Butts = append(l.Rows[2].Butts, l.Rows[1].Butts...) },
		"butts off":             func(l *layout.Layout) { l.Butts-- },
		"a piece cut twice":     func(l *layout.Layout) { l.Cuts[0].Strips[0].Pieces = append(l.Cuts[0].Strips[0].Pieces, "r1.1") },
		"a piece not cut":       func(l *layout.Layout) { l.Cuts = l.Cuts[1:] },
		"a board that is not":   func(l *layout.Layout) { l.Cuts[0].Length += 2 * foot },
		"boards uncounted":      func(l *layout.Layout) { l.Boards[0].Count-- },
		"notch forgotten":       func(l *layout.Layout) { unnotch(l) },
		"too good to be proven": func(l *layout.Layout) { l.Bound -= 1 },
	} {
		l, err := layout.Plan(in, nil)
		if err != nil {
			t.Fatal(err)
		}
		if w := verify(in, l); len(w) > 0 {
			t.Fatal(w)
		}
		if spoil(l); len(verify(in, l)) == 0 {
			t.Errorf("%s goes through", name)
		}
	}
}

// move shifts the first butt of a row.
func move(l *layout.Layout, row int, by length.Length) {
	r := &l.Rows[row]
	r.Pieces[0].To += by
	r.Pieces[0].Cut += by
	r.Pieces[1].From += by
	r.Pieces[1].Cut -= by
	r.Butts[0].At += by
}

func unnotch(l *layout.Layout) {
	for _, r := range l.Rows {
		for i := range r.Pieces {
			r.Pieces[i].Notches = nil
		}
	}
}
