package shell_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/shell"
	"strapline/calc/site"
)

// TestIncline: a slope by its two legs, beside worked triples (3-4-5 and 5-12-13,
// Euclid's Elements I.47) and math/big's square root.
func TestIncline(t *testing.T) {
	for _, c := range []struct{ run, rise, want length.Length }{
		{4 * length.Foot, 3 * length.Foot, 5 * length.Foot},
		{12 * length.Foot, 5 * length.Foot, 13 * length.Foot},
		{length.Foot, 0, length.Foot},
	} {
		if got := shell.Incline(c.run, c.rise); got != c.want {
			t.Errorf("%d by %d: got %d, want %d", c.run, c.rise, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Int64Range(1, int64(200*length.Foot))
		a, b := side.Draw(t, "run"), side.Draw(t, "rise")
		sq := func(v int64) *big.Float { f := new(big.Float).SetPrec(200).SetInt64(v); return f.Mul(f, f) }
		want, _ := new(big.Float).SetPrec(200).Sqrt(new(big.Float).Add(sq(a), sq(b))).Int64()
		if got := shell.Incline(length.Length(a), length.Length(b)); int64(got) != want {
			t.Fatalf("%d by %d: got %d, want %d", a, b, got, want)
		}
	})
}

// attic is 14' x 12' and 8' high: a slope comes down to the south wall over its last
// 5 feet, and a bulkhead 16" x 12" runs along the north wall.
func attic(t *testing.T) (*site.State, *site.Room) {
	s := site.New()
	for i, b := range []event.Body{
		event.RoomSize{Room: "attic", EW: 14 * length.Foot, NS: 12 * length.Foot, High: 8 * length.Foot},
		event.Slope{Room: "attic", Wall: place.South, High: 8 * length.Foot, Low: 4 * length.Foot, Over: 3 * length.Foot},
		event.Bulkhead{Room: "attic", Wall: place.North, Wide: 16 * length.Inch, Drop: 12 * length.Inch},
	} {
		if err := s.Apply(event.Event{Seq: uint64(i + 1), Who: "lead", Sent: int64(i+1) * 1000, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return s, s.Room("attic")
}

// TestShapes: extents by hand. The slope runs 3 ft and rises 4: 5 ft along it.
func TestShapes(t *testing.T) {
	_, r := attic(t)
	foot := length.Foot
	for _, c := range []struct {
		on   place.Surface
		x, y length.Length
	}{
		{"south slope", 14 * foot, 5 * foot},
		{"south", 14 * foot, 4 * foot},
		{"north", 14 * foot, 7 * foot},
		{"west", 12 * foot, 8 * foot},
		{"north bulkhead bottom", 14 * foot, 16 * length.Inch},
		{"north bulkhead face", 14 * foot, foot},
	} {
		if x, y := r.Shell().Extent(c.on); x != c.x || y != c.y {
			t.Errorf("%s: got %v x %v, want %v x %v", c.on, x, y, c.x, c.y)
		}
	}
	if got, want := r.Shell().Clear(place.Ceiling), (place.Rect{Y0: 16 * length.Inch, X1: 14 * foot, Y1: 9 * foot}); got != want { // from the bulkhead to the slope
		t.Errorf("ceiling: got %v, want %v", got, want)
	}
	if got := r.Shell().NotchesOn(place.Ceiling); len(got) != 1 || got[0] != (place.Rect{X1: 14 * foot, Y1: 16 * length.Inch}) {
		t.Errorf("ceiling less %v", got)
	}
	if got := r.Shell().NotchesOn("west"); len(got) != 1 || got[0] != (place.Rect{X1: 16 * length.Inch, Y0: 7 * foot, Y1: 8 * foot}) {
		t.Errorf("west wall less %v", got)
	}
	for _, c := range []struct {
		y    length.Length
		want place.Surface
	}{{foot, "north bulkhead bottom"}, {5 * foot, place.Ceiling}, {10 * foot, "south slope"}} {
		if got := r.Shell().Overhead(place.Point{X: foot, Y: c.y}); got != c.want {
			t.Errorf("over %v: %s, want %s", c.y, got, c.want)
		}
	}
	// 18 in off the south wall on plan is half way: 30 in up the slope.
	at, err := r.Place("south slope", []place.Fix{
		{How: place.OffWall, Wall: place.West, Said: length.Said{L: foot}},
		{How: place.OffWall, Wall: place.South, Said: length.Said{L: 18 * length.Inch}, Level: true},
	}, place.Size{}, 5000)
	if err != nil || at.Point != (place.Point{X: foot, Y: 30 * length.Inch}) {
		t.Errorf("on plan: %v %v", at, err)
	}
}

// TestBulkheadClear: one that stands clear of its wall has a back, and what is on
// its bottom is measured off the wall all the same.
func TestBulkheadClear(t *testing.T) {
	s, r := attic(t)
	if err := s.Apply(event.Event{Seq: 4, Who: "lead", Sent: 4000, Body: event.Bulkhead{Room: "attic", Wall: place.West, Wide: 20 * length.Inch, Drop: 12 * length.Inch, Off: 60 * length.Inch}}); err != nil {
		t.Fatal(err)
	}
	at, err := r.Place("west bulkhead bottom", []place.Fix{
		{How: place.OffWall, Wall: place.West, Said: length.Said{L: 70 * length.Inch}},
		{How: place.OffWall, Wall: place.North, Said: length.Said{L: 30 * length.Inch}},
	}, place.Size{}, 5000)
	if err != nil || at.Point != (place.Point{X: 30 * length.Inch, Y: 10 * length.Inch}) {
		t.Errorf("got %v %v", at, err)
	}
	if got := r.Shell().Off("west bulkhead bottom", place.West, at.Point); got != 70*length.Inch {
		t.Errorf("off west: %v", got)
	}
	if x, y := r.Shell().Extent("west bulkhead back"); x != 12*length.Foot || y != 12*length.Inch {
		t.Errorf("back: %v x %v", x, y)
	}
	if x, y := r.Shell().Extent("north bulkhead back"); x != 0 && y != 0 && len(r.Shell().Surfaces()) != 11 {
		t.Errorf("surfaces %v", r.Shell().Surfaces())
	}
}

// By hand: the south slope of the attic comes down 4 ft over 3 ft, so the end walls of 12 ft are 6 ft high half-way down it, 18 in off south.
// Under its board of 1/2 in, which takes 5/6 in of the height, the wall's board ends.
func TestWallUnderSlope(t *testing.T) {
	s, r := attic(t)
	in := length.Inch
	near := func(a, b length.Length) bool { return max(a-b, b-a) < 50 }
	lines := r.Shell().Under("west")
	if len(lines) != 1 || !near(lines[0][0].X, 108*in) || !near(lines[0][0].Y, 96*in-5*in/6) || !near(lines[0][1].X, 144*in) || !near(lines[0][1].Y, 48*in-5*in/6) {
		t.Fatalf("west wall under %v", lines)
	}
	if got := r.Shell().Under("south"); got != nil {
		t.Errorf("the wall that the slope comes down to: under %v", got)
	}
	for _, c := range []struct {
		y    length.Length
		want bool
	}{{70 * in, true}, {72 * in, false}} {
		if got := r.Shell().Inside("west", place.Point{X: 126 * in, Y: c.y}); got != c.want {
			t.Errorf("%v up: inside %v", c.y/in, got)
		}
	}
	// A row from 60 in up: the line is 59-1/6 in up where 27-1/2 in of the slope's 36 are passed.
	if from, to := r.Shell().Within("west", place.X, 60*in, 95*in); from != 0 || !near(to, 108*in+(36*in-5*in/6)*36/48) {
		t.Errorf("level row from %v to %v in", from/in, float64(to)/float64(in))
	}
	// A standing row from 120 in to 144 in along it is as high as at 120 in, 12 in down the slope on plan: 16 in lower.
	if _, to := r.Shell().Within("west", place.Y, 120*in, 144*in); !near(to, 80*in-5*in/6) {
		t.Errorf("standing row up to %v in", float64(to)/float64(in))
	}
	if err := s.Apply(event.Event{Seq: 4, Who: "lead", Sent: 4000, Body: event.Supports{Room: "attic", Surface: "west", What: place.Studs, Run: place.Up, From: place.North, At: []length.Length{16 * in, 126 * in}}}); err != nil {
		t.Fatal(err)
	}
	for _, p := range r.Bearing("west") {
		if p.Pos == 126*in && !near(p.To, 72*in-5*in/6) {
			t.Errorf("the stud under the slope bears up to %v in", float64(p.To)/float64(in))
		}
	}
}

// By hand: slopes from 48 in up at both ends of 120 in, 4 in 5 and 1 in 1, would meet the ceiling at 60 in and at 72 in: they meet below
// it, where 0.8 a = 120 - a, at 66-2/3 in along and 101-1/3 in up.
func TestGable(t *testing.T) {
	in := length.Inch
	s := site.New()
	for i, b := range []event.Body{
		event.RoomSize{Room: "loft", EW: 100 * in, NS: 120 * in, High: 108 * in},
		event.Slope{Room: "loft", Wall: place.North, High: 108 * in, Low: 48 * in, Over: 75 * in},
		event.Slope{Room: "loft", Wall: place.South, High: 108 * in, Low: 48 * in, Over: 60 * in},
		event.First{Room: "loft", Walls: true}, // no board of the slopes over the wall's
	} {
		if err := s.Apply(event.Event{Seq: uint64(i + 1), Who: "lead", Sent: int64(i + 1), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	r := s.Room("loft")
	got := r.Shell().Gable("east")
	third := in / 3
	want := []place.Point{{}, {X: 120 * in}, {X: 120 * in, Y: 48 * in}, {X: 66*in + 2*third, Y: 101*in + third}, {Y: 48 * in}}
	if len(got) != len(want) {
		t.Fatalf("got %v", got)
	}
	for i, p := range got {
		if d := max(p.X-want[i].X, want[i].X-p.X, p.Y-want[i].Y, want[i].Y-p.Y); d > 50 {
			t.Errorf("corner %d: %v, want %v", i, p, want[i])
		}
	}
	if r.Shell().Gable("north") != nil {
		t.Error("the wall that a slope comes down to is a rectangle")
	}
}
