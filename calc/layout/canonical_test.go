package layout_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/layout"
	"strapline/calc/work"
)

// counted returns a random room with counted boards: few, or far more than it takes.
func counted(seed uint64) layout.Input {
	in := room(seed)
	r := rand.New(rand.NewPCG(seed, 11))
	for i := range in.Stock {
		in.Stock[i].Count = []int{0, r.IntN(6), r.IntN(30), 500, 500, 900}[r.IntN(6)]
	}
	if r.IntN(4) == 0 {
		row := layout.Hung{Row: 1, From: 0, To: min(in.Surface.W, in.Surface.H) / 2}
		in.Hung = []layout.Hung{row}
		in.Stock = append(in.Stock, layout.Stock{Width: 48 * inch, Length: 5 * foot, Count: r.IntN(3), Offcut: true})
	}
	return in
}

// TestCanonical: what no plan depends on changes neither the canonical input nor the layouts.
func TestCanonical(t *testing.T) {
	n, both, capped := uint64(50), 0, 0
	if *long {
		n = 1500
	}
	for seed := range n {
		in := counted(seed)
		c := in.Canonical()
		if d := cmp.Diff(c, c.Canonical()); d != "" {
			t.Fatalf("room %d: not the same when done again: %s", seed, d)
		}
		other := in
		other.Stock = slices.Clone(in.Stock)
		for i, b := range other.Stock {
			at := slices.IndexFunc(c.Stock, func(o layout.Stock) bool {
				return o.Width == b.Width && o.Length == b.Length && o.Offcut == b.Offcut
			})
			switch {
			case b.Count > 400 && c.Stock[at].Count < b.Count:
				other.Stock[i].Count += int(seed%50) - 25
				capped++
			case b.Count > 2: // in two heaps
				other.Stock[i].Count -= 2
				b.Count = 2
				other.Stock = append(other.Stock, b)
			}
		}
		slices.Reverse(other.Stock)
		other.Stock = append(other.Stock, layout.Stock{Width: 48 * inch, Length: 5 * inch, Count: 7}, layout.Stock{Length: 8 * foot, Count: 1},
			layout.Stock{Width: 48 * inch, Length: 6 * foot, Offcut: true})
		if in.Longest > 0 {
			other.Stock = append(other.Stock, layout.Stock{Width: 48 * inch, Length: in.Longest + foot, Count: -1})
		}
		if d := cmp.Diff(c, other.Canonical()); d != "" {
			t.Fatalf("room %d: %s", seed, d)
		}
		steps := func() *work.Budget { return &work.Budget{Steps: 3_000_000} }
		want, err := layout.Plan(in, steps())
		got, why := layout.Plan(other, steps())
		if d := cmp.Diff(want, got); d != "" || (err == nil) != (why == nil) {
			t.Fatalf("room %d: %v, %v: %s", seed, err, why, d)
		}
		if err != nil {
			continue
		}
		if seed%8 == 0 {
			a, err := layout.Alternatives(in, want, steps())
			b, why := layout.Alternatives(c, want, steps())
			if d := cmp.Diff(a, b); d != "" || err != nil || why != nil {
				t.Fatalf("room %d: others: %v, %v: %s", seed, err, why, d)
			}
		}
		// No optimum is lost: the same bounds are proven.
		if free, err := layout.AsGiven(in, steps()); err == nil && free.Proven && want.Proven {
			both++
			if free.Butts != want.Butts || free.Bought != want.Bought {
				t.Errorf("room %d: %d butts of %.3f m2, with all boards %d of %.3f", seed, want.Butts, want.Bought, free.Butts, free.Bought)
			}
		}
	}
	if both < 10 || capped < 10 {
		t.Errorf("only %d rooms compared, %d counts capped", both, capped)
	}
}

// TestEnough: the counts that remain. By hand: four rows of 12 ft take four 12 ft boards at most, and six
// 8 ft boards have their area.
func TestEnough(t *testing.T) {
	in := ceiling(12*foot, 16*foot, 8, 12)
	in.Stock[0].Count, in.Stock[1].Count = 100, 40
	var got []int
	for _, b := range in.Canonical().Stock {
		got = append(got, b.Count)
	}
	if !slices.Equal(got, []int{6, 4}) {
		t.Errorf("%d of the boards count, want 6 and 4", got)
	}
}

// TestNoSteps: without any budget there is at once a layout that keeps the rules, with a bound.
func TestNoSteps(t *testing.T) {
	for seed := range uint64(40) {
		in := room(seed)
		full, err := layout.Plan(in, &work.Budget{Steps: 5_000_000})
		var left int64
		for _, steps := range []int64{0, 1, 5000} {
			b := &work.Budget{Steps: steps}
			l, why := layout.Plan(in, b)
			if (err == nil) != (why == nil) {
				t.Fatalf("room %d: %v, with %d steps %v", seed, err, steps, why)
			}
			if left = b.Steps; err != nil {
				continue
			}
			for _, w := range verify(in, l) {
				t.Errorf("room %d, %d steps: %s", seed, steps, w)
			}
			if len(full.Short) == 0 && len(l.Short) == 0 && (l.BoundButts > full.Butts || l.Butts == full.Butts && l.Bound > full.Bought+1e-6) {
				t.Errorf("room %d, %d steps: bound %d, %.3f; there is %d, %.3f", seed, steps, l.BoundButts, l.Bound, full.Butts, full.Bought)
			}
		}
		if left < -10_000_000 {
			t.Errorf("room %d: %d steps left of none", seed, left)
		}
	}
}

// TestStopped: a cancelled plan returns nothing.
func TestStopped(t *testing.T) {
	done := make(chan struct{})
	close(done)
	in := ceiling(40*foot, 25*foot, 8, 9, 10, 12, 14)
	b := &work.Budget{Steps: layout.DefaultSteps, Done: done}
	if l, err := layout.Plan(in, b); l != nil || err != layout.ErrStopped {
		t.Errorf("%v, %v", l, err)
	}
	if spent := layout.DefaultSteps - b.Steps; spent > 100_000 {
		t.Errorf("%d steps went by", spent)
	}
	best, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	if alts, err := layout.Alternatives(in, best, b); alts != nil || err != layout.ErrStopped {
		t.Errorf("%d others, %v", len(alts), err)
	}
}
