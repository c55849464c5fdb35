package reach_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
)

// Computed table, in eighths of an inch: length - board, compared with the 5/8 in of bite of
// IRC R702.3.5.1, and that less the strap: how far the tip is past it, negative if inside.
// Set is not counted.
func TestReachTable(t *testing.T) {
	const e = in / 8
	for _, tt := range []struct{ screw, board, reach, past34, past58 length.Length }{
		{9, 4, 5, -1, 0},
		{10, 3, 7, 1, 2},
		{10, 4, 6, 0, 1}, // tip level with the strap's back
		{10, 5, 5, -1, 0},
		{13, 4, 9, 3, 4},
		{13, 5, 8, 2, 3},
		{16, 4, 12, 6, 7},
		{16, 5, 11, 5, 6},
	} {
		tip := reach.Tip(tt.screw*e, tt.board*e, 0)
		if tip != tt.reach*e || tip-6*e != tt.past34*e || tip-5*e != tt.past58*e {
			t.Errorf("%d/8 in %d/8 board: tip %d", tt.screw, tt.board, tip)
		}
		for _, strap := range []length.Length{6, 5} {
			q := reach.Query{Board: tt.board * e, Supports: []place.Support{{Thick: strap * e, Wide: in, To: in}}}
			fits, _ := reach.Fits(q, []length.Length{tt.screw * e}, in*5/8)
			if !fits[0].Bites || fits[0].Bite != min(tt.reach, strap)*e {
				t.Errorf("%d/8 in %d/8 board and %d/8 strap: %+v", tt.screw, tt.board, strap, fits[0])
			}
		}
	}
	// The longest screw within the 1-1/4 in setback of NEC 300.4 is board + 1-1/4: 1-3/4 for
	// 1/2 in board and 1-7/8 for 5/8, so a 2 in screw is too long for both.
	for board, most := range map[length.Length]length.Length{4 * e: 14 * e, 5 * e: 15 * e} {
		if reach.Tip(most, board, 0) != in*5/4 || reach.Tip(2*in, board, 0) <= in*5/4 {
			t.Errorf("board %d", board)
		}
	}
}

// NBC Table 9.29.5.5 as need: 1-1/4 in through 12.7 mm bites 19.05 mm, enough for 15 (no
// rating) but not for 20 (45 min wall); 1-5/8 in through 5/8 in bites 25.4, enough for 20
// but not for 30 (45 min ceiling). In a 19 mm strap no screw bites 20.
func TestBiteCanada(t *testing.T) {
	joist, strap := 184*mm, 19*mm
	for _, tt := range []struct {
		screw, board, thick, need length.Length
		bites                     bool
	}{
		{in * 5 / 4, 127 * mm / 10, joist, 15 * mm, true},
		{in * 5 / 4, 127 * mm / 10, joist, 20 * mm, false},
		{in * 13 / 8, in * 5 / 8, joist, 20 * mm, true},
		{in * 13 / 8, in * 5 / 8, joist, 30 * mm, false},
		{in * 13 / 8, in * 5 / 8, strap, 20 * mm, false},
	} {
		q := reach.Query{Board: tt.board, Supports: []place.Support{{Thick: tt.thick, Wide: in, To: in}}}
		fits, advice := reach.Fits(q, []length.Length{tt.screw}, tt.need)
		if fits[0].Bites != tt.bites || fits[0].OK() != tt.bites || tt.bites != (advice == nil) {
			t.Errorf("%+v: got %+v %v", tt, fits, advice)
		}
	}
}

// straps run east-west, 16 in apart from 16 in off the north wall.
func straps(n int, thick length.Length) []place.Support {
	var s []place.Support
	for i := range n {
		s = append(s, place.Support{Lie: place.X, Pos: length.Length(i+1) * 16 * in, To: 144 * in, Thick: thick, Wide: in * 5 / 2, Measured: true})
	}
	return s
}

// southward is a run straight south at x = 40, from the centre of strap a to that of b.
func southward(kind reach.Kind, a, b length.Length) reach.Run {
	return reach.Run{Kind: kind, How: reach.OnTop, Half: in / 2,
		Path: []place.Point{{X: 40 * in, Y: a * 16 * in}, {X: 40 * in, Y: b * 16 * in}}}
}

func TestRunCrossesFromFirstToLast(t *testing.T) {
	q := reach.Query{Screw: in * 13 / 8, Board: in / 2, Allow: reach.Usual(), Supports: straps(8, in*3/4), Runs: []reach.Run{southward(reach.Pipe, 2, 7)}}
	a := reach.Check(q)
	hits := a.Hits()
	if len(hits) != 6 || len(a.Crossings) != 6 || len(a.Plates) != 6 || len(a.Notes) != 0 {
		t.Fatalf("got %d hits of %+v", len(hits), a)
	}
	for i, h := range hits {
		// 1-5/8 - 1/2 + 1/32 - 3/4 = 13/32 past.
		want := reach.Crossing{Support: i + 1, At: place.Point{X: 40 * in, Y: length.Length(i+2) * 16 * in},
			From: 38*in + in/2, To: 41*in + in/2, Depth: in * 3 / 4, Past: in * 13 / 32, State: reach.Hit}
		if d := cmp.Diff(want, h); d != "" {
			t.Errorf("strap %d (-want +got)\n%s", i+2, d)
		}
	}
	// `plate p1 strap 3` removes that hit and no other.
	q.Runs[0].Guards = []reach.Guard{{Support: 2, By: reach.Plate}}
	a = reach.Check(q)
	if len(a.Hits()) != 5 || len(a.Plates) != 5 || len(a.Crossings) != 6 {
		t.Errorf("with a plate: %+v", a)
	}
	for _, p := range a.Plates {
		if p.Support == 2 {
			t.Errorf("plate still due: %+v", p)
		}
	}
	// A plate takes precedence over conduit, in either order.
	for _, by := range [][]reach.Protection{{reach.Plate, reach.Conduit}, {reach.Conduit, reach.Plate}} {
		q.Runs[0].Guards = []reach.Guard{{Support: 2, By: by[0]}, {Support: 2, By: by[1]}}
		if a = reach.Check(q); len(a.Hits()) != 5 {
			t.Errorf("%v: %d hits", by, len(a.Hits()))
		}
	}
	// Conduit needs no plate (NEC 300.4 exceptions), but the screw still hits it.
	q.Runs[0].Guards = []reach.Guard{{Support: 2, By: reach.Conduit}}
	a = reach.Check(q)
	if len(a.Hits()) != 6 || len(a.Plates) != 5 {
		t.Errorf("in conduit: %+v", a)
	}
}

func TestStates(t *testing.T) {
	for _, tt := range []struct {
		name         string
		screw, board length.Length
		run          func(*reach.Run)
		thick        length.Length
		want         reach.State
		past         length.Length
	}{
		// 1-1/4 in through 1/2 in board is level with the back of a 3/4 in strap; the set puts it through.
		{"on 3/4 straps", in * 5 / 4, in / 2, nil, in * 3 / 4, reach.Hit, in / 32},
		{"on straps measured 5/8", in * 5 / 4, in / 2, nil, in * 5 / 8, reach.Hit, in * 5 / 32},
		{"5/8 board, 3/4 straps", in * 5 / 4, in * 5 / 8, nil, in * 3 / 4, reach.Close, -in * 3 / 32},
		{"tip level with the run", in * 5 / 4, in / 2, func(r *reach.Run) { r.How, r.Depth = reach.Behind, in*25/32 }, in * 3 / 4, reach.Hit, 0},
		{"just inside", in * 5 / 4, in / 2, func(r *reach.Run) { r.How, r.Depth = reach.Behind, in*25/32+1 }, in * 3 / 4, reach.Close, -1},
		{"at the margin", in * 5 / 4, in / 2, func(r *reach.Run) { r.How, r.Depth = reach.Behind, in*33/32 }, in * 3 / 4, reach.Close, -in / 4},
		{"past the margin", in * 5 / 4, in / 2, func(r *reach.Run) { r.How, r.Depth = reach.Behind, in*33/32+1 }, in * 3 / 4, reach.Clear, -in/4 - 1},
		// In a notch of the strap it is within reach of every screw.
		{"notched 1/4", in * 9 / 8, in * 5 / 8, func(r *reach.Run) { r.Notched = []reach.Notch{{Support: 0, Depth: in / 4}} }, in * 3 / 4, reach.Hit, in * 9 / 32},
		{"depth not said", in * 9 / 8, in * 5 / 8, func(r *reach.Run) { r.How = reach.NotSaid }, in * 3 / 4, reach.Hit, in * 17 / 32},
	} {
		run := southward(reach.Pipe, 1, 1)
		if tt.run != nil {
			tt.run(&run)
		}
		a := reach.Check(reach.Query{Screw: tt.screw, Board: tt.board, Allow: reach.Usual(), Supports: straps(1, tt.thick), Runs: []reach.Run{run}})
		if len(a.Crossings) != 1 {
			t.Fatalf("%s: %+v", tt.name, a)
		}
		if c := a.Crossings[0]; c.State != tt.want || c.Past != tt.past {
			t.Errorf("%s: got %+v", tt.name, c)
		}
	}
}

func TestNotes(t *testing.T) {
	named := straps(3, in*3/4)
	for i := range named {
		named[i].Measured = false
	}
	for _, tt := range []struct {
		name     string
		supports []place.Support
		run      reach.Run
		want     []reach.Note
	}{
		{"all known", straps(3, in*3/4), southward(reach.Wire, 1, 2), nil},
		{"thickness is a name", named, southward(reach.Pipe, 1, 2), []reach.Note{{Kind: reach.AssumedThick, Run: -1}}},
		{"depth is known, thickness need not be", named, reach.Run{Kind: reach.Pipe, How: reach.Behind, Depth: in, Half: in, Path: southward(reach.Pipe, 1, 2).Path}, nil},
		{"depth not said", straps(3, in*3/4), reach.Run{Kind: reach.Gas, Half: in / 2, Path: []place.Point{{X: in}}}, []reach.Note{{Kind: reach.DepthUnknown}}},
		{"size not said", named, reach.Run{Kind: reach.Gas, How: reach.Behind, Depth: in, Path: []place.Point{{X: in}}}, nil},
		// Plates block a heating tube's output (contractormag.com 20879148).
		{"heat tube", straps(3, in*3/4), southward(reach.HeatTube, 1, 2), []reach.Note{{Kind: reach.NoPlateHeat}}},
		{"duct", straps(3, in*3/4), southward(reach.Duct, 1, 2), nil},
		{"no path", straps(3, in*3/4), reach.Run{Kind: reach.Wire, How: reach.OnTop, Half: in}, nil},
	} {
		a := reach.Check(reach.Query{Screw: in, Board: in / 2, Supports: tt.supports, Runs: []reach.Run{tt.run}})
		if d := cmp.Diff(tt.want, a.Notes); d != "" {
			t.Errorf("%s (-want +got)\n%s", tt.name, d)
		}
	}
}

func TestPathThroughSeveralPoints(t *testing.T) {
	// South over straps 1 and 2 at x = 40, east in the bay, back north over 2 and 1 at x = 90.
	run := reach.Run{Kind: reach.Wire, How: reach.Behind, Depth: in / 2, Half: in / 4, Path: []place.Point{
		{X: 40 * in}, {X: 40 * in, Y: 40 * in}, {X: 90 * in, Y: 40 * in}, {X: 90 * in}}}
	a := reach.Check(reach.Query{Screw: in * 5 / 4, Board: in / 2, Supports: straps(3, in*3/4), Runs: []reach.Run{run}})
	var at []place.Point
	for _, c := range a.Hits() {
		at = append(at, c.At)
	}
	want := []place.Point{{X: 40 * in, Y: 16 * in}, {X: 90 * in, Y: 16 * in}, {X: 40 * in, Y: 32 * in}, {X: 90 * in, Y: 32 * in}}
	if d := cmp.Diff(want, at); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

func TestDiagonalMeetsCentreLine(t *testing.T) {
	// From (0,0) to (120,90), so it crosses the strap at 32 at x = 32 x 120/90 = 42-2/3.
	run := reach.Run{Kind: reach.Pipe, How: reach.OnTop, Half: in / 2, Path: []place.Point{{}, {X: 120 * in, Y: 90 * in}}}
	a := reach.Check(reach.Query{Screw: 2 * in, Board: in / 2, Supports: straps(2, in*3/4), Runs: []reach.Run{run}})
	got := a.Hits()[1]
	if got.At.Y != 32*in || got.At.X != in*128/3 {
		t.Errorf("at %+v", got.At)
	}
	// The run's half width (0.5/sin 36.87 = 0.5/0.6) and the face (1-1/4 each way, times 4/3)
	// widen that by 0.8333 + 1.6667 = 2.5 in each way.
	if lo, hi := inches(got.From), inches(got.To); lo < 40.1666 || lo > 40.1667 || hi < 45.1666 || hi > 45.1667 {
		t.Errorf("strip %v to %v", lo, hi)
	}
}

// The thinnest support, wherever it is in the list, limits the bite.
func TestThinnestSupportLimitsBite(t *testing.T) {
	s := straps(3, in*3/4)
	s[1].Thick = in * 5 / 8
	fits, _ := reach.Fits(reach.Query{Board: in / 2, Supports: s}, []length.Length{in * 13 / 8}, in*5/8)
	if fits[0].Bite != in*5/8 || !fits[0].Misses {
		t.Errorf("got %+v", fits)
	}
}

func TestSupportThatStopsShort(t *testing.T) {
	s := straps(2, in*3/4)
	s[0].To = 39 * in
	s[1].To = 40 * in
	a := reach.Check(reach.Query{Screw: 2 * in, Board: in / 2, Allow: reach.Usual(), Supports: s, Runs: []reach.Run{southward(reach.Pipe, 1, 2)}})
	if len(a.Crossings) != 1 || a.Crossings[0].Support != 1 || a.Crossings[0].To != 40*in {
		t.Errorf("got %+v", a.Crossings)
	}
}
