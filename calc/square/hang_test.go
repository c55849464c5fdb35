package square_test

import (
	"math"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// leaning is a room 144 in along north whose east and west walls lean out by the given
// inches over 108 in to the south.
func leaning(t *testing.T, by float64) square.Room {
	q := [4][2]float64{{0, 0}, {144, 0}, {144 + by, 108}, {0 + by, 108}}
	var all []length.Length
	for _, v := range measure(q) {
		all = append(all, length.Length(math.Round(v*float64(in))))
	}
	return fit(t, readings(all...))
}

// A lean of b in over 108 in leaves a gap of b x 48/108 over a board: 0.22 in for 0.5, 0.89
// for 2, and 2.67 for 6 (line at 48 - 2.67 = 45.33, down to whole inches 45).
func TestControl(t *testing.T) {
	for _, tc := range []struct {
		lean, gap float64
		off       length.Length
		why       square.Why
	}{
		{0, 0, 48*in + in/4, square.FullBoard}, {0.5, 0.2222, 48*in + in/4, square.FullBoard},
		{2, 0.8889, 46 * in, square.CutToWall}, {-2, 0.8889, 46 * in, square.CutToWall}, {6, 2.6667, 45 * in, square.FarOut},
	} {
		r := leaning(t, tc.lean)
		c := r.Control(place.EW, 48*in)
		if c.Off != tc.off || c.Why != tc.why || c.Wall != place.North {
			t.Errorf("lean %v: %+v", tc.lean, c)
		}
		near(t, "gap", float64(c.Gap)/float64(in), tc.gap, 1e-3)
		first, last, ok := r.Rips(c, 48*in, in/4, length.Imperial)
		if !ok || first.CutA != c.Off-in/4 || first.Whole != (c.Off > 48*in) || last.Taper || last.Thin {
			t.Errorf("lean %v: %+v %+v", tc.lean, first, last)
		}
	}
	// Rows off the west wall when boards run north-south.
	if c := leaning(t, 0).Control(place.NS, 48*in); c.Wall != place.West {
		t.Errorf("%+v", c)
	}
}

// 100-1/4 in across: one row to the line, one full row, and 4 in left, which is thin.
// In millimetres: 1200 mm board, 2550 mm across, the line at 1206.35 and 1200 more leave
// 143.65, less 6 is 137 rounded down.
func TestRips(t *testing.T) {
	box := func(w, h length.Length) square.Room {
		return fit(t, readings(w, w, h, h, length.Length(math.Hypot(float64(w), float64(h))), 0))
	}
	r := box(144*in, 100*in+in/4)
	first, last, ok := r.Rips(r.Control(place.EW, 48*in), 48*in, in/4, length.Imperial)
	if !ok || !first.Whole || last.Wall != place.South || !last.Thin || last.CutA != 4*in-in/4-length.Sixteenth && last.CutA != 4*in-in/4 {
		t.Errorf("%+v %+v", first, last)
	}
	r = box(3000*mm, 2550*mm)
	_, last, _ = r.Rips(r.Control(place.EW, 1200*mm), 1200*mm, 6*mm, length.Metric)
	if last.CutA != 137*mm || last.CutB != 137*mm {
		t.Errorf("%+v", last)
	}
	r = box(144*in, 40*in)
	first, _, ok = r.Rips(r.Control(place.EW, 48*in), 48*in, in/4, length.Imperial)
	if ok || max(first.CutA-(39*in+3*in/4), 39*in+3*in/4-first.CutA) > length.Sixteenth {
		t.Errorf("one row: %+v %v", first, ok)
	}
}

// Rows hung to other lines, in a room of exactly 108 in x 144 in (3-4-5). A line 48 in off
// north leaves two full rows, which have to be cut for the 1/4 in of clearance; a line 49 in
// off leaves room for a whole board with clearance.
func TestRipsOfOtherLines(t *testing.T) {
	r := fit(t, readings(108*in, 108*in, 144*in, 144*in, 180*in, 180*in))
	line := square.Control{Wall: place.North, Off: 48 * in}
	if _, last, _ := r.Rips(line, 48*in, 0, length.Imperial); !last.Whole || last.A != 48*in || last.CutB != 48*in {
		t.Errorf("%+v", last)
	}
	if first, last, _ := r.Rips(line, 48*in, in/4, length.Imperial); first.Whole || last.Whole || last.CutA != 48*in-in/4 {
		t.Errorf("%+v %+v", first, last)
	}
	line.Off = 49 * in
	if first, _, _ := r.Rips(line, 48*in, in/4, length.Imperial); !first.Whole || first.CutA != 48*in {
		t.Errorf("%+v", first)
	}
}

// South and west are square, 108 in along west and 111 in along east, so north leans. By
// hand as in ExampleRoom_Control, upside down: the line is off south, the last rip at
// north.
func TestOffSouth(t *testing.T) {
	var all []length.Length
	for _, v := range []float64{math.Hypot(144, 3), 144, 111, 108, 180, math.Hypot(144, 111)} {
		all = append(all, length.Length(math.Round(v*float64(in))))
	}
	r := fit(t, readings(all...))
	c := r.Control(place.EW, 48*in)
	_, last, _ := r.Rips(c, 48*in, in/4, length.Imperial)
	if c.Wall != place.South || last.Wall != place.North {
		t.Fatalf("%+v %+v", c, last)
	}
	near(t, "A", float64(last.A)/float64(in), 11.75, 1e-6)
	near(t, "B", float64(last.B)/float64(in), 14.75, 1e-6)
	// 3-1/2 in left at one end and 6-1/2 in at the other is not thin.
	c.Off = 108*in - 48*in - 7*in/2
	if _, last, _ := r.Rips(c, 48*in, in/4, length.Imperial); last.Thin || !last.Taper {
		t.Errorf("%+v", last)
	}
}

// By hand: with the line 46 off, 144 leave two full rows and 2, so the first and the last row share 46 + 2 = 48 and
// each is 24. Rests of 1/4, which the wall board covers, and of 6, which is no sliver, stay. In millimetres: 1200 mm
// boards and a line 1206 off, 3700 across leave two full rows and 94, so each gets (1206 + 94) / 2 = 650.
func TestEvenRows(t *testing.T) {
	for _, tc := range []struct {
		off, cross, wide, want, rest length.Length
		whole                        int
		why                          square.Why
	}{
		{46 * in, 144 * in, 48 * in, 24 * in, 24 * in, 2, square.EvenRows},
		{46 * in, 142*in + in/4, 48 * in, 46 * in, in / 4, 2, square.CutToWall},
		{46 * in, 148 * in, 48 * in, 46 * in, 6 * in, 2, square.CutToWall},
		{1206 * mm, 3700 * mm, 1200 * mm, 650 * mm, 650 * mm, 2, square.EvenRows},
	} {
		got, whole, rest := square.Control{Wall: place.North, Off: tc.off, Why: square.CutToWall}.Even(tc.cross, tc.wide, in/4, 6*in)
		if got.Off != tc.want || whole != tc.whole || rest != tc.rest || got.Why != tc.why || got.Off+length.Length(whole)*tc.wide+rest != tc.cross {
			t.Errorf("%v across: %+v, %d full rows and %v", tc.cross, got, whole, rest)
		}
	}
}

// Ends 1/4 in apart are cut to the smaller, as any cut; 5/16 in apart they taper. The room is 144 along north, west
// and east stand square on it, and south leans by the difference.
func TestRipTaper(t *testing.T) {
	for _, tc := range []struct {
		lean length.Length
		want bool
	}{{in / 4, false}, {5 * in / 16, true}} {
		q := [4][2]float64{{0, 0}, {144, 0}, {144, 120 + float64(tc.lean)/float64(in)}, {0, 120}}
		var all []length.Length
		for _, v := range measure(q) {
			all = append(all, length.Length(math.Round(v*float64(in))))
		}
		r := fit(t, readings(all...))
		_, last, ok := r.Rips(square.Control{Wall: place.North, Off: 48*in + in/4}, 48*in, in/4, length.Imperial)
		if !ok || last.Taper != tc.want || last.CutA != 23*in+in/2 || (last.CutB != last.CutA) != tc.want {
			t.Errorf("%v apart: %+v", length.Canon(tc.lean), last)
		}
	}
}
