package grammar_test

import (
	"errors"
	"os"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/parse"
)

// flat is a job with rooms and things, as those of testdata.
func flat() *grammar.Context {
	named, noted := map[string]bool{}, map[string]bool{}
	for _, n := range strings.Split("d1, d2, l1, l3, p1, a, over sink, light over sink, sink light, light 1, light 2, fan, over tub, fan over tub, junction box 1", ", ") {
		named[n] = true
	}
	for _, n := range strings.Fields("d1 d2 l1 l3 light duct fan over sink tub hood junction box 1 2") {
		noted[n] = true
	}
	return &grammar.Context{
		Units: length.Imperial,
		Rooms: map[string]string{"kitchen": "kitchen", "den": "den", "hall": "hall", "cook room": "kitchen"},
		Walls: map[string]place.Wall{"window": place.North, "stairs": place.East},
		Name:  func(words string) bool { return named[words] }, MaxWords: 3,
		Noun: func(word string) bool { return noted[word] }, EW: 16 * length.Foot, NS: 12 * length.Foot,
	}
}

// lines are those of a file of testdata but for what begins with #.
func lines(t *testing.T, file string) (all []string) {
	t.Helper()
	b, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(b)) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			all = append(all, line)
		}
	}
	if len(all) < 40 {
		t.Errorf("%s: %d lines, want 40", file, len(all))
	}
	return all
}

// TestSilence: nothing of the talk of a site is answered.
func TestSilence(t *testing.T) {
	for _, in := range lines(t, "chatter.txt") {
		for _, follows := range []int{0, grammar.Right} {
			c := flat()
			c.Follows = follows
			if line, err := parse.Line(in, c); !errors.Is(err, grammar.ErrChatter) {
				t.Errorf("%q: %v, %v, want silence", in, line.Entry, err)
			}
		}
	}
}

// TestHeard: everything told or asked of the job is read, asked about or
// refused, every time.
func TestHeard(t *testing.T) {
	for _, in := range lines(t, "heard.txt") {
		line, err := parse.Line(in, flat())
		if errors.Is(err, grammar.ErrChatter) {
			t.Errorf("%q: silence", in)
		}
		r, refused := errors.AsType[*grammar.Refusal](err)
		if refused && (r.Once || strings.Contains(r.Want, "a thing, a wall, a row")) {
			t.Errorf("%q: %v", in, err)
		}
		if testing.Verbose() {
			e := ""
			if err == nil {
				e = line.String()
			}
			t.Logf("%-55s %s %v", in, e, err)
		}
	}
}

// TestOtherwise: what lines in other words are read as, and what is asked of them.
func TestOtherwise(t *testing.T) {
	for _, tt := range []struct{ in, means string }{
		{"whats the cut for 95 3/4", `gap 95-3/4"`},
		{"gap is 95 3/4 one end 95 1/4 other end", `gap 95-3/4", 95-1/4"`},
		{"gap between row 2 and the wall 23 1/2", `gap 23-1/2"`},
		{"4255mm gap", "gap 4255 mm"},
		{"new job 14 maple basement", "job 14 maple basement"},
		{"rm office 11' x 10'", `room office 132" x 120"`},
		{"kitchen ceiling is 8' 6", `kitchen: ceiling height 102"`},
		{"8 ft ceilings in the den", `den: ceiling height 96"`},
		{"now strapping ns 16 oc starting 2 off the west wall", `straps ns 16" oc, first 2" off west`},
		{"straps are actually 5/8", `straps 5/8" thick`},
		{"using half inch 4x8 sheets", `board 1/2" x 48" lengths 96"`},
		{"they brought 18 sheets of 12", `delivered 18 x 144"`},
		{"gfi 44 up 20 from the north on west wall", `outlet on west wall, 44" up, 20" off north`},
		{"theres a shower valve on the east wall 28 up", `valve shower, on east wall, 28" up`},
		{"romex w1 20 off north from strap 2 to strap 6", `wire w1 20" off north from strap 2 to strap 6`},
		{"fan is 8x8", `fix fan 8" x 8"`},
		{"fan should be 18 off east", `fix fan 18" off east`},
		{"move l1 36 off west 40 off north", `fix l1 36" off west, 40" off north`},
		{"row 2 up with the fan cut out", "hung row 2 cut fan"},
		{"cut the fan out", "open fan"},
		{"opened the pot", "open light"},
		{"ok kitchen row 3 is up now for real", "kitchen: hung row 3"},
		{"where is the first pot", "find first light"},
		{"wheres jb 1", "find junction box 1"},
		{"did you get the light", "find light"},
		{"how deep is p1", "find p1"},
		{"list all boxes", "list boxes"},
		{"what's on the window wall", "list everything on north wall"},
		{"any boxes in the west wall", "any box noted on west wall"},
		{"what have we got in the kitchen", "kitchen: list everything"},
		{"how big is the kitchen", "kitchen: list size"},
		{"what straps are in the kitchen", "kitchen: list size"},
		{"what board are we using", "list board"},
		{"how many pots", "list lights"},
		{"how far apart are the pots", "list lights"},
		{"which lights are covered", "covered"},
		{"what did i just cover", "covered"},
		{"whos been hanging row 1", "who hung row 1"},
		{"when did row 2 go up", "who hung row 2"},
		{"when was the fan noted", "log of fan"},
		{"who said the fan was 16 off east", "log of fan"},
		{"what did lead say about the fan", "log of fan"},
		{"who measured the kitchen", "kitchen: log"},
		{"what did we do today", "log today"},
		{"is the kitchen done", "kitchen: status"},
		{"how much is left", "whats left to hang"},
		{"will 2 inch screws hit the pipe", `reach 2"`},
		{"how many sheets kitchen", "kitchen: order"},
		{"how much mud for the kitchen", "kitchen: order"},
		{"what do i cut first", "cut list"},
		{"read me row 2", "whats r2"},
		{"whats stopping us in the kitchen", "kitchen: ready"},
		{"l1 is gone", "gone l1"},
		{"first room is the bathroom its 8 by 5", `room bathroom 96" x 60"? room bathroom 8" x 5"?`},
		{"bath 8' x 5'", `room bath 96" x 60"`},
		{"morning. starting the back bedroom today, 11'4 x 13'2", `room back bedroom 136" x 158"`},
		{"garage, 22'6 deep 21 wide", `room garage 252" x 270"`},
		{"bed 2 is 10'6 x 11'0", `room bed 2, 126" x 132"`},
		{"cut 59 3/4", `gap 59-3/4"? note cut 59 3/4?`},
		{"need a rip 11 3/4", `gap 11-3/4"? note rip 11 3/4?`},
		{"95 3/4 by 48", `gap 95-3/4" x 48"? note cut 95 3/4 x 48?`},
		{"hung first sheet", "so far 1 boards"},
		{"pots 4 inch 6 of them 2 rows of 3", `lights 4", 3 x 2 even? lights 4", 2 x 3 even?`},
		{"5/8 type x", `board 5/8" thick type x? note 5/8 type x?`},
		{"half inch green board 4x8s and 4x10s", `board 1/2" x 48" lengths 96", 120" type green`},
		{"put the light 26 off west", `light 26" off west? fix light 26" off west?`},
		{"cutting the pot now", "open light? note cutting the pot now?"},
		{"kitchen is done", "kitchen: ceiling up? note kitchen is done?"},
		{"r3 96 and 47", `hung 96" + 47" row 3?`},
		{"popped screw at strap 3", "snag popped screw at strap 3? note popped screw at strap 3?"},
		{"kitchen ceiling slopes 7' to 4' north", "kitchen: slope north 84\" to 48\""},
		{"niche 12 x 24 in east wall 48 up", "note niche 12 x 24 in east wall 48 up"},
		{"electrical passed in the kitchen", "kitchen: check electrical inspection ok? kitchen: note electrical passed in the kitchen?"},
		{"water is everywhere", "hit water?"},
		// Rooms, framing, rows, gaps and boards as they are told in passing.
		{"study is next, 9'10 x 11'0", `room study 118" x 132"`},
		{"the lid is strapped 16 oc", `straps 16" oc`},
		{"strapping at 16 going n-s", `straps ns 16" oc`},
		{"straps run the short way", "straps ns"},
		{"first strap is 14 1/2 off the north wall then 16s all the way", `straps ew 16" oc, first 14-1/2" off north`},
		{"studs on west from the south corner: 1, 17, 33", `studs at 1", 17", 33" off south, on west wall`},
		{"walls 9 ft", "ceiling height 108\""},
		{"first two rows up", "hung r1 r2"},
		{"3rd row up too", "hung row 3"},
		{"hung 1 2 3", "hung r1 r2 r3"},
		{"all pots cut", "open all light"},
		{"all 4 pots cut", "open all light x 4"},
		{"gap at the last row is 39 and 5/8 at one end 40 at the other", `gap 39-5/8", 40"`},
		{"gap by the stairs 41 one end 41 1/8 the other, length 80 1/2", `gap 41", 41-1/8" x 80-1/2"`},
		{"got a gap 41 7/8 x 96 what do i cut", `gap 41-7/8" x 96"`},
		{"gap over door 31 1/4 x 13 5/8, L shape, leg is 7 1/8 x 81", "note gap over door 31 1/4 x 13 5/8, L shape, leg is 7 1/8 x 81"},
		{"14 sheets of 12 foot dropped off at the back door", `delivered 14 x 144"`},
		{"wait 78 1/2 shld be 79 1/2", `79-1/2" not 78-1/2"`},
		{"diag nw to se 213 3/4", `square diag nw-se 213-3/4"`},
		{"1/2 8s", `board 1/2" thick lengths 96"? note 1/2 8s?`}, // boards there are, or those of the job
		// Framing in any order of its words.
		{"strapping goes east-west then, 1x3s at 16\"", `straps ew 16" oc, 3/4" thick, 2-1/2" wide`},
		{"16 oc straps", `straps 16" oc`},
		{"joists are 2x8 at 16", `joists 16" oc, 7-1/4" thick, 1-1/2" wide`},
		{"2x4 strapping 16 oc ew", `straps ew 16" oc, 1-1/2" thick, 3-1/2" wide? straps ew 16" oc, 3-1/2" thick, 1-1/2" wide?`},
		{"straps start 15 off the west wall, 16 oc", `straps ns 16" oc, first 15" off west`},
		{"strap 1 at 0, 2 at 16, 3 at 32 off the west wall", `straps ns at 0", 16", 32" off west`},
		{"straps every 16 off the north wall", `straps ew 16" oc`},
		{"strap 1 at 0, 3 at 32", ""}, // refused: which of them is which is not guessed
		{"joists 16 c/c, parallel to the 12' side", `joists ns 16" oc`},
		// Rooms: which way the long one runs, sides that share their unit, a room that nobody named yet.
		{"hallway, three and a half foot wide by twenty two foot long, long way runs east west", `room hallway 264" x 42"`},
		{"mudroom 7 1/2 x 9", `room mudroom 90" x 108"? room mudroom 7-1/2" x 9"?`},
		{"kitchen up", "kitchen: ceiling up? kitchen: note up?"},
		{"insulation inspector passed us", "check insulation ok? note insulation inspector passed us?"},
		{"kitchen done at 2.15", "kitchen: ceiling up? kitchen: note done at 2.15?"},
		{"dining next", "in dining"},
		{"ok hanging in the master", "in master"},
		{"all in millimetres", "units metric"},
		{"garage lid is one hour", "set rated 60?"},
		// A hair more or less stays as it was said.
		{"gap just over 96", `gap 96" strong`},
		{"light a hair under 26 off west 41 off north", `light 26" shy off west, 41" off north`},
		// One noted as l1 goes by light 1 too, and where it moved to is never its size.
		{"where is light 3", "find l3"},
		{"move light 3 an inch east", `fix l3 1" east of l3`},
		{"move l3 4 inches", `fix l3 4" north of l3? fix l3 4" east of l3? fix l3 4" south of l3? fix l3 4" west of l3?`},
		{"4\" can 50w 60n", `light 4", 50" off west, 60" off north`},
		// A thing among more words is asked about, with all its numbers.
		{"2\" vent comes down thru the lid back of the sink, 7 1/2 off the south wall", `vent sink back, 2", 7-1/2" off south? note 2" vent comes down thru the lid back of the sink, 7 1/2 off the south wall?`},
		{"tall skinny door in the south 30 x 96, 6 off the east", `door 30" x 96", on south wall, 6" off east? note tall skinny door in the south 30 x 96, 6 off the east?`},
		{"take that old light out 26 off west 41 off north", "note take that old light out 26 off west 41 off north"},
		{"theres a bulkhead along the south wall for the main drain, drops 9 in and sticks out 22", `bulkhead 22" x 9" along south`},
		{"bulkhead across the south 16 deep 12 drop all the way", `bulkhead 16" x 12" along south`},
		// The room's list.
		{"insul done in the den", "den: check insulation ok? den: note insul done in the den?"},
		{"drain test ok, no leaks", "check plumbing inspection ok?"},
		{"rough in not inspected yet dont cover", "check add rough in not inspected yet dont cover"},
		// Questions.
		{"how many 12s we need for this lid", "order"},
		{"is that enuf for the lid", "order"},
		{"can we close the kitchen or is there still stuff open", "kitchen: ready"},
		{"whats the screw count in the den", "den: how many screws"},
		{"any wires near 7ft from east 6 from south?", "any wire noted"},
		{"list everything that is covered in the den", "den: covered"},
		{"anything behind the east wall bd we forgot", "list everything on east wall"},
		// Rows that no conversation needs.
		{"straps ns 16 oc first strap is at 14 3/8 off west", `straps ns 16" oc, first 14-3/8" off west`},
		{"parlor north 15'2 south 14'9 east 13'3 west 13'3", "room parlor 15'2 x 13'3\nparlor: square north 15'2 south 14'9 east 13'3 west 13'3? note parlor north 15'2 south 14'9 east 13'3 west 13'3?"},
		{"l1 and d1 open", "open l1, d1"},
		{"5/8 4x10", `board 5/8" x 48" lengths 120"? note 5/8 4x10?`},
		{"mud for the kitchen", "order"},
		{"what do we buy at the yard", "order"},
		{"whats the order look like", "order"},
		{"ready to hang the kitchen", "kitchen: ready"},
		{"so whats holding me up", "ready"},
		{"could we board den today", "den: ready"},
		{"no d1, thats wrong", "delete d1"},
		{"the duct is wrong, its 46 off west, north is good", `fix duct 46" off west`},
		{"shifted the vent to 46 off west, 20 off north", `fix vent 46" off west, 20" off north`},
		{"ignore that one", "undo"},
		{"lid is all hung", "ceiling up"},
		{"8' walls", `ceiling height 96"`},
		{"longest board is 12' because of the stairs", `longest in 144"`},
		{"gap left end 96 right end 96 1/2", `gap 96", 96-1/2"`},
		{"cutting d1 out", "open d1? note cutting d1 out?"},
		{"what did we just cover up", "covered"},
		{"list everything thats buried", "covered"},
		{"what did i say about the light", "log of light"},
		{"what sheets are we using", "list board"},
		{"what is the screw count", "how many screws"},
		{"what length is r2.1", "whats r2.1"},
		{"how many are still open", "snags"},
		{`where is the 6" light`, "find light"},
		{"find the 2nd light", "find second light"},
		{"when did we board the lid", "who hung on ceiling"},
		{"diag is 213 3/4 nw to se", `square diag nw-se 213-3/4"`},
		{"213 3/4 is nw-se", `square diag nw-se 213-3/4"`},
		{"one hour fire rated lid", "set rated 60?"},
		{"1 12 damaged", `used 1 x 144"`},
		{"lid up before lunch", "ceiling up? note lid up before lunch?"},
		{"dont close the lid, plumber needs a photo first", "check add dont close the lid, plumber needs a photo first"},
		{"the shower valve needs a test before we close", "check add the shower valve needs a test before we close"},
		{"rough in passed this morning", "check electrical inspection ok\nnote rough in passed this morning? check plumbing inspection ok\nnote rough in passed this morning? note rough in passed this morning?"},
		{"5/8 on the lid", `board 5/8" thick on ceiling`},
	} {
		line, err := parse.Line(tt.in, flat())
		got := ""
		if ask, ok := errors.AsType[*grammar.Ask](err); ok {
			for _, c := range ask.Choices {
				got += c.String() + "? "
			}
		} else if err == nil {
			got = line.String()
		}
		if got = strings.TrimSpace(got); got != tt.means {
			t.Errorf("%q: got %q, %v, want %q", tt.in, got, err, tt.means)
		}
	}
	for _, in := range []string{"back in an hour", "see you in the master", "im in the bathroom", "lunch in the master today", "dont do it in mm"} {
		if line, err := parse.Line(in, flat()); !errors.Is(err, grammar.ErrChatter) {
			t.Errorf("%q: %v, %v, want silence", in, line.Entry, err)
		}
	}
	// A question notes nothing, whatever it is read as.
	for _, in := range []string{"move l1 36 off west 40 off north?", "is the fan 8x8?", "fan should be 18 off east?"} {
		if line, err := parse.Line(in, flat()); err == nil && line.Entry.Kind() == "fix" {
			t.Errorf("%q was read as %s", in, line)
		}
	}
}

// TestOwnNumbers: the hint of a line that cannot be read keeps what is said in it.
func TestOwnNumbers(t *testing.T) {
	for in, hint := range map[string]string{
		"light 26 off west 41 off north leftish":      `light 26" off west, 41" off north`,
		"light 4\" 26 off west 41 off north, leftish": `light 4", 26" off west, 41" off north`,
		"light isn't 26 off west 41 off north":        "help light",
		"light 26 off west leftish":                   "help light",
		"8 foot by 5 foot":                            "room bath 8 foot x 5 foot",
		"r1 done":                                     "hung row 1",
	} {
		_, err := parse.Line(in, flat())
		r, ok := errors.AsType[*grammar.Refusal](err)
		if !ok || r.Hint != hint {
			t.Errorf("%q: %v, want the hint %q", in, err, hint)
		}
	}
}

// TestHeart: the middle of a line is offered if what is around it changes nothing, and no part of a line that does
// something to what is noted, or asks.
func TestHeart(t *testing.T) {
	for said, want := range map[string]string{
		"just put in a fan 40 off west 20 off north before the board goes up":           `fan, 40 off west, 20 off north`,
		"fan dead centre of the lid, dont lose it":                                      "fan halfway east-west, halfway north-south",
		"fan 40 off west 20 off north, careful with the wire":                           "fan, 40 off west, 20 off north",
		"mark a fan 40 off west 20 off north, its wired":                                `fan 40" off west, 20" off north`,
		"hey boss cut out the fan 40 off west 20 off north before the board goes up":    "",
		"any fan 40 off west 20 off north before the board goes up":                     "",
		"what about a fan 40 off west 20 off north before the board goes up":            "",
		"fan 40 off west 20 off north and a speaker before the board goes up":           "",
		"fan 40 off west 20 off north so not in the middle":                             "",
		"fan 40 off west 20 off north before they move it 12 to the east of the window": "",
	} {
		_, err := parse.Line(said, flat())
		ask, asks := err.(*grammar.Ask)
		switch {
		case want == "" && asks && len(ask.Choices) > 0 && strings.HasPrefix(ask.Choices[0].Label, "fan"):
			t.Errorf("%q offers %s", said, ask.Choices[0].Label)
		case want != "" && (!asks || len(ask.Choices) == 0 || ask.Choices[0].Label != want):
			t.Errorf("%q: %v, want %s offered", said, err, want)
		}
	}
}

// TestMetalBox: what the box of a thing is made of is no second thing.
func TestMetalBox(t *testing.T) {
	if line, err := parse.Line("speaker 40 off west 20 off north, metal box", flat()); err != nil || line.String() != `speaker 40" off west, 20" off north` {
		t.Errorf("%v %v", line, err)
	}
}

// TestThickBehind: the thickness of boards may stand right behind their length.
func TestThickBehind(t *testing.T) {
	for said, want := range map[string]string{
		"delivered 20 12' 5/8": `delivered 20 x 144" of 5/8"`, `delivered 4 x 96-5/8"`: `delivered 4 x 96-5/8"`,
	} {
		if line, err := parse.Line(said, flat()); err != nil || line.String() != want {
			t.Errorf("%q: %v %v, want %s", said, line, err, want)
		}
	}
}
