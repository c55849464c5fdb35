package even_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"strapline/calc/even"
	"strapline/calc/length"
	"strapline/calc/place"
)

const in = length.Inch

func inches(l length.Length) float64 { return float64(l) / float64(in) }

// straps run east-west, 16 in apart, first 14 off the north wall.
func straps(n int) []place.Support {
	var s []place.Support
	for i := range n {
		s = append(s, place.Support{Lie: place.X, Pos: 14*in + length.Length(i)*16*in, To: 200 * in, Wide: in * 5 / 2})
	}
	return s
}

func ExampleWhole() {
	// 144 x 120 in, 3 x 2 holes of 6 in. Columns 144/6 = 24, 72, 120; rows
	// 120/4 = 30 and 90. There are straps at 30 and 94, and a hole's centre has to be
	// 1-1/4 + 3 = 4-1/4 in off them. Row 30 may go to 25-3/4 or 34-1/4; row 90, 4 in off
	// its strap, may go 1/4 in north or on to 98-1/4. North by 4-1/4: 25-3/4 and
	// 85-3/4, which is 7-3/4 off the strap at 78, so both clear.
	q := even.Query{W: 144 * in, H: 120 * in, Cols: 3, Rows: 2, Across: 6 * in, Down: 6 * in, Supports: straps(7)}
	g, ok := even.Whole(q)
	for _, y := range g.Y {
		fmt.Print(inches(y), " ")
	}
	fmt.Println(inches(g.X[0]), inches(g.MovedY[0]), ok)
	// Output: 25.75 85.75 24 -4.25 true
}

func ExampleEach() {
	// As above, but each row by itself: the second moves only 1/4 in, to 89-3/4.
	q := even.Query{W: 144 * in, H: 120 * in, Cols: 3, Rows: 2, Across: 6 * in, Down: 6 * in, Supports: straps(7)}
	g, ok := even.Each(q)
	fmt.Println(inches(g.Y[0]), inches(g.Y[1]), ok)
	// Output: 25.75 89.75 true
}

// Spacing S = L/n, with the first S/2 off the wall (98905.com and others): in a 12 ft
// room 3 lights are 2, 6 and 10 ft off the wall.
func TestSpaced(t *testing.T) {
	g := even.Spaced(even.Query{X: in / 2, W: 144 * in, H: 96 * in, Cols: 3, Rows: 1})
	if d := cmp.Diff([]length.Length{24*in + in/2, 72*in + in/2, 120*in + in/2}, g.X); d != "" {
		t.Error(d)
	}
	if len(g.Y) != 1 || g.Y[0] != 48*in {
		t.Errorf("rows %v", g.Y)
	}
	for _, q := range []even.Query{{}, {W: in, H: in, Cols: -1, Rows: 1}, {W: in, H: in, Cols: 1, Rows: 1 << 40}, {W: -in, H: in, Cols: 1, Rows: 1}} {
		if g := even.Spaced(q); len(g.X) != 0 {
			t.Errorf("%+v: %+v", q, g)
		}
		if _, ok := even.Whole(q); ok {
			t.Errorf("%+v placed", q)
		}
	}
}

func TestPlace(t *testing.T) {
	room := even.Query{W: 144 * in, H: 120 * in, Cols: 3, Rows: 2, Across: 6 * in, Down: 6 * in}
	for _, tt := range []struct {
		name      string
		change    func(*even.Query)
		wantWhole []float64 // y of the rows; nil if there is no grid
		wantEach  []float64
	}{
		{"no supports", func(*even.Query) {}, []float64{30, 90}, []float64{30, 90}},
		{"straps that stop short of every light", func(q *even.Query) {
			q.Supports = straps(7)
			for i := range q.Supports {
				q.Supports[i].To = 21 * in // where the first column's holes begin
			}
		}, []float64{30, 90}, []float64{30, 90}},
		{"a strap that reaches the first light", func(q *even.Query) {
			q.Supports = straps(7)[1:2]
			q.Supports[0].To = 21*in + 1
		}, []float64{25.75, 85.75}, []float64{25.75, 90}},
		// 1/2 in more for a light that must not touch wood (NEC 410.116).
		{"not for contact", func(q *even.Query) { q.Supports, q.Clear = straps(7), even.NonIC }, []float64{25.25, 85.25}, []float64{25.25, 89.25}},
		// 16 - 2-1/2 = 13-1/2 in between straps: a 14 in hole has no place.
		{"hole wider than a bay", func(q *even.Query) { q.Supports, q.Down = straps(9), 14*in }, nil, nil},
		// Rows 20, 60, 100 lie 6, 14 and 6 off straps at 14, 46, 94 (mod 16: 6, 14, 6).
		// 13-1/2 in bays leave a 10 in hole 3-1/2 in of play, and the rows are 8 apart.
		{"no move of the whole grid", func(q *even.Query) {
			q.Supports, q.Rows, q.Down = straps(7), 3, 10*in
		}, nil, []float64{20.25, 55.75, 100.25}},
	} {
		q := room
		tt.change(&q)
		for i, place := range []func(even.Query) (even.Grid, bool){even.Whole, even.Each} {
			want := [][]float64{tt.wantWhole, tt.wantEach}[i]
			g, ok := place(q)
			if ok != (want != nil) {
				t.Errorf("%s, %d: ok %v %+v", tt.name, i, ok, g)
				continue
			}
			var got []float64
			for _, y := range g.Y {
				got = append(got, inches(y))
			}
			if d := cmp.Diff(want, got); ok && d != "" {
				t.Errorf("%s, %d (-want +got)\n%s", tt.name, i, d)
			}
		}
	}
}

// A column is clear of a short strap only while the row stays in its even place. When the
// row moves onto the strap, the strap counts as running right through.
func TestRowMovesOntoAShortSupport(t *testing.T) {
	q := even.Query{W: 100 * in, H: 100 * in, Cols: 1, Rows: 1, Across: 6 * in, Down: 6 * in, Supports: []place.Support{
		{Lie: place.X, Pos: 50*in + in/2, To: 100 * in, Wide: 2 * in}, // pushes the row to 46-1/2
		{Lie: place.Y, Pos: 50 * in, To: 46 * in, Wide: 2 * in},       // ends north of the even place
	}}
	for _, place := range []func(even.Query) (even.Grid, bool){even.Whole, even.Each} {
		g, ok := place(q)
		if !ok || even.Clashes(q, g) || g.Y[0] != 46*in+in/2 || g.X[0] != 46*in {
			t.Errorf("got %v %+v", ok, g)
		}
	}
}

// Two lines must not end up in the same place.
func TestEachKeepsLinesApart(t *testing.T) {
	q := even.Query{W: 100 * in, H: 20 * in, Cols: 1, Rows: 2, Across: in, Down: in, Supports: []place.Support{
		{Lie: place.X, Pos: 10 * in, To: 100 * in, Wide: 12 * in}, // bars 3-1/2 to 16-1/2
		{Lie: place.X, Pos: 0, To: 100 * in, Wide: 9 * in},        // and all north of it
	}}
	if g, ok := even.Each(q); ok {
		t.Errorf("got %+v", g)
	}
}

func TestClashes(t *testing.T) {
	q := even.Query{W: 144 * in, H: 120 * in, Cols: 1, Rows: 2, Across: 6 * in, Down: 6 * in, Supports: straps(7)}
	if !even.Clashes(q, even.Spaced(q)) {
		t.Error("lights on the straps")
	}
}

func drawQuery(t *rapid.T) even.Query {
	half := func(name string, lo, hi int) length.Length {
		return length.Length(rapid.IntRange(lo, hi).Draw(t, name)) * in / 2
	}
	q := even.Query{W: 2 * half("w", 40, 200), H: 2 * half("h", 40, 200),
		Cols: rapid.IntRange(1, 3).Draw(t, "cols"), Rows: rapid.IntRange(1, 3).Draw(t, "rows"), Clear: half("clear", 0, 2)}
	q.W, q.H = q.W*length.Length(q.Cols), q.H*length.Length(q.Rows) // the even places fall on the search's steps
	q.Across, q.Down = 2*half("across", 1, 8), 2*half("down", 1, 8)
	for range rapid.IntRange(0, 8).Draw(t, "supports") {
		from := half("from", 0, 300)
		q.Supports = append(q.Supports, place.Support{Lie: place.Axis(rapid.IntRange(0, 1).Draw(t, "axis")),
			Pos: half("at", 0, 600), From: from, To: from + half("long", 1, 600), Wide: 2 * half("face", 1, 4)})
	}
	return q
}

// A placed grid clears all supports, stays in the room and, moved as a whole, stays even.
func TestPlacedGridsClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuery(t)
		for _, place := range []func(even.Query) (even.Grid, bool){even.Whole, even.Each} {
			g, ok := place(q)
			if !ok {
				continue
			}
			if even.Clashes(q, g) {
				t.Fatalf("%+v clashes", g)
			}
			for _, x := range g.X {
				if x-q.Across/2 < 0 || x+q.Across/2 > q.W {
					t.Fatalf("%+v leaves the room", g)
				}
			}
		}
		if g, ok := even.Whole(q); ok && (len(slices.Compact(g.MovedX)) > 1 || len(slices.Compact(g.MovedY)) > 1) {
			t.Fatalf("%+v is not even", g)
		}
	})
}

// With supports that run right through, a search in 1/2 in steps finds the same least move
// of the rows, or also none.
func TestMoveIsTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuery(t)
		for i := range q.Supports {
			q.Supports[i].Lie, q.Supports[i].From, q.Supports[i].To = place.X, -in, 1000*in
		}
		g, ok := even.Whole(q)
		start := even.Spaced(q)
		best, found := length.Length(0), false
		for by := -q.H; by <= q.H; by += in / 2 {
			try := even.Grid{X: start.X, Y: slices.Clone(start.Y)}
			out := false
			for i := range try.Y {
				try.Y[i] += by
				out = out || try.Y[i]-q.Down/2 < 0 || try.Y[i]+q.Down/2 > q.H
			}
			out = out || q.Across > q.W
			for _, s := range q.Supports {
				for _, y := range try.Y {
					out = out || max(y-s.Pos, s.Pos-y) < s.Wide/2+q.Down/2+q.Clear
				}
			}
			if !out && (!found || max(by, -by) < best) {
				best, found = max(by, -by), true
			}
		}
		if ok != found || ok && max(g.MovedY[0], -g.MovedY[0]) != best {
			t.Fatalf("moved %v %v, the search says %v %v", ok, g.MovedY, found, inches(best))
		}
	})
}
