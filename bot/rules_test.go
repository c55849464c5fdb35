package bot_test

import (
	"encoding/json"
	"slices"
	"strapline/bot/message"
	"strings"
	"testing"
)

// den is where the rules are tried.
var den = []string{"lead> room den 12' x 10' high 8'", "lead> straps ns 16 oc first 16 off west"}

// TestRules: what a crew relies on and sees only once it goes wrong.
func TestRules(t *testing.T) {
	for _, tt := range []struct {
		name      string
		before    []string
		say       string
		want, not string
	}{
		{"joints are counted from the west", []string{`sparks> light 6" l1 50 off west 20 off north`, "hanger> hung 48 + 47 + 48 row 1"}, "hanger> where is l1", "2\" east of joint 1 of row 1", "joint 2"},
		{"and the next is the next", []string{`sparks> light 6" l1 93 off west 20 off north`, "hanger> hung 48 + 47 + 48 row 1"}, "hanger> where is l1", "2\" west of joint 2 of row 1", "joint 1"},
		{"a cut in a board that is not over it", []string{`sparks> light 6" l1 52 off west 20 off north`}, "hanger> hung 96 + 47 7/8 row 2 cut l1", "not saved: l1 is at 52\" off west, 20\" off north, not under row 2", "noted"},
		{"and it is still on the list", []string{`sparks> light 6" l1 52 off west 20 off north`, "hanger> hung 96 + 47 7/8 row 2 cut l1", "hanger> hung 96 + 47 7/8 row 1"}, "lead> covered", "l1", "nothing covered"},
		{"a room with notes in it is not struck", []string{"sparks> duct d1 20 off west 20 off north"}, "lead> strike 1", "not saved: den has notes in it", "struck"},
		{"half an inch is no agreement", nil, "sparks> light 6\" l1 100 off west 80 off north 43 1/2 off east", "1/2\" apart; which counts?", "noted"},
		{"a quarter is one", nil, "sparks> light 6\" l1 100 off west 80 off north 43 3/4 off east", "agrees within 1/4\"", "which counts"},
		{"a colleague's name further along the wall", []string{"hanger> duct d1 20 off west 100 off north"}, "sparks> duct d1 20 off west 80 off north", "The same one?", "noted 4"},
		{"a colleague's mark further along the wall", []string{"hanger> mark b 20 off west 100 off north"}, "sparks> mark b 20 off west 80 off north", "The same one?", "noted 4"},
		{"what is kept of a fix is held to the face it was held to", []string{"hanger> duct d1 60 off west 100 off north", "lead> west wall boarded 1/2"}, "hanger> fix d1 90 off north", "60\" off west studs (from the studs)", "board face"},
		{"a wall goes by the name it has in its room", []string{"lead> den: north is window wall", "lead> room hall 12' x 10'", "lead> hall: south is window wall"}, `taper> hall: light 4" h1 20 off window wall 30 off west`, "20\" off south", "20\" off north"},
		{"and in the other room by that", []string{"lead> den: north is window wall", "lead> room hall 12' x 10'", "lead> hall: south is window wall", "taper> in hall"}, `taper> den: light 4" h1 20 off window wall 30 off west`, "20\" off north", "20\" off south"},
		{"a struck name of a wall is none", []string{"lead> north is window wall", "lead> strike 3"}, `sparks> light 4" h1 20 off window wall 30 off west`, "which wall is the window wall?", "noted"},
		{"a struck name of a room is none", []string{"lead> den is called cook room", "lead> strike 3", "lead> room hall 12' x 10'"}, `sparks> cook room: light 4" h1 20 off north 30 off west`, "", "noted"},
		{"a note keeps the words it was given", []string{"sparks> light l2 26 off west 41 off north"}, "sparks> note ask about light 2 today", "ask about light 2 today", "about l2"},
		{"a failed check says so", []string{"lead> check nails failed"}, "lead> ready", "nails failed (hanger)", "nails (hanger)"},
		{"whoever corrects need not be told", []string{"hanger> duct d1 60 off west 100 off north", "lead> where is d1", "sparks> where is d1"}, "sparks> fix d1 92 off north", "given the old place of d1: lead (", "sparks ("},
	} {
		c := newCrew(t)
		c.say(den...)
		c.say(tt.before...)
		if got := c.say(tt.say); !strings.Contains(got, tt.want) || strings.Contains(got, tt.not) {
			t.Errorf("%s: %s is answered\n%s\nwant %q in it, not %q", tt.name, tt.say, got, tt.want, tt.not)
		}
	}
}

// TestOpeningsAreReferences of what lies on the same surface.
func TestOpeningsAreReferences(t *testing.T) {
	c := newCrew(t)
	c.say(den...)
	c.say("sparks> box o1 on north wall 72 off west 16 up", `sparks> duct 6" o2 72 off west 50 off north`, `sparks> light 6" l1 72 off west 60 off north`,
		"sparks> north wall up", "hanger> ceiling up", "sparks> open o1 o2")
	out, err := c.j.Handle(t.Context(), message.In{Who: "hanger", Text: "where is l1"})
	if err != nil {
		t.Fatal(err)
	}
	facts, err := json.Marshal(out.Answers[0].Facts)
	if err != nil {
		t.Fatal(err)
	}
	if from := string(facts); !strings.Contains(from, `"ref":"o2","dir":"south"`) || strings.Contains(from, `"o1"`) {
		t.Errorf("l1 is measured from %s", from)
	}
}

// TestNearMissIsHintedOnce: in a busy channel, of each sender; who speaks to the bot alone gets every hint.
func TestNearMissIsHintedOnce(t *testing.T) {
	c := newCrew(t)
	c.say(den...)
	say := func(who string, direct bool) string {
		return c.send(message.In{Who: who, Text: "the duct over there is crooked", Direct: direct})
	}
	c.want("the first", say("helper", false), "not saved")
	c.silent("the second", say("helper", false))
	c.want("another's first", say("taper", false), "not saved")
	c.want("spoken to alone", say("helper", true), "not saved")
}

// TestBounds: what is set up for a whole job or room is asked about beyond its bounds and taken within them.
func TestBounds(t *testing.T) {
	for _, tt := range []struct{ takes, asks string }{
		{"room hall 200' x 10'", "room hall 200' 1 x 10'"},
		{"room hall 12' x 1'", "room hall 12' x 11\""},
		{"room hall 12' x 10' less 11' x 9' ne", "room hall 12' x 10' less 12' x 9' ne"},
		{"board 2 x 48", "board 2 1/8 x 48"},
		{"board 1/2 x 60", "board 1/2 x 73"},
		{"board lengths 4'", "board lengths 3' 11"},
		{"board lengths 16'", "board lengths 16' 2"},
		{"clearance 2", "clearance 2 1/8"},
		{"screw 3 1/2", "screw 3 5/8"},
		{"screw 1/2", "screw 3/8"},
		{"longest in 2'", "longest in 1' 11"},
		{"longest in 16'", "longest in 16' 2"},
		{"set margin 2", "set margin 2 1/8"},
		{"set stagger 60", "set stagger 61"},
		{"set sliver 24", "set sliver 25"},
		{"set short 48", "set short 49"},
		{"set waste 50", "set waste 51"},
		{"set rated 240", "set rated 241"},
		{"set box 1", "set box 0"},
		{"stock 10000 x 12'", "stock 10001 x 12'"},
		{"stock 1 x 2'", "stock 1 x 23\""},
	} {
		c := newCrew(t)
		c.say(den...)
		out, err := c.j.Handle(t.Context(), message.In{Who: "lead", Text: tt.takes})
		if err != nil || len(out.Answers) != 1 || !out.Answers[0].Saved {
			t.Errorf("%q is not taken: %s %v", tt.takes, out.Text(), err)
		}
		if out, err = c.j.Handle(t.Context(), message.In{Who: "lead", Text: tt.asks}); err != nil || len(out.Answers) != 1 || slices.ContainsFunc(out.Answers, func(a message.Answer) bool { return a.Saved }) {
			t.Errorf("%q is taken: %s %v", tt.asks, out.Text(), err)
		}
	}
}

// TestAUsersArrowIsWords: " > " stands between a question and its answer in the log; in a note it is words.
func TestAUsersArrowIsWords(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "n", Who: "sparks", Text: "note a > b"})
		restart()
		c.want("the shorter words", c.send(message.In{ID: "n@1", Of: "n", Who: "sparks", Text: "note a"}), "noted", "a", "in place of")
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		c.send(message.In{ID: "p", Who: "sparks", Text: "1"})
		restart()
		c.silent("a question's words, the same", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks", Text: asks + "\n"}))
		c.want("a line more", c.send(message.In{ID: "q@2", Of: "q", Who: "sparks", Text: asks + "\nnote more > less"}), "noted", "more > less")
		restart()
		c.want("the line less", c.send(message.In{ID: "q@3", Of: "q", Who: "sparks", Text: asks}), "struck", "more > less")
		c.want("and the answer stands", c.say("lead> where is a3"), "a3")
		c.say("lead> room porch 15' x 12' high 8'", "lead> in porch", "plumber> light > spot 26 off the door wall, 40 off the shed wall")
		restart()
		c.want("what a question was about is kept in all its words", c.say("plumber> 1", "plumber> room shed 9' x 9'", "plumber> log"), "light > spot 26 off the door wall, 40 off the shed wall")
	})
}
