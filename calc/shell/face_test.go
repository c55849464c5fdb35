package shell_test

import (
	"testing"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// foldOf is the state after some entries by one person, a millisecond apart.
func foldOf(t *testing.T, bodies ...event.Body) *site.State {
	t.Helper()
	s := site.New()
	for i, b := range bodies {
		if err := s.Apply(event.Event{Seq: uint64(i + 1), Who: "lead", Sent: int64(i + 1), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

// TestNotchFaces: the sides of each notch that the room is in front of, and their sizes, worked out by hand
// on a plan of 168 x 144: off the walls that a face's ends are at, and the far side less what is off it.
func TestNotchFaces(t *testing.T) {
	const in = length.Inch
	type face struct {
		on   place.Surface
		long length.Length
	}
	for _, c := range []struct {
		name string
		less []event.Notch
		want []face
	}{
		{"corner", []event.Notch{{EW: 48 * in, NS: 36 * in, Corner: "ne"}}, []face{{"ne notch south face", 48 * in}, {"ne notch west face", 36 * in}}},
		{"the other corner", []event.Notch{{EW: 48 * in, NS: 36 * in, Corner: "sw"}}, []face{{"sw notch east face", 36 * in}, {"sw notch north face", 48 * in}}},
		{"chimney", []event.Notch{{EW: 48 * in, NS: 24 * in, Wall: place.North, Off: 60 * in, From: place.West}},
			[]face{{"north notch south face", 48 * in}, {"north notch west face", 24 * in}, {"north notch east face", 24 * in}}},
		{"tight in its corner", []event.Notch{{EW: 48 * in, NS: 24 * in, Wall: place.North, From: place.East}},
			[]face{{"north notch south face", 48 * in}, {"north notch west face", 24 * in}}},
		{"two on a wall", []event.Notch{{EW: 10 * in, NS: 24 * in, Wall: place.West, Off: 12 * in, From: place.South}, {EW: 12 * in, NS: 20 * in, Wall: place.West, Off: 12 * in, From: place.North}},
			[]face{{"west notch east face", 24 * in}, {"west notch south face", 10 * in}, {"west notch north face", 10 * in},
				{"second west notch east face", 20 * in}, {"second west notch north face", 12 * in}, {"second west notch south face", 12 * in}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := foldOf(t, event.RoomSize{Room: "den", EW: 168 * in, NS: 144 * in, High: 96 * in, Less: c.less}).Room("den")
			got := map[place.Surface]length.Length{}
			for _, s := range r.Shell().Surfaces() {
				if name, _ := s.NotchOf(); name != "" {
					x, y := r.Shell().Extent(s)
					got[s] = x
					if y != 96*in {
						t.Errorf("%s is %s high", s, length.Canon(y))
					}
				}
			}
			for _, f := range c.want {
				if got[f.on] != f.long {
					t.Errorf("%s: %s long, want %s", f.on, length.Canon(got[f.on]), length.Canon(f.long))
				}
			}
			if len(got) != len(c.want) {
				t.Errorf("got %v", got)
			}
		})
	}
}

// TestNotchFaceUnderSlope: the ceiling comes down to the north wall from 96 to 48 over 72, 2 in 3. 36 off the
// wall it is 48 + 2/3 of 36 = 72 up, so the face there is 72 high, and the side of the notch rises from 48
// at the wall to 72.
func TestNotchFaceUnderSlope(t *testing.T) {
	const in = length.Inch
	r := foldOf(t,
		event.RoomSize{Room: "den", EW: 168 * in, NS: 144 * in, High: 96 * in, Less: []event.Notch{{EW: 48 * in, NS: 36 * in, Corner: "ne"}}},
		event.Slope{Room: "den", Wall: place.North, High: 96 * in, Low: 48 * in, Over: 72 * in},
		event.First{Room: "den", Walls: true}, // no board of the slope over the wall's
	).Room("den")
	if _, y := r.Shell().Extent("ne notch south face"); y != 72*in {
		t.Errorf("the face is %s high, want 72", length.Canon(y))
	}
	got := r.Shell().Under("ne notch west face")
	if len(got) != 1 || got[0][0] != (place.Point{Y: 48 * in}) || got[0][1] != (place.Point{X: 36 * in, Y: 72 * in}) {
		t.Errorf("over the side: %v", got)
	}
	if r.Shell().Under("ne notch south face") != nil {
		t.Error("the slope is level over the face")
	}
	if r.Shell().Inside("ne notch west face", place.Point{X: 9 * in, Y: 56 * in}) || !r.Shell().Inside("ne notch west face", place.Point{X: 9 * in, Y: 53 * in}) {
		t.Error("9 off the wall the slope is 54 up")
	}
}

// TestNotchFaceUnderSlopeSouth: the same to the south, over a notch from 108 to 144 off north, whose side begins 108
// along the wall beside it: 36 off the south wall the slope is 72 up, at the wall 48.
func TestNotchFaceUnderSlopeSouth(t *testing.T) {
	const in = length.Inch
	r := foldOf(t,
		event.RoomSize{Room: "den", EW: 168 * in, NS: 144 * in, High: 96 * in, Less: []event.Notch{{EW: 48 * in, NS: 36 * in, Corner: "se"}}},
		event.Slope{Room: "den", Wall: place.South, High: 96 * in, Low: 48 * in, Over: 72 * in},
		event.First{Room: "den", Walls: true},
	).Room("den")
	got := r.Shell().Under("se notch west face")
	if len(got) != 1 || got[0][0] != (place.Point{Y: 72 * in}) || got[0][1] != (place.Point{X: 36 * in, Y: 48 * in}) {
		t.Errorf("over the side: %v", got)
	}
}

// TestNotchFaceBoard: board on a face moves what is measured off it, and the outside corner of the face
// around it. A face of which nothing was said goes with the wall behind it, as ever.
func TestNotchFaceBoard(t *testing.T) {
	const in = length.Inch
	off := func(w place.Wall, l length.Length, notch bool) place.Fix {
		return place.Fix{How: place.OffWall, Wall: w, Said: length.Said{L: l}, Notch: notch}
	}
	up := place.Fix{How: place.UpFrom, Said: length.Said{L: 16 * in}}
	size := event.RoomSize{Room: "den", EW: 168 * in, NS: 144 * in, High: 96 * in, Less: []event.Notch{{EW: 48 * in, NS: 36 * in, Corner: "ne"}}}
	south := place.Surface("ne notch south face")
	for _, c := range []struct {
		name   string
		before []event.Body
		on     place.Surface
		fixes  []place.Fix
		want   place.Point
	}{
		{"off the notch, bare", nil, place.Ceiling, []place.Fix{off(place.North, 30*in, true), off(place.West, 140*in, false)}, place.Point{X: 140 * in, Y: 66 * in}},
		{"off the notch, boarded", []event.Body{event.Boarded{Room: "den", Wall: place.Wall(south), Thick: in / 2}}, place.Ceiling,
			[]place.Fix{off(place.North, 30*in, true), off(place.West, 140*in, false)}, place.Point{X: 140 * in, Y: 66*in + in/2}},
		{"with the wall behind it", []event.Body{event.Boarded{Room: "den", Wall: place.North, Thick: in / 2}}, place.Ceiling,
			[]place.Fix{off(place.North, 30*in, true), off(place.West, 140*in, false)}, place.Point{X: 140 * in, Y: 66*in + in/2}},
		{"its own word goes first", []event.Body{event.Boarded{Room: "den", Wall: place.North, Thick: in / 2}, event.Boarded{Room: "den", Wall: place.Wall(south), Finished: true}}, place.Ceiling,
			[]place.Fix{off(place.North, 30*in, true), off(place.West, 140*in, false)}, place.Point{X: 140 * in, Y: 66 * in}},
		{"off a bare outside corner", nil, south, []place.Fix{off(place.West, 20*in, true), up}, place.Point{X: 20 * in, Y: 16 * in}},
		{"the corner has board around it", []event.Body{event.Boarded{Room: "den", Wall: "ne notch west face", Thick: in / 2}}, south,
			[]place.Fix{off(place.West, 20*in, true), up}, place.Point{X: 19*in + in/2, Y: 16 * in}},
		{"off the wall at the other end", []event.Body{event.Boarded{Room: "den", Wall: place.East, Thick: in / 2}}, south,
			[]place.Fix{off(place.East, 20*in, false), up}, place.Point{X: 27*in + in/2, Y: 16 * in}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := foldOf(t, append([]event.Body{size}, c.before...)...).Room("den")
			p, err := r.Place(c.on, c.fixes, place.Size{}, site.EndOfTime)
			if err != nil || p.Point != c.want {
				t.Errorf("got %s, %s (%v), want %s, %s", length.Canon(p.X), length.Canon(p.Y), err, length.Canon(c.want.X), length.Canon(c.want.Y))
			}
		})
	}
}

// TestChimneySides: 10 off the west side that a chimney makes, from 60 to 108 off the west wall, is 118 off
// that wall. With a second chimney beside it there are two such sides.
func TestChimneySides(t *testing.T) {
	const in = length.Inch
	chimney := func(off length.Length) event.Notch {
		return event.Notch{EW: 48 * in, NS: 24 * in, Wall: place.North, Off: off, From: place.West}
	}
	fixes := []place.Fix{{How: place.OffWall, Wall: place.West, Said: length.Said{L: 10 * in}, Notch: true}, {How: place.OffWall, Wall: place.North, Said: length.Said{L: 12 * in}}}
	r := foldOf(t, event.RoomSize{Room: "den", EW: 300 * in, NS: 144 * in, Less: []event.Notch{chimney(60 * in)}}).Room("den")
	if p, err := r.Place(place.Ceiling, fixes, place.Size{}, site.EndOfTime); err != nil || p.Point != (place.Point{X: 118 * in, Y: 12 * in}) {
		t.Errorf("got %v, %v", p.Point, err)
	}
	r = foldOf(t, event.RoomSize{Room: "den", EW: 300 * in, NS: 144 * in, Less: []event.Notch{chimney(60 * in), chimney(200 * in)}}).Room("den")
	if p, err := r.Place(place.Ceiling, fixes, place.Size{}, site.EndOfTime); err == nil {
		t.Errorf("off one of two notches: taken to be %v", p.Point)
	}
}

// TestBoardUnderSlope: a slope of 48 up in 36 is 60 long, so the 1/2 of board on its wall takes 60/36 of that,
// 5/6 in. What was 20 up the slope is 19-1/6 up from the board; level, it is the 1/2.
func TestBoardUnderSlope(t *testing.T) {
	const in = length.Inch
	r := foldOf(t, event.RoomSize{Room: "den", EW: 168 * in, NS: 144 * in, High: 96 * in},
		event.Slope{Room: "den", Wall: place.South, High: 96 * in, Low: 48 * in, Over: 36 * in},
		event.Boarded{Room: "den", Wall: place.South, Thick: in / 2}).Room("den")
	near := func(what string, got, want length.Length) {
		t.Helper()
		if d := got - want; max(d, -d) > 100 {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	up := func(l length.Length, sent int64) length.Length {
		p, err := r.Place("south slope", []place.Fix{{How: place.UpFrom, Said: length.Said{L: l}}}, place.Size{}, sent)
		if err != nil {
			t.Fatal(err)
		}
		return p.Y
	}
	near("20 up, said before the board", up(20*in, 2), 20*in)
	near("20 up, said after", up(20*in, 3), 20*in+5*in/6)
	near("20 up the framing, off the board", r.Shell().Off("south slope", place.South, place.Point{Y: 20 * in}), 19*in+in/6)
	level, err := r.Place("south slope", []place.Fix{{How: place.OffWall, Wall: place.South, Level: true, Said: length.Said{L: 20 * in}}}, place.Size{}, 3)
	if err != nil {
		t.Fatal(err)
	}
	near("20 level off the board", level.Y, (20*in+in/2)*5/3)
	b := foldOf(t, event.RoomSize{Room: "den", EW: 168 * in, NS: 144 * in, High: 96 * in, Less: []event.Notch{{EW: 48 * in, NS: 36 * in, Corner: "ne"}}},
		event.Boarded{Room: "den", Wall: "ne notch west face", Thick: in / 2}).Room("den")
	near("20 off a corner with 1/2 of board around it", b.Shell().Off("ne notch south face", place.West, place.Point{X: 20 * in}), 20*in+in/2)
	near("the board of the slope begins", r.Shell().Clear("south slope").Y0, 5*in/6)
}

// TestThreeBulkheads: three in one direction, each with its surfaces, all missing from the ceiling.
func TestThreeBulkheads(t *testing.T) {
	const in = length.Inch
	r := foldOf(t, event.RoomSize{Room: "den", EW: 168 * in, NS: 144 * in, High: 96 * in},
		event.Bulkhead{Room: "den", Wall: place.North, Wide: 16 * in, Drop: 12 * in},
		event.Bulkhead{Room: "den", Wall: place.South, Wide: 20 * in, Drop: 10 * in},
		event.Bulkhead{Room: "den", Wall: place.North, Wide: 8 * in, Drop: 9 * in, Off: 60 * in, N: 1},
	).Room("den")
	for on, want := range map[place.Surface]length.Length{
		"north bulkhead bottom": 16 * in, "south bulkhead bottom": 20 * in, "second north bulkhead bottom": 8 * in,
		"second north bulkhead face": 9 * in, "second north bulkhead back": 9 * in,
	} {
		if x, y := r.Shell().Extent(on); x != 168*in || y != want {
			t.Errorf("%s: %s x %s, want 168 x %s", on, length.Canon(x), length.Canon(y), length.Canon(want))
		}
	}
	if on := r.Shell().Overhead(place.Point{X: 9 * in, Y: 64 * in}); on != "second north bulkhead bottom" {
		t.Errorf("64 off north is %s", on)
	}
	if r.Shell().Inside(place.Ceiling, place.Point{X: 9 * in, Y: 64 * in}) || !r.Shell().Inside(place.Ceiling, place.Point{X: 9 * in, Y: 70 * in}) {
		t.Error("the ceiling has a hole from 60 to 68 off north")
	}
	if d := r.Shell().Off("second north bulkhead bottom", place.North, place.Point{X: 9 * in, Y: 3 * in}); d != 63*in {
		t.Errorf("3 in on it is %s off north, want 63", length.Canon(d))
	}
}
