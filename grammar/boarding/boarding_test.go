package boarding_test

import (
	"slices"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boarding"
	"strapline/grammar/read"
)

// noted is a job with a kitchen, two lights and a duct.
var noted = grammar.Context{
	Units: length.Imperial, Rooms: map[string]string{"kitchen": "kitchen"}, MaxWords: 1,
	Name: func(s string) bool { return slices.Contains([]string{"l1", "l2", "d1"}, s) }, Walls: map[string]place.Wall{},
	Noun: func(s string) bool { return s == "light" || s == "duct" },
}

// What is read surely begins with "=", what is asked about with "?", and with "+" if the rest is kept beside it;
// nothing is made of the other lines. They are invented.
func TestOf(t *testing.T) {
	for said, want := range map[string]string{
		// Rows and pieces.
		"second row is up":                                                "= hung row 2",
		"row 2 done":                                                      "? hung row 2", // or taped
		"row 2 done, two pieces 12' and 16 3/4":                           "= hung 12' + 16 3/4 row 2",
		"row 1 done, two pieces, 12 and 4'6":                              "= hung 12' + 4'6 row 1",
		"first row up, 1 full 10 and a 24 cut":                            "= hung 10' + 24 row 1",
		"first course up - full 12 then a 26 filler":                      "= hung 12' + 26 row 1",
		"second row all screwed off and done":                             "? hung row 2",
		"12' and a 16 3/4 piece up in row 2":                              "= hung 12' + 16 3/4 row 2",
		"row 1: 12 + 39":                                                  "? hung 12' + 39 row 1",
		"row 1 up in 3 pieces":                                            "= hung row 1",
		"so rows 1, 2 and 3 are done guys":                                "? hung r1 r2 r3",
		"row 2 is not up yet":                                             "",
		"hung row 2 cut it":                                               "",
		"row 2 the last bit too":                                          "? hung row 2",
		"row one up, started at the north":                                "= hung row 1 begun at north",
		"hung the second row from the east end, a full 10 and a 4 footer": "= hung 10' + 4' row 2 begun at east",
		"first row done, used two twelves":                                "? hung row 1 using 2 x 12'",
		"hung a full sheet and a 34 in row 2":                             "", // how long is a full one
		"one more row to go on the ceiling":                               "",
		"row 2's in, two tens":                                            "= hung 10' + 10' row 2",
		"first row screwed, joint's at 9 foot":                            "? hung row 1",
		"row 2 up tomorrow":                                               "",
		"hung the first sheet":                                            "= so far 1 boards",
		"row 1 up, 26 off west":                                           "",
		"hung 144 + ate row 2":                                            "",
		// Without a row.
		"put up four sheets so far":                           "= so far 4 boards",
		"lid is all up but the last piece":                    "= so far all but 1 piece",
		"everythings up except row 3":                         "= so far all but row 3",
		"two rows of the lid on, third one started":           "= so far 2 rows",
		"another row on, thats 2 now":                         "= so far 2 rows",
		"another row on":                                      "= so far another row",
		"up to row 2 on the ceiling":                          "= so far 2 rows",
		"top row of the north wall is on, bottom still to do": "= so far top row on north wall",
		"only the last row left on the lid":                   "= so far all but bottom row",
		"2 rows up from the south side":                       "= so far 2 rows begun at south",
		"first row up along the south wall":                   "= hung row 1 begun at south",
		"bottom boards are up on the north and west walls":    "= so far bottom row on north wall\nso far bottom row on west wall",
		"half the lid is closed now":                          "= so far partly",
		"hung 2 sheets 4x10":                                  "= so far 2 boards 10'",
		"closed up the whole north wall":                      "= north wall up",
		"the lid is finally up in the kitchen":                "= kitchen: ceiling up",
		"ceilings done in here, moving to walls":              "? ceiling up",
		"north and south walls are boarded, east still open":  "= north wall up\nsouth wall up",
		"half done": "",
		// Each part by itself: surfaces, edges, sides, what is left, what was put right.
		"top boards r on all 4 walls":                  "= so far top row on north wall\nso far top row on east wall\nso far top row on south wall\nso far top row on west wall",
		"2 walls up":                                   "",
		"lid and both walls are up":                    "",
		"the south side wall is up":                    "? south wall up",
		"everything but the east wall is boarded":      "? north wall up\nsouth wall up\nwest wall up\nceiling up",
		"the whole kitchen is boarded":                 "? kitchen: north wall up\nkitchen: east wall up\nkitchen: south wall up\nkitchen: west wall up\nkitchen: ceiling up",
		"lid: row 1 n 2 done, 3 tmrw":                  "? hung r1 r2",
		"hung row 1 this arvo, one 12 and one 4":       "? hung 12' + 4' row 1",
		"both walls boarded":                           "",
		"boards on the long walls are up":              "",
		"patio wall is up":                             "? north is patio wall\nnorth wall up | east is patio wall\neast wall up | south is patio wall\nsouth wall up | west is patio wall\nwest wall up",
		"lower one on the south wall done, box cut":    "= so far bottom row on south wall cut box",
		"top and bottom on the east wall are up":       "= so far top row on east wall\nso far bottom row on east wall",
		"3 rows on starting from the south side":       "= so far 3 rows begun at south",
		"lid is one board and its up, both lights cut": "= ceiling up cut all lights x 2",
		"the lid is up, one board wide":                "= ceiling up",
		"one board up on the lid":                      "= so far 1 boards",
		"west wall sheeted, bottom still open":         "= so far all but bottom row on west wall",
		"lid all hung exept the rip":                   "= so far all but 1 piece",
		"all walls up bar the east one":                "= north wall up\nsouth wall up\nwest wall up",
		"row up on the north wall":                     "= so far partly on north wall",
		"south slope bottom board on":                  "= so far bottom row on south slope",
		"flat part is up":                              "= ceiling up",
		"north slope is on. wait no i mean the flat":   "? ceiling up",
		"first row up - no scratch that, second row":   "? hung row 2",
		"north and west walls are up, box zipped out":  "= north wall up\nwest wall up\nopen box",
		"lid up, wire pulled thru":                     "= ceiling up cut wire",
		"all 3 cut":                                    "? open all things x 3",
		"lights out":                                   "",
		"lid up over the duct, light cut":              "= ceiling up cut light",
		// Up and cut out.
		"row 3 up, cut out the two pots":               "= hung row 3 cut all lights x 2",
		"cut out pots 1 and 2 in row 1":                "? open light 1, light 2",
		"cut out the duct, vent too":                   "? open duct, vent",
		"cut out the fan box":                          "? open box",
		"cut out the light in rows 1 and 2":            "? open light",
		"left the duct for the electrician to cut out": "",
		"cut out the light at 40":                      "",
		"cut out the light in row 2 40":                "",
		// What is left out of it.
		"lid up, all lights cut but l2":                              "= ceiling up cut all lights but l2",
		"lid up, cut the lights, except one":                         "= ceiling up cut all lights but one",
		"lid up, both lights cut bar the one by the door":            "? ceiling up cut all lights x 2 but one",
		"rows 1 and 2 up, all cut but one":                           "= hung r1 r2 cut all things but one",
		"lid up, every hole cut apart from the lights":               "= ceiling up cut all things but lights",
		"2 sheets up, lights cut accept the two at the back":         "+ so far 2 boards",
		"2 sheets up, front row of lights cut, back one still blind": "+ so far 2 boards",
		"row 1 up, duct cut, neither light reached yet":              "= hung row 1 cut duct",
		"row 1 up, the duct is to be cut":                            "+ hung row 1",
		"forgot to cut the duct":                                     "= buried duct",
		"row 1 up and both lights cut":                               "= hung row 1 cut all lights x 2",
		"lid's on, lights cut, duct not":                             "= ceiling up cut all lights",
		"row 1 up, l1 cut, l2 isnt":                                  "= hung row 1 cut l1",
		"row 2 is on, opened the duct in it":                         "= hung row 2 cut duct",
		"row 2 went up with d1 cut":                                  "= hung row 2 cut d1",
		"row 1 hung, cut l1 but not l2":                              "= hung row 1 cut l1",
		"rows 1 and 2 up, zipped out the lights":                     "= hung r1 r2 cut all lights",
		"closed the ceiling, cut everything out":                     "= ceiling up cut all things",
		// What board is over, and what it is not over yet.
		"alarm's behind the board, nobody cut it":                         "= buried smoke alarm",
		"duct got covered, no hole in it":                                 "= buried duct",
		"first sheet up along the south wall, duct still covered":         "= so far 1 boards begun at south",
		"row 1 up, duct and l1 still covered, no holes yet":               "= hung row 1",
		"row 1 up, hatch still covered":                                   "= hung row 1\nburied hatch",
		"lid closed, l1 cut, hatch not":                                   "= ceiling up cut l1\nburied hatch",
		"rows 1 and 2 up off the north wall, l1 cut, duct isnt under yet": "= so far 2 rows begun at north cut l1",
		"rows 1 and 2 up, one light cut":                                  "= hung r1 r2 cut all lights x 1",
		"row 1 up, duct cut, lights next":                                 "+ hung row 1 cut duct",
		"rows 1 and 2 up, 1 thingy cut out other isnt under yet":          "+ hung r1 r2",
		"south wall boarded, no ducts in it":                              "= south wall up",
		"sanded rows 1 and 2, the rest after lunch":                       "",
		"row 3 is on, butt on strap 5, one seam is open 1/4":              "? hung row 3\nsnag one seam is open 1/4",
		"drywall over the duct, forgot the hole":                          "= buried duct",
		"six short, they come monday":                                     "= note six short, they come monday",
		"lid's closed up, everything cut except the duct":                 "= ceiling up cut all things but duct",
		"row 1 is up, row 2 half way":                                     "+ hung row 1",
		"lid's half on, row 1 and 2":                                      "= hung r1 r2",
		"board's over the duct, didnt get to cut it":                      "= buried duct",
		"second sheet on, butt on strap 5, hatch still hidden":            "= so far 2 boards\nburied hatch",
		"lights 1 and 2 cut, 3 not":                                       "? open light 1, light 2\nburied light 3",
		"sheet two is on over the duct, cut nothing yet":                  "= so far 2 boards",
		"one light cut, duct and l1 not":                                  "? open all lights x 1\nburied duct, l1",
		"cut l1 then l2 once row 2 is up":                                 "",
		// Several things in one sentence; what is left over is kept beside them.
		"south wall shut, 9 twelves came, left the scaffold in the hall": "+ south wall up\ndelivered 9 x 12'",
		"row 1 on garden side, butt lands on strap 4":                    "? north is garden wall\nhung row 1 begun at north | east is garden wall\nhung row 1 begun at east | south is garden wall\nhung row 1 begun at south | west is garden wall\nhung row 1 begun at west",
		"kitchen lid up, duct cut, den lid is next":                      "+ kitchen: ceiling up cut duct",
		"hung 34 in row 2, full sheet beside it":                         "",
		"row 1 up, but the tapered end is 40":                            "",
		// Boards that came.
		"20 sheets of 12 footers 5/8 came":                          "= delivered 20 x 12' of 5/8",
		"delivery, 12 moisture boards 8 footers and 20 regular 12s": "= delivered 12 x 8' of type moisture, 20 x 12' of type regular",
		"truck just left, 24 half inch 12s, 8 five eighths 8s":      "= delivered 24 x 12' of 1/2, 8 x 8' of 5/8",
		"dropped off 12 twelves and 4 eights":                       "= delivered 12 x 12', 4 x 8'",
		"9 tens of half inch went up the stairs plus 3 eights":      "= delivered 9 x 10' of 1/2, 3 x 8'",
		"dropped 11 4x12 in the garage, other 9 come friday":        "? delivered 11 x 12'\nnote other 9 come friday",
		"yard dropped 8 twelves, rest of em thursday":               "+ delivered 8 x 12'",
		"12 came, the driver has the rest":                          "+ delivered boards 12",
		"truck brings 14 more after lunch":                          "= note truck brings 14 more after lunch",
		"6 more 4x8 tomorrow":                                       "= note 6 more 4x8 tomorrow",
		"14 tens went upstairs, 3 eights stay on the truck":         "? delivered 14 x 10'\nnote 3 eights stay on the truck",
		"8 x 12 x 1/2 landed this morning":                          "= delivered 8 x 12' of 1/2",
		"i only see 7 sheets here":                                  "? down to boards 7",
		"we will close the lid, 9 twelves came":                     "",
		"9 twelves came, if the stairs are clear they go up":        "",
		"see you friday": "", "count me in for friday": "", "12 came, lol": "", "i see two lights there": "",
		"20 sheets came":                                   "= delivered boards 20",
		"got 14 sheets of 12s and 6 8s":                    "? delivered 14 x 12', 6 x 8' | stock 14 x 12', 6 x 8'",
		"got 14 sheets of 12s and 30 more":                 "",
		"40 sht 1/2 x 4x12, 16 sht 1/2 4x8":                "? delivered 40 x 12' of 1/2, 16 x 8' of 1/2 | stock 40 x 12' of 1/2, 16 x 8' of 1/2",
		"got the delivery, 9 x 12' 1/2 and 4 x 8' green":   "= delivered 9 x 12' of 1/2, 4 x 8' of type green",
		"10 sheets 3/8 and 20 sheets 1/2 all twelves came": "= delivered 10 x 12' of 3/8, 20 x 12' of 1/2",
		"driver only left 15":                              "? delivery was 15",
		"only 21 came":                                     "= delivery was 21",
		"got 8 12s upstairs, half inch":                    "? delivered 8 x 12' of 1/2 | stock 8 x 12' of 1/2",
		"got 8 12s, half inch and 4 10s":                   "? delivered 8 x 12' of 1/2, 4 x 10' | stock 8 x 12' of 1/2, 4 x 10'",
		"short on the delivery, only 9 came":               "? delivery was 9",
		"only 5 guys came":                                 "",
		"they shorted us 2":                                "= delivery short 2",
		"driver left us 16 tens not 18":                    "= delivery was 16 x 10' not 18",
		"two of them were broken":                          "= delivery lost 2",
		"5 boxes of screws and mud came":                   "= note 5 boxes of screws and mud came",
		"have 9 12s delivered":                             "",
		"half inch, 4x12s, got 10 of em":                   "? delivered 10 x 12' of 1/2 | stock 10 x 12' of 1/2",
		"got 6 ten footers":                                "? delivered 6 x 10' | stock 6 x 10'",
		"just took 15 sheets off the truck":                "= delivered boards 15",
		"truck at 9 with 42 4x12 and 18 4x8":               "? delivered 42 x 12', 18 x 8'",
		"only 38 12s on the truck":                         "= delivery was 38 x 12'",
		"3 are broken":                                     "? delivery lost 3",
		"cracked one carrying it up":                       "= used boards 1",
		// Boards that are gone.
		"no 12s left":         "= down to 0 x 12'",
		"we have no 12s left": "= down to 0 x 12'",
		"dropped two sheets off the lift, both shot": "= used boards 2",
		"truck brought 5/8 type x, 16 of em, 4x12":   "= delivered 16 x 12' of 5/8 type x",
		"that leaves us 3 twelves":                   "? down to 3 x 12'",
		"dropped a 12":                               "? used 1 x 12'", // it may be whole
		"we're down to 5 twelves":                    "= down to 5 x 12'",
		"used 3 twelves and a ten":                   "= used 3 x 12', 1 x 10'",
		"used 3 twelves won ten":                     "",
		"dropped a ten, corner gone":                 "= used 1 x 10'",
		"used all the eights":                        "= down to 0 x 8'",
		"broke one of the tens":                      "= used 1 x 10'",
		"used up the last twelve":                    "= down to 0 x 12'",
		"we're out of twelves":                       "= down to 0 x 12'",
		"only 3 tens left now":                       "= down to 3 x 10'",
		"dropped a sheet, its toast":                 "= used boards 1",
		"snapped a twelve getting it up the stairs":  "= used 1 x 12'",
		"9 12s left behind":                          "",
		// Which board goes where.
		"ceiling is 5/8 type x":                     "= board 5/8 type x on ceiling",
		"walls are half inch, lid is five eighths":  "= board 1/2 on walls\nboard 5/8 on ceiling",
		"kitchen is all type x":                     "= kitchen: board type x throughout",
		"north wall wants moisture resistant board": "= board type moisture on north wall",
		"board will be half inch, 4x12s":            "= board 1/2 x 48 lengths 12",
		"sheets are five eighths type x":            "= board 5/8 type x",
		"half inch everywhere but the ceiling":      "= board 1/2 on walls",
		"south corner is gapped half an inch":       "= snag south corner is gapped half an inch",
		"bathroom gets green board":                 "", // no such room
		"one hour fire rated lid":                   "",
		// What the finisher has to mend.
		"3/8 gap at the butt in row 2 for the finisher": "= snag 3/8 gap at the butt in row 2 for the finisher",
		"boards dont touch at row 2, 3/16 open":         "= snag boards dont touch at row 2, 3/16 open",
		"dont touch my coffee":                          "",
		"gap wide":                                      "",
		"second coat on the seams":                      "",
	} {
		got := ""
		l := read.CutLine(said, &noted)
		for i, g := range boarding.Of(l) {
			switch {
			case i > 0:
				got += " | "
			case g.Sure:
				got = "= "
			case g.Note:
				got = "+ "
			default:
				got = "? "
			}
			if got += g.Text; l.Room != "" { // in its frame
				got = strings.Replace(got, g.Text, l.Room+": "+g.Text, 1)
			}
		}
		if strings.TrimSpace(got) != strings.TrimSpace(want) {
			t.Errorf("%q: %q, want %q", said, got, want)
		}
	}
}

// Each part of a line is of the room that was named last in it, the first of the room before it all.
func TestTwoRooms(t *testing.T) {
	two := noted
	two.Rooms = map[string]string{"kitchen": "kitchen", "bath": "bath"}
	all := boarding.Of(read.CutLine("kitchen lid 2 rows up, duct cut, bath lid up, hatch covered", &two))
	if want := "so far 2 rows cut duct\nbath: ceiling up\nbath: buried hatch"; len(all) != 1 || all[0].Text != want || all[0].Sure {
		t.Errorf("%+v, want %s", all, want)
	}
}

// Of a wall that nobody named it is asked which one is meant.
func TestWhichWall(t *testing.T) {
	all := boarding.Of(read.CutLine("using moisture board on the wet wall", &noted))
	if len(all) != 4 || all[0].Asks == "" || all[0].Sure || all[2].Text != "south is wet wall\nboard type moisture on south wall" {
		t.Errorf("%+v", all)
	}
}

// A metric job counts boards by their length in millimetres.
func TestMetric(t *testing.T) {
	metric := noted
	metric.Units = length.Metric
	for said, want := range map[string]string{
		"15 x 3000 x 12.5 moisture resistant arrived": "delivered 15 x 3000 of 12.5mm type moisture",
		"12 sheets of 2,4 x 1,2 arrived":              "delivered 12 x 2400",
		"used 3 of the 3 metre boards":                "used 3 x 3000",
	} {
		if all := boarding.Of(read.CutLine(said, &metric)); len(all) != 1 || all[0].Text != want {
			t.Errorf("%q: %+v", said, all)
		}
	}
}
