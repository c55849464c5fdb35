package layout_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/fasten"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// flat is a layout in a few words: per row its cut width and cut lengths in
// inches, then boards, butts.
func flat(l *layout.Layout) (out []string) {
	for _, r := range l.Rows {
		s := fmt.Sprintf("%g:", in2(r.Width))
		for _, p := range r.Pieces {
			s += fmt.Sprintf(" %g", in2(p.Cut))
			if p.Hung {
				s += "h"
			}
		}
		out = append(out, s)
	}
	s := ""
	for _, b := range l.Boards {
		s += fmt.Sprintf("%d x %g ft, ", b.Count, in2(b.Length)/12)
	}
	return append(out, fmt.Sprintf("%s%d butts", s, l.Butts))
}

func straps(in *layout.Input, side length.Length, first, spacing length.Length) {
	for at := first; at < side; at += spacing {
		in.Supports = append(in.Supports, layout.Support{At: at, Face: 5 * inch / 2})
	}
}

// ceiling is a room with straps north-south at 16 in, boards east-west.
func ceiling(w, h length.Length, lengths ...int) layout.Input {
	in := layout.Input{Lie: place.Y, Surface: layout.Surface{W: w, H: h}}
	straps(&in, w, 16*inch, 16*inch)
	for _, l := range lengths {
		in.Stock = append(in.Stock, layout.Stock{Width: 48 * inch, Length: length.Length(l) * foot, Count: -1})
	}
	return in
}

func closet() layout.Input {
	in := ceiling(14*inch, 30*inch, 8)
	in.Supports = []layout.Support{{At: 7 * inch}}
	return in
}

func TestSpecialRooms(t *testing.T) {
	for _, tc := range []struct {
		name string
		in   layout.Input
		want []string
	}{
		{"a 12 ft board in a 12 ft room goes in 1/4 in short", ceiling(144*inch, 96*inch, 12),
			[]string{"48: 143.75", "48: 143.75", "2 x 12 ft, 0 butts"}},
		{"a hall of one board", ceiling(144*inch, 48*inch, 8, 12),
			[]string{"48: 143.75", "1 x 12 ft, 0 butts"}},
		{"a room narrower than a board", ceiling(96*inch, 36*inch, 8, 12),
			[]string{"35.75: 95.75", "1 x 8 ft, 0 butts"}},
		{"a closet shorter than the shortest piece", closet(),
			[]string{"29.75: 13.75", "1 x 8 ft, 0 butts"}},
		{"a sliver of 2 in is shared by the first and last row", ceiling(144*inch, 98*inch, 12),
			[]string{"24.75: 143.75", "48: 143.75", "24.75: 143.75", "3 x 12 ft, 0 butts"}},
		{"two strips of one board", ceiling(96*inch, (48+20)*inch, 16),
			[]string{"48: 95.75", "19.75: 95.75", "1 x 16 ft, 0 butts"}},
		{"an eighth over two rows stays open", ceiling(96*inch, 96*inch+inch/8, 8),
			[]string{"48: 95.75", "48: 95.75", "2 x 8 ft, 0 butts"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			l, err := layout.Plan(tc.in, nil)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(tc.want, flat(l)); d != "" {
				t.Error(d)
			}
			if !l.Proven {
				t.Error("not proven")
			}
			for _, w := range verify(tc.in, l) {
				t.Error(w)
			}
		})
	}
}

// TestJoints: what is to be taped in an L-shaped room of 16 x 12 ft less 4 x 4 ft, by hand: all round 56 ft. Long joints at 4 ft, where
// the lower row is 16 ft and the upper 12, and at 8 ft; butts where rows are longer than a board.
func TestJoints(t *testing.T) {
	in := ceiling(16*foot, 12*foot, 12)
	in.Surface.Notches = []layout.Rect{{X: 12 * foot, Y: 0, W: 4 * foot, H: 4 * foot}}
	in.Rows = []length.Length{4 * foot, 4 * foot, 4 * foot}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	if l.WallJoint != 56*foot || l.LongJoint != 28*foot || l.ButtJoint != 8*foot || l.Butts != 2 {
		t.Errorf("wall %g ft, long %g ft, butts %d in %g ft; want 56, 28, 2 in 8",
			in2(l.WallJoint)/12, in2(l.LongJoint)/12, l.Butts, in2(l.ButtJoint)/12)
	}
	if want := (16*12 - 16) * 0.3048 * 0.3048; math.Abs(l.Area-want) > 1e-9 {
		t.Errorf("area %.4f, want %.4f", l.Area, want)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
}

// TestStripsShare: two narrow rows of one room come out of the two strips of one board.
func TestStripsShare(t *testing.T) {
	in := ceiling(96*inch, (20+48+24)*inch, 8)
	in.Rows = []length.Length{20 * inch, 48 * inch, 24 * inch}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"19.75: 95.75", "48: 95.75", "23.75: 95.75", "2 x 8 ft, 0 butts"}
	if d := cmp.Diff(want, flat(l)); d != "" {
		t.Error(d)
	}
	two := slices.ContainsFunc(l.Cuts, func(c layout.Cut) bool { return len(c.Strips) == 2 })
	if !two {
		t.Errorf("no board was ripped for both rows: %+v", l.Cuts)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
}

func TestProblems(t *testing.T) {
	none := ceiling(144*inch, 96*inch, 12)
	none.Supports = nil
	short := ceiling(200*inch, 96*inch, 8)
	short.Supports = []layout.Support{{At: 110 * inch}}
	long := ceiling(200*inch, 96*inch, 12)
	long.Longest = 10 * foot
	noRows := ceiling(200*inch, 120*inch, 12)
	noRows.Along, noRows.Lie = true, place.X
	noRows.Supports = []layout.Support{{At: 60 * inch}}
	settled := ceiling(144*inch, 96*inch, 12)
	settled.Rows = []length.Length{48 * inch, 20 * inch}
	hung := ceiling(144*inch, 96*inch, 12)
	hung.Hung = []layout.Hung{{Row: 5, From: 0, To: 96 * inch}}
	for _, tc := range []struct {
		name string
		in   layout.Input
		want layout.Problem
	}{
		{"no supports noted", none, layout.Problem{Kind: layout.NoSupports}},
		{"no size", layout.Input{Supports: none.Supports}, layout.Problem{Kind: layout.BadSize}},
		{"stock too short for any support", short,
			layout.Problem{Kind: layout.TooFar, Row: 1, From: 0, To: 110 * inch, Longest: 8 * foot}},
		{"no board gets in", long, layout.Problem{Kind: layout.NoBoards}},
		{"boards along the supports, none within a board's width", noRows,
			layout.Problem{Kind: layout.NoLongEdge, Row: 1, From: 0, To: 48 * inch, Longest: 48 * inch}},
		{"settled rows that do not fill the room", settled, layout.Problem{Kind: layout.BadSize}},
		{"hung in a row there is not", hung, layout.Problem{Kind: layout.BadHung, Row: 5, To: 96 * inch}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := layout.Plan(tc.in, nil)
			p, ok := errors.AsType[*layout.Problem](err)
			if !ok {
				t.Fatalf("got %v", err)
			}
			if d := cmp.Diff(tc.want, *p); d != "" {
				t.Errorf("%s\n%q", d, err)
			}
		})
	}
}

// TestAlong: straps the long way of the room, boards along them. The long joint is on the strap at 48 in.
func TestAlong(t *testing.T) {
	in := layout.Input{Lie: place.X, Along: true, Surface: layout.Surface{W: 200 * inch, H: 96 * inch}}
	straps(&in, 96*inch, 16*inch, 16*inch)
	in.Stock = []layout.Stock{{Width: 48 * inch, Length: 12 * foot, Count: -1}, {Width: 48 * inch, Length: 8 * foot, Count: -1}}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	if l.Butts != 2 || len(l.Rows) != 2 || l.Rows[0].To != 48*inch {
		t.Errorf("%v", flat(l))
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	// Straps that miss 48 in: the rows follow them, and the cut edge in the field is noted.
	in.Supports = nil
	straps(&in, 120*inch, 12*inch, 16*inch) // 12 28 44 60 76 92 108
	in.Surface.H = 120 * inch
	if l, err = layout.Plan(in, nil); err != nil {
		t.Fatal(err)
	}
	at := []float64{in2(l.Rows[0].To), in2(l.Rows[1].To), in2(l.Rows[2].To)}
	if d := cmp.Diff([]float64{44, 92, 120}, at); d != "" {
		t.Error(d)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
}

// TestHung: what is up stays, the rest is planned around it.
func TestHung(t *testing.T) {
	in := ceiling(240*inch, 96*inch, 8, 12)
	before, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	// Cut differently on site: row 1 begins with 96 in instead.
	in.Hung = []layout.Hung{{Row: 1, From: 0, To: 96 * inch}}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	if p := l.Rows[0].Pieces[0]; !p.Hung || p.To != 96*inch || l.Rows[0].Pieces[1].From != 96*inch {
		t.Errorf("%v", flat(l))
	}
	if l.Butts != before.Butts || slices.ContainsFunc(l.Rows[1].Butts, func(b layout.Butt) bool { return b.At == 96*inch }) {
		t.Errorf("before %v, after %v", flat(before), flat(l))
	}
	// The same rows, told.
	told := in
	told.Rows = []length.Length{48 * inch, 48 * inch}
	if same, err := layout.Plan(told, nil); err != nil || !slices.Equal(flat(same), flat(l)) {
		t.Errorf("%v, want %v", flat(same), flat(l))
	}
	// All of row 1 is up: nothing is cut for it.
	in.Hung = append(in.Hung, layout.Hung{Row: 1, From: 96 * inch, To: 240 * inch})
	if l, err = layout.Plan(in, nil); err != nil {
		t.Fatal(err)
	}
	if len(l.Rows[0].Pieces) != 2 || len(l.Cuts) != 2 || l.Butts != 2 {
		t.Errorf("%v, %d boards", flat(l), len(l.Cuts))
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
}

// TestWall: rows from the ceiling down, an eighth that stays open at the floor, a door and a window.
func TestWall(t *testing.T) {
	in := layout.Input{Lie: place.Y, Far: true,
		Surface: layout.Surface{W: 180 * inch, H: 96*inch + inch/8,
			Openings: []layout.Rect{{X: 30 * inch, Y: 0, W: 36 * inch, H: 80 * inch}, {X: 110 * inch, Y: 36 * inch, W: 40 * inch, H: 40 * inch}}}}
	straps(&in, 180*inch, 16*inch, 16*inch)
	in.Stock = []layout.Stock{{Width: 48 * inch, Length: 12 * foot, Count: -1}, {Width: 48 * inch, Length: 8 * foot, Count: -1}}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	top, low := l.Rows[0], l.Rows[1]
	if top.To != in.Surface.H || top.From != 48*inch+inch/8 || low.To != top.From || low.From != inch/8 {
		t.Errorf("rows at %g-%g and %g-%g", in2(top.From), in2(top.To), in2(low.From), in2(low.To))
	}
	if low.Pieces[0].To != 30*inch || low.Pieces[1].From != 66*inch {
		t.Errorf("the lower row does not stop at the door: %v", flat(l))
	}
	// A window whose head is level with the long joint: the rows are moved so that no joint runs into its corner.
	in.Surface.Openings[1] = layout.Rect{X: 110 * inch, Y: 20 * inch, W: 40 * inch, H: 28*inch + inch/8}
	if l, err = layout.Plan(in, nil); err != nil {
		t.Fatal(err)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	if slices.ContainsFunc(l.Notes, func(n layout.Note) bool { return n.About == layout.CornerJoint }) || l.Rows[0].From == 48*inch+inch/8 {
		t.Errorf("%v, rows at %g", flat(l), in2(l.Rows[0].From))
	}
	// Wall height 9 ft: two rows of 54 in leave no strip.
	in.Surface.H = 108*inch + inch/8
	in.Stock = append(in.Stock, layout.Stock{Width: 54 * inch, Length: 12 * foot, Count: -1})
	if l, err = layout.Plan(in, nil); err != nil {
		t.Fatal(err)
	}
	if len(l.Rows) != 2 || l.Rows[0].Width != 54*inch || l.Rows[1].Width != 54*inch {
		t.Errorf("%v", flat(l))
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
}

// TestStock: only what is on hand is used, and what is missing is said.
func TestStock(t *testing.T) {
	in := ceiling(144*inch, 192*inch, 8, 12)
	in.Stock[0].Count, in.Stock[1].Count = 8, 2
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	if len(l.Short) > 0 || l.Butts != 2 {
		t.Errorf("%v, short %v", flat(l), l.Short)
	}
	in.Stock[0].Count = 1
	if l, err = layout.Plan(in, nil); err != nil {
		t.Fatal(err)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	if len(l.Short) == 0 || l.Proven {
		t.Errorf("%v, short %v", flat(l), l.Short)
	}
}

// TestStockOfAllSizes: 45 bays of 16 in in each of 11 rows make 495; the boards on hand have whole bays for
// 20 x 9 + 20 x 7 + 14 x 6 + 9 x 6 + 3 x 10 = 488. So a board of 7 bays, 10 ft, is missing at least, and no more when
// all there is goes up.
func TestStockOfAllSizes(t *testing.T) {
	in := ceiling(60*foot, 519*inch, 8, 9, 10, 12, 14)
	for i, n := range []int{14, 9, 20, 20, 3} {
		in.Stock[i].Count = n
	}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	if len(l.Short) != 1 || l.Short[0].Count != 1 || l.Short[0].Length > 12*foot {
		t.Errorf("short %v of %v", l.Short, l.Boards)
	}
	// Who would rather fetch boards than tape butts is offered that.
	alts, err := layout.Alternatives(in, l, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range alts {
		for _, w := range verify(in, a) {
			t.Error(w)
		}
	}
	// By hand: no row of 60 ft does with fewer than 5 boards.
	if last := alts[len(alts)-1]; last.Butts != 44 || l.Butts <= 44 {
		t.Errorf("%d butts, beside %d", last.Butts, l.Butts)
	}
}

// TestCutDown: boards on hand that do not get in whole are cut down outside, those to be fetched get in.
func TestCutDown(t *testing.T) {
	in := ceiling(144*inch, 144*inch, 14)
	in.Longest = 10 * foot
	in.Stock[0].Count = 10
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	// 3 rows of 12 ft are 36 ft; 3 boards of 14 ft hold 42, but a row of two pieces of up to 10 ft has one butt on a strap
	// at a multiple of 16 in, so its pieces come to 12 ft less clearance: any 14 ft board gives both.
	if l.Butts != 3 || len(l.Cuts) != 3 || !slices.ContainsFunc(l.Notes, func(n layout.Note) bool { return n.About == layout.CutDown }) {
		t.Errorf("%v: %v", flat(l), l.Boards)
	}
	in.Stock[0].Count = 1
	if l, err = layout.Plan(in, nil); err != nil {
		t.Fatal(err)
	}
	for _, w := range verify(in, l) {
		t.Error(w)
	}
	if len(l.Short) != 1 || l.Short[0].Length != 10*foot {
		t.Errorf("short %v", l.Short)
	}
	in.Stock[0].Count = 0 // run out
	if l, err = layout.Plan(in, nil); err != nil || len(l.Short) == 0 || verify(in, l) != nil {
		t.Errorf("%v, %v", l, err)
	}
}

func TestAlternatives(t *testing.T) {
	// Four rows of 100 in: a 12 ft board each, or three boards with the fourth row out of the offcuts.
	in := ceiling(100*inch, 192*inch, 12)
	best, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	alts, err := layout.Alternatives(in, best, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(alts) == 0 || len(alts) > 2 {
		t.Fatalf("%d alternatives to %v", len(alts), flat(best))
	}
	for _, a := range alts {
		if a.Butts <= best.Butts || a.Bought >= best.Bought {
			t.Errorf("%v trades nothing against %v", flat(a), flat(best))
		}
		for _, w := range verify(in, a) {
			t.Error(w)
		}
	}
}

// The limits of the two codes (International Residential Code table R702.3.5, rows from memory; National
// Building Code of Canada table 9.29.5.3, read).
func TestFraming(t *testing.T) {
	half, three8, five8 := inch/2, 3*inch/8, 5*inch/8
	for _, tc := range []struct {
		name    string
		f       fasten.Where
		along   bool
		spacing length.Length
		want    []layout.Note
	}{
		{"1/2 across 16", fasten.Where{Board: half}, false, 16 * inch, nil},
		{"1/2 across 24, painted", fasten.Where{Board: half}, false, 24 * inch, nil},
		{"1/2 across 24 under texture", fasten.Where{Board: half, Texture: true}, false, 24 * inch, []layout.Note{
			{About: layout.Spacing, At: 24 * inch, Limit: 16 * inch, Rule: "IRC R702.3.5"},
			{About: layout.Spacing, At: 24 * inch, Limit: 16 * inch, Rule: "NBC 9.29.5.3"}}},
		{"5/8 across 24 under texture", fasten.Where{Board: five8, Texture: true}, false, 24 * inch, nil},
		{"1/2 along 24", fasten.Where{Board: half}, true, 24 * inch, []layout.Note{
			{About: layout.Spacing, At: 24 * inch, Limit: 16 * inch, Rule: "IRC R702.3.5"},
			{About: layout.Spacing, At: 24 * inch, Limit: 16 * inch, Rule: "NBC 9.29.5.3"}}},
		{"3/8 along on a ceiling", fasten.Where{Board: three8}, true, 16 * inch, []layout.Note{
			{About: layout.Thin, At: three8, Rule: "IRC R702.3.5"}, {About: layout.Thin, At: three8, Rule: "NBC 9.29.5.3"}}},
		{"3/8 along on a wall", fasten.Where{Board: three8, Wall: true}, true, 16 * inch, []layout.Note{
			{About: layout.Thin, At: three8, Rule: "NBC 9.29.5.3"}}},
		{"12.7 mm is 1/2", fasten.Where{Board: 127 * length.Millimetre / 10}, false, 30 * inch, []layout.Note{
			{About: layout.Spacing, At: 30 * inch, Limit: 24 * inch, Rule: "IRC R702.3.5"},
			{About: layout.Spacing, At: 30 * inch, Limit: 24 * inch, Rule: "NBC 9.29.5.3"}}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			in := layout.Input{Lie: place.Y, Along: tc.along, Framing: tc.f, Surface: layout.Surface{W: 240 * inch, H: 96 * inch},
				Stock: []layout.Stock{{Width: 48 * inch, Length: 12 * foot, Count: -1}}}
			straps(&in, in.Surface.W, tc.spacing, tc.spacing)
			l, err := layout.Plan(in, nil)
			if err != nil {
				t.Fatal(err)
			}
			var got []layout.Note
			for _, n := range l.Notes {
				if n.About == layout.Spacing || n.About == layout.Thin {
					got = append(got, n)
				}
			}
			if d := cmp.Diff(tc.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}
