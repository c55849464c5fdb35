package cutting_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"strapline/calc/cutting"
	"strapline/calc/length"
)

// Small random problems with strips and limited stock are compared with a search that tries
// every place for every piece.
func TestBrute(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 14))
	for range 400 {
		var p cutting.Problem
		for _, ft := range []length.Length{4, 5, 7}[:1+rnd.IntN(3)] {
			s := cutting.Stock{Length: 10 * ft, Width: 48, Count: cutting.Unlimited, Cost: int64(ft)}
			if rnd.IntN(3) == 0 {
				s.Count = rnd.IntN(4)
			}
			p.Stock = append(p.Stock, s)
		}
		for range 1 + rnd.IntN(4) {
			it := cutting.Item{Length: 8 + length.Length(rnd.IntN(33)), Width: 48, Count: 1 + rnd.IntN(2)}
			if rnd.IntN(2) == 0 {
				it.Width = 10 + length.Length(rnd.IntN(20))
			}
			p.Items = append(p.Items, it)
		}
		want := brute(p)
		plan, err := cutting.Solve(p)
		switch {
		case errors.Is(err, cutting.ErrShort):
			if want >= 0 {
				t.Errorf("%+v: short, but %d does", p, want)
			}
		case err != nil:
			if want >= 0 {
				t.Errorf("%+v: %v", p, err)
			}
		default:
			check(t, p, plan)
			if plan.Cost != want || !plan.Proven() {
				t.Errorf("%+v: cost %d, bound %d, want %d", p, plan.Cost, plan.Bound, want)
			}
		}
	}
}

// brute is the least cost, found by trying everything, or -1 if there is no plan.
func brute(p cutting.Problem) int64 {
	type strip struct{ width, left length.Length }
	type board [2]strip
	var pieces []cutting.Item
	var widths []length.Length
	for _, it := range p.Items {
		widths = append(widths, it.Width)
		for range it.Count {
			pieces = append(pieces, it)
		}
	}
	used := make([]int, len(p.Stock))
	var open []board
	best := int64(-1)
	var put func(k int, cost int64)
	put = func(k int, cost int64) {
		if best >= 0 && cost >= best {
			return
		}
		if k == len(pieces) {
			best = cost
			return
		}
		it := pieces[k]
		for b := range open {
			for s := range 2 {
				if it.Width <= open[b][s].width && it.Length <= open[b][s].left {
					open[b][s].left -= it.Length
					put(k+1, cost)
					open[b][s].left += it.Length
				}
			}
		}
		for s, st := range p.Stock {
			if used[s] == st.Count || it.Length > st.Length || it.Width > st.Width {
				continue
			}
			used[s]++
			for _, w := range append([]length.Length{0}, widths...) {
				first := st.Width - w
				if it.Width > first {
					continue
				}
				open = append(open, board{{first, st.Length - it.Length}, {w, st.Length}})
				put(k+1, cost+st.Cost)
				open = open[:len(open)-1]
			}
			used[s]--
		}
	}
	put(0, 0)
	return best
}
