package shell_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

// A notch and a bulkhead keep the true walls of a room that leans: a place held to the notch's own wall is found at its true
// distance off the room's wall behind it, what lies in the notch or over the bulkhead is no ceiling, and the rectangle that is planned
// around takes nothing that is to be boarded.
func TestTrueWallsAndNotch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := leaning(t)
		in := length.Inch
		deep := rapid.Float64Range(6, 30).Draw(t, "deep")
		box := rapid.Float64Range(6, 20).Draw(t, "box")
		inches := func(v float64) length.Length { return length.Length(math.Round(v * float64(in))) }
		st := measured(t, q, event.Bulkhead{Room: "den", Wall: place.East, Wide: inches(box), Drop: 12 * in, Off: 5 * in})
		size, _ := st.Room("den").Said()
		size.Less = []event.Notch{{EW: 24 * in, NS: inches(deep), Corner: "nw"}, {EW: inches(deep), NS: 20 * in, Wall: place.West, Off: 40 * in, From: place.South}}
		if err := st.Apply(event.Event{Seq: 4, Who: "lead", Sent: 4, Body: size}); err != nil {
			t.Fatal(err)
		}
		r := st.Room("den")
		if _, leans := r.Shell().Shape(); !leans {
			t.Skip("a rectangle to 1/16 in")
		}
		p := [2]float64{rapid.Float64Range(-1, 95).Draw(t, "x"), rapid.Float64Range(-1, 95).Draw(t, "y")}
		var off [4]float64 // by the cross product, in 200-bit floats
		for i := range off {
			off[i] = offLine(q[i], q[(i+1)%4], p)
		}
		north, east, south, west := off[0], off[1], off[2], off[3]
		corner := north < deep && west < 24
		middle := west < deep && 40 < south && south < 60
		boxed := 5 < east && east < 5+box
		room := min(north, east, south, west) >= 0
		for _, d := range []float64{north, east, south, west, north - deep, west - 24, west - deep, south - 40, south - 60, east - 5, east - 5 - box} {
			if math.Abs(d) < 1e-5 {
				t.Skip("on an edge")
			}
		}
		// The place is sent by its distances off two walls, so it is the same point of the true room.
		at, err := r.Place(place.Ceiling, []place.Fix{
			{How: place.OffWall, Wall: place.North, Said: length.Said{L: inches(north)}}, {How: place.OffWall, Wall: place.West, Said: length.Said{L: inches(west)}},
		}, place.Size{}, 5)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := r.Shell().Inside(place.Ceiling, at.Point), room && !corner && !middle && !boxed; got != want {
			t.Fatalf("inside: %v, want %v", got, want)
		}
		if room && boxed != (r.Shell().Overhead(at.Point) != place.Ceiling) {
			t.Fatalf("overhead: %s", r.Shell().Overhead(at.Point))
		}
		taken := slices.ContainsFunc(r.Shell().NotchesOn(place.Ceiling), func(q place.Rect) bool {
			return q.X0 < at.X && at.X < q.X1 && q.Y0 < at.Y && at.Y < q.Y1
		})
		if taken && room && !corner && !middle && !boxed {
			t.Fatal("what is planned around takes a part of the ceiling")
		}
		// Held to the notch's own wall.
		if room && north > deep+1 && west < 23 && !middle {
			got, err := r.Place(place.Ceiling, []place.Fix{
				{How: place.OffWall, Wall: place.North, Said: length.Said{L: inches(north - deep)}, Notch: true}, {How: place.OffWall, Wall: place.West, Said: length.Said{L: inches(west)}},
			}, place.Size{}, 5)
			if d := max(got.X-at.X, at.X-got.X, got.Y-at.Y, at.Y-got.Y); err != nil || d > 50 {
				t.Fatalf("held to the notch: %d nm off, %v", d, err)
			}
		}
	})
}

// By hand: the east wall runs 3 in out over 120 in, so 60 in off the north wall the room is 145-1/2 in wide: the slope that comes down
// to it, and the bulkhead off it, are as long as they are at their longer edge.
func TestLongerEdge(t *testing.T) {
	in := length.Inch
	r := measured(t, [4][2]float64{{0, 0}, {144, 0}, {147, 120}, {0, 120}},
		event.Slope{Room: "den", Wall: place.North, High: 96 * in, Low: 60 * in, Over: 60 * in},
		event.Bulkhead{Room: "den", Wall: place.North, Wide: 20 * in, Drop: 12 * in, Off: 80 * in}).Room("den")
	for on, want := range map[place.Surface]length.Length{
		"north slope": 145*in + in/2, "north bulkhead bottom": 146*in + in/2, "north bulkhead face": 146*in + in/2, "north bulkhead back": 146 * in,
	} {
		if x, _ := r.Shell().Extent(on); x < want-50 || x > want+50 {
			t.Errorf("%s: %v in, want %v in", on, float64(x)/float64(in), float64(want)/float64(in))
		}
	}
}
