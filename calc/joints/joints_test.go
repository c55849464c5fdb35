package joints_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/cutting"
	"strapline/calc/joints"
	"strapline/calc/length"
	"strapline/calc/work"
)

// chain makes a chain in whole units: every piece between two nodes that is at most longest is an
// item of its length.
func chain(longest length.Length, nodes ...length.Length) *joints.Chain {
	c := &joints.Chain{Nodes: nodes}
	for i := range nodes {
		c.Item = append(c.Item, slices.Repeat([]int32{-1}, len(nodes)))
		for j := i + 1; j < len(nodes); j++ {
			if n := nodes[j] - nodes[i]; n <= longest {
				c.Item[i][j] = int32(n)
			}
		}
	}
	return c
}

// items returns an item of each length up to longest.
func items(longest length.Length) (out []cutting.Item) {
	for n := range longest + 1 {
		out = append(out, cutting.Item{Length: max(n, 1)})
	}
	return out
}

// Two rows of 20 with places for butts every 4, boards of 12, and butts at least 4 apart.
func ExampleSolve() {
	row := []length.Length{0, 4, 8, 12, 16, 20}
	plan, err := joints.Solve(joints.Problem{
		Lanes:   []joints.Lane{{Chains: []*joints.Chain{chain(12, row...)}}, {Chains: []*joints.Chain{chain(12, row...)}}},
		Items:   items(12),
		Stock:   []cutting.Stock{{Length: 12, Count: cutting.Unlimited, Cost: 12}},
		Stagger: 4,
		Work:    &work.Budget{Steps: 1_000_000},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("butts", plan.Butts, "boards", len(plan.Boards), "stagger", plan.Stagger, "least", plan.LeastButts, plan.LeastCost)
	// By hand: one butt per row, at 8 in one and at 12 in the other, so pieces 12 8 and 8 12. Two eights do not fit
	// a board, so 4 boards of 12.

	// Output: butts 2 boards 4 stagger 4 least 2 48
}

// Small problems are compared with all possible sets of butts.
func TestTries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		longest := length.Length(rapid.IntRange(6, 12).Draw(t, "board"))
		short := length.Length(rapid.IntRange(3, int(longest)).Draw(t, "short board"))
		stock := []cutting.Stock{{Length: longest, Count: cutting.Unlimited, Cost: int64(longest)}, {Length: short, Count: cutting.Unlimited, Cost: int64(short)}}
		p := joints.Problem{Items: items(longest), Stock: stock, Work: &work.Budget{Steps: 20_000_000}, Stagger: length.Length(rapid.IntRange(0, 4).Draw(t, "stagger"))}
		for range rapid.IntRange(1, 3).Draw(t, "lanes") {
			nodes := []length.Length{0}
			for range rapid.IntRange(1, 5).Draw(t, "nodes") {
				nodes = append(nodes, nodes[len(nodes)-1]+length.Length(rapid.IntRange(1, int(longest)).Draw(t, "gap")))
			}
			p.Lanes = append(p.Lanes, joints.Lane{Chains: []*joints.Chain{chain(longest, nodes...)}})
		}
		butts, cost := tries(p, stock, -1)
		got, err := joints.Solve(p)
		if butts < 0 {
			if !errors.Is(err, joints.ErrApart) {
				t.Fatalf("got %+v, %v; want apart", got, err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if got.Butts != butts || got.Cost != cost || got.LeastButts > butts || got.LeastButts == butts && got.LeastCost > cost {
			t.Fatalf("%d butts, cost %d (least %d, %d); want %d, %d", got.Butts, got.Cost, got.LeastButts, got.LeastCost, butts, cost)
		}
	})
}

// If the stock is not enough, the plan buys the least, then has the fewest butts, then the least cost.
func TestMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		longest := length.Length(rapid.IntRange(6, 12).Draw(t, "board"))
		p := joints.Problem{Items: items(longest), Work: &work.Budget{Steps: 20_000_000}, Stagger: length.Length(rapid.IntRange(0, 2).Draw(t, "stagger"))}
		for _, l := range []length.Length{longest, length.Length(rapid.IntRange(3, int(longest)).Draw(t, "short board"))} {
			p.Stock = append(p.Stock, cutting.Stock{Length: l, Count: rapid.IntRange(0, 3).Draw(t, "count"), Cost: int64(l)})
			p.More = append(p.More, cutting.Stock{Length: l, Cost: int64(l)})
		}
		for range rapid.IntRange(1, 3).Draw(t, "lanes") {
			nodes := []length.Length{0}
			for range rapid.IntRange(1, 5).Draw(t, "nodes") {
				nodes = append(nodes, nodes[len(nodes)-1]+length.Length(rapid.IntRange(1, int(longest)).Draw(t, "gap")))
			}
			p.Lanes = append(p.Lanes, joints.Lane{Chains: []*joints.Chain{chain(longest, nodes...)}})
		}
		const buttCost = 1_000_000
		all := slices.Clone(p.Stock)
		for _, m := range p.More {
			all = append(all, cutting.Stock{Length: m.Length, Count: cutting.Unlimited, Cost: buttCost * m.Cost})
		}
		want := int64(-1)
		for most := range 15 { // butts more than the fewest, since some price of butts makes each the best
			butts, cost := tries(p, all, most)
			if butts >= 0 && (want < 0 || cost/buttCost*buttCost+1000*int64(butts)+cost%buttCost < want) {
				want = cost/buttCost*buttCost + 1000*int64(butts) + cost%buttCost
			}
		}
		got, err := joints.Solve(p)
		if want < 0 {
			if !errors.Is(err, joints.ErrApart) {
				t.Fatalf("got %+v, %v; want apart", got, err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if is := buttCost*got.Missing + 1000*int64(got.Butts) + got.Cost - got.Missing; is != want {
			t.Fatalf("%d: %+v; want %d", is, got, want)
		}
	})
}

// tries returns the least cost of all sets with exactly that many butts, -1 if there are none. If exactly
// is -1, it returns the fewest butts.
func tries(p joints.Problem, stock []cutting.Stock, exactly int) (butts int, cost int64) {
	butts = -1
	var lane func(i, n int, before []length.Length, pieces []cutting.Item)
	lane = func(i, n int, before []length.Length, pieces []cutting.Item) {
		if butts >= 0 && n > butts || exactly >= 0 && n > exactly {
			return
		}
		if i == len(p.Lanes) {
			if exactly >= 0 && n != exactly {
				return
			}
			plan, err := cutting.Solve(cutting.Problem{Items: pieces, Stock: stock})
			if err == nil && plan.Proven() && (butts < 0 || n < butts || plan.Cost < cost) {
				butts, cost = n, plan.Cost
			}
			return
		}
		nodes := p.Lanes[i].Chains[0].Nodes
		for set := range 1 << (len(nodes) - 2) {
			ends := []length.Length{0}
			ok := true
			for k, u := range nodes[1 : len(nodes)-1] {
				if set>>k&1 == 1 {
					ends = append(ends, u)
					ok = ok && !slices.ContainsFunc(before, func(o length.Length) bool { return max(o-u, u-o) < p.Stagger })
				}
			}
			ends = append(ends, nodes[len(nodes)-1])
			ps := pieces[:len(pieces):len(pieces)]
			for k := 1; k < len(ends); k++ {
				d := ends[k] - ends[k-1]
				ok = ok && d <= p.Items[len(p.Items)-1].Length
				ps = append(ps, cutting.Item{Length: d, Count: 1})
			}
			if ok {
				lane(i+1, n+len(ends)-2, ends[1:len(ends)-1], ps)
			}
		}
	}
	lane(0, 0, nil, nil)
	return butts, cost
}
