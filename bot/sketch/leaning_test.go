package sketch_test

import (
	"math"
	"strings"
	"testing"

	"strapline/bot/sketch"
	"strapline/calc/event"
	"strapline/calc/length"
)

// A room out of square is drawn to scale with its true corners. The lines of the outline
// are as long as the walls were measured, seen from above or below, and both sizes of
// tapered pieces are given.
func TestTrueCorners(t *testing.T) {
	read := []event.Reading{
		{Line: "north", L: 144 * in}, {Line: "east", L: 120*in + in/16}, {Line: "south", L: 148 * in}, {Line: "west", L: 118 * in},
		{Line: "nw-se", L: 190*in + 9*in/16}, {Line: "ne-sw", L: 186*in + 3*in/16},
	}
	var at []length.Length
	for l := 16 * in; l < 144*in; l += 16 * in {
		at = append(at, l)
	}
	st := flat(t, event.RoomSize{Room: "kitchen", EW: 144 * in, NS: 120 * in}, event.Supports{Room: "kitchen", Surface: "ceiling", What: "straps", Run: "ns", From: "west", At: at},
		event.Square{Room: "kitchen", Readings: read}, event.PlanPick{Room: "kitchen", Surface: "ceiling", Pick: 1})
	for _, up := range []bool{false, true} {
		p, _ := sketch.Plan(sceneOf(t, st, up), 4000)
		var long []float64
		for _, s := range p.Shapes {
			if s.Pen.W == 5 && len(s.Points) == 2 {
				long = append(long, math.Hypot(s.Points[1].X-s.Points[0].X, s.Points[1].Y-s.Points[0].Y))
			}
		}
		if len(long) != 4 {
			t.Fatalf("%d walls", len(long))
		}
		for i, l := range long {
			if want := long[0] * float64(read[i].L) / float64(read[0].L); math.Abs(l-want) > 0.5 {
				t.Errorf("up %v: the %s wall is %.1f px, to scale %.1f", up, read[i].Line, l, want)
			}
		}
		all := texts(p)
		for _, want := range []string{"walls, as measured: north 144\", east 120-1/16\", south 148\", west 118\"", "(east end)", "Where the walls lean, two lengths: north edge to south edge"} {
			if !strings.Contains(all, want) {
				t.Errorf("up %v: no %q in\n%s", up, want, all)
			}
		}
	}
}
