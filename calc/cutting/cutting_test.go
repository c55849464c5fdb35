package cutting_test

import (
	"testing"

	"strapline/calc/cutting"
	"strapline/calc/length"
)

// Published instances. The returned bound proves every optimum; first-fit-decreasing reaches
// none of them (82, 485 and 49).
func TestPublished(t *testing.T) {
	for _, tc := range []struct {
		name   string
		source string
		stock  length.Length
		items  []cutting.Item
		want   int64
	}{
		{
			name:   "paper rolls",
			source: "Wikipedia, Cutting stock problem, example of a paper machine with rolls of 5600 mm",
			stock:  5600,
			items: []cutting.Item{{1380, 0, 22}, {1520, 0, 25}, {1560, 0, 12}, {1710, 0, 14}, {1820, 0, 18}, {1880, 0, 18}, {1930, 0, 20},
				{2000, 0, 10}, {2050, 0, 12}, {2100, 0, 14}, {2140, 0, 16}, {2150, 0, 18}, {2200, 0, 20}},
			want: 73,
		},
		{
			name:   "raws of 100 in",
			source: "V. Chvatal, Linear Programming, 1983, chapter 13; also the GAMS model library, cutstock",
			stock:  100,
			items:  []cutting.Item{{45, 0, 97}, {36, 0, 610}, {31, 0, 395}, {14, 0, 211}},
			want:   453,
		},
		{
			name:   "u120_00",
			source: "E. Falkenauer, A hybrid grouping genetic algorithm for bin packing, 1996; OR-Library binpack1",
			stock:  150,
			items:  each(42, 69, 67, 57, 93, 90, 38, 36, 45, 42, 33, 79, 27, 57, 44, 84, 86, 92, 46, 38, 85, 33, 82, 73, 49, 70, 59, 23, 57, 72, 74, 69, 33, 42, 28, 46, 30, 64, 29, 74, 41, 49, 55, 98, 80, 32, 25, 38, 82, 30, 35, 39, 57, 84, 62, 50, 55, 27, 30, 36, 20, 78, 47, 26, 45, 41, 58, 98, 91, 96, 73, 84, 37, 93, 91, 43, 73, 85, 81, 79, 71, 80, 76, 83, 41, 78, 70, 23, 42, 87, 43, 84, 60, 55, 49, 78, 73, 62, 36, 44, 94, 69, 32, 96, 70, 84, 58, 78, 25, 80, 58, 66, 83, 24, 98, 60, 42, 43, 43, 39),
			want:   48,
		},
	} {
		t.Run(tc.name, func(t *testing.T) {
			p := cutting.Problem{Items: tc.items, Stock: []cutting.Stock{{Length: tc.stock, Count: cutting.Unlimited, Cost: 1}}}
			plan, err := cutting.Solve(p)
			if err != nil {
				t.Fatal(err)
			}
			if plan.Cost != tc.want || !plan.Proven() {
				t.Errorf("%d boards, bound %d; want %d proven (%s)", plan.Cost, plan.Bound, tc.want, tc.source)
			}
			check(t, p, plan)
		})
	}
}

// each counts the lengths of a list.
func each(ls ...length.Length) (items []cutting.Item) {
	at := map[length.Length]int{}
	for _, l := range ls {
		i, ok := at[l]
		if !ok {
			i = len(items)
			at[l] = i
			items = append(items, cutting.Item{Length: l})
		}
		items[i].Count++
	}
	return items
}

// check verifies a plan: every piece once, nothing longer or wider than what it is cut from,
// no more boards than there are, and the sum of the costs.
func check(t testing.TB, p cutting.Problem, plan cutting.Plan) {
	t.Helper()
	got := make([]int, len(p.Items))
	used := make([]int, len(p.Stock))
	var cost int64
	for _, b := range plan.Boards {
		st := p.Stock[b.Stock]
		used[b.Stock]++
		cost += st.Cost
		if len(b.Strips) < 1 || len(b.Strips) > 2 {
			t.Errorf("board in %d strips", len(b.Strips))
		}
		width := length.Length(0)
		for _, s := range b.Strips {
			width += s.Width
			left := st.Length
			for _, j := range s.Pieces {
				got[j]++
				left -= p.Items[j].Length
				if p.Items[j].Width > s.Width {
					t.Errorf("piece %d is wider than its strip of %d", j, s.Width)
				}
			}
			if left < 0 || left != s.Left {
				t.Errorf("strip has %d left, says %d", left, s.Left)
			}
		}
		if width > st.Width {
			t.Errorf("strips of %d out of a board of %d", width, st.Width)
		}
	}
	for j, it := range p.Items {
		if got[j] != it.Count {
			t.Errorf("item %d: cut %d, want %d", j, got[j], it.Count)
		}
	}
	for s, n := range used {
		if c := p.Stock[s].Count; c >= 0 && n > c {
			t.Errorf("stock %d: used %d of %d", s, n, c)
		}
	}
	if cost != plan.Cost || plan.Bound > plan.Cost {
		t.Errorf("boards cost %d, plan says %d with bound %d", cost, plan.Cost, plan.Bound)
	}
}
