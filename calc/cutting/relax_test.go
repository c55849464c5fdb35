package cutting

import (
	"math"
	"math/rand/v2"
	"testing"

	"strapline/calc/length"
	"strapline/calc/simplex"
	"strapline/calc/work"
)

// random is a problem of two stock sizes, the second counted, and sizes of two widths.
func random(r *rand.Rand) Problem {
	p := Problem{Stock: []Stock{{Length: 96, Width: 48, Count: Unlimited, Cost: 8}, {Length: 144, Width: 48, Count: r.IntN(6), Cost: 12}},
		Work: &work.Budget{Steps: 1 << 40}}
	for range 3 + r.IntN(8) {
		p.Items = append(p.Items, Item{Length: 10 + length.Length(r.IntN(86)), Width: []length.Length{48, 20}[r.IntN(2)], Count: 1 + r.IntN(5)})
	}
	return p
}

// TestMarks: the worth of a strip of any length is that of a knapsack over all lengths.
func TestMarks(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 5))
	for range 200 {
		p := random(r)
		m, err := newTable(p)
		if err != nil {
			t.Fatal(err)
		}
		y := make([]float64, len(p.Items))
		for j := range y {
			y[j] = float64(r.IntN(100))
		}
		m.price(y)
		for w := range m.widths {
			most := make([]float64, len(m.at))
			for c := range most {
				for j, n := range m.cells {
					if m.class[j] <= w && n <= c {
						most[c] = max(most[c], most[c-n]+y[j])
					}
				}
				sum, long := 0.0, 0
				for _, j := range m.trace(w, c) {
					sum += y[j]
					long += m.cells[j]
				}
				if got := m.worth[w][m.at[c]]; math.Abs(got-most[c]) > 1e-9 || math.Abs(sum-got) > 1e-9 || long > c {
					t.Fatalf("%v: strip of class %d, %d cells: worth %v, its pieces %v on %d; want %v", p.Items, w, c, got, sum, long, most[c])
				}
			}
		}
	}
}

// TestWith: a part that goes on from the whole has the bound of one that starts afresh, and so has one whose prices are held back.
func TestWith(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 8))
	parts := 0
	for range 200 {
		p := random(r)
		want := &Wanted{}
		for _, it := range p.Items {
			want.Count = append(want.Count, it.Count)
		}
		fresh := func(smooth float64) *master {
			m, err := newTable(p)
			if err != nil {
				t.Fatal(err)
			}
			enough := func(float64) bool { return false } // to the end
			return &master{table: m, Demand: Demand{Cheapest: func([]float64) *Wanted { return want }, Smooth: smooth, Enough: enough}}
		}
		m := fresh(0)
		root, mix := m.solve(m.counts(), nil)
		if held, _ := fresh(0.7).solve(m.counts(), nil); math.Abs(held.Bound-root.Bound) > 1e-2 {
			t.Fatalf("%v: bound %v, %v with prices held back", p, root.Bound, held.Bound)
		}
		for _, rules := range m.split(&node{m.counts(), root.Bound, mix}) {
			on, _ := m.solve(rules, mix.lp)
			off, in := fresh(0).solve(rules, nil)
			if short(in.lp) {
				continue // what that costs is no bound that has to be met
			}
			parts++
			if math.Abs(on.Bound-off.Bound) > 1e-2 {
				t.Fatalf("%v under %v: bound %v, afresh %v", p, rules, on.Bound, off.Bound)
			}
		}
	}
	if parts < 100 {
		t.Errorf("%d parts: too few to tell", parts)
	}
}

// TestMost: a plan that costs as much as it may is found, and no dearer one is given for it.
func TestMost(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 200 {
		p := random(r)
		best, err := Solve(p)
		if err != nil || !best.Proven() {
			t.Fatalf("%v: %v", p, err)
		}
		p.Most = best.Cost
		if got, err := Solve(p); err != nil || got.Cost != best.Cost {
			t.Fatalf("%v: %d, want %d, %v", p, got.Cost, best.Cost, err)
		}
		p.Most--
		if got, _ := Solve(p); got.Bound > best.Cost || got.Boards != nil && got.Cost < best.Cost {
			t.Fatalf("%v: %d, at least %d, though %d is the least", p, got.Cost, got.Bound, best.Cost)
		}
	}
}

// short reports whether stand-ins are left in a plan.
func short(s *simplex.Program[*column]) bool {
	for i, c := range s.Basis {
		if c.board == nil && c.want == nil && c.cost > 0 && s.X[i] > 1e-6 {
			return true
		}
	}
	return false
}
