package locate_test

import (
	"fmt"
	"testing"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/calc/site"
)

const in = length.Inch

func den(t testing.TB, more ...event.Body) *site.Room {
	st := site.New()
	bodies := append([]event.Body{
		event.RoomSize{Room: "den", EW: 160 * in, NS: 120 * in},
		event.Supports{Room: "den", Surface: place.Ceiling, What: place.Straps, Run: place.NS, From: place.West, At: []length.Length{10 * in, 26 * in, 42 * in}},
		event.Thing{Room: "den", Name: "d1", What: "duct", Surface: place.Ceiling, Size: place.Size{A: 6 * in}, Fixes: []place.Fix{
			{How: place.OffWall, Said: length.Said{L: 33 * in}, Wall: place.West}, {How: place.OffWall, Said: length.Said{L: 60 * in}, Wall: place.North}}},
	}, more...)
	for i, b := range bodies {
		if err := st.Apply(event.Event{Seq: uint64(i) + 1, Who: "hanger", Sent: int64(i+1) * 60_000, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return st.Room("den")
}

func steps(r *site.Room) map[string]locate.Step {
	out := map[string]locate.Step{}
	for _, s := range locate.From(r.Thing("d1")) {
		out[s.Ref] = s
	}
	return out
}

// A duct is 33 in off the studs of the west wall, which then got 1/2 in board, and
// 60 in off north. By hand: 33 - 1/2 = 32-1/2 in from the board face; strap 2 is at
// 26, so the duct is 33 - 26 = 7 in east of it.
func ExampleFrom() {
	r := den(new(testing.T), event.Boarded{Room: "den", Wall: place.West, Thick: in / 2})
	for _, s := range locate.From(r.Thing("d1"))[:2] {
		fmt.Println(length.Format(s.Dist, length.Imperial), s.Dir, "of", s.Ref)
	}
	// Output:
	// 7" east of strap 2
	// 60" south of north
}

// Hidden supports are no reference, but edges of the board and cut openings are.
func TestFromCovered(t *testing.T) {
	hung := event.Hung{Room: "den", Surface: place.Ceiling, Row: 2, Run: place.EW, Pieces: []place.Rect{{Y0: 48 * in, X1: 160 * in, Y1: 96 * in}}}
	r := den(t, hung,
		event.Thing{Room: "den", Name: "v1", What: "vent", Surface: place.Ceiling, Fixes: []place.Fix{
			{How: place.OffWall, Said: length.Said{L: 40 * in}, Wall: place.West}, {How: place.OffWall, Said: length.Said{L: 62 * in}, Wall: place.North}}},
		event.Opened{Room: "den", Names: []string{"v1"}})
	got := steps(r)
	for ref := range got {
		if ref == "strap 2" || ref == "strap 3" {
			t.Errorf("measured from %s, which is covered", ref)
		}
	}
	if s := got["row 2 north edge"]; s.Dist != 12*in || s.Dir != place.South {
		t.Errorf("from the row's edge: %+v, want 60 - 48 = 12 in south", s)
	}
	if s, ok := got["v1"]; !ok || s.Dist > 7*in {
		t.Errorf("from the opened vent: %+v", s)
	}
	if s := got["west"]; s.Dist != 33*in || s.Face != place.Framing {
		t.Errorf("off west: %+v", s)
	}
}

// A distance toward a notch is measured from the notch's wall.
func TestFromNotchWall(t *testing.T) {
	r := den(t, event.RoomSize{Room: "den", EW: 160 * in, NS: 120 * in, Less: []event.Notch{{EW: 48 * in, NS: 24 * in, Corner: "nw"}}})
	if s := steps(r)["north notch"]; s.Dist != 36*in {
		t.Errorf("got %+v, want 60 - 24 = 36 in", s)
	}
}

func TestNearest(t *testing.T) {
	r := den(t)
	n, ok := locate.Nearest(r, place.Ceiling, place.Point{X: 33 * in, Y: 60 * in}, place.Size{A: 6 * in})
	// 7 in from strap 2's centre, less half its 2-1/2 in face and half the duct.
	if want := 7*in - in - in/4 - 3*in; !ok || n.Support.N != 2 || n.Clear != want {
		t.Errorf("got strap %d, %s clear, want strap 2, %s", n.Support.N, length.Format(n.Clear, length.Imperial), length.Format(want, length.Imperial))
	}
	if n, _ := locate.Nearest(r, place.Ceiling, place.Point{X: 27 * in, Y: 60 * in}, place.Size{A: 6 * in}); n.Clear >= 0 {
		t.Errorf("a duct over strap 2 is %s clear of it", length.Format(n.Clear, length.Imperial))
	}
}
