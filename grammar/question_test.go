package grammar_test

import (
	"errors"
	"testing"

	"strapline/grammar"
	"strapline/grammar/parse"
)

// TestQuestion: a question is sorted by its words, in whatever order they stand.
func TestQuestion(t *testing.T) {
	for _, tt := range []struct{ in, means string }{
		{"where does the duct cross", "find duct"},
		{"wheres the light above the sink again", "find light above sink"},
		{"duct position from the east wall please", "find duct off east"},
		{"how far is the second light from the west wall", "find second light off west"},
		{"how far off the west is light 2", "find light 2 off west"},
		{"which strap is the sink light on", "find sink light"},
		{"what size hole for the duct", "find duct"},
		{"did anybody cut the duct", "find duct"},
		{"is the duct on a strap", "find duct"},
		{"duct?", "find duct"},
		{"duct where", "find duct"},
		{"how far is strap 3 off the west", "find strap 3 off west"},
		{"how far is light 2 from the sink light", "apart light 2, sink light"},
		{"how far apart are d1 and light 2", "apart d1, light 2"},
		{"what did we bury on the north wall", "list everything on north wall"},
		{"which lights are still behind the board", "covered"},
		{"what havent we cut yet", "covered"},
		{"read back the lights", "list lights"},
		{"read them back to me", "list everything"},
		{"did anyone take down where the pipe goes", "list pipes"},
		{"which way does the pipe run", "list pipes"},
		{"any pipes in here", "list pipes"},
		{"any pipe over that spot?", "list pipes"},
		{"did anyone take down where the rad pipes went", "list pipes"},
		{"how many smokes did we put in", "list smoke alarms"},
		{"is there anything in the way at row 2", "anything over row 2"},
		{"which way are the straps and whats the spacing", "list size"},
		{"how big is this room", "list size"},
		{"whats the cut for a gap of 95 3/4", `gap 95-3/4"`},
		{"95 3/4 opening what do i cut", `gap 95-3/4"`},
		{"is it safe to screw there", "reach"},
		{"where can i screw in row 3", "reach"},
		{"do i hit anything with a 1 5/8 screw", `reach 1-5/8"`},
		{"will a 2 inch screw reach the pipe", `reach 2"`},
		{"so are we gonna hit anything if we use 1 5/8 screws", `reach 1-5/8"`},
		{"how long a screw", "how many screws"},
		{"who put in the fan", "log of fan"},
		{"when did we note the duct", "log of duct"},
		{"what did the plumber note", "log of plumber"},
		{"what did i say last", "log last"},
		{"how do i add a light", "help light"},
		// Coats, what holds a weight, boards for several rooms, the state of all rooms.
		{"can i coat tomorrow?", "coat due"},
		{"its 55 in here and wet. can i coat tomorrow?", "coat due 55f damp"},
		{"8 degrees and damp, ok to put the second coat on?", "coat due 8c damp"},
		{"is it dry enough to sand", "coat due"},
		{"how long till i can prime", "coat due"},
		{"is the kitchen ready for paint", "kitchen: ready"},
		{"could something heavy hang over the table", "what holds"},
		{"can the kitchen ceiling take a heavy light fixture", "kitchen: what holds"},
		{"is there backing for the grab bar", "what holds"},
		{"did anyone put something solid in the wall for the tv?", "what holds"},
		{"where exactly is that block?", "what holds"},
		{"will the 12s do the den and kitchen lids", "order"},
		{"enuf rock left to finish the kitchen", "kitchen: order"},
		{"how many for this ceiling", "order"},
		{"what do i cut for the kitchen at the window", "kitchen: cut list"},
		{"so what screws there 1 1/4 or 1 5/8?", "how many screws"},
		{"what rooms are shut", "status"},
		{"can the plasterer come tuesday, anything still open", "todo"},
		{"ok to close the rest?", "ready"},
		{"where do the two kitchen lights go", "kitchen: list lights"},
		{"where did the four cans end up", "list lights"},
		{"photo of the valve", "notes on photo valve"},
		{"ok if i prime the kitchen tonight", "kitchen: coat due"},
		{"hallo is the kitchen dry enough for the second coat, its 12 c and damp", "kitchen: coat due 12c damp"},
		{"we have a heavy chandelier, where in the kitchen can it go", "kitchen: what holds"},
		{"will what we have on hand do the kitchen and den ceilings", "order"},
		{"which way do the beams go above the kitchen", "kitchen: list size"},
		// Rooms that are ready, boards by their size, what is buried, a place on a wall, the air said first.
		{"which rooms are ready for the second trade", "status"},
		{"is anywhere ready to start", "status"},
		{"how many 4x12 does the den take", "den: order"},
		{"boards for the kitchen lid, how many", "kitchen: order"},
		{"do 12 footers break on a joist or do we cut them", "layout"},
		{"how do we lay the sheets", "layout"},
		{"whats still to cut in the kitchen", "kitchen: covered"},
		{"where exactly do we cut", "covered"},
		{"which light went missing in the kitchen", "kitchen: covered"},
		{"can we drive a screw in the north wall at 22 up", `reach at on north wall, 22" up`},
		{"one and five eighths screws ok in here", `reach 1-5/8"`},
		{"inch and five eighths screws ok in here", `reach 1-5/8"`},
		{"61 degrees in here and rainy, when can i sand again", "coat due 61f damp"},
		{"distances of the lights please", "list lights"},
		{"what do we know about the den", "den: list everything"},
		{"is light 1 clear of the straps", "how clear is light 1"},
		{"how much of the den is up", "den: how many boards up"},
		{"do the sheets run with the joists or across", "layout"},
		{"which end do we start", "layout"},
		{"can i screw a shelf in at 40 off west and 30 off north", `reach at 40" off west, 30" off north`},
		{"can the den wall carry a shelf", "den: what holds"},
		{"has anybody closed the den", "den: status"},
		{"what have they got left to put up", "whats left to hang"},
		{"what do the tapers have to know", "handoff"},
		{"insulation in yet in the den?", "den: state of insulation"},
		{"can i book the taper for friday", "todo"},
	} {
		if line, err := parse.Line(tt.in, flat()); err != nil || line.String() != tt.means {
			t.Errorf("%q: got %v, %v, want %s", tt.in, line, err, tt.means)
		}
	}
	// What asks of nothing that is noted, or of more than is known, is none.
	for _, in := range []string{
		"where is my hammer", "what have you got", "how long is lunch", "what did the boss say", "any of you seen the level",
		"whats in the box", "whats the low spot?", "where do the guys park their trucks by the fan shop", "how many of you want coffee", "what do you want for lunch",
		"is the heater room ready for lunch", "where do i park",
		"whats the cut for to 95", "what do i cut for for 95",
	} {
		line, err := parse.Line(in, flat())
		if _, refused := errors.AsType[*grammar.Refusal](err); err == nil || !refused && !errors.Is(err, grammar.ErrChatter) {
			t.Errorf("%q: got %v, %v", in, line, err)
		}
	}
}
