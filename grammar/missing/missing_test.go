package missing_test

import (
	"fmt"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/missing"
	_ "strapline/grammar/parse" // its rules
	"strapline/grammar/read"
	"strapline/grammar/speech"
)

// What a line leaves out, in a room of 163 in east-west by 134 in: the question, its choices, the first of them, and
// what an answer is added to.
func TestOf(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"light in the middle, 81 1/2 and 67", "did you mean this? [light, in the middle] light, in the middle"},
		{"light in the middle, 60 from there and 20", "light, in the middle: 60 and 20 alone could be off any wall. where is it? e.g. `26 off west` + light, in the middle"},
		{"valve 46 up, 15 from there", "valve, 46 up: 15 off which wall? [north east south west] valve, 46 up, 15 off north"},
		{"box 46 up, 6 to its bottom", "box, 46 up, 6 is to its bottom: on which wall? [north east south west] box, 46 up, on north wall"},
		{"box 20 off north, 12 to the top", "box, 20 off north: 12 is to its top. how far off west or east? e.g. `41 off west` + box, 20 off north"},
		{"switch on the east wall, 6 off the door", "switch, on east wall: 6 is off a door that is not noted. how far up? how far off north or south? e.g. `16 up 26 off north` + switch, on east wall"},
		{"speaker 30 off north 40 off west, 12 off the door", "speaker, 30 off north, 40 off west: 12 is off a door that is not noted. where is it? e.g. `26 off west` + speaker, 30 off north, 40 off west"},
		{"outlet on the north wall, 20 from there", "outlet, on north wall: 20 up, or off which wall? [up east west] outlet, 20 up, on north wall"},
		{"spot 60 cm off west and 45 from there", "light, 60 cm off west: 45 cm off which wall? [north south] light, 60 cm off west, 45 cm off north"},
		{"hatch 22 x 30, 26 off north, 14 from there to the near edge", "hatch 22 x 30, 26 off north to edge: 14 off which wall? [east west] hatch 22 x 30, 26 off north to edge, 14 off east to edge"},
		{"camera 6 down from the lid, 20 from there", "camera, 6 down: 20 off which wall? [north east south west] camera, 6 down, 20 off north"},
		{"pot in the lid, 30 from there", "light, on ceiling: 30 off which wall? [north east south west] light, 30 off north, on ceiling"},
		{"2 boxes 16 up on the north wall, 22 and 60 from there", "box, 16 up, on north wall: 22 and 60 off which wall? [east west] box, 16 up, 22 off east, on north wall; box, 16 up, 60 off east, on north wall"},
		{"theres a second can 40 from there", "light: 40 off which wall? [north east south west] light, 40 off north"},
		{"theres a second can in this line, 40 from there", "light: 40 off which wall? [north east south west] light, 40 off north"},
		{"the rec is 12 from there", "outlet: 12 off which wall? [north east south west] outlet, 12 off north"},
		{"another light same line, 40 from there", "light in line with light 1: 40 off which wall? [north east south west] light, 40 off north, 0 west of light 1"},
		{"blocking on the north wall, 60 to 48 up, 30 to 20 off west", ""}, // backwards
		{"box on the north wall and the east wall, 20 from there", ""},
		{"box on the north wall, 20 off north", ""}, // off the wall that it is in
		{"light 20 off north, 30 off south", ""},
		{"light 30 off joist 3, 20 from there", ""},
		{"need a box 20 from there", ""},
		{"is the box 20 from there", ""},
		{"the box isnt 20 from there", ""},
	} {
		if got := asked(c.said, length.Imperial); got != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.said, got, c.want)
		}
	}
	if got := asked("switch on the east wall, 150 off the door", length.Metric); !strings.Contains(got, "`400 up 660 off north`") {
		t.Errorf("metric: %s", got)
	}
}

func asked(said string, u length.Units) string {
	c := &grammar.Context{Units: u, EW: 163 * length.Inch, NS: 134 * length.Inch, Walls: map[string]place.Wall{}, Last: grammar.Last{Name: "light 1", What: "light"}}
	all := missing.Of(speech.Scan(read.CutLine(said, c)))
	if len(all) == 0 {
		return ""
	}
	var labels []string
	for _, g := range all {
		labels = append(labels, g.Label)
	}
	if all[0].Base != "" {
		return all[0].Asks + " + " + all[0].Base
	}
	return fmt.Sprint(all[0].Asks, " ", labels, " ", strings.ReplaceAll(all[0].Then, "\n", "; "))
}
