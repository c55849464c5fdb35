package shell_test

import (
	"testing"

	"strapline/calc/event"
	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// By hand, 16 in apart, 3/8 in from the edges: a wall board of 96 in x 48 in, from 32 in to 80 in up, on studs at 16, 32, 48, 64 and 80
// in (96 in is the far edge, on a stud too). A window from 40 in to 70 in, sill at 52 in, head at 80 in, takes 28 in out of the studs at 48
// and 64: 20 in is left below, 3 screws. The studs at its sides, over its 28 in, take 3 each. The others take 4.
func TestBearingAroundWindow(t *testing.T) {
	in := length.Inch
	st := site.New()
	var studs []length.Length
	for x := 16 * in; x <= 96*in; x += 16 * in {
		studs = append(studs, x)
	}
	thing := func(name, what string, framed bool, at place.Point, size place.Size) event.Thing {
		return event.Thing{Room: "den", Name: name, What: what, Surface: "north", Size: size, Point: at, Framed: framed, Fixes: []place.Fix{
			{How: place.OffWall, Wall: place.West, Said: length.Said{L: at.X}}, {How: place.UpFrom, Said: length.Said{L: at.Y}},
		}}
	}
	count := func() int {
		r := st.Room("den")
		rule := fasten.Rule{Spacing: 16 * in, Edge: 3 * in / 8}
		return fasten.ForPiece(fasten.Piece{X: 0, Y: 32 * in, W: 96 * in, H: 48 * in}, r.Bearing("north"), rule).Screws()
	}
	seq := uint64(0)
	apply := func(b event.Body) {
		t.Helper()
		seq++
		if err := st.Apply(event.Event{Seq: seq, Who: "lead", Sent: int64(seq), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	apply(event.RoomSize{Room: "den", EW: 120 * in, NS: 100 * in, High: 97 * in})
	apply(event.Supports{Room: "den", Surface: "north", What: place.Studs, Run: place.Up, From: place.West, At: studs})
	if got := count(); got != 6*4 {
		t.Errorf("bare: got %d, want 24", got)
	}
	apply(thing("window 1", "window", true, place.Point{X: 55 * in, Y: 66 * in}, place.Size{A: 30 * in, B: 28 * in}))
	if got, want := count(), 4*4+2*3+2*3; got != want {
		t.Errorf("window: got %d, want %d", got, want)
	}
	// A hatch of 14 in over the stud at 16 in, 45 in to 59 in up: 13 in below it and 21 in above are left, 2 and 3 screws for 4. Nobody
	// framed its sides. A box takes none with it.
	apply(thing("hatch 1", "hatch", false, place.Point{X: 16 * in, Y: 52 * in}, place.Size{A: 14 * in, B: 14 * in}))
	apply(thing("box 1", "box", false, place.Point{X: 80 * in, Y: 52 * in}, place.Size{A: 4 * in, B: 4 * in}))
	if got, want := count(), 3*4+2*3+2*3+2+3; got != want {
		t.Errorf("hatch: got %d, want %d", got, want)
	}
	// A stud that was noted right at the window's side is the one that stands there.
	apply(event.Strike{Seq: seq - 1})
	apply(event.Supports{Room: "den", Surface: "north", What: place.Studs, Run: place.Up, From: place.West, At: append(studs[:len(studs):len(studs)], 39*in+in/4)})
	if got, want := count(), 4*4+2*3+4+3; got != want {
		t.Errorf("stud at its side: got %d, want %d", got, want)
	}
}
