package grammar_test

import (
	"errors"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/parse"
)

// lastLight is [flat] where the sender noted light 2 right before.
func lastLight() *grammar.Context {
	c := flat()
	c.Last = grammar.Last{Name: "light 2", What: "light", Now: true}
	return c
}

// means is what a line is read as, or the choices of what is asked.
func means(in string, c *grammar.Context) string {
	line, err := parse.Line(in, c)
	if ask, ok := err.(*grammar.Ask); ok {
		var all []string
		for _, choice := range ask.Choices {
			all = append(all, choice.String()+"?")
		}
		return strings.Join(all, " ")
	}
	if err != nil {
		return err.Error()
	}
	return line.String()
}

// TestPutRight: what is put right, of which note, by what; asked where nothing says that it is a correction.
func TestPutRight(t *testing.T) {
	for _, tt := range []struct{ in, means string }{
		{"no sorry 42", `*42"`},
		{"sorry its 92 off west", `fix light 2 92" off west`},
		{"my bad, 92 off west", `fix light 2 92" off west`},
		{"that should be 94 off west", `fix light 2 94" off west?`},
		{"its 94 off west", `fix light 2 94" off west?`},
		{"thats 96 off the west not 94", `fix light 2 96" off west not 94"`},
		{"off east not west", "instead east not west"},
		{"wrong wall, should be east", "instead east"},
		{"make it a 6\"", `fix light 2 6"`},
		{"thats a fan not a light", "instead fan"},
		{"sorry that was the den", "instead room den"},
		{"oops wrong room", "instead room den? instead room hall? instead room kitchen?"},
		{"move it 4\" east", `fix light 2 4" east of light 2`},
		{"bump that 4 north", `fix light 2 4" north of light 2`},
		{"never mind the last one", "undo"},
		{"undo last", "undo"},
		{"d1 is 46 off east not 44", `fix d1 46" off east not 44"`},
		{"d1 should be 46 off east", `fix d1 46" off east`},
		{"d1 is 46 off east now", `fix d1 46" off east?`},
		{"moved the duct: 46 off not 44", `46" not 44", in duct`},
		{"moved the sink light 4 in west", `fix sink light 4" west of sink light?`},
		{"pipe p1 is 42 off north not 40", `fix p1 42" off north not 40"`},
		{"the fan is 8\" not 6\"", `8" not 6", in fan`},
		{"strap 4 should be 63", `strap 4 at 63"`},
		{"strap 6 isnt at 80 its at 95", `95" not 80", in strap 6`},
		{"the fan isnt going there anymore", "gone fan"},
		{"no more light 2", "gone light 2"},
		{"that second one is 1850 not 1800", `1850 mm not 1800, in second light? 1850" not 1800, in second light?`},
		{"the first one should be 38 off north", `fix first light 38" off north`},
		{"the second one is 40 off north not 41", `fix second light 40" off north not 41"`},
		{"ended up 3 further east", `fix light 2 3" east of light 2`},
		{"thats the other wall", "wrong wall"},
		{"those are to the centre sorry not the edge", "instead centre"},
		{"thats to center, i gave you edge before", "instead centre"},
		{"measured to the centre not the edge on d1", "instead centre, in d1"},
		{"should be 38 off north", `fix light 2 38" off north`},
		{"40 off north not 41 on d1", `fix d1 40" off north not 41"`},
		{"first strap is 14 1/2 not 15", `14-1/2" not 15", in strap 1`},
		{"sparky says its 10 not 8", `10" not 8"? note sparky says its 10 not 8?`},
		{"had to slide it 4 north cause of a joist", `fix light 2 4" north of light 2? note had to slide it 4 north cause of a joist?`},
		{"take the last light off again please", "undo"},
		{"wrong wall, its off the east", "instead east"},
		{"should of said 76 off west", `fix light 2 76" off west`},
		{"make that 24 oc", `*24"`},
		{"the first can came out at 30 off west", `fix first light 30" off west`},
		{"second can is 66 not 64", `66" not 64", in second light`},
		{"24s not 16s", `24" not 16"`},
		{"strike what i said about the fan", "gone fan"},
		{"plumber made me shift d1 over, call it 30 off west", `fix d1 30" off west? note plumber made me shift d1 over, call it 30 off west?`},
		{"pot 3 should be 32 off east", `fix l3 32" off east`},
		{"pot 8 should be 32 off east", ""}, // it is not noted: which is asked
		{"moved the register, now 9 off north", `fix vent 9" off north?`},
		{"sorry, d1 is 40 from the north wall not 36", `fix d1 40" off north not 36"`},
		{"forget pot 5", ""},
		{"forget light 2", "gone light 2"},
		{"fan 18 not 16", `18" not 16", in fan`},
		{"wait 78 1/2 shld be 79 1/2", `79-1/2" not 78-1/2"`},
		{"yes but 92 off west", `fix light 2 92" off west`},
		{"yeah except its a fan not a light", "instead fan"},
		{"north is 43 sorry", `fix light 2 43" off north`},
		{"the fan moved a foot east", `fix fan 12" east of fan?`},
		{"d1 ended up 46 off east", `fix d1 46" off east?`},
		{"d1 moved to 46 off east", `fix d1 46" off east`},
		{"d1 is off by 2", `fix d1 2" north of d1? fix d1 2" east of d1? fix d1 2" south of d1? fix d1 2" west of d1?`},
		{"the fan is 2 inches too far west", `fix fan 2" east of fan? find fan?`},
		{"i measured to the edge not the centre on the duct", "instead edge, in duct"},
		{"other way round", "other way round"},
		{"i had those two backwards", "other way round"},
		{"wrong wall on d1", "wrong wall, in d1"},
		{"no second row", "instead row 2"},
		{"owner cancelled the fan", "gone fan"},
		{"d1 isnt there any more", "gone d1"},
		{"pulled row 2", "gone row 2"},
		{"had to take row 2 back down", "gone row 2"},
		{"row 2 isnt up", "gone row 2"},
		{"row 2 fell down", "gone row 2"},
		{"gone row 2 on north wall", "gone row 2 on north wall"},
		{"theres no duct there after all", "gone duct"},
		{"scrap the fan, customer changed her mind", "gone fan"},
		{"ignore that one", "undo"},
		{"south wall sorry not north", "instead south not north"},
		{"make that a 6 inch light", `fix light 2 6"`},
		{"i was off by an inch on d1", `fix d1 1" north of d1? fix d1 1" east of d1? fix d1 1" south of d1? fix d1 1" west of d1?`},
		// Among other words it is always asked about.
		{"remeasured d1, its 61 1/2 off west", `fix d1 61-1/2" off west? note remeasured d1, its 61 1/2 off west?`},
		{"had to move d1 to 30 off west, 44 off north cause of the strap", `fix d1 30" off west, 44" off north? note had to move d1 to 30 off west, 44 off north cause of the strap?`},
		{"the homeowner doesnt want the fan anymore", "gone fan"},
		{"took the sink light out", "gone sink light"},
		{"they decided against the fan", "gone fan"},
		{"customer says no fan", "gone fan"},
		{"cross the fan off", "gone fan"},
		{"the fan's gone", "gone fan"},
		{"make that a 6 inch can", `fix light 2 6"`},
		{"shoved d1 5 west", `fix d1 5" west of d1?`},
		{"its the east wall i mean", "instead east"},
		{"29 instead of 26", `29" not 26"`},
		{"we're not doing the fan", "gone fan"},
		{"kitchen should be 13'6 by 11'9", `room kitchen 162" x 141"`},
		{"kitchen is 13'6 x 11'9 not 12", `room kitchen 162" x 141"`},
		{"ceiling is 8'1 not 8'", `ceiling height 97"`},
	} {
		if got := means(tt.in, lastLight()); got != tt.means {
			t.Errorf("%q: got %s, want %s", tt.in, got, tt.means)
		}
	}
	// The last note again.
	for _, tt := range []struct{ in, means string }{
		{"same for the other side", "repeat other"},
		{"mirror that on the east side", "repeat east"},
		{"do that again in the den", "repeat room den"},
		{"same thing in the den", "repeat room den"},
		{"one more the same 24 east", `light 24" east of light 2`},
		{"same again tomorrow", "chatter"},
	} {
		if got := means(tt.in, lastLight()); got != tt.means {
			t.Errorf("%q: got %s, want %s", tt.in, got, tt.means)
		}
	}
	if got := means("same for the other side", flat()); strings.HasPrefix(got, "repeat") {
		t.Errorf("without a note before it: got %s", got)
	}
	// Talk with the name of something in it takes nothing back.
	for _, in := range []string{"hit my head on d1 twice, thats three today actually", "screws 2 boxes. no 1 1/4 at all", "light in the middle", "the fan is on", "turn the fan off when you go", "is the fan gone", "d1 is out", "i took the lunch out by the fan", "dont forget the fan 30 off west"} {
		if got := means(in, lastLight()); strings.HasPrefix(got, "gone") || strings.HasPrefix(got, "delete") || strings.HasPrefix(got, "*") || strings.HasPrefix(got, "instead") {
			t.Errorf("%q: got %s", in, got)
		}
	}
	// Without a note right before, only what says that it puts something right does.
	for _, in := range []string{"its 94 off west", "that should be 94 off west", "thats a fan", "its in the den", "bump that 4 north"} {
		if got := means(in, flat()); strings.HasPrefix(got, "fix") || strings.HasPrefix(got, "instead") {
			t.Errorf("%q: got %s", in, got)
		}
	}
}

// TestMended: a slip that is put right within the line is not what is noted; of several that it may put right it is
// asked which, the last said first.
func TestMended(t *testing.T) {
	for _, tt := range []struct{ in, means string }{
		{"room attic 14' 2, no wait 14' 4 by 12'", `room attic 172" x 144"`},
		{"room attic 12' x 10', no 11'", `room attic 144" x 132"? room attic 132" x 120"?`},
		{"vent 22 off the east, i mean west, 30 off north", `vent 22" off west, 30" off north`},
		{"light 26 off west 41 off north, sorry 42 off north", `light 26" off west, 42" off north`},
		{"light 26 off west 41 off north, no wait 28 off west", `light 28" off west, 41" off north`},
		{"light 26 off west 41 off north oops 28 off east", `light 28" off east, 41" off north`},
		{"fan, sorry light 26 off west 41 off north", `light 26" off west, 41" off north`},
		{"light 26 off west 41 off north, actually 28", `light 26" off west, 28" off north? light 28" off west, 41" off north?`},
		{"study 3.2m x 4.1m no wait 4.2", `room study 3200 mm x 4200 mm? room study 4200 mm x 4100 mm?`},
		{"light 26 off west no strap there", "1"},
	} {
		if got := means(tt.in, lastLight()); got != tt.means && !(tt.means == "1" && !strings.HasPrefix(got, "light")) {
			t.Errorf("%q: got %s, want %s", tt.in, got, tt.means)
		}
	}
}

// TestHeld: places by what is there already.
func TestHeld(t *testing.T) {
	for _, tt := range []struct{ in, means string }{
		{"another one same line, 48 further south", `light 48" south of light 2`},
		{"second one 48 south of the first", `light 48" south of first light`},
		{"same distance off the north, 36 off east", `light 36" off east, 0" north of light 2`},
		{"second one 100 off west same north measurement", `light 100" off west, 0" north of light 2`},
		{"another 4 inch pot in line with that, 48 east", `light 4", 48" east of light 2`},
		{"another smoke 4' west of the last one", `smoke alarm 48" west of light 2`},
		{"next one is 60 off west 30 off north", `light 60" off west, 30" off north`},
		{"speaker lined up with d1, 90 off north", `speaker 90" off north, 0" west of d1`},
		{"speaker 24 south of the duct", `speaker 24" south of duct`},
		{"speaker 30 east of the sink light", `speaker 30" east of sink light`},
		{"speaker 2 ft past d1 to the west", `speaker 24" west of d1`},
		{"speaker directly south of d1 24 in", `speaker 24" south of d1`},
		{"speaker 12 left of d1", `speaker 12" north of d1? speaker 12" east of d1? speaker 12" south of d1? speaker 12" west of d1?`},
		{"smoke alarm dead centre", "smoke alarm halfway east-west, halfway north-south"},
		{"fan 12x12 centred in the room", `fan 12" x 12", halfway east-west, halfway north-south`},
		{"can light dead centre of the kitchen", "kitchen: light halfway east-west, halfway north-south"},
		{"camera 24 in from both walls in the se corner", `camera 24" off south, 24" off east`},
		{"pot light is located 60 off west and 100 off north", `light 60" off west, 100" off north`},
		{"got a pot at 60 off west, 100 off north, 4 inch", `light 4", 60" off west, 100" off north`},
		{"electrician put a pot 60 off west 100 off north", `light 60" off west, 100" off north`},
		{"light 26 from the window wall and 30 off the west one", `light 26" off north, 30" off west`},
		{"light 60 west 100 north", `light 60" off west, 100" off north?`},
		{"speakers at 30 66 102 off west, all 24 off north", "speaker 30\" off west, 24\" off north\nspeaker 66\" off west, 24\" off north\nspeaker 102\" off west, 24\" off north? note speakers at 30 66 102 off west, all 24 off north?"},
		{"speakers 24 off north at 30 and 66 off west", "speaker 30\" off west, 24\" off north\nspeaker 66\" off west, 24\" off north? note speakers 24 off north at 30 and 66 off west?"},
		{"2 speakers 30 apart starting 30 off west, 24 off north going east", "speaker 30\" off west, 24\" off north\nspeaker 60\" off west, 24\" off north? note 2 speakers 30 apart starting 30 off west, 24 off north going east?"},
		{"4 pots, 2 x 2 evenly", "lights 2 x 2 even? note 4 pots, 2 x 2 evenly?"},
	} {
		if got := means(tt.in, lastLight()); got != tt.means {
			t.Errorf("%q: got %s, want %s", tt.in, got, tt.means)
		}
	}
	// Two distances off walls that face each other say nothing of the other way.
	for _, in := range []string{"another 30 off west same east measurement", `light 4" n 60 s 20`} {
		if got := means(in, lastLight()); strings.Contains(got, "0\" north") || strings.Contains(got, "off south") {
			t.Errorf("%q: got %s", in, got)
		}
	}
	// A list with a name for all would be one thing three times.
	if got := means("heat speakers at 30 66 off west, all 24 off north", lastLight()); strings.Contains(got, "\n") {
		t.Errorf("got %s", got)
	}
}

// TestNewThings: what tells of something new is put on the plan, and puts nothing right.
func TestNewThings(t *testing.T) {
	for in, want := range map[string]string{
		"ok just got 7 10s": "delivered 7 x",
		"need a sconce 56 off east and 17 above the floor in the south wall before the board goes up": "light on south wall",
		"a speaker: 58 off east, 44 off north":                                                        `speaker 58" off east`,
		"a speaker is 58 off east x 44 off north ok?":                                                 `speaker 58" off east`,
		"mark a diffuser 20 1/2 off the west side and 74 in from north":                               `vent 20-1/2" off west`,
	} {
		if got := means(in, lastLight()); !strings.HasPrefix(got, want) {
			t.Errorf("%q: got %s, want %s", in, got, want)
		}
	}
}

// TestSpokenOf: what is told of a thing that an answer was about, without its name.
func TestSpokenOf(t *testing.T) {
	c := onSite(length.Imperial)
	c.Spoken = d1Spoken
	for _, tt := range []struct{ said, want string }{
		{"cut it", "kitchen: open d1"},
		{"ok its cut out now", "kitchen: open d1"},
		{"yes, opened it this morning", "kitchen: open d1"},
		{"nope still covered", "kitchen: buried d1"},
		{"no its not cut", "kitchen: buried d1"},
		{"covered it by mistake, ill cut it after lunch", "kitchen: buried d1"},
		{"havent cut it", "kitchen: buried d1"},
		{"did you cut it", "kitchen: find d1"},
		{"the boss covered it", "kitchen: buried d1? note the boss covered it?"},
		{"dont cut it", "note dont cut it"},
		{"who covered it", "covered"},
		{"leave it open", ""},
		{"it isnt covered", ""},
		{"cut the fan", "open fan"},
		{"cut 2 of them", ""},
		{"we cut some wood", ""},
	} {
		line, err := parse.Line(tt.said, c)
		got := ""
		if ask, asks := errors.AsType[*grammar.Ask](err); asks {
			for _, ch := range ask.Choices {
				got = strings.TrimSpace(got + " " + ch.String() + "?")
			}
		} else if err == nil {
			got = line.String()
		}
		if got != tt.want {
			t.Errorf("%q: %q, want %q", tt.said, got, tt.want)
		}
	}
	c.Spoken = nil
	if line, err := parse.Line("cut it", c); err == nil {
		t.Errorf("with nothing spoken of: %s", line)
	}
}
