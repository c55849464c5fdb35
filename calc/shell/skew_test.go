package shell_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

// By hand: the east wall of a room 144 along north leans out by 6 over 120. A slope comes down to the north wall from
// 96 to 48 over 60: it is sqrt(60^2 + 48^2) = 76.8375 long, 1.280625 times its plan, and at its top the room is
// 144 + 6 x 60/120 = 147 wide. 40 up it is 40/1.280625 = 31.2348 off the wall and 144 + 31.2348/20 = 145.5617
// wide. The east end leans by 3 over 76.8375, so 20 square to it are 20 x sqrt(1 + 0.039044^2) = 20.0152
// level: a light 20 off east and 40 up is 125.5465 off west.
func TestSlopeUnderLeaningWalls(t *testing.T) {
	q := [4][2]float64{{0, 0}, {144, 0}, {150, 120}, {0, 120}}
	in := length.Inch
	st := measured(t, q, event.Slope{Room: "den", Wall: place.North, High: 96 * in, Low: 48 * in, Over: 60 * in})
	r := st.Room("den")
	near := func(what string, got length.Length, want float64) {
		t.Helper()
		if d := float64(got)/float64(in) - want; math.Abs(d) > 0.01 {
			t.Errorf("%s: %.4f in, want %.4f", what, float64(got)/float64(in), want)
		}
	}
	s := place.Slope(place.North)
	c, ok := r.Shell().Skew(s)
	if !ok {
		t.Fatal("the east wall leans")
	}
	for i, want := range [4][2]float64{{0, 0}, {144, 0}, {147, 76.8375}, {0, 76.8375}} {
		near("corner", c[i].X, want[0])
		near("corner", c[i].Y, want[1])
	}
	p, err := r.Place(s, []place.Fix{{How: place.OffWall, Wall: place.East, Said: length.Said{L: 20 * in}}, {How: place.UpFrom, Said: length.Said{L: 40 * in}}}, place.Size{}, 9)
	if err != nil {
		t.Fatal(err)
	}
	near("20 off east", p.X, 125.5465)
	near("off east", r.Shell().Off(s, place.East, p.Point), 20)
	near("off west", r.Shell().Off(s, place.West, p.Point), 125.5465)
	if r.Shell().Inside(s, place.Point{X: 146 * in, Y: 30 * in}) || !r.Shell().Inside(s, place.Point{X: 146 * in, Y: 60 * in}) {
		t.Error("146 off west it is on the slope from 51 up")
	}
	lo, hi := r.Shell().Within(s, place.X, 0, 38*in)
	near("within", lo, 0)
	near("a row from 0 to 38 up", hi, 144+38/1.280625/20)
	near("at its longest", r.Shell().Long(s), 147)
}

// By hand: a slope over the whole of a room that is 120 along west and 126 along east, down from 96 to 6 at the
// north wall: 90 up in 120 is 150 long, 5/4 of the plan. It ends at the south wall, 150 up at west and 126 x 5/4 =
// 157.5 up at east. 1/2 of board on the north wall takes 5/8 of it, and none of a bulkhead 5 off that wall.
func TestSkewEdges(t *testing.T) {
	q := [4][2]float64{{0, 0}, {144, 0}, {144, 126}, {0, 120}}
	in := length.Inch
	board := event.Boarded{Room: "den", Wall: place.North, Thick: in / 2}
	r := measured(t, q, event.Slope{Room: "den", Wall: place.North, High: 96 * in, Low: 6 * in}, board).Room("den")
	near := func(got, want length.Length) {
		t.Helper()
		if d := got - want; max(d, -d) > 100 {
			t.Errorf("%s, want %s", length.Canon(got), length.Canon(want))
		}
	}
	s := place.Slope(place.North)
	c, ok := r.Shell().Skew(s)
	if !ok {
		t.Fatal("the south wall leans")
	}
	near(c[2].Y, 157*in+in/2)
	near(c[3].Y, 150*in)
	near(r.Shell().Outline(s)[0].Y, 5*in/8)
	near(r.Shell().Outline(s)[3].Y, 150*in)
	r = measured(t, [4][2]float64{{0, 0}, {144, 0}, {150, 120}, {0, 120}}, event.Bulkhead{Room: "den", Wall: place.North, Wide: 16 * in, Drop: 12 * in, Off: 5 * in}, board).Room("den")
	near(r.Shell().Outline(place.Part(place.North, 0, place.Bottom))[0].Y, 0)
	near(r.Shell().Outline(place.Part(place.North, 0, place.Bottom))[2].Y, 16*in)
}

// On a slope or a bulkhead under walls that lean any way, to any wall, a thing is as far off each side wall as it was said to
// be, whatever wall it is measured from; and it is on the surface exactly if the place of the plan below it is within the
// side walls, which is checked by the cross product on the plan, in 200-bit floats.
func TestSkewSurfaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := leaning(t)
		in := length.Inch
		inches := func(v float64) length.Length { return length.Length(math.Round(v * float64(in))) }
		i := rapid.IntRange(0, 3).Draw(t, "wall")
		w := place.Walls[i]
		over, rise := rapid.Float64Range(20, 60).Draw(t, "over"), rapid.Float64Range(10, 60).Draw(t, "rise")
		gone := rapid.Float64Range(0, 20).Draw(t, "off")
		box := rapid.Bool().Draw(t, "bulkhead")
		var shape event.Body = event.Slope{Room: "den", Wall: w, High: inches(rise + 40), Low: 40 * in, Over: inches(over)}
		s, ratio, base := place.Slope(w), math.Hypot(over, rise)/over, 0.0
		if box {
			shape = event.Bulkhead{Room: "den", Wall: w, Wide: inches(over), Drop: 12 * in, Off: inches(gone)}
			s, ratio, base = place.Part(w, 0, place.Bottom), 1, float64(inches(gone))/float64(in)
		}
		st := measured(t, q, shape)
		r := st.Room("den")
		if _, leans := r.Shell().Shape(); !leans {
			t.Skip("a rectangle to 1/16 in")
		}
		// a point of the plan, between the two lines off the wall
		level := base + rapid.Float64Range(0.05, 0.95).Draw(t, "up")*over
		a, b := q[i], q[(i+1)%4]
		long := math.Hypot(b[0]-a[0], b[1]-a[1])
		dir := [2]float64{(b[0] - a[0]) / long, (b[1] - a[1]) / long}
		along := rapid.Float64Range(-0.1, 1.1).Draw(t, "along") * long
		p := [2]float64{a[0] + along*dir[0] - level*dir[1], a[1] + along*dir[1] + level*dir[0]} // clockwise, with Y down: in is to the right
		before, after := offLine(q[(i+3)%4], a, p), offLine(b, q[(i+2)%4], p)
		if min(math.Abs(before), math.Abs(after)) < 1e-3 {
			t.Skip("on an edge")
		}
		inside := before > 0 && after > 0
		side := [2]place.Wall{place.Walls[(i+3)%4], place.Walls[(i+1)%4]}
		for k, off := range [2]float64{before, after} {
			if off < 0 {
				continue
			}
			// square to the end on the surface, which leans less up a slope than on the plan
			tilt := skewOf(q, i, side[k] == place.Walls[(i+1)%4])
			d := off * math.Hypot(1, tilt) / math.Hypot(1, tilt/ratio)
			at, err := r.Place(s, []place.Fix{{How: place.OffWall, Wall: side[k], Said: length.Said{L: inches(d)}}, across(s, inches(level), inches((level-base)*ratio))}, place.Size{}, 9)
			if err != nil {
				t.Fatal(err)
			}
			if got := r.Shell().Off(s, side[k], at.Point); max(got-inches(d), inches(d)-got) > 1000 {
				t.Fatalf("%s off %s: got %s", length.Canon(inches(d)), side[k], length.Canon(got))
			}
			if got := r.Shell().Inside(s, at.Point); got != inside {
				t.Fatalf("on the surface: %v, want %v (%v, %v off the sides)", got, inside, before, after)
			}
			o := 1 - k
			other := [2]float64{before, after}[o] * math.Hypot(1, skewOf(q, i, side[o] == place.Walls[(i+1)%4])) / math.Hypot(1, skewOf(q, i, side[o] == place.Walls[(i+1)%4])/ratio)
			if got := r.Shell().Off(s, side[o], at.Point); math.Abs(float64(got)/float64(in)-other) > 1e-3 {
				t.Fatalf("%s off %s: it is %.5f off %s, want %.5f", length.Canon(inches(d)), side[k], float64(got)/float64(in), side[o], other)
			}
		}
	})
}

// across is a place on s by its distance off its wall, level off it.
func across(s place.Surface, level, up length.Length) place.Fix {
	if s.SlopeTo() != "" {
		return place.Fix{How: place.UpFrom, Said: length.Said{L: up}}
	}
	_, w, _ := s.BulkheadOf()
	return place.Fix{How: place.OffWall, Said: length.Said{L: level}, Wall: w}
}

// skewOf is how much an end wall of wall i of q goes along it per unit off it.
func skewOf(q [4][2]float64, i int, end bool) float64 {
	a, b := q[i], q[(i+1)%4]
	from, to := a, q[(i+3)%4]
	if end {
		from, to = b, q[(i+2)%4]
	}
	dx, dy := b[0]-a[0], b[1]-a[1]
	u, v := to[0]-from[0], to[1]-from[1]
	return (u*dx + v*dy) / (u*dy - v*dx)
}
