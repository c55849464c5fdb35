package plan

import (
	"testing"

	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// A room of 12 ft x 10 ft, 8 ft high: 44 ft round the ceiling, and four inside corners of 8 ft, one for each wall.
func TestEdgeJoint(t *testing.T) {
	var got length.Length
	for _, s := range []place.Surface{place.Ceiling, "north", "east", "south", "west"} {
		p := &inforce.Plan{Plane: site.Plane{Surface: s}, Layout: &layout.Layout{WallJoint: 44 * length.Foot}}
		p.In.Surface.H = 8 * length.Foot
		got += edgeJoint(p)
	}
	if want := (44 + 4*8) * length.Foot; got != want {
		t.Errorf("got %s, want %s", length.Canon(got), length.Canon(want))
	}
}
