package grammar_test

import (
	"flag"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/read"
	"strapline/grammar/sentences"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// onSite is a job with a few names declared.
func onSite(u length.Units) *grammar.Context {
	named := map[string]bool{"d1": true, "d2": true, "l1": true, "a": true, "box 2": true, "over sink": true, "sink light": true, "reading nook": true, "light over stove": true, "light 1": true}
	noted := map[string]bool{"d1": true, "d2": true, "l1": true, "light": true, "over": true, "sink": true, "reading": true, "nook": true, "la": true, "island": true}
	return &grammar.Context{
		Noun:  func(word string) bool { return noted[word] },
		Units: u,
		Rooms: map[string]string{"kitchen": "kitchen", "den": "den", "bath": "bath", "cook room": "kitchen", "bed 2": "bed 2"},
		Walls: map[string]place.Wall{"window": place.North, "stairs": place.East},
		Name:  func(words string) bool { return named[words] }, MaxWords: 3,
	}
}

// accepted holds what a crew types and the canonical line it is.
var accepted = []struct{ in, canon string }{
	// The job.
	{"job larkspur upper flat", "job larkspur upper flat"},
	{"Job Larkspur Upper Flat", "job larkspur upper flat"},
	{"units metric", "units metric"},
	{"units inches", "units imperial"},
	{"units mm", "units metric"},
	{"built 1962", "built 1962"},
	{"built in 1962", "built 1962"},

	{"list lights", "list lights"},
	{"delete d1", "delete d1"},
	{"ceiling height 8 foot", `ceiling height 96"`},
	{"board 5/8 type x", `board 5/8" thick type x`},
	{"board 1/2 x 48 lengths 8 10 type green", `board 1/2" x 48" lengths 96", 120" type green`},

	// Rooms.
	{"room pantry 13' 4 1/2 x 11' 9", `room pantry 160-1/2" x 141"`},
	{"room pantry 160 1/2 x 141", `room pantry 160-1/2" x 141"`},
	{"room pantry 13 4 1/2 by 11 9", `room pantry 160-1/2" x 141"`},
	{"room pantry 13'4½ × 11'9", `room pantry 160-1/2" x 141"`},
	{"room pantry 96 x 36", `room pantry 96" x 36"`},
	{"room pantry 4200mm x 3.5 m", `room pantry 4200 mm x 3500 mm`},
	{"room pantry 13' ns x 11' ew", `room pantry 132" x 156"`},
	{"room kitchen 13' x 11'", `room kitchen 156" x 132"`},
	{"room north bedroom 13' x 11'", `room north bedroom 156" x 132"`},
	{"room bed 3, 13' x 11'", `room bed 3, 156" x 132"`},
	{"room bed 3 10' x 12'", `room bed 3, 120" x 144"`},
	{"room bed 3 10'6 x 12'", `room bed 3, 126" x 144"`},
	{"room bed 3 13 4 1/2 x 11 9", `room bed 3, 160-1/2" x 141"`},
	{"room bed 3 160 x 141", `room bed 3, 160" x 141"`},
	{"room bed 3 3 m x 3.6 m", `room bed 3, 3000 mm x 3600 mm`},
	{`room hall 12'6"x14'3"`, `room hall 150" x 171"`},
	{"room gap room 10' x 10'", `room gap room 120" x 120"`},
	{"room bed3 13' x 11'", `room bed3 156" x 132"`},
	{"room l 20' x 16' less 4' x 3' ne", `room l 240" x 192", less 48" x 36" ne`},
	{"room l 20' x 16' less 4' x 3' ne less 2' x 2' sw", `room l 240" x 192", less 48" x 36" ne, less 24" x 24" sw`},
	{"room l 20' x 16' less 4' x 2' north 60 off west", `room l 240" x 192", less 48" x 24" north 60" off west`},
	{"room l 20' x 16' high 8'", `room l 240" x 192", high 96"`},
	{"room l 20' x 16' 8' ceilings", `room l 240" x 192", high 96"`},
	{"room l 20' x 16' less 4' x 3' in the northeast corner", `room l 240" x 192", less 48" x 36" ne`},
	{"room l 20' x 16' 8' high", `room l 240" x 192", high 96"`},
	{"kitchen", "in kitchen"},
	{"in the kitchen", "in kitchen"},
	{"cook room", "in kitchen"},
	{"north is window wall", "north is window wall"},
	{"the north wall is the door wall", "north is door wall"},
	{"the door wall is north", "north is door wall"},
	{"kitchen is galley room", "kitchen is called galley room"},
	{"kitchen is called galley", "kitchen is called galley"},

	// Supports.
	{"straps ew 16 oc first 14 3/8 off north", `straps ew 16" oc, first 14-3/8" off north`},
	{`straps run east-west 16" on centre, first at 14 3/8 from the north wall`, `straps ew 16" oc, first 14-3/8" off north`},
	{"straps e-w @ 16 first 14", `straps ew 16" oc, first 14"`},
	{"straps every 16 running east to west starting at 14 off south", `straps ew 16" oc, first 14" off south`},
	{"straps ns 16s first 14", `straps ns 16" oc, first 14"`},
	{"straps ns at 16 o.c. first 14", `straps ns 16" oc, first 14"`},
	{"strapping north south 16 oc", `straps ns 16" oc`},
	{"straps ns at 9 1/2 25 1/4 41 56 3/4 off west", `straps ns at 9-1/2", 25-1/4", 41", 56-3/4" off west`},
	{"straps ns at 9 1/2, 25 1/4, 41 and 56 3/4 off east", `straps ns at 9-1/2", 25-1/4", 41", 56-3/4" off east`},
	{"straps 5/8 thick", `straps 5/8" thick`},
	{"straps 5/8 thick 2 1/2 wide", `straps 5/8" thick, 2-1/2" wide`},
	{"joists ns 16 oc first 15 1/4 off west", `joists ns 16" oc, first 15-1/4" off west`},
	{"studs 16 oc first 15 1/4 off west on north wall", `studs 16" oc, first 15-1/4" off west, on north wall`},
	{"hat channels ew 24 oc first 12 off north", `channels ew 24" oc, first 12" off north`},
	{"den straps ew 16 oc", `den: straps ew 16" oc`},
	{"strap 4 at 57 1/4", `strap 4 at 57-1/4"`},
	{"strap four at 57 1/4 off south", `strap 4 at 57-1/4" off south`},
	{"strap #4 at 57 1/4", `strap 4 at 57-1/4"`},
	{"strap 4 from 20 to 96 off west", `strap 4 from 20" to 96" off west`},
	{"strap 4 stops 38 off east", `strap 4 stops 38" off east`},
	{"strap 4 stops 38 short of east wall", `strap 4 stops 38" off east`},
	{"stud 3 at 40 on north wall", `stud 3 at 40", on north wall`},

	// Board.
	{"board 1/2 x 48 lengths 8 10 12", `board 1/2" x 48" lengths 96", 120", 144"`},
	{"board 5/8", `board 5/8" thick`},
	{"board 1/2 x 4", `board 1/2" x 48"`},
	{"board 54 wide", `board 54" wide`},
	{"board lengths 96 144", `board lengths 96", 144"`},
	{"board 12.5mm x 1200mm lengths 2400mm 3000mm", `board 12.5 mm x 1200 mm lengths 2400 mm, 3000 mm`},
	{"boards along", "boards along"},
	{"boards across the straps", "boards across"},
	{"boards run ew", "boards ew"},
	{"rows from south", "rows from south"},
	{"clearance 1/4", `clearance 1/4"`},
	{"screw 1 5/8", `screw 1-5/8"`},

	// Things.
	{`light 6" over sink 26 off west 41 off north`, `light over sink 6", 26" off west, 41" off north`},
	{"LIGHT over the sink, 26 off the west wall and 41 from the north wall please", `light over sink, 26" off west, 41" off north`},
	{`duct 6" d3 44 3/8 along strap 3 from east, 7 south of strap 3`, `duct d3 6", 44-3/8" along strap 3 from east, 7" south of strap 3`},
	{"duct 7 south of strap 3, 44 3/8 off east along strap 3", `duct 7" south of strap 3, 44-3/8" along strap 3 from east`},
	{"boot 7 south of strap 3 edge 26 off west", `duct 7" south of strap 3 edge, 26" off west`},
	{"duct 7 south of strap 3 to edge 26 off west", `duct 7" south of strap 3 to edge, 26" off west`},
	{"box 2x4 on north wall 52 off west 16 up", `box 2" x 4", on north wall, 52" off west, 16" up`},
	{"outlet north wall 52 off west 16 off floor", `outlet on north wall, 52" off west, 16" up`},
	{"plug on n wall 52 off w 16 high", `outlet on north wall, 52" off west, 16" up`},
	{"switch 8 off ceiling 52 off west on south wall", `switch on south wall, 8" down, 52" off west`},
	{"switch 8 down 4 east of d1", `switch 8" down, 4" east of d1`},
	{"vent 4x10 18 1/2 south of mark a", `vent 4" x 10", 18-1/2" south of mark a`},
	{"register (4 x 10) 26 off west 41 off north", `vent 4" x 10", 26" off west, 41" off north`},
	{"pot light 6in d3 26in off west 41in off north", `light d3 6", 26" off west, 41" off north`},
	{"can 26 off west 41 off north", `light 26" off west, 41" off north`},
	{`6" light 26 off west 41 off north`, `light 6", 26" off west, 41" off north`},
	{"island light 26 off west 41 off north", `light island, 26" off west, 41" off north`},
	{"fan box 22 off west 31 off north", `box, fan, 22" off west, 31" off north`},
	{"light switch 48 up 12 off west on north wall", `switch on north wall, 48" up, 12" off west`},
	{"tub fan box 22 off west 31 off north", `box tub fan, 22" off west, 31" off north`},
	{"bath fan 22 off west 31 off north", `bath: fan 22" off west, 31" off north`},
	{"junction box tub 22 off west 31 off north", `junction box tub, 22" off west, 31" off north`},
	{"junction, box tub 22 off west 31 off north", `junction box, box tub, 22" off west, 31" off north`},
	{"j-box 22 off west 31 off north", `junction box 22" off west, 31" off north`},
	{"smoke detector 22 off west 31 off north", `smoke alarm 22" off west, 31" off north`},
	{"light on strap 4 22 off east", `light on strap 4, 22" off east`},
	{"light strap 4 22 off east", `light on strap 4, 22" off east`},
	{"light 26 off west studs 41 off north board", `light 26" off west studs, 41" off north board`},
	{"light 26 to edge off west 41 off north to edge", `light 26" off west to edge, 41" off north to edge`},
	{"light 26 off west ctr 41 off north bare", `light 26" off west to centre, 41" off north studs`},
	{"light 26 off west to centre 41 off north notch", `light 26" off west to centre, 41" off north notch`},
	{"light 26 off west 41 off north main", `light 26" off west, 41" off north main`},
	{"light den 48 off window wall 61 left", `den: light 48" off north, 61" left`},
	{"light 48 off window 61 off the left", `light 48" off north, 61" left`},
	{"light 48 off window wall 61 off", `light 48" off north, 61" off`},
	{"light 48 off window wall 61", `light 48" off north, 61" off`},
	{"light west 26 north 41", `light 26" off west, 41" off north`},
	{"light 6in west wall 26 north wall 41", `light 6", 26" off west, 41" off north`},
	{"light 9' 8 off west 41 1/2 strong off north", `light 116" off west, 41-1/2" strong off north`},
	{"light twenty six off west forty one and a half off north", `light 26" off west, 41-1/2" off north`},
	{"light 660mm off west 41 off north", `light 660 mm off west, 41" off north`},
	{"light 26½ off west 41⅝ off north", `light 26-1/2" off west, 41-5/8" off north`},
	{"light 26 off west 9 8 5/8 off north", `light 26" off west, 116-5/8" off north`},

	{"light 4 east of the sink light", `light 4" east of sink light`},
	{"light d3 - 26 off west - 41 off north", `light d3, 26" off west, 41" off north`},
	{"light d3: 26 off west 41 off north", `light d3, 26" off west, 41" off north`},
	{"light on ceiling 26 off west 41 off north", `light on ceiling, 26" off west, 41" off north`},
	{"light at 26 off west and at 41 off north", `light 26" off west, 41" off north`},
	{"light over sink is 26 inches in from the west wall", `light over sink, 26" off west`},
	{"light 26 out from west 41 south of the north wall", `light 26" off west, 41" off north`},
	{"outlet 18 up from floor 52 over from west, south wall", `outlet on south wall, 18" up, 52" off west`},
	{"outlet 48 AFF 52 off west on north wall", `outlet on north wall, 48" up, 52" off west`},
	{"disc light 26 off west 41 off north cut after paint", `light 26" off west, 41" off north, after paint`},
	{`duct 6" dia d3 26 off west 41 off north`, `duct d3 6", 26" off west, 41" off north`},
	{"light centred on strap 3 26 off west", `light on strap 3, 26" off west`},
	{"light 48 off window wall, 61 off stairs wall, ctr, studs", `light 48" off north, 61" off east studs to centre`},
	{`light over stove 6" 100 off west 41 off north`, `light over stove 6", 100" off west, 41" off north`},
	{"switch on left wall 26 off west 48 up", `switch 26" off west, 48" up`},
	{"lights 3 x 2 even", "lights 3 x 2 even"},
	{"light between strap 3 and 4 26 off west", "light between strap 3 and 4, 26\" off west"},
	{"pot centred between straps 3 and 4, 26 off the w", "light between strap 3 and 4, 26\" off west"},
	{"pot 4\" in the middle", "light 4\", halfway east-west, halfway north-south"},
	{"pot light 4\" centre of the room", "light 4\", halfway east-west, halfway north-south"},
	{"box 2x4 halfway along the north wall 48 up", "box 2\" x 4\", on north wall, halfway east-west, 48\" up"},
	{"square north 160 1/2 south 160 3/4 east 141 west 140 7/8 diag nw-se 213 3/4 ne-sw 213 7/8",
		"square north 160-1/2\", south 160-3/4\", east 141\", west 140-7/8\", diag nw-se 213-3/4\", diag ne-sw 213-7/8\""},
	{"missed d1", "missed d1"},
	{"missed d1 at 27 off west 41 off north", "missed d1 at 27\" off west, 41\" off north"},
	{"delete d1", "delete d1"},
	{"get rid of d1", "delete d1"},
	{"remove note 17", "strike 17"},
	{"no sorry 42", "*42\""},
	{"oops, i meant 42 not 41", "42\" not 41\""},
	{"they brought 18 not 20", "18\" not 20\""},
	{"it was 18 they brought", "*18\""},
	{"move d1 to 26 off north", "fix d1 26\" off north"},
	{"move d1 5 further south", "fix d1 5\" south of d1"},
	{"scrap that", "undo"},
	{"3 more pots 48 apart going east of l1", "3 more lights, 48\" apart east of l1"},
	{"two more 4\" lights 4 feet apart to the n of l1", "2 more lights, 4\", 48\" apart north of l1"},
	{"6in lights even 3x2", `lights 6", 3 x 2 even`},
	{"mark a on strap 4 22 off east", `mark a on strap 4, 22" off east`},
	{"mark b 22 off east 30 off north", `mark b 22" off east, 30" off north`},
	{"mark m1 22 up on north wall 30 off west", `mark m1 on north wall, 22" up, 30" off west`},

	// Labels, and what stands round a number.
	{"light hall 26 off west 41 off north", `light hall, 26" off west, 41" off north`},
	{"light over wine rack 26 off west 41 off north", `light over wine rack, 26" off west, 41" off north`},
	{"light vanity mirror, 26 off west 41 off north", `light vanity mirror, 26" off west, 41" off north`},
	{"light “vanity mirror” 26 off west 41 off north", `light vanity mirror, 26" off west, 41" off north`},
	{`light "sink" 26 off west 41 off north`, `light sink, 26" off west, 41" off north`},
	{"fan half bath 26 off west 41 off north", `fan half bath, 26" off west, 41" off north`},
	{"hatch for shutoff 26 off west 41 off north", `hatch for shutoff, 26" off west, 41" off north`},
	{"light ２６ off west ４１ ５/８ off north", `light 26" off west, 41-5/8" off north`},
	{"light 26 even off west 41 off north", `light 26" off west, 41" off north`},
	{`light 4" 30" in from the west wall and 40" down from the north wall`, `light 4", 30" off west, 40" off north`},
	{"light 50 off the w 60 off the n", `light 50" off west, 60" off north`},
	{"light a foot off west an inch and a quarter off north", `light 12" off west, 1-1/4" off north`},
	{"straps ns 16 oc first one at 12 1/2 off west", `straps ns 16" oc, first 12-1/2" off west`},
	{"board five eighths by forty eight lengths ten and twelve", `board 5/8" x 48" lengths 120", 144"`},
	{"gap 96 even", `gap 96"`},
	{"gap 95 3/4 one end, 95 1/4 the other end", `gap 95-3/4", 95-1/4"`},
	{"gap 95 3/4 both ends", `gap 95-3/4", 95-3/4"`},
	{"gap 96 5 / 8", `gap 96-5/8"`},
	{"gap 41.28125", `gap 41-9/32"`},
	{"gap 96 1/2 a hair shy", `gap 96-1/2" shy`},

	// The frame.
	{"kitchen: light 26 off west", `kitchen: light 26" off west`},
	{"kitchen light 26 off west", `kitchen: light 26" off west`},
	{"light 26 off west in the kitchen", `kitchen: light 26" off west`},
	{"light kitchen sink 26 off west", `kitchen: light sink, 26" off west`},
	{"in bath: light 26 off west", `bath: light 26" off west`},
	{"bed 2: light 26 off west", `bed 2: light 26" off west`},
	{"at 9:58 light 26 off west", `at 09:58 light 26" off west`},
	{"sent 9:58 pm light 26 off west", `at 21:58 light 26" off west`},
	{"at 3pm light 26 off west", `at 15:00 light 26" off west`},
	{"at 3:15 pm light 26 off west", `at 15:15 light 26" off west`},
	{"at 3 p.m. light 26 off west", `at 15:00 light 26" off west`},
	{"at 9:58 am light 26 off west", `at 09:58 am light 26" off west`},
	{"at 12:15am light 26 off west", `at 00:15 am light 26" off west`},
	{"at 12:15 pm light 26 off west", `at 12:15 light 26" off west`},
	{"at 8.15 light 26 off west", `at 08:15 light 26" off west`},
	{"kitchen: at 8.15, row 2 up", `kitchen: at 08:15 hung row 2`},
	{"light 26 off west at 3pm", `at 15:00 light 26" off west`},
	{"light 26 off west at 9:58", `at 09:58 light 26" off west`},
	{"kitchen: at 14:05 light 26 off west before row 2", `kitchen: at 14:05 light 26" off west, before row 2`},
	{"light 26 off west b4 row 2 went up", `light 26" off west, before row 2`},
	{"light 26 off west after row 2", `light 26" off west, after row 2`},
	{"strapline, light 26 off west", `light 26" off west`},
	{"@strapline status", "status"},
	{"- light 26 off west", `light 26" off west`},
	{"  •  light 26 off west", `light 26" off west`},

	// Hanging.
	{"gap 118 3/8 118 5/8", `gap 118-3/8", 118-5/8"`},
	{"gap 118 3/8 and 118 5/8", `gap 118-3/8", 118-5/8"`},
	{"gap 118 3/8", `gap 118-3/8"`},
	{"hung 144 + 16 3/4 row 2", `hung 144" + 16-3/4" row 2`},
	{"hung 12' and 16 3/4 row two", `hung 144" + 16-3/4" row 2`},
	{"hung row 2 cut d1 d2", "hung row 2 cut d1, d2"},
	{"hung row 2 cut the sink light and d2", "hung row 2 cut sink light, d2"},
	{"hung 144 row 1 on north wall", `hung 144" row 1 on north wall`},
	{"hung r1", "hung r1"},
	{"row 2 up", "hung row 2"},
	{"row 2 is up", "hung row 2"},
	{"row2 up", "hung row 2"},
	{"row 2 hung cut d1", "hung row 2 cut d1"},
	{"hung row 3 ew", "hung row 3 ew"},
	{"kitchen row 2 up", "kitchen: hung row 2"},
	{"ceiling up", "ceiling up"},
	{"lid is up", "ceiling up"},
	{"hung the north wall", "north wall up"},
	{"north wall up", "north wall up"},
	{"north wall boarded 1/2", `north wall boarded 1/2"`},
	{"boarded the north wall 5/8", `north wall boarded 5/8"`},
	{"window wall boarded", "north wall boarded"},
	{"west wall is finished", "west wall finished"},
	{"open d1 d2", "open d1, d2"},
	{"opened d1 and d2", "open d1, d2"},
	{"cut out the sink light", "open sink light"},
	{"open the reading nook", "open reading nook"},
	{"d1 is open", "open d1"},
	{"the sink light is cut", "open sink light"},
	{"cut d1 and d2", "open d1, d2"},
	{"open la", "open la"},
	{"open island and q", "open island, q"},
	{"open la, lb", "open la, lb"},
	{"open la lb", "open la, lb"},
	{"open d1 and zork", "open d1, zork"},
	{"open l2b", "open l2b"},
	{"hung row 2 cut l2b and the island", "hung row 2 cut l2b, island"},
	{"hung row 2 cut zork", "hung row 2 cut zork"},

	// Questions.
	{"find d1", "find d1"},
	{"where is d1?", "find d1"},
	{"wheres the sink light", "find sink light"},
	{"Where’s the bath fan?", "bath: find fan"},
	{"where is the pantry light", "find pantry light"},
	{"where is over sink", "find over sink"},
	{"where is mark a", "find mark a"},
	{"where is strap 3", "find strap 3"},
	{"locate d9", "find d9"},
	{"where is the window light", "find window light"},
	{"where did the sink light go?", "find sink light"},
	{"where are the pot lights", "list lights"},
	{"find it", "find it"}, {"log yesterday", "log yesterday"}, {"log last", "log last"}, {"stays reachable d1", "stays reachable d1"}, {"what stays reachable", "what stays reachable"},
	{"how clear is d1", "how clear is d1"}, {"what lies between d1 and d2", "what lies between d1, d2"}, {"state of insulation", "state of insulation"}, {"how many sheets are up", "how many boards up"}, {"what to do next", "todo"},
	{"where was l2 again?", "find l2"},
	{"find la", "find la"},
	{"find lb", "find lb"},
	{"where is l2b now", "find l2b"},
	{"where is the island", "find island"},
	{"d1?", "find d1"},
	{"sink light?", "find sink light"},
	{"light over stove?", "find light over stove"},
	{"find light over stove", "find light over stove"},
	{"is d1 covered", "find d1"},
	{"is anything covered in den", "den: covered"},
	{"what's covered", "covered"},
	{"whats still covered?", "covered"},
	{"covered in kitchen", "kitchen: covered"},
	{"covered kitchen", "kitchen: covered"},
	{"any pipe over row 3", "any pipe over row 3"},
	{"any pipe noted?", "any pipe noted"},
	{"any pipes?", "any pipe noted"},
	{"any lights in row 2", "any light over row 2"},
	{"is there a pipe over row 1?", "any pipe over row 1"},
	{"anything over row 1?", "anything over row 1"},
	{"is there anything behind row 2", "anything over row 2"},
	{"what is under row 1", "anything over row 1"},
	{"kitchen: what's over row 1", "kitchen: anything over row 1"},
	{"has row 1 been hung", "who hung row 1"},
	{"is row 2 up yet?", "who hung row 2"},
	{"row 2 up?", "who hung row 2"},
	{"is the ceiling up in den?", "den: who hung on ceiling"},
	{"has the north wall been hung", "who hung on north wall"},
	{"how far is d1 off west", "find d1 off west"},
	{"how far off west is the sink light?", "find sink light off west"},
	{"how far is the island from the stairs wall", "find island off east"},
	{"what have I covered", "covered"},
	{"what did we cover in den?", "den: covered"},
	{"who hung row 2", "who hung row 2"},
	{"who hung the ceiling?", "who hung on ceiling"},
	{"who hung kitchen row 2", "kitchen: who hung row 2"},
	{"log", "log"},
	{"log kitchen", "kitchen: log"},
	{"log today", "log today"},
	{"log d1", "log of d1"},
	{"log of hanger", "log of hanger"},
	{"log since 12", "log since 12"},
	{"status", "status"},
	{"help", "help"},
	{"help light", "help light"},
	{"?", "help"},

	// Words kept, and corrections.
	{"note window comes out on friday; bring the long ladder", "note window comes out on friday; bring the long ladder"},
	{"kitchen: note Tap drips at 9:58 in kitchen", "kitchen: note Tap drips at 9:58 in kitchen"},
	{"snag screw missed strap 4 row 2", "snag screw missed strap 4 row 2"},
	{"snags", "snags"},
	{"what snags?", "snags"},
	{"open snags in kitchen", "kitchen: snags"},
	{"den snags", "den: snags"},
	{"snag #3 is fixed", "snag 3 fixed"},
	{"hit water", "hit water"},
	{"we hit a water pipe!!", "hit water"},
	{"just hit the gas line", "hit gas"},
	{"hit a cable", "hit cable"},
	{"hit a pipe", "hit pipe"},
	{"hit a gas pipe", "hit gas"},
	{"hit a pex line", "hit water"},
	{"i hit the pipe in row 2 at strap 4", "hit pipe"},
	{"undo", "undo"},
	{"scratch that", "undo"},
	{"strike 17", "strike 17"},
	{"55 not 50", `55" not 50"`},
	{"sorry 84 not 48", `84" not 48"`},
	{"no, not 48 but 84", `84" not 48"`},
	{"we smell gas in the kitchen", "kitchen: hit gas"},
	{"strike note 17", "strike 17"},
	{"fix d1 7 1/4 south of strap 3", `fix d1 7-1/4" south of strap 3`},
	{"fix d1 6in", `fix d1 6"`},
	{"fix la 26 off west", `fix la 26" off west`},
	{"fix zork 26 off west", `fix zork 26" off west`},
	{"fix d1 6in 26 off west", `fix d1 6", 26" off west`},
	{"fix the sink light 26 off west", `fix sink light 26" off west`},
	{"84 not 48", `84" not 48"`},
	{"not 48, 84", `84" not 48"`},
	{"not 48 84", `84" not 48"`},
	{"*84", `*84"`},
	{"scratch that 84 not 48", `84" not 48"`},
	{"make that 84 1/2", `*84-1/2"`},
}

func TestAccepted(t *testing.T) {
	for _, units := range []length.Units{length.Imperial, length.Metric} {
		c := onSite(units)
		for _, tt := range accepted {
			in := tt.in
			if units == length.Metric {
				in = tt.canon // canonical text means the same in either job
			}
			line, err := parse.Line(in, c)
			if err != nil {
				t.Errorf("%s: %q: %v", units, in, err)
				continue
			}
			if got := line.String(); got != tt.canon {
				t.Errorf("%s: %q\n got %q\nwant %q", units, in, got, tt.canon)
				continue
			}
			again, err := parse.Line(tt.canon, c)
			if err != nil {
				t.Errorf("%s: canonical %q: %v", units, tt.canon, err)
			} else if diff := cmp.Diff(line, again); diff != "" {
				t.Errorf("%s: %q, its canonical text read again:\n%s", units, in, diff)
			}
		}
	}
}

func TestMetricJob(t *testing.T) {
	for _, tt := range []struct{ in, canon string }{
		{"room pantry 4200 x 3500", "room pantry 4200 mm x 3500 mm"},
		{"room pantry 4.2 x 3.5", "room pantry 4200 mm x 3500 mm"},
		{"room pantry 4,200 x 3,500", "room pantry 4200 mm x 3500 mm"},
		{"light 660 off west 1041.5mm off north", "light 660 mm off west, 1041.5 mm off north"},
		{"straps ew 400 oc first 365 off north", "straps ew 400 mm oc, first 365 mm off north"},
		{"board 12.5mm x 1200 lengths 2.4 3 3.6", "board 12.5 mm x 1200 mm lengths 2400 mm, 3000 mm, 3600 mm"},
		{"hung 3600 + 425 row 2", "hung 3600 mm + 425 mm row 2"},
	} {
		line, err := parse.Line(tt.in, onSite(length.Metric))
		if err != nil {
			t.Errorf("%q: %v", tt.in, err)
		} else if got := line.String(); got != tt.canon {
			t.Errorf("%q\n got %q\nwant %q", tt.in, got, tt.canon)
		}
	}
}

func TestSplit(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want []string
	}{
		{"light 26 off west; row 2 up\nstatus\r\n\n", []string{"light 26 off west", "row 2 up", "status"}},
		{"note a; b\nrow 2 up", []string{"note a; b", "row 2 up"}},
		{"row 2 up; kitchen: note a; b", []string{"row 2 up", "kitchen: note a; b"}},
		{"living room snag a; b", []string{"living room snag a; b"}},
		{"light d1 26 off west; note a; b", []string{"light d1 26 off west", "note a; b"}},
		{" ; ;; ", nil},
		{"", nil},
	} {
		if got := sentences.Split(tt.in); !slices.Equal(got, tt.want) {
			t.Errorf("Split(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

// TestCommands holds the table to its word: every example is of its kind, every
// word begins something, and help knows each.
func TestCommands(t *testing.T) {
	kinds := map[grammar.Kind]bool{}
	for _, row := range read.Commands() {
		if row.Kind == "" || row.About == "" || row.Example == "" || row.Fits == "" || kinds[row.Kind] {
			t.Errorf("row %q wants a kind of its own, about, example and fits", row.Kind)
		}
		kinds[row.Kind] = true
		for _, u := range []length.Units{length.Imperial, length.Metric} {
			line, err := parse.Line(row.Say(u), &grammar.Context{Units: u})
			if err != nil || line.Entry.Kind() != row.Kind {
				t.Errorf("%s: example %q: %v, %v", row.Kind, row.Say(u), line.Entry, err)
			}
		}
		for _, w := range slices.Concat(row.Words, row.Talk) {
			if !strings.HasPrefix(row.Example, row.Words[0]) {
				continue
			}
			in := strings.NewReplacer("~", "we", "?", "we").Replace(w) + strings.TrimPrefix(row.Example, row.Words[0])
			if line, err := parse.Line(in, &grammar.Context{}); err != nil || line.Entry.Kind() != row.Kind {
				t.Errorf("%s: %q: %v, %v", row.Kind, in, line.Entry, err)
			}
		}
		if line, err := parse.Line("help "+string(row.Kind), nil); err != nil || line.Entry.Kind() != "help" {
			t.Errorf("help %s: %v", row.Kind, err)
		}
	}
}
