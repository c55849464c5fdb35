package bot_test

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/message"
	"strapline/store"
)

// again is a crew whose job can be closed and opened again in between.
func again(t *testing.T, restarts bool) (*crew, func()) {
	c := &crew{t: t, clock: new(console.Clock), at: time.Date(2026, 5, 4, 8, 0, 0, 0, time.UTC)}
	opt := bot.Options{Dir: t.TempDir(), Now: c.clock.Now, Loc: time.UTC}
	b := open(t, opt)
	c.j = openJob(t, b, "flat")
	return c, func() {
		if !restarts {
			return
		}
		live := stateOf(t, c.j)
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		if rep, err := store.Check(b.Path("flat"), nil); err != nil || len(rep.Faults) > 0 {
			t.Fatalf("check: %v %v", rep.Faults, err)
		}
		b = open(t, opt)
		sameState(t, live, stateOf(t, openJob(t, b, "flat"))) // it puts an entry behind both
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		b = open(t, opt)
		c.j = openJob(t, b, "flat")
	}
}

// live runs a test in one go, and with the job opened again between messages.
func live(t *testing.T, do func(c *crew, restart func())) {
	for _, restarts := range []bool{false, true} {
		t.Run(map[bool]string{false: "live", true: "restarted"}[restarts], func(t *testing.T) {
			c, restart := again(t, restarts)
			c.say("lead> room den 12' x 10'", "lead> straps ns 16 oc first 16 off west")
			do(c, restart)
		})
	}
}

func (c *crew) silent(what, got string) {
	c.t.Helper()
	if got != "" {
		c.t.Errorf("%s: got\n%s\nwant no reply", what, got)
	}
}

const asks = `light 6" a3 60 2 off west 41 off north`

func TestEditOfAMessageWhoseQuestionWasAnswered(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.want("it asks", c.send(message.In{ID: "q", Who: "sparks", Text: asks}), "1: ", "2: ")
		c.want("it is answered", c.send(message.In{ID: "a", Who: "sparks", Text: "1"}), "noted", "a3")
		restart()
		c.silent("a line more, the same words", c.send(message.In{ID: "q@0", Of: "q", Who: "sparks", Text: asks + "\nok?"}))
		c.want("an edit corrects", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks", Text: `light 6" a3 70 off west 41 off north`}), `70" off west`, "was 60-1/2")
		restart()
		c.want("a deletion strikes", c.send(message.In{ID: "q@2", Of: "q", Who: "sparks"}), "struck")
		c.want("it is gone", c.say("lead> where is a3"), "a3 was struck")
	})
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: "note before\n" + asks + "\nnote behind"})
		c.send(message.In{ID: "a", Who: "sparks", Text: "1\nnote of its own"})
		restart()
		got := c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"})
		c.want("all of the message is struck", got, "note before", "a3", "note behind")
		if strings.Contains(got, "its own") {
			t.Errorf("the answer's own note was struck: %s", got)
		}
	})
	live(t, func(c *crew, restart func()) { // a question that leads to another
		c.send(message.In{ID: "q", Who: "sparks", Text: `light 6" a3 60 2 left 41 off north`})
		for i := 0; i < 3 && !strings.Contains(c.say("lead> log sparks"), "a3"); i++ {
			c.say("sparks> 1")
			restart()
		}
		c.want("a deletion strikes", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"}), "struck")
	})
}

func TestEditOfAMessageWhoseQuestionIsOpen(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		restart()
		c.want("deleting it closes it", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"}), "question closed, not saved: "+asks)
		restart()
		c.silent("a pick", c.say("sparks> 1"))
		c.want("nothing is there", c.say("lead> where is a3"), `no note of "a3"`)
	})
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: "note before\n" + asks})
		restart()
		c.want("line and question", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"}), "struck", "note before", "question closed")
	})
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		restart()
		c.want("the new words ask", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks", Text: `light 6" a3 70 2 off west 41 off north`}), "1: 70-1/2")
		restart()
		c.want("they are answered", c.send(message.In{ID: "a", Who: "sparks", Text: "1"}), "noted", "70-1/2")
		c.want("and struck", c.send(message.In{ID: "q@2", Of: "q", Who: "sparks"}), "struck", "a3")
	})
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		restart()
		c.want("plain new words", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks", Text: `light 6" a3 70 off west 41 off north`}), "noted", `70" off west`)
		c.silent("a pick", c.say("sparks> 1"))
	})
	live(t, func(c *crew, restart func()) { // somebody edits one message while another's question is open
		c.send(message.In{ID: "n", Who: "sparks", Text: "note mind the step"})
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		restart()
		c.send(message.In{ID: "n@1", Of: "n", Who: "sparks", Text: "note mind the stair"})
		c.want("it is open still", c.say("sparks> 1"), "noted", "a3")
	})
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "n", Who: "sparks", Text: "gap 96"})
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		restart()
		c.want("the edit is asked about first", c.send(message.In{ID: "n@1", Of: "n", Who: "sparks", Text: "gap 97"}), "1: take the new one")
		restart()
		c.want("then it comes back", c.say("sparks> 2"), "kept as it was", "still open: "+asks+": 60 2")
		restart()
		c.want("and is answered", c.say("sparks> 1"), "noted", "a3")
	})
}

func TestEditOfAnAnswer(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		c.want("choice 1", c.send(message.In{ID: "a", Who: "sparks", Text: "1"}), "noted 3", "60-1/2")
		restart()
		c.want("choice 2", c.send(message.In{ID: "a@1", Of: "a", Who: "sparks", Text: "2"}), "noted 5", "in place of 3")
		restart()
		c.want("as the log has it", c.say("lead> log sparks"), "[struck", "> 2")
		c.want("and back", c.send(message.In{ID: "a@2", Of: "a", Who: "sparks", Text: "1"}), "noted 7", "60-1/2", "in place of 5")
		restart()
		c.want("where it is", c.say("lead> where is a3"), `3-1/2" west of strap 4`) // 16 + 3 x 16 - 3 1/2
	})
	live(t, func(c *crew, restart func()) { // the sender went on to another room
		c.say("lead> room hall 20' x 10'", "sparks> in den")
		c.send(message.In{ID: "q", Who: "sparks", Text: asks + "\nnote behind"})
		c.send(message.In{ID: "a", Who: "sparks", Text: "1\nnote of its own"})
		c.say("sparks> in hall")
		restart()
		got := c.send(message.In{ID: "a@1", Of: "a", Who: "sparks", Text: "2\nnote of its own"})
		c.want("choice 2", got, "noted", "in place of")
		if strings.Contains(got, "behind") || strings.Contains(got, "its own") {
			t.Errorf("other lines were answered again: %s", got)
		}
		c.want("in its room", c.say("hanger> den: log"), "> 2")
		restart()
		got = c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"})
		c.want("the question's message deleted", got, "a3", "note behind")
	})
	live(t, func(c *crew, restart func()) { // given out meanwhile
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		c.send(message.In{ID: "a", Who: "sparks", Text: "1"})
		c.say("hanger> where is a3")
		restart()
		c.want("it asks first", c.send(message.In{ID: "a@1", Of: "a", Who: "sparks", Text: "2"}), "a3 was given to hanger", "1: take the new one", "2: keep")
		restart()
		c.want("taken", c.say("sparks> 1"), "struck 3", "noted")
		restart()
		c.want("a deletion of the first message", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"}), "struck", "a3")
		c.want("it is gone", c.say("lead> where is a3"), "a3 was struck")
	})
	live(t, func(c *crew, restart func()) { // an answer that was to keep what was noted, and one that was not
		c.send(message.In{ID: "g", Who: "sparks", Text: "gap 96"})
		c.want("asked", c.send(message.In{ID: "g@1", Of: "g", Who: "sparks", Text: "gap 97"}), "1: take the new one", "2: keep")
		c.want("kept", c.send(message.In{ID: "a", Who: "sparks", Text: "2"}), "kept as it was")
		restart()
		c.want("taken after all", c.send(message.In{ID: "a@1", Of: "a", Who: "sparks", Text: "1"}), "struck 3", "97")
		restart()
		c.want("asked again", c.send(message.In{ID: "a@2", Of: "a", Who: "sparks", Text: "2"}), "a cut size was worked out from it", "1: take it back", "2: keep")
	})
}

// An answer that led to another question, taken back or given otherwise.
func TestEditOfAnAnswerThatAsked(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.want("first", c.send(message.In{ID: "q", Who: "sparks", Text: `light 6" a3 60 2 left 41 off north` + "\nopen a3"}), "1: ")
		c.want("second", c.send(message.In{ID: "a", Who: "sparks", Text: "1"}), "off which wall", "1: east", "2: west")
		c.want("noted", c.send(message.In{ID: "b", Who: "sparks", Text: "1"}), "60-1/2\" off east", "noted 4: den a3 open")
		restart()
		c.want("the first answer edited asks anew", c.send(message.In{ID: "a@1", Of: "a", Who: "sparks", Text: "2"}), "60-1/4", "off which wall", "struck 3")
		restart()
		c.want("and is answered", c.send(message.In{ID: "b2", Who: "sparks", Text: "2"}), "60-1/4\" off west")
		restart()
		c.silent("the answer that is over", c.send(message.In{ID: "b@1", Of: "b", Who: "sparks", Text: "2"}))
		c.want("all of it is the first message's", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"}), "a3", "open a3")
	})
	live(t, func(c *crew, restart func()) { // edited while the second question is open
		c.send(message.In{ID: "q", Who: "sparks", Text: `light 6" a3 60 2 left 41 off north` + "\nopen a3"})
		c.send(message.In{ID: "a", Who: "sparks", Text: "1"})
		restart()
		got := c.send(message.In{ID: "a@1", Of: "a", Who: "sparks", Text: "2"})
		c.want("it asks anew", got, "60-1/4", "off which wall")
		if strings.Contains(got, "dropped") {
			t.Errorf("nothing is dropped: %s", got)
		}
		restart()
		c.want("and what stood behind still waits", c.say("sparks> 2"), "60-1/4\" off west", "den a3 open")
	})
	live(t, func(c *crew, restart func()) { // the depth of a run is asked for, the run is saved
		c.send(message.In{ID: "q", Who: "sparks", Text: "pipe p1 40 off north from strap 1 to strap 3"})
		restart()
		got := c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"})
		c.want("it is struck", got, "struck")
		if strings.Contains(got, "not saved") {
			t.Errorf("it was saved: %s", got)
		}
		c.silent("a digit", c.send(message.In{Who: "sparks", Thread: "q", Text: "3"}))
	})
	live(t, func(c *crew, restart func()) { // the depth edited
		c.send(message.In{ID: "q", Who: "sparks", Text: "pipe p1 40 off north from strap 1 to strap 3"})
		c.want("a depth", c.send(message.In{ID: "a", Who: "sparks", Text: "depth 3/4"}), "noted", "3/4")
		restart()
		c.want("another", c.send(message.In{ID: "a@1", Of: "a", Who: "sparks", Text: "depth 1"}), "noted", "1\"", "in place of")
	})
}

// A room with notes in it cannot be struck: its other size takes the first one's place.
func TestEditOfAnAnswerAboutARoom(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.want("asked", c.send(message.In{ID: "q", Who: "lead", Text: "room hall 84 2 x 10'"}), "1: 84-1/2", "2: 84-1/4")
		c.want("sized", c.send(message.In{ID: "a", Who: "lead", Text: "1"}), "noted 3")
		c.say("sparks> hall: duct d1 26 off west 20 off north")
		restart()
		got := c.send(message.In{ID: "a@1", Of: "a", Who: "lead", Text: "2"})
		c.want("sized again", got, "84-1/4")
		if strings.Contains(got, "struck") || strings.Contains(got, "not saved") {
			t.Errorf("a correction: %s", got)
		}
	})
}

// A deleted answer takes back what it answered, not what stood behind the question.
func TestDeletionOfAnAnswer(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: asks + "\nopen a3"})
		c.send(message.In{ID: "a", Who: "sparks", Text: "1"})
		restart()
		got := c.send(message.In{ID: "a@1", Of: "a", Who: "sparks"})
		c.want("struck", got, "struck 3", "a3")
		if strings.Contains(got, "struck 4") {
			t.Errorf("the line behind the question was struck: %s", got)
		}
		restart()
		c.want("the question's message", c.send(message.In{ID: "q@1", Of: "q", Who: "sparks"}), "struck 4", "open a3")
	})
}

func TestDigitInTheThreadOfADroppedQuestion(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		for _, said := range []string{"gap 84 2", "gap 85 2", "gap 86 2"} {
			c.say("sparks> " + said)
		}
		c.want("one too many", c.say("sparks> gap 87 2"), "not on the plan: "+asks, "87 2")
		restart()
		c.want("a digit in its thread", c.send(message.In{Who: "sparks", Thread: "q", Text: "1"}), "that question was dropped; send it again: "+asks)
		c.want("the newest stays open", c.say("sparks> 1"), "87-1/2", "still open: gap 86 2")
	})
}

func TestQuickEditsAskOnce(t *testing.T) {
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "p", Who: "sparks", Text: "duct d1 26 off west 20 off north"})
		c.say("hanger> hung row 1")
		c.want("the first", c.send(message.In{ID: "p@1", Of: "p", Who: "sparks", Text: "duct d1 27 off west 20 off north"}), "d1 is covered by row 1", "1: take the new one")
		restart()
		c.want("the second", c.send(message.In{ID: "p@2", Of: "p", Who: "sparks", Text: "duct d1 28 off west 20 off north"}), "1 now takes: duct d1 28 off west 20 off north")
		restart()
		c.want("the third", c.send(message.In{ID: "p@3", Of: "p", Who: "sparks", Text: "duct d1 29 off west 20 off north"}), "1 now takes: duct d1 29 off west 20 off north")
		restart()
		c.want("the newest is taken", c.say("sparks> 1"), `29" off west`)
		c.silent("nothing else is open", c.say("sparks> 1"))
	})
	live(t, func(c *crew, restart func()) {
		c.send(message.In{ID: "p", Who: "sparks", Text: "duct d1 26 off west 20 off north"})
		c.say("hanger> hung row 1")
		c.send(message.In{ID: "p@1", Of: "p", Who: "sparks", Text: "duct d1 27 off west 20 off north"})
		restart()
		c.want("back to its first words", c.send(message.In{ID: "p@2", Of: "p", Who: "sparks", Text: "duct d1 26 off west 20 off north"}), "question closed, not saved: duct d1 27")
		c.silent("nothing is open", c.say("sparks> 1"))
	})
}

func TestSeveralPictures(t *testing.T) {
	pic := func(id, who string) message.In {
		return message.In{ID: id, Who: who, Photos: []string{"http://chat/" + id}}
	}
	live(t, func(c *crew, restart func()) {
		c.say("sparks> box j1 on north wall 20 off west 16 up")
		c.want("one", c.send(pic("p1", "sparks")), "which room and wall")
		c.want("two", c.send(pic("p2", "sparks")), "2 photos wait")
		c.want("three", c.send(pic("p3", "sparks")), "3 photos wait")
		c.send(pic("p9", "hanger"))
		restart()
		c.want("a label in a thread", c.send(message.In{Who: "lead", Thread: "p2", Text: "J1"}), "photo of 08:05 kept with j1")
		restart()
		c.want("a note takes what is left", c.say("sparks> duct d1 26 off west 20 off north"), "noted", "2 photos (08:04 to 08:06) kept with it")
		restart()
		if got := c.say("sparks> note mind the step"); strings.Contains(got, "photo") {
			t.Errorf("nothing waits any more: %s", got)
		}
		got := c.say("lead> where is d1")
		c.want("d1", got, "http://chat/p1", "http://chat/p3")
		if strings.Contains(got, "p2") || strings.Contains(got, "p9") {
			t.Errorf("too many pictures: %s", got)
		}
		c.want("j1", c.say("lead> where is j1"), "http://chat/p2")
		c.want("the other sender's", c.say("hanger> duct d2 90 off west 20 off north"), "photo of 08:07 kept")
	})
	live(t, func(c *crew, restart func()) { // a note in a picture's thread
		c.send(pic("p1", "sparks"))
		c.send(pic("p2", "sparks"))
		restart()
		c.want("in the thread", c.send(message.In{Who: "sparks", Thread: "p1", Text: "duct d1 26 off west 20 off north"}), "photo of 08:03 kept")
		restart()
		c.want("the other", c.say("sparks> den east wall, tv blocking"), "photo of 08:04 kept")
	})
	live(t, func(c *crew, restart func()) { // a picture and a question
		c.send(message.In{ID: "q", Who: "sparks", Text: asks})
		c.send(pic("p1", "sparks"))
		restart()
		c.want("the question is open still", c.say("sparks> 1"), "noted", "photo of 08:04 kept with it")
		c.want("words that ask", c.send(message.In{Who: "sparks", Text: `light 6" a4 80 2 off west 41 off north`, Photos: []string{"http://chat/p2"}}), "1: ", "photo waits for its note")
		restart()
		c.want("answered", c.say("sparks> 1"), "noted", "photo of 08:06 kept")
		c.want("found", c.say("lead> where is a4"), "http://chat/p2")
	})
	live(t, func(c *crew, restart func()) { // a picture edited and one deleted
		c.send(pic("p1", "sparks"))
		c.send(pic("p2", "sparks"))
		c.send(pic("p3", "sparks"))
		restart()
		c.want("deleted", c.send(message.In{ID: "p1@1", Of: "p1", Who: "sparks"}), "photo dropped")
		in := pic("p2@1", "sparks")
		in.Of, in.Text = "p2", "duct d1 26 off west 20 off north"
		restart()
		c.want("words put to it", c.send(in), "noted", "photo of 08:04 kept")
		restart()
		c.want("what is left", c.say("sparks> duct d2 60 off west 20 off north"), "photo of 08:05 kept")
	})
	live(t, func(c *crew, restart func()) { // pictures deleted after their note
		c.send(pic("p1", "sparks"))
		c.send(pic("p2", "sparks"))
		c.want("two pictures", c.say("sparks> duct d1 26 off west 20 off north"), "2 photos")
		c.want("one with its note", c.send(message.In{ID: "p3", Who: "sparks", Text: "duct d2 60 off west 20 off north", Photos: []string{"http://chat/p3"}}), "photo kept with it")
		restart()
		c.want("one is deleted", c.send(message.In{ID: "p1@1", Of: "p1", Who: "sparks"}), "photo taken off entry 3: its message is deleted")
		if got := c.say("lead> where is d1"); strings.Contains(got, "http://chat/p1") || !strings.Contains(got, "http://chat/p2") {
			t.Errorf("one of two is deleted: %s", got)
		}
		c.silent("again", c.send(message.In{ID: "p1@2", Of: "p1", Who: "sparks"}))
		c.want("undo", c.say("sparks> undo"), "d2")
		if got := c.say("lead> where is d1"); strings.Contains(got, "http://chat/p1") {
			t.Errorf("undo brought it back: %s", got)
		}
		restart()
		c.want("the other", c.send(message.In{ID: "p2@1", Of: "p2", Who: "sparks"}), "photo taken off entry 3")
	})
	live(t, func(c *crew, restart func()) { // a label that could be two
		c.say("lead> room hall 20' x 10'", "lead> den: duct d1 26 off west 20 off north", "lead> hall: duct d1 26 off west 20 off north")
		c.send(pic("p1", "sparks"))
		c.want("which", c.send(message.In{Who: "sparks", Thread: "p1", Text: "d1"}), "2 things", "den d1")
		restart()
		c.want("that", c.send(message.In{Who: "sparks", Thread: "p1", Text: "hall d1"}), "kept with d1")
		c.send(pic("p2", "sparks"))
		if got := c.say("sparks> in den"); strings.Contains(got, "photo") {
			t.Errorf("where the sender is takes no picture: %s", got)
		}
		restart()
		c.silent("chatter", c.say("sparks> nice duct"))
		c.silent("somebody else's chatter", c.send(message.In{Who: "hanger", Thread: "p2", Text: "that ceiling looks good"}))
		c.want("the one of the sender's room", c.say("sparks> d1"), "kept with d1 (entry 4)")
		c.want("found there", c.say("lead> den: where is d1"), "http://chat/p2")
	})
}

// Rows that earlier versions wrote are read as they are meant.
func TestOldRowsOfOpenQuestions(t *testing.T) {
	dir := t.TempDir()
	log, err := store.Create(filepath.Join(dir, "flat.job"))
	if err != nil {
		t.Fatal(err)
	}
	if err := log.Commit(store.Batch{Pending: map[string]json.RawMessage{
		"sparks": json.RawMessage(`{"said":"(photo)","sent":1777881600000,"id":"p1","why":"photo 08:00: which room?","photos":["http://chat/p1"]}`),
		"hanger": json.RawMessage(`{"said":"gap 84 2","sent":1777881600000,"id":"q","why":"which?","choices":[{"Label":"84-1/2","Text":"gap 84 1/2"},{"Label":"82","Text":"gap 82"}]}`),
	}}); err != nil {
		t.Fatal(err)
	}
	if err := log.Close(); err != nil {
		t.Fatal(err)
	}
	c := &crew{t: t, clock: new(console.Clock), at: time.Date(2026, 5, 4, 8, 0, 0, 0, time.UTC)}
	opt := bot.Options{Dir: dir, Now: c.clock.Now, Loc: time.UTC}
	b := open(t, opt)
	c.j = openJob(t, b, "flat")
	c.want("the question", c.say("hanger> 1"), "84-1/2")
	c.say("lead> room den 12' x 10'", "sparks> "+asks)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = open(t, opt)
	c.j = openJob(t, b, "flat")
	c.want("the picture", c.say("sparks> duct d1 26 off west 20 off north"), "photo of 08:00 kept with it")
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	c.j = openJob(t, open(t, opt), "flat")
	if got := c.say("sparks> note mind the step"); strings.Contains(got, "photo") {
		t.Errorf("it waits no longer: %s", got)
	}
}
