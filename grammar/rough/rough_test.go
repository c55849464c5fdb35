package rough_test

import (
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/read"
	"strapline/grammar/rough"
	"strapline/grammar/speech"
)

// den is a job whose sender is in a room of 14 ft east-west by 12 ft.
var den = grammar.Context{Units: length.Imperial, EW: 14 * length.Foot, NS: 12 * length.Foot}

// Of each line what it may mean, "?" after what is not sure; alternatives stand between bars. The lines are
// invented.
func TestOf(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		// Up a wall.
		{"main stack goes up the north wall 31 from the east corner, 3 inch", "pipe 3 inch, on north wall, 31 off east from 0 up to 0 down"},
		{"two 1/2 coppers up the south wall 30 and 38 from the west side",
			"pipe 1/2, on south wall, 30 off west from 0 up to 0 down; pipe 1/2, on south wall, 38 off west from 0 up to 0 down?"},
		{"pex up the west wall 16 off the north, 3/4 behind the face", "pipe, on west wall, 16 off north from 0 up to 0 down, depth 3/4"},
		{"1 1/2 vent goes straight up 55 off the east on the south wall", "pipe 1 1/2, on south wall, 55 off east from 0 up to 0 down"},
		{"drain comes up through the floor 14 off the west wall", "pipe, on north wall, 14 off west from 0 up to 0 down? | pipe, on south wall, 14 off west from 0 up to 0 down?"},
		{"stack goes up the north wall", "pipe, on north wall from 0 up to 0 down"}, // how far along is asked
		{"cable runs along the east wall 24 up", "wire, on east wall, from 24 up 0 off north to 24 up 0 off south"},
		{"2 inch vent comes down thru the lid 7 1/2 off the south wall", ""},
		{"stack of board by the north wall", ""},
		// Along supports, and between two.
		{"romex runs along the third strap", "wire, on strap 3, full length"},
		{"1/2 pipe follows the 2nd joist from the north wall to 4 foot off the south", "pipe 1/2, on joist 2 from 0 off north to 4 foot off south"},
		{"wire down the bay between joist 2 and 3", "wire, between joist 2 and joist 3, full length"},
		{"gas line in the joist bay between 4 and 5", "gas, between joist 4 and joist 5, full length"},
		{"wire between joist 2 and 5", ""}, // no bay
		{"flex duct lays in bay 5 from the west gable", ""},
		{"duct 7 south of strap 3", ""},
		// Across, short of a wall, and bends.
		{"half inch pex runs all across, 40 off north", "pipe half inch, 40 off north from 0 off west to 0 off east"},
		{"pipe runs 40 off west", "pipe, 40 off west from 0 off north to 0 off south?"}, // it may end before
		{"3 inch drain along the north wall 9 off", "pipe 3 inch, 9 off north from 0 off west to 0 off east?"},
		{"copper crosses at 62 off the west, on top of strapping", "pipe, 62 off west from 0 off north to 0 off south, on top of the straps"},
		{"drain 3 inch runs north to south 80 off west, 40 deep", "pipe 3 inch, 80 off west from 0 off north to 0 off south, depth 40"},
		{"pex runs 30 off west, 2 above the straps", "pipe, 30 off west from 0 off north to 0 off south, depth 2?"},
		{"pex runs east to west 30 off west", "keep"}, // not both
		{"pipe crosses parallel to the north wall, 9 off it", "pipe, 9 off north from 0 off west to 0 off east"},
		{"water line runs 30 off the west but stops 3 foot shy of the south wall", "pipe, 30 off west from 0 off north to 3 foot off south"},
		{"pipe crosses at 60", "pipe, 60 off north from 0 off west to 0 off east? | pipe, 60 off east from 0 off north to 0 off south? | " +
			"pipe, 60 off south from 0 off west to 0 off east? | pipe, 60 off west from 0 off north to 0 off south?"},
		{"cable comes in at the west wall 40 off the north, goes over 6 foot then turns south to the wall",
			"wire, from 40 off north, 0 off west through 40 off north, 6 foot off west to 0 off south, 6 foot off west"},
		{"pipe starts 2 foot off the west wall, runs east 6 foot, 30 off the north", `pipe, from 30 off north, 2 foot off west to 30 off north, 96" off west`},
		{"the plumber ran a line 30 off the west, straight across", "pipe, 30 off west from 0 off north to 0 off south?"},
		{"somebody ran a line 30 off the west, straight across", "pipe, 30 off west from 0 off north to 0 off south? | wire, 30 off west from 0 off north to 0 off south?"}, // of what?
		{"the 3/4 line runs beside joist 7", "pipe 3/4, on joist 7, full length?"},
		{"2 pex lines rise in the east wall at 18 and 21 off the south corner", "pipe, on east wall, 18 off south from 0 up to 0 down; pipe, on east wall, 21 off south from 0 up to 0 down?"},
		{"3 wires together running ew, 20 off north", "wire, 20 off north from 0 off west to 0 off east?"},
		{"hot n cold come up 30 n 36 from the west on the south wall", "pipe, on south wall, 30 off west from 0 up to 0 down; pipe, on south wall, 36 off west from 0 up to 0 down?"},
		{"cable sits in the bay between the fourth and fifth strap", "wire, between strap 4 and strap 5, full length"},
		{"pipes in the joist space 6 to 7", "pipe, between joist 6 and joist 7, full length"},
		{"heads up wire runs right across at 22 from the north", "wire, 22 off north from 0 off west to 0 off east"},
		{"wire goes from the north wall out 5 feet then west to the wall", ""}, // 5 feet off what?
		{"pipe crosses 40 off west near the chimney", "pipe, 40 off west from 0 off north to 0 off south?"},
		{"plumber moved his line, its 30 off the west now, straight across", ""},
		{"pipe ate 90 off west, straight across", ""}, // may be a part of the number
		{"there's a 14-2 the whole length of the room 2 foot off the north", "wire, 2 foot off north from 0 off west to 0 off east"},
		{"two half inch lines up the east wall, 40 and 46 off north", "pipe half inch, on east wall, 40 off north from 0 up to 0 down; pipe half inch, on east wall, 46 off north from 0 up to 0 down?"},
		{"supply duct up the north wall 22 from the west", "duct run, on north wall, 22 off west from 0 up to 0 down"},
		{"stack goes up through the ceiling, 30 off the north and 40 off the west", ""},
		{"stack goes up through the lid, 30 off the east, 40 off the west", ""}, // one point, not two runs
		{"can 40 off the east, same line as the last, straight across", ""},
		{"can 40 off the east, in line, straight across", ""},
		{"pipes notched in the joists 30 off the west wall, straight across", "pipe, 30 off west from 0 off north to 0 off south?"},
		{"pipe 7 south of strap 3, straight across", ""},
		{"pipe in the hall 20 off west, straight across", ""},
		{"soil pipe 110mm, north wall, 300 from the east corner, floor to ceiling", "pipe 110mm, on north wall, 300 off east from 0 up to 0 down"},
		{"pipe starts 2 foot off the west wall, 30 off the north, goes east 6 foot then north 12", "pipe, from 30 off north, 2 foot off west through 30 off north, 96\" off west to 18\" off north, 96\" off west"},
		{"pipe starts 2 foot off the west wall, 30 off the north, goes north 40", ""}, // out of the room
		{"10 awg cable up the west wall 3' from north", "wire, on west wall, 3' off north from 0 up to 0 down?"},
		{"14-3 runs down joist 2 to 5 foot off the south wall", "wire, on joist 2 from 0 off north to 5 foot off south"},
		{"1/2 copper 18 off the east, north wall to 3 foot short of the south wall", "pipe 1/2, 18 off east from 0 off north to 3 foot off south"},
		{"wire leaves the east wall at 60 off the south, goes west 7 foot", `wire, from 60 off south, 0 off east to 60 off south, 84" off east`},
		{"main duct runs n-s dead centre of the room", `duct run, 84" off west from 0 off north to 0 off south?`},
		{"the hvac guys ran an 8 inch duct ns, 4 ft off the west", "duct run 8 inch, 4 ft off west from 0 off north to 0 off south"},
		// Framing.
		{"straps ew 16 oc, first 14-3/8 off north", "straps ew 16 oc, first 14-3/8 off north"}, // no cable
		{"height's really 7 10 and a half measured at the closet", "ceiling height 7' 10 and a half"},
		{"strapping goes east west at 16, first one is 14 1/2 off the north wall", "straps ew 16 oc, first 14 1/2 off north"},
		{"joists 24 apart running north south", "joists ns 24 oc"},
		{"strap 6 isnt at 80 its at 81 1/2", ""}, // a correction
		{"strap 1 at 0, 2 at 16, 3 at 32, 4 at 48", "straps at 0, 16, 32, 48"},
		{"first joist at 9 then 16s", "joists 16 oc, first 9"},
		{"studs on the north wall start 14 3/8 from the east corner and go 16", "studs 16 oc, first 14 3/8 off east on north wall"},
		{"2x4 strapping 16 oc ew", "straps ew 16 oc, 1-1/2 thick, 3-1/2 wide? | straps ew 16 oc, 3-1/2 thick, 1-1/2 wide?"},
		{"all the walls are framed at 16s", `studs 16 oc, first 15-1/4" off west on north wall; studs 16 oc, first 15-1/4" off north on east wall; ` +
			`studs 16 oc, first 15-1/4" off west on south wall; studs 16 oc, first 15-1/4" off north on west wall?`},
		{"2x6 studs 24 on centre west wall first 23 from north", "studs 24 oc, first 23 off north, 5-1/2 thick, 1-1/2 wide on west wall"},
		{"joists run n-s, 16 centers, first one off the west is 14 and a half", "joists ns 16 oc, first 14 and a half off west"},
		{"there are 9 straps 16 apart first at 12 from the north", "straps 16 oc, first 12 off north"},
		{"joists are on 16s but the last bay by the east wall is only 9", "joists 16 oc + rest?"},
		{"1x3 straps at 16s starting from the west", "straps ns 16 oc, 3/4 thick, 2-1/2 wide"}, // where the first is is asked
		{"first strap tight to the north wall, next one centred 16 off that and so on", `straps 16 oc, first 1-1/4" off north?`},
		{"strap 6 isnt at 80 its at 81 1/2, had to dodge a bracket", ""},
		{"strapping is 3/4 thick, 16 apart, east west", "straps ew 16 oc, 3/4 thick"},
		{"strapping every 16 lengthwise", "straps ew 16 oc"},
		{"straps ew at 16, first off north", ""},
		{"double joist at 64 off the west", "keep"},
		{"rafters 24 oc so strap the slopes at 12", ""},
		{"i put down 9 straps before lunch", ""},
		// Rooms.
		{"bedroom two is 11' x 12'6", "room bedroom 2, 11' x 12'6"},
		{"second floor hall 4' x 18'", "room second floor hall 4' x 18'"},
		{"unit three bath 5' x 8'", "room unit 3 bath 5' x 8'"},
		{"bed one 10'4 by 12'2, ceiling's at 8'", "room bed 1, 10'4 x 12'2 high 8'"},
		{"first room is the bathroom its 8 by 5", "room bathroom 8 x 5"},
		{"den 10-2 x 12-3", "room den 10-2 x 12-3"}, {"kitchens 12-4 x 11-2", ""}, {"den 12-4 x 11-2", "room den 12-4 x 11-2"},
		{"bath's next to it, 8' x 5'", "room bath 8' x 5'"}, {"laundry to 10 x 8", ""},
		{"hall 3'6 wide 19' long, runs north-south", "room hall 3'6 x 19'"},
		{"hall 3'6 wide 19' long", "room hall 19' x 3'6? | room hall 3'6 x 19'?"},
		{"garage, 22'6 deep 21' wide", "room garage 21' x 22'6"},
		{"bed b: walls N 12'2, E 10'6, S 12'3, W 10'6", ""},
		{"guest room is 11 ft 3 north to south and 12 ft 1 the other way", "room guest room 12 ft 1 x 11 ft 3"},
		{"great room 20' x 18' ceiling goes from 8' at the north wall to 11' at the south", "room great room 20' x 18' high 11', slope north 11' to 8'"},
		{"back bedroom 10' x 12' with a 2' x 4' closet bump out", "room back bedroom 10' x 12' + rest?"},
		{"2x8 block 40 off the kitchen wall, 30 up", ""}, // opens no kitchen
		{"office north and south walls 12'4, east and west 10', ceiling 8'", "room office 12'4 x 10' high 8'"},
		{"den, long walls 14', short walls 11'", "room den 11' x 14'? | room den 14' x 11'?"},
		{"10' x 12' off the kitchen", ""},
		{"bed b, walls N 12'2, E 10'6, S same as N, W 10'6", "room bed b 12'2 x 10'6"},
		{"lid pieces 96 1/2 and 47 1/4, ceiling at the door", ""},
		{"rec 12'11 x 24', laundry 7'9x8'6", "room rec 12'11 x 24'; room laundry 7'9 x 8'6?"},
		{"ceiling is 8 foot high here", "ceiling height 8 foot"},
		{"ceiling height 97 at the door, 96 1/2 in the far corner", "ceiling height 97 + rest? | ceiling height 96 1/2 + rest?"},
		// Shapes.
		{"trunk is boxed in on the south side, 20 wide 12 deep", "bulkhead 20 x 12 along south"},
		{"beam runs north south 6 foot off the west wall, 8 wide and drops 10", "bulkhead 8 x 10, 6 foot off west"},
		{"soffit on the north wall, 14 deep, drops 12", "bulkhead 14 x 12 along north"},
		{"beam down the middle, 8 wide 10 drop, east west", `bulkhead 8 x 10, 68" off north?`},
		{"beam boxed in north to south, 16 wide drops 10, its west side is 9'2 off the west wall", "bulkhead 16 x 10, 9'2 off west"},
		{"soffit on the east side comes out 14 and down 12", "bulkhead 14 x 12 along east"},
		{"soffit 12 x 14 east west", "bulkhead 12 x 14 along north? | bulkhead 12 x 14 along south?"},
		{"slope on the north side, 8 foot down to 4 foot over 5 foot", "slope north 8 foot to 4 foot over 5 foot"},
		{"ceiling slopes down to a 4 foot knee wall on the north, flat part is at 8", "slope north 8' to 4 foot?"},
		{"knee wall on the east is 52 high, flat ceiling at 7'6, slope takes up 5 foot", "slope east 7'6 to 52 over 5 foot"},
		{"kneewall is 4' high", ""},
		{"ceiling comes down to 5 foot on the east over the last 4 feet", "slope east to 5 foot over 4 feet"}, // its top is that of the room
		{"knee wall on the west is 42 high, slope takes up 5 foot", "slope west to 42 over 5 foot"},
		{"theres a drop of 10 inches, 2 foot wide, all along the south wall", "bulkhead 2 foot x 10 inches along south?"},
		{"door is 36 wide 20 down from the corner", ""},
		{"north side slopes, 4' at the wall up to 8' flat", "slope north 8' to 4'?"},
		{"vaulted from 8 at the south wall up to 12 at the north", "slope south 12' to 8'"},
		{"slope on the west from 8' to 3'6 in 6'", "slope west 8' to 3'6 in over 6'"},
		{"header hangs down 9 across the opening", "keep"}, {"box out in the northeast corner 12 x 12", "keep"},
	} {
		var got []string
		for _, g := range rough.Of(speech.Scan(read.CutLine(c.said, &den))) {
			text := strings.ReplaceAll(g.Text, "\n", "; ")
			switch {
			case g.Keep:
				text = "keep"
			case g.Note:
				text += " + rest?"
			case !g.Sure:
				text += "?"
			}
			got = append(got, text)
		}
		if got := strings.Join(got, " | "); got != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.said, got, c.want)
		}
	}
}
