package lanes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"strapline/calc/length"
	"strapline/calc/work"
)

// randomStack is lanes with places for butts at random, all patterns of up to two butts more than they need listed.
func randomStack(t *testing.T, r *rand.Rand, lanes, places int) *Stack {
	t.Helper()
	var all []Lane
	for range lanes {
		c := &Chain{Nodes: []length.Length{0}}
		for range places {
			c.Nodes = append(c.Nodes, c.Nodes[len(c.Nodes)-1]+1+length.Length(r.IntN(3)))
		}
		n := len(c.Nodes)
		for i := range n {
			c.Item = append(c.Item, slices.Repeat([]int32{-1}, n))
			for j := i + 1; j < n && c.Nodes[j]-c.Nodes[i] <= c.Nodes[n-1]*2/5; j++ {
				c.Item[i][j] = int32(c.Nodes[j] - c.Nodes[i])
			}
		}
		if c.Fewest() == 0 {
			return nil
		}
		all = append(all, Lane{Chains: []*Chain{c}})
	}
	k, err := NewStack(all, &work.Budget{Steps: 1 << 40})
	if err != nil {
		t.Fatal(err)
	}
	k.Keep(2)
	k.Relist(2, MaxPatterns)
	k.ButtCost = 3
	return k
}

// plain computes the cheapest path at the last prices from every pair of neighbouring patterns, as a check
// of what is skipped.
func (k *Stack) plain(standIns bool) float64 {
	var at []float64
	for i, l := range k.Lanes {
		kd := l.Kind
		to := make([]float64, len(kd.Pats)+1)
		for q := range to {
			if to[q] = math.Inf(1); i == 0 {
				to[q] = 0
			}
			for p, v := range at {
				nb := k.Lanes[i-1].Kind
				if q == len(kd.Pats) || p == len(nb.Pats) || !nb.Pats[p].Mask.Meets(&kd.Pats[q].Excludes) {
					to[q] = min(to[q], v)
				}
			}
			switch {
			case q < len(kd.Pats):
				to[q] += kd.Cost[q]
			case standIns:
				to[q] += kd.StandCost
			default:
				to[q] = math.Inf(1)
			}
		}
		at = to
	}
	return slices.Min(at)
}

// TestCheapest: what is skipped because it costs more than the last path, or is on no shelf yet, is never
// the cheapest path, at changing prices and distances; and what is skipped under a limit is above it.
func TestCheapest(t *testing.T) {
	defer func(was [3]int) { Shelves = was }(Shelves)
	Shelves[0], Shelves[1] = 4, 16
	r := rand.New(rand.NewPCG(7, 11))
	fine, apart := 0, 0
	for try := range 16 {
		k := randomStack(t, r, 2+try%4, 8+try%8)
		if k == nil {
			continue
		}
		y := make([]float64, 200)
		for turn := range 8 {
			for i := range y {
				y[i] = math.Round(r.Float64()*4*float64(i)) / 4
			}
			if turn == 4 {
				k.Keep(3)
			}
			if turn == 6 {
				k.Relist(1, MaxPatterns-1)
			}
			k.Reprice(y)
			for _, standIns := range []bool{true, false} {
				want := k.plain(standIns)
				path, got := k.Cheapest(standIns)
				if math.Abs(got-want) > 1e-6 && !(math.IsInf(got, 1) && math.IsInf(want, 1)) {
					t.Fatalf("try %d, turn %d, stand-ins %v: %v, want %v", try, turn, standIns, got, want)
				}
				if path == nil {
					apart++
					continue
				}
				fine++
				after := k.Rest(want+2, standIns)
				k.Under(want+2, standIns)
				all, ends := k.Rest(math.Inf(1), standIns), slices.Clone(k.Best)
				for i := range ends {
					ends[i] = slices.Clone(ends[i])
				}
				k.Under(math.Inf(1), standIns)
				for i := range k.Lanes {
					for p := range all[i][:len(all[i])-1] {
						through := k.Best[i][p] + all[i][p]
						if pruned := ends[i][p] + after[i][p]; through <= want+2 && math.Abs(pruned-through) > 1e-6 {
							t.Fatalf("try %d, lane %d, pattern %d: %v through it under a limit, want %v", try, i, p, pruned, through)
						}
					}
				}
			}
		}
	}
	if fine < 100 || apart == 0 {
		t.Errorf("%d paths, %d times none: too few to tell", fine, apart)
	}
}
