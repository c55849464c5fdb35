package desk_test

import (
	"strings"
	"testing"
)

// before are notes of the sender's that a correction of what is asked about must not touch.
var before = []string{"lead> room den 14' x 11'", "lead> straps ew 16 oc first 16 off north", "sparks> light l9 20 off east 20 off south"}

const l9 = `light l9: 20" off east (studs)`

// TestCorrectsWhatIsAsked: a correction that names nothing is of what is asked about. It is read back with what it
// was, and the last note stays as it is.
func TestCorrectsWhatIsAsked(t *testing.T) {
	for _, tt := range []struct{ asks, right, want, answer, noted string }{
		{"got a pot right about there, 26 in from west and then 41 from north", "no make that 28 off west", `in place of light 26" off west, 41" off north: did you mean this?  1: light 28" off west, 41" off north`, "1", `28" off west, 41" off north`},
		{"got a pot right about there, 26 in from west and then 41 from north", "43 not 41", `1: light 26" off west, 43" off north`, "yes", `26" off west, 43" off north`},
		{"got a pot right about there, 26 in from west and then 41 from north", "east wall not west", `1: light 26" off east, 41" off north`, "1", `26" off east`},
		{"got a pot right about there, 26 in from west and then 41 from north", "no sorry 28", `which one?  1: light 28" off west, 41" off north  2: light 26" off west, 28" off north`, "2", `26" off west, 28" off north`},
		{"got a pot right about there, 26 in from west and then 41 from north", "other way round", `which one?  1: light 41" off west, 26" off north  2: light 26" off east, 41" off north`, "1", `41" off west, 26" off north`},
		{"4 pots, 6 inch, corners of the room 3 ft off each wall", "no make that 30 inches off each wall", `1: all 4: light 6", 30" off north, 30" off west; light 6", 30" off north, 30" off east`, "1", `30" off south, 30" off east`},
		{"got a pot right about there, 26 in from west and then 41 from north", "yes but 36 from the west", `noted 4: den light 1: 36" off west, 41" off north`, "where is light 1", `36" off west`},
		{"light 26 off west", "sorry 28 off west", `changed to light 28" off west, from light 26" off west`, "41 off north", `28" off west, 41" off north`},
		{"light 26 off west", "i meant off the east", `changed to light 26" off east`, "41 off north", `26" off east, 41" off north`},
		{"light 26 off west", "no its a fan not a light", `changed to fan 26" off west`, "41 off north", `fan 1: 26" off west`},
		{"pot 40 off", "no 44", `44" off which wall?`, "west", "and how far off north"},
		{"switch on east wall 30 off north", "wait 36 off north", `changed to switch on east wall, 36" off north`, "16 up", `36" off north, 16" up`},
		{"board will be half inch, 4x12s, running with the joists", "make that 5/8", `1: board 5/8" x 48" lengths 144"`, "1", `board 5/8"`},
		{"the den ceiling slopes 7' to 4' north", "south not north", `1: den: slope south 84" to 48"`, "1", "slope south"},
	} {
		a := newDesk(t, before...)
		a.say("sparks> " + tt.asks)
		n := len(a.State.Entries)
		if got := a.say("sparks> " + tt.right); !strings.Contains(got, tt.want) {
			t.Errorf("%q, then %q: got\n%s\nwant %s", tt.asks, tt.right, got, tt.want)
		}
		if len(a.State.Entries) != n && !strings.HasPrefix(tt.right, "yes but") {
			t.Errorf("%q, then %q: saved %q", tt.asks, tt.right, a.State.Entries[n].Text)
		}
		if got := a.say("sparks> " + tt.answer); !strings.Contains(got, tt.noted) {
			t.Errorf("%q, then %q and %q: got\n%s\nwant %s", tt.asks, tt.right, tt.answer, got, tt.noted)
		}
		if got := a.say("lead> where is l9"); !strings.Contains(got, l9) {
			t.Errorf("%q, then %q: l9 was changed:\n%s", tt.asks, tt.right, got)
		}
	}
}

// TestCorrectsNothingUnasked: when what was said last was not saved, a correction that fits none of it is not put
// into the last note unasked.
func TestCorrectsNothingUnasked(t *testing.T) {
	for _, said := range []string{"third row all screwed off", "light 26 off wset 41 off north", "which row is up"} {
		for _, right := range []string{"no 29", "sorry 29 off east", "make that off west"} {
			a := newDesk(t, before...)
			if a.say("sparks> " + said); said == "which row is up" {
				a.say("sparks> light 26 off")
				a.say("sparks> undo")
			}
			got := a.say("sparks> " + right)
			if where := a.say("lead> where is l9"); !strings.Contains(where, l9) {
				t.Errorf("%q, then %q: l9 was changed:\n%s\n%s", said, right, got, where)
			}
		}
	}
}

// TestCorrectsNoOtherKind: what names a thing is no correction of a thing of another kind, though it has its walls.
func TestCorrectsNoOtherKind(t *testing.T) {
	a := newDesk(t, append(before[:2:2], "sparks> duct d1 60 off west 50 off north")...)
	if got := a.say("sparks> light 26 off west 41 off north, dont squash it and no long screws there pls"); strings.Contains(got, "d1") {
		t.Errorf("got\n%s", got)
	}
}

// TestCorrectsTheLastNote: once a note is saved behind a question, a correction is of that note.
func TestCorrectsTheLastNote(t *testing.T) {
	a := newDesk(t, append(before, "sparks> pot 30 off west", "sparks> fan f2 60 off west 50 off north")...)
	if got := a.say("sparks> no sorry 54 off west"); !strings.Contains(got, `f2: 54" off west`) || !strings.Contains(got, `was 60" off west`) {
		t.Errorf("got\n%s", got)
	}
}

// TestCorrectsAnEarlierNote: a number that the last note has not is looked for in those before, and asked about.
func TestCorrectsAnEarlierNote(t *testing.T) {
	a := newDesk(t, append(before, "sparks> fan f2 60 off west 50 off north", "sparks> box b1 2x4 on north wall 52 off west 16 up", "sparks> duct d1 30 off west 90 off north")...)
	if got := a.say("sparks> 62 not 60"); !strings.Contains(got, `This one?  1: fix f2 62" off west, 50" off north`) {
		t.Errorf("got\n%s", got)
	}
	if got := a.say("sparks> 1"); !strings.Contains(got, `f2: 62" off west`) || !strings.Contains(got, `was 60" off west`) {
		t.Errorf("got\n%s", got)
	}
	if got := a.say("sparks> 34 not 33"); !strings.Contains(got, `no 33"`) {
		t.Errorf("got\n%s", got)
	}
}

// TestCorrectsWhatIsHeld: what waits for its room is corrected too.
func TestCorrectsWhatIsHeld(t *testing.T) {
	a := newDesk(t, "lead> room den", "lead> light 26 off west 41 off north")
	if got := a.say("lead> 28 not 26"); !strings.Contains(got, `held, changed: light 28" off west, 41" off north (was light 26" off west`) {
		t.Errorf("got\n%s", got)
	}
	if got := a.say("lead> room den 14' x 11'"); !strings.Contains(got, `28" off west, 41" off north`) {
		t.Errorf("got\n%s", got)
	}
}
