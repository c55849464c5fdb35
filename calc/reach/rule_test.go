package reach_test

import (
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
)

// The published thresholds: a run exactly at one needs no plate, one a hair closer does.
func TestPlateThresholds(t *testing.T) {
	for _, tt := range []struct {
		kind    reach.Kind
		code    place.Code
		setback length.Length
		source  string
	}{
		{reach.Wire, place.US, in * 5 / 4, "NEC 300.4(A)(1) and (D), 2020, ecmweb.com"},
		{reach.Wire, place.Canada, 32 * mm, "CE Code 12-516, tnb.ca"},
		{reach.Wire, place.Strictest, in * 5 / 4, "NEC 300.4; 32 mm is the same nominal"},
		{reach.Pipe, place.US, in * 5 / 4, "IRC P2603.2.1, 2015 on; edition from memory"},
		{reach.Pipe, place.Strictest, in * 3 / 2, "IRC M1308.2 (2006), askcodeman.com"},
		{reach.Pipe, place.Canada, in * 3 / 2, "stands in: no Canadian value found"},
		{reach.Gas, place.US, in * 3 / 2, "IFGC 404.7, from memory"},
		{reach.Gas, place.Canada, in * 3 / 2, "stands in: no Canadian value found"},
		{reach.Gas, place.Strictest, in * 3 / 2, "IFGC 404.7, from memory"},
	} {
		for depth, want := range map[length.Length]int{0: 1, tt.setback - 1: 1, tt.setback: 0, 4 * in: 0} {
			run := southward(tt.kind, 1, 1)
			run.How, run.Depth = reach.Behind, depth
			a := reach.Check(reach.Query{Screw: in, Board: in / 2, Code: tt.code, Supports: straps(1, in*3/4), Runs: []reach.Run{run}})
			if len(a.Plates) != want {
				t.Errorf("%s %q at %d (%s): %d plates", tt.kind, tt.code, depth, tt.source, len(a.Plates))
			}
		}
		if r, ok := reach.RuleFor(tt.kind, tt.code); !ok || r.Setback != tt.setback || r.Source == "" {
			t.Errorf("%s %q: rule %+v", tt.kind, tt.code, r)
		}
	}
	for _, k := range []reach.Kind{reach.Duct, reach.HeatTube, "thing"} {
		if r, ok := reach.RuleFor(k, place.US); ok {
			t.Errorf("%s has a rule %+v", k, r)
		}
	}
}

// NEC 300.4(D) names furring strips: for a cable along one, the distance from the strip's
// nearest edge counts (ecmweb.com, whats-wrong-here-66).
func TestPlateAlongASupport(t *testing.T) {
	strap := place.Support{Lie: place.X, Pos: 32 * in, To: 144 * in, Thick: in * 3 / 4, Wide: in * 5 / 2, Measured: true}
	along := func(y, depth length.Length) reach.Run {
		return reach.Run{Kind: reach.Wire, How: reach.Behind, Depth: depth, Half: in / 4,
			Path: []place.Point{{X: 20 * in, Y: y}, {X: 80 * in, Y: y}}}
	}
	for _, tt := range []struct {
		name   string
		run    reach.Run
		plates int
		hits   int
	}{
		// The strap's edge is at 33-1/4, and a cable at 34-1/2 is 34-1/2 - 1/4 - 33-1/4 = 1 in off it.
		{"in the bay, 1 in off the strap", along(34*in+in/2, in/2), 1, 0},
		{"1-1/4 in off", along(34*in+in*3/4, in/2), 0, 0},
		{"a hair nearer", along(34*in+in*3/4-1, in/2), 1, 0},
		{"near but deep", along(34*in+in/2, in*5/4), 0, 0},
		{"north of it", along(29*in+in/2, in/2), 1, 0},
		{"behind the face", along(32*in, in/2), 1, 1},
		{"mid-bay", along(40*in, in/2), 0, 0},
	} {
		a := reach.Check(reach.Query{Screw: in * 5 / 4, Board: in / 2, Supports: []place.Support{strap}, Runs: []reach.Run{tt.run}})
		if len(a.Plates) != tt.plates || len(a.Hits()) != tt.hits {
			t.Errorf("%s: got %+v", tt.name, a)
		}
	}
	// A slanting cable passes behind the face, and is 1-1/4 in off the edge again at 59 in: one
	// plate. The strap ends at 60 in.
	strap.To = 60 * in
	slant := reach.Run{Kind: reach.Wire, How: reach.Behind, Depth: in / 2, Path: []place.Point{{X: 20 * in, Y: 28 * in}, {X: 80 * in, Y: 38 * in}}}
	a := reach.Check(reach.Query{Screw: in, Board: in / 2, Supports: []place.Support{strap}, Runs: []reach.Run{slant}})
	if len(a.Plates) != 1 {
		t.Errorf("slant: %+v", a.Plates)
	}
	slant.Path[1] = place.Point{X: 80 * in, Y: 32 * in} // ends on the centre line, beyond the strap
	a = reach.Check(reach.Query{Screw: in, Board: in / 2, Supports: []place.Support{strap}, Runs: []reach.Run{slant}})
	if len(a.Plates) != 1 {
		t.Errorf("beyond its end: %+v", a.Plates)
	}
	// A cable that comes towards the strap and ends near it does not go along it.
	end := reach.Run{Kind: reach.Wire, How: reach.Behind, Depth: in / 2, Half: in / 4, Path: []place.Point{{X: 20 * in, Y: 40 * in}, {X: 20 * in, Y: 34 * in}}}
	if a := reach.Check(reach.Query{Screw: in, Board: in / 2, Supports: []place.Support{strap}, Runs: []reach.Run{end}}); len(a.Plates) != 0 {
		t.Errorf("end of a run: %+v", a.Plates)
	}
}
