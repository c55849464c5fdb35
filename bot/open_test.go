package bot_test

import (
	"strapline/bot/message"
	"strings"
	"testing"
)

// A question stays open while its sender goes on: it is called to mind once, a digit later shows it again
// before it counts, and one in its thread is its answer.
func TestAQuestionStaysOpen(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		c.want("it is called to mind", c.say("sparks> note mind the step"), "noted", "still open: "+asks+": 60 2", "1: 60-1/2")
		if got := c.say("sparks> note and the other step"); strings.Contains(got, "still open") {
			t.Errorf("twice: %s", got)
		}
		c.want("a digit for something else", c.say("sparks> 1"), "still open: 60 2")
		restart()
		c.want("a digit right behind it", c.say("sparks> 1"), "noted", "a3")
	})
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		c.say("sparks> note mind the step")
		restart()
		c.silent("somebody else's digit", c.send(message.In{Who: "hanger", Thread: "q", Text: "1"}))
		c.silent("in another thread", c.send(message.In{Who: "sparks", Thread: "z", Text: "1"}))
		c.want("a digit in its thread", c.send(message.In{Who: "sparks", Thread: "q", Text: "1"}), "noted", "a3")
		c.silent("once more", c.send(message.In{Who: "sparks", Thread: "q", Text: "2"}))
	})
	live(t, func(c *crew, restart func()) { // several of one sender
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		c.want("another is asked", c.send(message.In{ID: "g", Who: "sparks", Text: "gap 84 2"}), "84 2", "1: 84-1/2")
		restart()
		c.want("the newest first", c.say("sparks> 1"), "gap 84-1/2", "still open: "+asks)
		restart()
		c.want("then the one under it", c.say("sparks> 2"), "noted", "60-1/4")
		c.silent("nothing is open", c.say("sparks> 1"))
	})
	live(t, func(c *crew, restart func()) { // the one under it is answered in its thread, and in full
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		c.send(message.In{ID: "g", Who: "sparks", Text: "gap 84 2"})
		restart()
		c.want("in full", c.say(`sparks> light 6" a3 60 1/2 off west 41 off north`), "noted", "a3", "still open: gap 84 2")
		c.send(message.In{ID: "h", Who: "sparks", Text: "straps ew 16 oc"})
		restart()
		c.want("in its thread", c.send(message.In{Who: "sparks", Thread: "g", Text: "1"}), "84-1/2", "where is the first one?")
	})
}

// What stands behind a question in one message and needs no answer is noted at once; what goes by it waits.
func TestWhatStandsBehindAQuestion(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		got := c.send(message.In{ID: "q", Who: "sparks", Text: asks + "\nlight a4 90 off west 20 off north\nsame as last but 12 further east\nnote mind the step\nopen a3"})
		c.want("by itself", got, "noted 3: den light a4", "noted 4: mind the step", "1: 60-1/2")
		if strings.Contains(got, "noted 5") || !strings.HasSuffix(got, "84-1/8\"  4: 60 and 2") && !strings.Contains(got[strings.LastIndex(got, "\n")+1:], "60 2") {
			t.Errorf("the question stands last, what goes by it waits: %s", got)
		}
		restart()
		c.want("answered", c.send(message.In{ID: "a", Who: "sparks", Text: "1"}), "a3", "72-1/2", "a3 open") // 60-1/2 + 12
		restart()
		c.want("all of it is its message's", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"}), "a4", "mind the step", "a3")
	})
	live(t, func(c *crew, restart func()) {
		got := c.say("lead> rec 12'11 x 24, laundry 7'9x8'6, attic 9'3 x 13'")
		c.want("rooms do not fill each other's", got, "laundry 93\" east-west", "attic 111\" east-west", "24: feet or inches?")
		c.want("its own unit does", c.say("lead> mudroom 7 1/2 x 9. feet"), "mudroom 90\" east-west x 108\" north-south")
		c.want("nor a room entered next", c.say("lead> ok hanging in the master", "lead> in the office now. 12' x 14-6"), "office 12'")
		if got := c.say("lead> log"); strings.Contains(got, "master 12'") {
			t.Errorf("the sides of one went to the other: %s", got)
		}
		c.want("the next words fill the hole", c.say("lead> in den", "lead> straps ew 16 oc. first is 14 off the north. light a5 22 off west 20 off north"), "first 14", "light a5")
	})
	live(t, func(c *crew, restart func()) {
		c.want("talk too waits", c.say("lead> in den", "lead> light a6, 26 off west. whats left"), "how far off north")
		restart()
		c.want("and is answered", c.say("lead> 41 off north"), "light a6", "no boards counted")
		c.want("an entry that is read is not taken for what another lacks", c.say("lead> straps ew 16 oc first 12 off north. test passed tues. light 26 off wset 20 off north. whats left"), "straps east-west", "26 off which wall?")
		c.want("nor one that is whole", c.say("lead> light a7 26 off west 41 off north. call it 19' 3/4\". 2 inch gap between em max. whats left"), "light a7: 26\" off west, 41\" off north")
		c.want("nor one behind a slip", c.say("lead> light 26 off wset 20 off north, straps ew 16 oc first 14 off north"), "first 14", "to have it on the plan")
	})
}

// Words that answer a question are not taken out of a message that speaks of something else.
func TestAYesInPassing(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.want("asked", c.say("lead> inspection passed on the electrical"), "1: check electrical inspection ok")
		restart()
		if got := c.say("lead> crap. yes. row 1 is up"); strings.Contains(got, "electrical inspection ok;") {
			t.Errorf("it was taken as the answer: %s", got)
		}
	})
}
