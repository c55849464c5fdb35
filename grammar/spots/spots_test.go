package spots_test

import (
	"slices"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/read"
	"strapline/grammar/speech"
	"strapline/grammar/spots"
)

// den is a room of 14 x 12 ft with a door in the north wall and a window in the west wall.
var den = grammar.Context{
	Units: length.Imperial, MaxWords: 3, Name: func(s string) bool { return slices.Contains([]string{"l2", "d1", "over sink", "island fan"}, s) },
	Last: grammar.Last{Wall: place.East},
	Seen: map[string]place.Wall{"door": place.North, "window": place.West}, EW: 168 * length.Inch, NS: 144 * length.Inch,
}

func of(said string) *spots.Meaning { return spots.Of(speech.Scan(read.CutLine(said, &den))) }

// meaning is what a text means, in one line: its readings, or the question with what the answer is added to.
func meaning(said string) string {
	m := of(said)
	switch {
	case m == nil:
		return ""
	case m.Base != "":
		return m.Base + " ? " + m.Why
	}
	var all []string
	for _, r := range m.Readings {
		text := strings.Join(r.Lines, "\n")
		if r.Label != "" {
			text = r.Label + ": " + text
		}
		all = append(all, text)
	}
	return strings.Join(all, " | ")
}

// TestMeans: what is said of things in crews' words; the lines are invented.
func TestMeans(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"6 inch round duct crosses at 9 foot off the west end", "duct 6 inch, 9 foot off west"}, // a word too many
		{"got a pot over the sink there, 26 in from west and 41 from north", "light over sink, 26 in off west, 41 off north"},
		{"fan 12x12 centred in the room", "fan 12 x 12, in the middle"},
		{"pot 45 off the west wall, centred the other way", "light, 45 off west, in the middle"},
		{"window starts 40 from west, 36 wide 48 tall, sill at 36", "window 36 x 48, 40 off west, 36 up"},
		{"light in the hall 20 off west 30 off north", ""},
		{"light 26 off west or 28 off west", ""},
		{"two lights 26 off west 12 40 off north", ""}, // a number too many
		{"3 pots: 30 off west 30 off north, 30 off west 30 off south and 30 off east 30 off north",
			"light, 30 off west, 30 off north\nlight, 30 off west, 30 off south\nlight, 30 off east, 30 off north"},
		{"4 pots: 30 off west 30 off north, 30 off west 30 off south",
			"light, 4 of them, 30 off west, 30 off north, 30 off west, 30 off south ? that is 2 of the lights: where are the others? e.g. `60 off west`"},
		// Several of a kind.
		{"outlets all 16 to centre: north wall 18 in and 9'4 from the west corner, east wall 5'3 from the N corner",
			"outlet, 18 in off west, 16 up, on north wall\noutlet, 9'4 off west, 16 up, on north wall\noutlet, 5'3 off north, 16 up, on east wall"},
		{"two lights, 3 ft off the north wall, one 3 ft from the west wall and the other 3 ft from the east",
			"light, 3 ft off west, 3 ft off north\nlight, 3 ft off east, 3 ft off north"},
		{"lights on the centre line, 4', 9'6 and 15' from the north end", "light, 4' off north, in the middle\nlight, 9'6 off north, in the middle\nlight, 15' off north, in the middle"},
		{"lights on the centre line, 4' 9'6 and 15' from the north end", "light, 4' off north, in the middle\nlight, 9'6 off north, in the middle\nlight, 15' off north, in the middle"},
		{`two boots 4x12, one 10" off the east wall 5' off north, the other 10" off the west wall same distance`,
			"duct 4 x 12, 10\" off east, 5' off north\nduct 4 x 12, 10\" off west, 5' off north"},
		{"4 pots, 6 inch, corners of the room 3 ft off each wall",
			"light 6 inch, 3 ft off north, 3 ft off west\nlight 6 inch, 3 ft off north, 3 ft off east\nlight 6 inch, 3 ft off south, 3 ft off west\nlight 6 inch, 3 ft off south, 3 ft off east"},
		{"3 pots 3 ft off each wall", ""}, // which corners?
		{"pots 3 ft off each wall", ""},   // how many?
		{"box north wall 18 from the west corner, 40 off south", ""},
		{"light ate 90 off west 41 off north", ""},
		{"light less 26 off west 41 off north", ""},
		{"pot 26 in from the left, 41 off north", ""},
		// Ends, corners, sides.
		{"recep each end of the south wall, 18 off the corner, 16 up", "outlet, 18 off west, 16 up, on south wall\noutlet, 18 off east, 16 up, on south wall"},
		{"2 speakers on the lid 4 foot in from the north, 3 foot off each side wall", "speaker, 3 foot off west, 4 foot off north\nspeaker, 3 foot off east, 4 foot off north"},
		{"a pair of sconces either side of the window 12 off it 66 up", "light, 12 south of window, 66 up, on west wall\nlight, 12 north of window, 66 up, on west wall"},
		{"outlet 12 to the right of the window, 16 up", "outlet, 12 north of window, 16 up, on west wall"},
		{"switch 10 left of the door 48 up", "switch, 10 west of door, 48 up, on north wall"},
		{"recs n wall 24 and 80 off w, all at 16", "outlet, 24 off west, 16 up, on north wall\noutlet, 80 off west, 16 up, on north wall"},
		{"cans 2 and 4 foot off the north, 30 off west", "light, 30 off west, 2 foot off north\nlight, 30 off west, 4 foot off north"},
		{"cans 2 foot and 40 off the north, 30 off west", ""}, // feet or inches?
		// Rows.
		{"4 cans, 2 rows of 2, 6 foot apart, first one 42 off west 36 off north",
			"light, 42 off west, 36 off north\nlight, 114\" off west, 36 off north\nlight, 42 off west, 108\" off north\nlight, 114\" off west, 108\" off north"},
		{"row of 2 pots 36 apart, 30 off north, first one 18 off west", "light, 18 off west, 30 off north\nlight, 54\" off west, 30 off north"},
		{"2 pots 36 apart, starting 18 off west 30 off north, going south", "light, 18 off west, 30 off north\nlight, 18 off west, 66\" off north"},
		{"2 pots 36 apart, starting 18 off west 30 off north, going north", ""}, // through the wall
		{"2 pots 36 apart, 18 off west 30 off north", "rows east-west: light, 18 off west, 30 off north\nlight, 54\" off west, 30 off north | rows north-south: light, 18 off west, 30 off north\nlight, 18 off west, 66\" off north"},
		{"2 pots 10 foot apart, 60 off west 18 off north", "light, 60 off west, 18 off north\nlight, 60 off west, 138\" off north"}, // no room the other way
		{"three lights spaced evenly between the west wall and the east wall 72 off north", "light, 28\" off west, 72 off north\nlight, 84\" off west, 72 off north\nlight, 140\" off west, 72 off north"},
		{"2 cans 5 foot apart one way and 4 the other", ""},
		// Landmarks.
		{"valve behind the toilet north wall 8 up, 40 off west", "valve behind toilet, 8 up, 40 off west, on north wall"},
		{"recep left of the window east wall 16 up 42 off the south corner", "outlet window left, 16 up, 42 off south, on east wall"},
		{"vent top of the stairs ceiling 20 off east 30 off south", "vent stairs top, 20 off east, 30 off south"},
		{"light 12 off the hearth, 30 off north", ""}, // off what nobody noted
		{"flex duct lays in bay 5 from the west", ""},
		{"light between light 1 and the east wall, 30 off north", ""},
		// Sizes.
		{"big fat duct 6 round in the lid 40 off west 50 off north", "duct 6\", 40 off west, 50 off north"},
		{"a 4 by 14 reg in the ceiling, 10 off the east wall 60 off north", "vent 4 x 14, 10 off east, 60 off north"},
		{"3 gang switch box on the north wall 48 up, 14 off west", "box triple gang switch, 48 up, 14 off west, on north wall"},
		{"2-gang box, east wall, 48 up, 6 off north", "double gang box, 48 up, 6 off north, on east wall"},
		{"duct 14 wide 8 deep on the south wall, 12 up, 40 off east", "duct 14 x 8, 12 up, 40 off east, on south wall"},
		{"8 inch round hole for duct, lid, 30 off north, 40 off west", "duct 8 inch, 40 off west, 30 off north"},
		// The middle, and the wall that was said.
		{"tv box centre of the south wall 60 high", "box tv, 60 up, halfway east-west, on south wall"},
		{"box centered on that wall 72 up", "box, 72 up, halfway north-south, on east wall"},
		{"light centred east west, 40 off north", "light, 40 off north, halfway east-west"},
		// What is missing is asked for.
		{"switch on the south wall", "switch, on south wall ? how far up, and how far off which corner? e.g. `48 up 60 off west`"},
		{"2 outlets on the south wall 16 up", "outlet, 2 of them, 16 up, on south wall ? how far off which corner is each? e.g. `60 off west`"},
		{"2 outlets on the south wall 16 up 20 off west", "outlet, 2 of them, 20 off west, 16 up, on south wall ? that is 1 of the outlets: where are the others? e.g. `60 off west`"},
		{"door on the east wall 32 wide 80 tall", "door 32 x 80, on east wall ? how far off which corner? e.g. `60 off north`"},
		{"hatch in the ceiling", "hatch, on ceiling ? how far off which two walls? e.g. `26 off west 41 off north`"},
		{"pots in the corners", "light ? how far off the walls, in each corner? e.g. `30 off each wall`"},
		// Several kinds.
		{"switch on the north wall 6 off west 48 up and an outlet under it at 16", "switch, 6 off west, 48 up, on north wall\noutlet, 6 off west, 16 up, on north wall"},
		{"valve 20 up and cleanout 8 up, both north wall 30 off east", "valve, 20 up, 30 off east, on north wall\ncleanout, 8 up, 30 off east, on north wall"},
		{"on the west wall a box 60 up and an outlet 16 up, both 40 off north", "box, 60 up, 40 off north, on west wall\noutlet, 16 up, 40 off north, on west wall"},
		{"box and a vent on the lid, box 20 off west 30 off north, vent 40 off west 30 off north", "box, 20 off west, 30 off north\nvent, 40 off west, 30 off north"},
		{"recep 30 off north and a switch above it at 48", "east wall: outlet, 30 off north, on east wall\nswitch, 30 off north, 48 up, on east wall | west wall: outlet, 30 off north, on west wall\nswitch, 30 off north, 48 up, on west wall"},
		{"light 26 off west 41 off north and a fan", ""}, // the fan's place is not the light's
		{"switch and a thermostat on the north wall 8 off west, switch at 48, thermostat at 60", "switch, 8 off west, 48 up, on north wall\nthermostat, 8 off west, 60 up, on north wall"},
		{"vent 8 up and box 16 up, vent 20 off west, box 50 off west, both on the south wall", "vent, 20 off west, 8 up, on south wall\nbox, 50 off west, 16 up, on south wall"},
		{"outlet and a data box side by side on the east wall, 18 up, 30 and 36 off north", "outlet, 30 off north, 18 up, on east wall\nlow voltage, 18 up, 36 off north, on east wall"},
		{"vent 6 up and an outlet 16 up on the east wall 20 off north and 40 off north", "vent, 6 up, 20 off north, on east wall\noutlet, 16 up, 40 off north, on east wall"},
		{"box 60 up with a recep right below it at 16, east wall 70 off north", "box, 70 off north, 60 up, on east wall\noutlet, 70 off north, 16 up, on east wall"},
		{"light 20 off west 20 off north and a fan 40 and 60 off north", ""}, // which is the fan's?
		// Told apart, in corners, by rows.
		{"got two more cans, both 44 in from the south wall, one at 3 ft from the west and the other at 9 ft", "light, 3 ft off west, 44 in off south\nlight, 9 ft off west, 44 in off south"},
		{"couple pot lights, both 5 foot off the north, one 4 foot off west and one 4 foot off east", "light, 4 foot off west, 5 foot off north\nlight, 4 foot off east, 5 foot off north"},
		{"a speaker in each of the two north corners, 18 off both walls", ""},
		{"each 6 and 17 off the west, 48 up, 3 hooks", ""}, // no spacing of 6
		{"2 rows of 2 pots, first row 3 ft off the north, second row 3 ft off the south, spaced 6 foot starting 4 ft off the west", "light, 4 ft off west, 3 ft off north\nlight, 120\" off west, 3 ft off north\nlight, 4 ft off west, 3 ft off south\nlight, 120\" off west, 3 ft off south"},
		{"four sprinklers, 6 foot on centre both ways, first 3 foot off the east and 3 foot off the north", "sprinkler, 3 foot off east, 3 foot off north\nsprinkler, 108\" off east, 3 foot off north\nsprinkler, 3 foot off east, 108\" off north\nsprinkler, 108\" off east, 108\" off north"},
		{"three sprinklers, 6 foot on centre both ways, first 3 foot off the east and 3 foot off the north", ""},
		{"8 lights in two even rows", "east-west: light, 4 x 2 even | north-south: light, 2 x 4 even"},
		// A hand of an opening, a landmark that centres nothing, a hole by its size.
		{"12 from the left side of the window, outlet, 16 up", "outlet, 12 south of window, 16 up, on west wall"},
		{"outlet 6 off the window casing, 16 up, right side", "outlet, 6 north of window, 16 up, on west wall"},
		{"switch 6 off the door jamb 48 up", "west of it: switch, 6 west of door, 48 up, on north wall | east of it: switch, 6 east of door, 48 up, on north wall"},
		{"pendant centred over the table 60 off west 70 off north", "light over table, 60 off west, 70 off north"},
		{`6" round for the range hood comes out the north wall, center 4'3 from the west, 80 off the floor`, `duct for range hood, 6", 4'3 off west, 80 up, on north wall`},
		{"2 gang 48 high on the north wall 20 off east", "double gang box, 48 up, 20 off east, on north wall"},
		{"shutoff in the south wall 12 up 20 off west, has to stay reachable", "valve, 12 up, 20 off west, on south wall"},
		{"switch by the door", "switch by door, on north wall ? how far up, and how far off which corner of the north wall? e.g. `48 up 60 off west`"},
		// To its near edge, which is not dropped; a part of it that no distance can be to is no place.
		{"12 x 12 vent in the lid, near edge 20 off west 30 off north", "vent 12 x 12, 20 off west to edge, 30 off north to edge"},
		{"hatch 22x30 20 off west 40 off north to the near edges", "hatch 22 x 30, 20 off west to edge, 40 off north to edge"},
		{"pot, near edge 20 off west 30 off north", ""}, {"box, bottom of it 16 up 20 off west on the south wall", ""},
		{"outlet 16 up to the bottom, 20 off west south wall", ""}, {"hatch 22x30, far edge 20 off west 40 off north", ""},
		{"speaker between the studs, 30 off west 40 off north", "speaker between studs, 30 off west, 40 off north"},
		{"two lights on the centreline 4 and 9 foot off the west wall", "light, 4 foot off west, in the middle\nlight, 9 foot off west, in the middle"},
		// Which of two, or of several.
		{"4 pots 30 off each wall 40 off every corner", ""}, {"a pot 30 and 60 off west, 20 off north", ""},
		{"light over sink 26 off west by door 41 off north", ""}, {"light 60 west 100 north", ""},
		// Its number.
		{"number 3 can 40 off west 50 off north", "light l3, 40 off west, 50 off north"},
		// A number and what stands behind it.
		{"2nd pot 26 off west 41 off north", "light second, 26 off west, 41 off north"}, {"3 pots 16s, first 26 off west 41 off north", ""},
		{"pot 26 and a half off west 41 off north", "light, 26 and a half off west, 41 off north"}, {"pots 26 and 40 off west, 41 off north", "light, 26 off west, 41 off north\nlight, 40 off west, 41 off north"},
		{"for the fridge a plug, 12 off west 40 up on the south wall", "outlet for fridge, 12 off west, 40 up, on south wall"},
		// Some of them, and the others: their own distances in place of the same ones.
		{"four pots, 40 off west for two of them, 30 off each wall", ""},
		{"4 pots, two of em 30 off north and 36 off each side, other two same thing but 24 off south",
			"light, 36 off west, 30 off north\nlight, 36 off east, 30 off north\nlight, 36 off west, 24 off south\nlight, 36 off east, 24 off south"},
		{"4 pots: 30 off the north wall and 3 ft in from each side for two of em, the other two same but off the south wall",
			"light, 3 ft off west, 30 off north\nlight, 3 ft off east, 30 off north\nlight, 3 ft off west, 30 off south\nlight, 3 ft off east, 30 off south"},
		{"4 cans, two of them 36 and 90 off west, the other two 40 and 100 off west, all 30 off north",
			"light, 36 off west, 30 off north\nlight, 90 off west, 30 off north\nlight, 40 off west, 30 off north\nlight, 100 off west, 30 off north"},
		{"5 pots, two of em 30 off north and 36 in from each side, other two same but off south", ""},
		{`two 6" cans 30 off north, 40 and 80 off west`, "light 6\", 40 off west, 30 off north\nlight 6\", 80 off west, 30 off north"},
		{"pots x3 on the centreline 70 off north, 20, 60 and 100 off west", "light, 20 off west, 70 off north\nlight, 60 off west, 70 off north\nlight, 100 off west, 70 off north"},
		// Beside an opening, or what is not noted; the middle of that is none of the room.
		{"sconces on the west wall 66 up, 30 either side of the window", "light, 30 south of window, 66 up, on west wall\nlight, 30 north of window, 66 up, on west wall"},
		{"2 sconces on the west wall 66 up, 30 each side of the middle", `light, 42" off north, 66 up, on west wall` + "\n" + `light, 42" off south, 66 up, on west wall`},
		{"3 gang 48 up, 6 from the door opening on the west side", "box triple gang, 6 west of door, 48 up, on north wall"},
		{"box 48 up, 6 south of the door", ""}, // along no wall that it is in
		{"outlet 42 to center, 46 off west", "north wall: outlet, 42 up, 46 off west, on north wall | south wall: outlet, 42 up, 46 off west, on south wall"},
		{"light 78 up centred on the sink, sink center is 30 from the west wall", "north wall: light by sink, 78 up, 30 off west, on north wall | south wall: light by sink, 78 up, 30 off west, on south wall"},
		{"box in the middle of the dormer ceiling", ""}, {"switch by the hatch 48 up, 6 off the frame, on east wall", ""},
		{"garage door motor outlet on the lid, 20 off west 30 off north", "outlet door motor, 20 off west, 30 off north"},
		// What no place can be told from.
		{"light not 26 off west 41 off north", ""}, {"put the light 26 off west 41 off north", ""}, {"light 26 off west to 41 off north", ""},
		{"light 26 off west 41 off north 12", ""}, {"light in the pantry 20 off west 30 off north", ""}, {"light one 26 off west 41 off north", ""},
		{"light lunch at 12", ""}, {"sheets 26 off west 41 off north", ""}, {"light 26 off north west", ""},
	} {
		if got := meaning(c.said); got != c.want {
			t.Errorf("%q: %q, want %q", c.said, got, c.want)
		}
	}
}

// TestExtents: from here to there, up and along a wall, is a size and the distances to the near edges.
func TestExtents(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"nogging 33 to 37 up, full width of the north wall", `blocking 168" x 4", halfway east-west, 33" up to edge, on north wall`},
		{"2x10 backing from 48 to 58 high across the whole east wall", `blocking 144" x 10", halfway north-south, 48" up to edge, on east wall`},
		{"rail backing on the east wall, 32 to 38 off the floor, from 10 to 50 off the north corner", `blocking rail, 40" x 6", 10" off north to edge, 32" up to edge, on east wall`},
		{"backing on the east wall 30 up to 72 up, 20 in from the north corner to 80 in", `blocking 60" x 42", 20" off north to edge, 30" up to edge, on east wall`},
		{"shelf backing bottom at 60 top at 72, whole south wall", `blocking shelf, 168" x 12", halfway east-west, 60" up to edge, on south wall`},
		{"2x6 blocking all along the south wall at 36 up", `blocking 168" x 5-1/2", halfway east-west, 36 up, on south wall`},
		{"blocking 64 up all along the west wall, 4 high", `blocking 144" x 4", halfway north-south, 64 up, on west wall`},
		{"blocking 64 up all along the west wall", "blocking, full length, 64 up, on west wall ? how high is the blocking itself? e.g. `5-1/2 high`"},
		{"blocking full length on the west wall", "blocking, full length, on west wall ? from how far up to how far up? e.g. `34 to 37-1/2 up`"},
		{"blocking 40 to 46 up on the south wall", "blocking, 40 to 46 up, on south wall ? from how far to how far off west or east? e.g. `10 to 48 off west`, or `full length`"},
		{"box 20 off north 30 off west, blocking 64 up all along the west wall", "box, 20 off north, 30 off west and blocking, full length, 64 up, on west wall ? blocking, full length, 64 up, on west wall: how high is the blocking itself? e.g. `5-1/2 high`"},
		{"blocking 40 to 46 up, 20 to 50 off west", `north wall: blocking 30" x 6", 20" off west to edge, 40" up to edge, on north wall | south wall: blocking 30" x 6", 20" off west to edge, 40" up to edge, on south wall`},
		{"nogging 78-87 up on the east wall full width", `blocking 144" x 9", halfway north-south, 78" up to edge, on east wall`},
		{"light 6-8 off west 3-2 off north", "light, 6-8 off west, 3-2 off north"}, // feet and inches
		{"2x8 blocking on the flat at 35 up on the whole north wall", `blocking 168" x 7-1/4", halfway east-west, 35 up, on north wall`},
		// Nothing of it is left out.
		{"blocking 40 to 46 up, 30 off west, on the south wall", ""}, {"blocking 40 to 40 up, whole south wall", ""}, {"blocking 40 to 46 up whole south wall 20 to 30 off west", ""},
		{"blocking 40 to 46 up, 20 off north to 50, on the north wall", ""}, {"blocking 40 to, whole south wall", ""}, {"3/4 blocking 40 to 46 up, whole south wall", ""},
		{"blocking 40 up 46 up, whole south wall", ""}, {"2 blockings 40 to 46 up, whole south wall", ""}, {"blocking 40 up to 50 off west, whole south wall", ""},
	} {
		if got := meaning(c.said); got != c.want {
			t.Errorf("%q:\n got %q\nwant %q", c.said, got, c.want)
		}
	}
}

// TestRows: each row by its own distance, or by the first and how far on, about the middle, or off both walls.
func TestRows(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"six pots, two rows of three, first row 30 off north and the second 90, starting 24 off west then every 48", "24, 72\", 120\" off west, by 30, 90 off north"},
		{"pots six pieces, two rows of three, first row 30 off north and next 90, starting 40 off west then each 40", "40, 80\", 120\" off west, by 30, 90 off north"},
		{"eight pots in 2 rows of 4, rows at 36 and 108 off south, first one 20 off east and 40 between", "20, 60\", 100\", 140\" off east, by 36, 108 off south"},
		{"pots: first row 2 ft off north, second row 8 ft, three in each, start 2 ft from the west wall and 5 ft apart", "2 ft, 84\", 144\" off west, by 2 ft, 8 ft off north"},
		{"6 pots, 3 per row, rows 30 off north and 30 off south, 24, 72 and 120 off west", "24, 72, 120 off west, by 30 off north, 30 off south"},
		{"four pots, 2 x 2, 36 from the north and south walls and 40 from the east and west", "40 off east, 40 off west, by 36 off north, 36 off south"},
		{"four pots, 30 off north and 30 off west, 40 between them each way", "30, 70\" off west, by 30, 70\" off north"},
		{"4x pots, 20 off east and west, 36 apart other way, centred", "20 off east, 20 off west, by 54\", 90\" off north"},
		{"three pots down the middle, first 30 off west then every 48", "30, 78\", 126\" off west, in the middle the other way"},
		{"pots run down the middle, 1st at 36 from the north end and 48 after that, 3 of em", "36, 84\", 132\" off north, in the middle the other way"},
		{"3 pots down the middle, 30 apart", "rows east-west: light, 54\" off west, in the middle\nlight, 84\" off west, in the middle\nlight, 114\" off west, in the middle | rows north-south: light, in the middle, 42\" off north\nlight, in the middle, 72\" off north\nlight, in the middle, 102\" off north"},
		{"6 pots 20 off east and west, 36 apart", "light, 2 rows of 3, 36 apart, 20 off east, 20 off west ? how far is the first of each row off which other wall? e.g. `30 off north`"},
		{"4 outlets on the west wall, 16 up, first 12 off north then every 36", "outlet, 12 off north, 16 up, on west wall\noutlet, 48\" off north, 16 up, on west wall\noutlet, 84\" off north, 16 up, on west wall\noutlet, 120\" off north, 16 up, on west wall"},
		{"two speakers 2 foot off north, one at 3 foot and the other at 9 foot off west", "speaker, 3 foot off west, 2 foot off north\nspeaker, 9 foot off west, 2 foot off north"},
		{"plug 30 up on the east wall, 45 from the north corner, and another 100 from the same corner", "outlet, 45 off north, 30 up, on east wall\noutlet, 100 off north, 30 up, on east wall"},
		{"six pots, row one is 30 off north, row two at 90, three a row, 24 off west then each 40", "24, 64\", 104\" off west, by 30, 90 off north"},
		{"junction box 16 off north 22 off east, must keep access", "junction box, 22 off east, 16 off north"},
		// The side walls are both of them, and so are the ends.
		{"2 hooks, each 40 off the side walls, and 60 from the north wall", "hook, 40 off west, 60 off north\nhook, 40 off east, 60 off north"},
		{"fan in the center, 4 cans 30 off each side wall and 48 off the ends", "fan, in the middle\nlight, 48 off west, 30 off north\nlight, 48 off west, 30 off south\nlight, 48 off east, 30 off north\nlight, 48 off east, 30 off south"},
		{"box in the middle, a smoke 14 in from the north wall, 30 from the west wall", "box, in the middle\nsmoke alarm, 30 off west, 14 in off north"},
		{"six pots, two rows of three, first row 30 off north and the second 90", "light, 2 rows of 3, 30 off north, 90 off north ? how far is the first of each row off which other wall, and how far apart are they? e.g. `24 off west, 48 apart`"},
		{"three pots, first 30 off west, then 48 and 50", ""}, {"pot 30 off west, the next 20", ""},
	} {
		got := meaning(c.said)
		if m := of(c.said); m != nil && m.Readings != nil && m.Readings[0].Short != "" && len(m.Readings) == 1 {
			got = m.Readings[0].Short
		}
		if got != c.want {
			t.Errorf("%q:\n got %q\nwant %q", c.said, got, c.want)
		}
	}
}

// TestSure: each word of the first has a part in it; the others have a word too many, or may be meant otherwise.
func TestSure(t *testing.T) {
	for said, want := range map[string]bool{
		"got a pot over the sink there, 26 in from west and 41 from north": true, "kitchn light, 26 in from west 41 from north": false,
		"pot 26 in from west 41 from north on": false, "6 round duct on the west wall, 20 up, 30 off north": true,
		"fan box 26 off west 41 off north": true, "pots 26 in from west 41 from north": false, "pot right about there, 26 off west 41 off north": false, "pot 26 west 41 off north": false,
		"pot 26 off west 41 off north leftish": false, "box on that wall 60 up 20 off north": true, "4 box on the east wall 60 up 20 off north": false,
	} {
		m := of(said)
		if got := m != nil && m.Sure; got != want {
			t.Errorf("%q: sure %v, want %v", said, got, want)
		}
	}
}

// TestMetric: inches in a metric job are asked about, not dropped.
func TestMetric(t *testing.T) {
	metric := den
	metric.Units = length.Metric
	if m := spots.Of(speech.Scan(read.CutLine("4 pots 30 in off each side wall and 36 off the ends", &metric))); m != nil {
		t.Errorf("%+v", m)
	}
}
