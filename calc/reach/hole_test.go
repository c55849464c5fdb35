package reach_test

import (
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
)

func TestHoles(t *testing.T) {
	round := reach.Hole{At: place.Point{X: 50 * in, Y: 50 * in}, W: 6 * in, Bit: reach.Guide}
	box := reach.Hole{At: place.Point{X: 50 * in, Y: 50 * in}, W: 4 * in, H: 2 * in, Bit: reach.Guide}
	deep := round
	deep.Bit = in * 3 / 4
	cable := func(depth length.Length, path ...place.Point) reach.Run {
		return reach.Run{Kind: reach.Wire, How: reach.Behind, Depth: depth, Half: in / 4, Path: path}
	}
	at := func(x length.Length) []place.Point { return []place.Point{{X: x}, {X: x, Y: 100 * in}} }
	for _, tt := range []struct {
		name   string
		hole   reach.Hole
		run    reach.Run
		found  bool
		state  reach.State
		beside bool
	}{
		{"cable against the board", round, cable(0, at(51*in)...), true, reach.Hit, false},
		{"cable where the bit ends", round, cable(in/8, at(51*in)...), true, reach.Hit, false},
		{"cable a hair deeper", round, cable(in/8+1, at(51*in)...), true, reach.Close, false},
		{"cable at 3/8, the margin", round, cable(in*3/8, at(51*in)...), true, reach.Close, false},
		// A cable stapled mid-bay may be 1/2 in off the board and pass inspection
		// (jlconline.com, wiring between ceiling strapping), but a bit set too deep hits it.
		{"mid-bay, bit set right", round, cable(in/2, at(51*in)...), true, reach.Clear, false},
		{"mid-bay, bit too deep", deep, cable(in/2, at(51*in)...), true, reach.Hit, false},
		{"touching the edge", round, cable(0, at(53*in+in/4)...), true, reach.Hit, false},
		{"beside the edge", round, cable(0, at(53*in+in/4+1)...), true, reach.Close, true},
		{"an inch off", round, cable(0, at(54*in+in/4)...), true, reach.Close, true},
		{"further off", round, cable(0, at(54*in+in/4+1)...), false, 0, false},
		{"ends inside", round, cable(0, place.Point{X: 50 * in, Y: 50 * in}, place.Point{X: 52 * in, Y: 50 * in}), true, reach.Hit, false},
		// Within an inch of the corner of a square hole, but not of a round one.
		{"past a round hole's shoulder", round, cable(0, place.Point{X: 53*in + in/4, Y: 53*in + in/4}), false, 0, false},
		{"box, cable over it", box, cable(0, at(52*in)...), true, reach.Hit, false},
		{"box, cable north of it", box, cable(0, place.Point{X: 0, Y: 48 * in}, place.Point{X: 100 * in, Y: 48 * in}), true, reach.Close, true},
		{"box, cable clear", box, cable(0, place.Point{X: 0, Y: 46 * in}, place.Point{X: 100 * in, Y: 46 * in}), false, 0, false},
		{"a duct about it", round, reach.Run{Kind: reach.Duct, How: reach.OnTop, Half: 3 * in, Path: []place.Point{{X: 47 * in}, {X: 47 * in, Y: 100 * in}}}, true, reach.Clear, false},
	} {
		passes := reach.Holes(tt.hole, straps(3, in*3/4), []reach.Run{tt.run}, reach.Usual())
		if len(passes) > 0 != tt.found {
			t.Errorf("%s: got %+v", tt.name, passes)
			continue
		}
		if tt.found && (passes[0].State != tt.state || passes[0].Beside != tt.beside) {
			t.Errorf("%s: got %+v", tt.name, passes[0])
		}
	}
}

func TestHoleTakesTheShallowest(t *testing.T) {
	s := straps(4, in*3/4)
	s[1].Thick = in * 5 / 8
	s[3].Thick, s[3].Measured = in/4, false
	hole := reach.Hole{At: place.Point{X: 40 * in, Y: 24 * in}, W: 6 * in, Bit: reach.Guide}
	for _, tt := range []struct {
		name    string
		change  func(*reach.Run)
		depth   length.Length
		assumed bool
	}{
		{"thinnest strap it crosses", func(*reach.Run) {}, in * 5 / 8, false},
		{"as far as the assumed one", func(r *reach.Run) { r.Path[1].Y = 64 * in }, in / 4, true},
		{"a notch", func(r *reach.Run) { r.Notched = []reach.Notch{{Support: 0, Depth: in / 8}} }, in / 8, false},
		{"crosses none: the thinnest there is", func(r *reach.Run) { r.Path = []place.Point{{X: 0, Y: 24 * in}, {X: 99 * in, Y: 24 * in}} }, in / 4, true},
		{"not said", func(r *reach.Run) { r.How = reach.NotSaid }, 0, true},
	} {
		run := southward(reach.Pipe, 1, 3)
		tt.change(&run)
		p := reach.Holes(hole, s, []reach.Run{run}, reach.Usual())
		if len(p) != 1 || p[0].Depth != tt.depth || p[0].Assumed != tt.assumed {
			t.Errorf("%s: got %+v", tt.name, p)
		}
	}
}
