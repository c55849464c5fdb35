package sense_test

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/read"
	"strapline/grammar/sense"
	"strapline/grammar/speech"
)

// Each word of the first has a part in it; the others have a word too many, or say one thing of two.
func TestSure(t *testing.T) {
	for said, want := range map[string]bool{
		"first coat is on": true, "first coat is on lol": false,
	} {
		sure := false
		for _, g := range of(said) {
			sure = sure || g.Sure
		}
		if sure != want {
			t.Errorf("%q: sure %v, want %v", said, sure, want)
		}
	}
}

// What else is told beside it is kept as a note.
func TestRest(t *testing.T) {
	for said, want := range map[string]bool{
		"wiring passed, he wants the cover back on": true, "insulation and poly passed": false,
		"first coat is on, sanding friday": true, "first coat is on, its 62 and damp": false,
	} {
		if all := of(said); len(all) != 1 || all[0].Note != want {
			t.Errorf("%q: %+v, want the rest kept: %v", said, all, want)
		}
	}
}

// of returns what a statement may mean, as no question comes to it.
func of(said string) []speech.Guess {
	l := read.CutLine(said, &noted)
	if l.AsksSomething() {
		return nil
	}
	return sense.Of(speech.Scan(l))
}

// noted is a job with a kitchen, a light l2, a pot over the sink and an island fan.
var noted = grammar.Context{
	Units: length.Imperial, Rooms: map[string]string{"kitchen": "kitchen", "den": "den"}, MaxWords: 3,
	Name: func(s string) bool { return slices.Contains([]string{"l2", "d1", "over sink", "island fan"}, s) },
}

// Of each line what it may mean; the lines are invented.
func TestGuesses(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		// Hanging.
		// Boards.
		{"gap at the east end 112 1/8, other side 111 7/8", "gap 112 1/8, 111 7/8"},
		{"last row needs a 21 3/4 rip", "note rip 21 3/4"},
		{"boot cut out, nobody cut the fan", ""},
		// Checks, coats, flaws.
		{"insulation is in and wiring passed", "check insulation ok\ncheck electrical inspection ok"},
		{"plumbing failed again", "check plumbing inspection failed"},
		{"nothing in it but insulation", ""},
		{"first coat is on", "coat 1"},
		{"2nd coat done", "coat 2"},
		{"insulation got the ok, poly is not done", "check insulation ok\ncheck vapour barrier failed"},
		{"insulation, poly and wiring all passed", "check insulation ok\ncheck vapour barrier ok\ncheck electrical inspection ok"},
		{"wiring passed and insulation isnt ok", "check electrical inspection ok\ncheck insulation failed"},
		{"the rough was inspected, he signed at the panel", "check electrical inspection ok"},
		{"rough gets inspected tomorrow", ""},
		{"taped and first coat on, its 62 and damp", "check taped ok\ncoat 1 62f damp"},
		{"bed coat went on, 18 deg and dry in here", "coat 1 18c"},
		{"second coat on, 65f 50%", "coat 2 65f 50%"},
		{"second coat done, sanding friday", "coat 2"},
		{"second coat's on, 21c and dry", "coat 2 21c"},
		{"second coat friday, first is on", ""},
		{"sanded, two spots left by the arch", "snag two spots left by the arch"},
		// Pieces to cut, as the tape reads them.
		{"cut me a piece thirty one and a half by eight foot", `note cut 1 at 31-1/2" x 96"`},
		{"cut me 31 and a quarter by 8 foot twice", `note cut 2 at 31-1/4" x 96"`},
		{"need two at 46 1/4 x 31", `note cut 2 at 46-1/4" x 31"`},
		{"need 3 off 46 x 31 1/2 please", `note cut 3 at 46" x 31-1/2"`},
		{"need 2x4 blocking", ""}, {"need 12 4x12", ""}, {"cut a hole 8 x 30", ""}, {"need two boxes 3 x 2", ""},
		{"top coat is on", ""}, // the last, whichever number that is
		{"screw pops along the third strap", "snag screw pops along the third strap"},
		// Things, openings, runs.
		{"flex duct lays in bay 5 from the west gable", ""},
		{"light in the hall 20 off west 30 off north", ""},
		{"light 26 off west or 28 off west", ""},
		{"two lights 26 off west 12 40 off north", ""}, // a number too many
		// What may be a part of a number.
		{"light ate 90 off west 41 off north", ""},
		{"light less 26 off west 41 off north", ""},
		{"pot 26 in from the left, 41 off north", ""},
		// Corrections.
		{"it is not 40", ""},
		{"couldnt find pot 4 anywhere", "missed light 4"},
		{"tape coat is done", "coat 1"},
		// Which room, wall or number, or which of two?
		{"first coat is on in the kitchen and the den", ""}, {"first coat is on in the bath", ""}, {"first coat in the kitchen is on now, in the den too", ""}, {"first coat is on in the bath", ""}, {"couldnt find the light on the left", ""},
		{"gap in the notch 12 1/8, 12 1/4", ""}, {"gap 112? at the east end of the room, no rush", ""}, {"gap ate 90 at the end", ""},
		{"2nd row is on, couldnt find the light", ""}, {"first coat went on yesterday", ""}, {"insulation is in 24 wide", ""},
		{"insulation is in on the north wall", "check insulation open insulation is in on the north wall"}, // part by part, so it stays open
		{"batts in both slopes done, kneewalls tomorrow", "check insulation open batts in both slopes done, kneewalls tomorrow"}, {"batts are in except behind the stairs", "check insulation open batts are in except behind the stairs"},
		{"poly up but not sealed at the sill", "check vapour barrier open poly up but not sealed at the sill"}, {"rear slope closed. nothing in it but insulation", ""},
		{"framing passed, nobody tapes before he sees the lid", "check framing ok\ncheck add nobody tapes before he sees the lid"},
		// What waits and what is to do, in the crew's own words; what is mended already.
		{"no taping til the inspector has seen it", "check add no taping til the inspector has seen it"}, {"dont touch the radio", ""}, {"it isnt covered", ""},
		{"that joint needs a plate", "check add that joint needs a plate"}, {"need 2 more plates 14 long", ""}, {"plate it", "check add plate it"}, {"fix it", ""},
		{"lid is up, box is cut, the sill still needs bead", "check add the sill still needs bead"},
		{"filler's in", ""}, {"sleeve's on", "snag fixed: sleeve's on"}, {"plates are in the shed", ""}, {"proud nail by the sink, sank it and drove two more", "snag fixed: proud nail by the sink, sank it and drove two more"},
		{"stack up the tub wall 9 off the corner, i plated it", ""}, {"humidity is around 70 pct", "coat air 70%"}, {"tape coat is on, 11am, 64 degrees", "coat 1 64f at 11 am"},
		{"didnt seal the hole", ""}, {"still gotta caulk round the tub", "check add still gotta caulk round the tub"}, {"fixed", ""}, {"keep off the west wall til the plumber is done", "check add keep off the west wall til the plumber is done"}, {"inspector's booked for tues", "check add inspector's booked for tues"}, {"hole is sealed but not painted", ""}, {"moved the box 3 over", ""}, {"put plates on it", "check add put plates on it"},
		{"gap 12 off west", ""}, {"gap at the light 12", ""}, {"gap was 12", ""}, {"2 seams and a 3/8 gap", ""}, {"insulation should be in, done", ""},
		{"3 bent studs left", ""},
		// Questions and talk.
		{"did anyone cut l2 already", ""}, {"how many sheets do we still need", ""}, {"is row 2 up", ""},
		{"whats left of the pizza", ""}, {"can we close the window", ""}, {"what do i bring to the party", ""}, {"who ate my sandwich", ""}, {"raining again", ""},
	} {
		got := ""
		if all := of(c.said); len(all) > 0 {
			got = all[0].Text
		}
		if got != c.want {
			t.Errorf("%q: %q, want %q", c.said, got, c.want)
		}
	}
}

var figures = regexp.MustCompile(`\d+`)

// FuzzGuess: a guess has no figure that the line has not, but for those it stands for: a board's
// width, a count or a row said as a word, the ends of a run.
func FuzzGuess(f *testing.F) {
	for _, name := range []string{"heard.txt", "chatter.txt"} {
		b, err := os.ReadFile("../testdata/" + name)
		if err != nil {
			f.Fatal(err)
		}
		for line := range strings.Lines(string(b)) {
			f.Add(strings.TrimSpace(line))
		}
	}
	f.Fuzz(func(t *testing.T, said string) {
		if len(said) > 400 {
			return
		}
		for _, g := range of(said) {
			if strings.HasPrefix(g.Text, "snag ") || strings.HasPrefix(g.Text, "note cut ") { // in the sender's words, or as the tape reads it
				continue
			}
			for _, n := range figures.FindAllString(g.Text, -1) {
				words := slices.Contains([]string{"0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "14", "16", "48"}, n)
				if !words && !strings.Contains(said, n) {
					t.Errorf("%q: %s in %q was not said", said, n, g.Text)
				}
			}
		}
	})
}
