package wording_test

import (
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/wording"
)

// TestChosen: some of those spoken of, by where they are, their order or their count; "" is of no choice, or has a word too many.
func TestChosen(t *testing.T) {
	c := &grammar.Context{Units: length.Imperial, Walls: map[string]place.Wall{"porch": "east"}, Spoken: func() grammar.Spoken {
		return grammar.Spoken{Room: "den", Names: []string{"light 1", "light 2", "light 3"}}
	}}
	for said, want := range map[string]string{
		"cut the 31 one and the 84 one, 4 in holes":          "den: open all lights x 1 off 31, all lights x 1 off 84",
		"cut 2 of the 3, couldn't find the one by the porch": "den: open all lights x 2 but one at east",
		"all cut but the middle one":                         "den: open all lights but middle light",
		"first two cut, last one isnt":                       "den: open first light, second light",
		"the porch side one isn't cut yet":                   "den: buried all lights x 1 at east",
		"cut both of those":                                  "den: open all lights x 2",
		"third pot cut as well now":                          "den: open third light",
		"cut both cans and the vent":                         "den: open all lights x 2, all vents x 1",
		"cut the 31 one, 84 i cant find":                     "den: open all lights x 1 off 31",
		"cut them all":                                       "", "cut 31": "", "cut 1 and 3": "", "cut me the 31 one": "", "is the 31 one cut?": "", "cut the 31 piece": "", "the 31 one is crooked": "",
	} {
		if got := wording.Chosen(c, said); got != want {
			t.Errorf("%q: %q, want %q", said, got, want)
		}
	}
}
