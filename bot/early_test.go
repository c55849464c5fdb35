package bot_test

import (
	"strapline/bot/message"
	"strings"
	"testing"
)

// A note that came before its room is edited, deleted and taken back like any other, before the
// room is there and after.
func TestNotesBeforeTheirRoom(t *testing.T) {
	const light = "light a3 26 off west 20 off north"
	opened := func(c *crew) { c.say("lead> den: note x", "lead> bath is 8 by 5") }
	live(t, func(c *crew, restart func()) {
		opened(c)
		c.want("held", c.send(message.In{ID: "n", Who: "lead", Text: light}), "held until the size of bath is known: light a3")
		restart()
		c.want("edited", c.send(message.In{ID: "n@1", Of: "n", Who: "lead", Text: "light a3 27 off west 20 off north"}), "held", `27" off west`)
		restart()
		got := c.say("lead> feet", "lead> where is a3")
		c.want("noted once, as edited", got, "bath light a3", `27" off west`)
		c.want("the log", c.say("lead> log bath"), "light a3 27 off west")
		if got := c.say("lead> log bath"); strings.Contains(got, "26 off west") {
			t.Errorf("the first words were noted too: %s", got)
		}
		restart()
		c.want("edited when it is noted", c.send(message.In{ID: "n@2", Of: "n", Who: "lead", Text: "light a3 28 off west 20 off north"}), `28" off west`, `was 27" off west`)
		restart()
		c.want("deleted", c.send(message.In{ID: "n@3", Of: "n", Who: "lead"}), "struck", "a3")
	})
	live(t, func(c *crew, restart func()) {
		opened(c)
		c.send(message.In{ID: "n", Who: "sparks", Text: "bath: " + light})
		restart()
		c.want("deleted", c.send(message.In{ID: "n@1", Of: "n", Who: "sparks"}), "no longer held: light a3")
		restart()
		if got := c.say("lead> 1"); strings.Contains(got, "a3") {
			t.Errorf("it was noted: %s", got)
		}
	})
	live(t, func(c *crew, restart func()) { // another answer leaves what was held as it is
		c.say("lead> room hall 84 2 x 10'", "sparks> hall: "+light)
		c.want("both", c.send(message.In{ID: "a", Who: "lead", Text: "1"}), "84-1/2", "sparks: noted", "a3")
		restart()
		got := c.send(message.In{ID: "a@1", Of: "a", Who: "lead", Text: "2"})
		c.want("sized again", got, "84-1/4")
		if strings.Contains(got, "struck") {
			t.Errorf("what was held went with the answer: %s", got)
		}
		c.want("it stands", c.say("sparks> where is a3"), "hall light a3")
	})
	live(t, func(c *crew, restart func()) { // by whichever way the size comes
		opened(c)
		c.say("lead> "+light, "lead> in den")
		restart()
		c.want("somebody else", c.say("hanger> room bath 8' x 5'"), `bath 96"`, "lead: noted", "a3")
		c.silent("the question is out of the way", c.say("lead> 1"))
	})
	live(t, func(c *crew, restart func()) { // it goes to no other room, and undo lets go of it
		opened(c)
		c.want("held", c.say("lead> "+light), "held until the size of bath")
		restart()
		c.want("let go", c.say("lead> undo"), "no longer held")
		c.want("gone back", c.say("lead> in den", "lead> "+light), "den light a3")
	})
}
