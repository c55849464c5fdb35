package simplex_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/simplex"
)

// column is a column with a name; missing ones make up for what a row lacks.
type column struct {
	name string
	cost float64
	vals []float64
}

// start returns a program whose basis is all missing columns, and the rows of a column.
func start(need []float64) (*simplex.Program[column], []int) {
	p := simplex.New[column](len(need))
	rows := make([]int, len(need))
	for i, n := range need {
		rows[i] = i
		p.Set(i, column{name: "missing", cost: 1000}, 1000, n, 1000)
	}
	return p, rows
}

// minimize brings in columns until none gains.
func minimize(p *simplex.Program[column], rows []int, all []column) {
	for range 1000 {
		best, gain := column{}, -1e-9
		for _, c := range all {
			if r := p.Reduced(c.cost, rows, c.vals); r < gain {
				best, gain = c, r
			}
		}
		if gain == -1e-9 || !p.Enter(best, best.cost, rows, best.vals) {
			return
		}
	}
}

// Four 5 ft and six 3 ft pieces from boards of 8 ft at 8 and 12 ft at 13. An 8 takes one of each, or two 3s; a
// 12 takes two 5s, or four 3s. Four 8s with one of each leave two 3s, for half the price of a 12 or one 8: the
// cheaper half board is 6-1/2. By hand, 4 x 8 + 6-1/2 = 38-1/2, with a 5 worth 4-3/4 and a 3 worth 3-1/4.
func Example() {
	p, rows := start([]float64{4, 6})
	minimize(p, rows, []column{
		{"8: 5+3", 8, []float64{1, 1}}, {"8: 3+3", 8, []float64{0, 2}}, {"12: 5+5", 13, []float64{2, 0}}, {"12: 3+3+3+3", 13, []float64{0, 4}},
	})
	fmt.Printf("%.2f", p.Value())
	for i, c := range p.Basis {
		fmt.Printf(", %.1f of %s", p.X[i], c.name)
	}
	fmt.Printf("; worth %.2f and %.2f\n", p.Y[0], p.Y[1])
	// Output: 38.50, 4.0 of 8: 5+3, 0.5 of 12: 3+3+3+3; worth 4.75 and 3.25
}

// The solution meets its rows, no column gains, and the prices of the rows add up to its value (strong duality):
// together the proof of a minimum. That holds again with one more row.
func TestOptimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.IntRange(1, 5).Draw(t, "rows")
		num := rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(0, 9).Draw(t, "n")) })
		need := rapid.SliceOfN(num, m, m).Draw(t, "need")
		var all []column
		for range rapid.IntRange(1, 8).Draw(t, "columns") {
			all = append(all, column{fmt.Sprint(len(all)), 1 + num.Draw(t, "cost"), rapid.SliceOfN(num, m, m).Draw(t, "vals")})
		}
		p, rows := start(need)
		minimize(p, rows, all)
		prove(t, p, need, all)
		even := func(c column) bool { return len(c.vals) > 0 && (c.name[0]-'0')%2 == 0 }
		for i, c := range all {
			v := 0.0
			if even(c) {
				v = 1
			}
			all[i].vals = append(c.vals[:m:m], v)
		}
		sum := 0.0
		for i, c := range p.Basis {
			if even(c) {
				sum += p.X[i]
			}
		}
		least := sum + 1
		q := p.With(even, least, 1, column{name: "missing"}, 1000, nil)
		all = append(all, column{"surplus", 0, append(make([]float64, m), -1)})
		minimize(q, append(rows, m), all)
		prove(t, q, append(need, least), all)
	})
}

func prove(t *rapid.T, p *simplex.Program[column], need []float64, all []column) {
	got, dual := make([]float64, len(need)), 0.0
	for i, c := range p.Basis {
		if p.X[i] < 0 {
			t.Fatalf("%v of %s", p.X[i], c.name)
		}
		for j := range c.vals {
			got[j] += p.X[i] * c.vals[j]
		}
	}
	rows := make([]int, len(need))
	for j, n := range need {
		rows[j] = j
		if got[j] > n+1e-6 {
			t.Fatalf("row %d has %v of %v", j, got[j], n)
		}
		dual += p.Y[j] * n
	}
	for _, c := range all {
		if r := p.Reduced(c.cost, rows, c.vals); r < -1e-6 {
			t.Fatalf("%s gains %v", c.name, -r)
		}
	}
	if v := p.Value(); math.Abs(v-dual) > 1e-6*(1+math.Abs(v)) {
		t.Fatalf("value %v, prices %v", v, dual)
	}
}
