package bot_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/job"
	"strapline/bot/message"
)

// crew is a job that people text to, a minute apart, with message ids.
type crew struct {
	t     *testing.T
	j     *job.Job
	clock *console.Clock
	at    time.Time
	n     int
}

func newCrew(t *testing.T) *crew {
	c := &crew{t: t, clock: new(console.Clock), at: time.Date(2026, 5, 4, 8, 0, 0, 0, time.UTC)}
	b := open(t, bot.Options{Now: c.clock.Now, Loc: time.UTC})
	c.j = openJob(t, b, "flat")
	return c
}

func (c *crew) send(in message.In) string {
	c.t.Helper()
	c.n++
	c.at = c.at.Add(time.Minute)
	c.clock.Set(c.at)
	in.Sent = c.at
	if in.ID == "" {
		in.ID = fmt.Sprint("m", c.n)
	}
	out, err := c.j.Handle(c.t.Context(), in)
	if err != nil {
		c.t.Fatal(err)
	}
	return out.Text()
}

// say sends lines of `who> text` and returns the last reply.
func (c *crew) say(lines ...string) (reply string) {
	c.t.Helper()
	for _, l := range lines {
		who, text, _ := strings.Cut(l, "> ")
		reply = c.send(message.In{Who: who, Text: text})
	}
	return reply
}

func (c *crew) want(what, got string, parts ...string) {
	c.t.Helper()
	for _, p := range parts {
		if !strings.Contains(got, p) {
			c.t.Errorf("%s: got\n%s\nwant %q in it", what, got, p)
		}
	}
}

func TestEdits(t *testing.T) {
	c := newCrew(t)
	c.say("lead> room den 12' x 10'", "lead> straps ns 16 oc first 16 off west")
	c.send(message.In{ID: "p1", Who: "hanger", Text: "duct d1 26 off west 41 off north\nnote mind the step"})
	got := c.send(message.In{ID: "p1@2", Of: "p1", Who: "hanger", Text: "duct d1 27 off west 41 off north\nnote mind the step"})
	c.want("an edit is a correction", got, `duct d1: 27" off west`, `was 26" off west`)
	if strings.Contains(got, "mind the step") {
		t.Errorf("the line that stayed was answered again: %s", got)
	}
	if got := c.send(message.In{ID: "p1@3", Of: "p1", Who: "hanger", Text: "duct d1 27 off west 41 off north\nnote mind the step"}); got != "" {
		t.Errorf("an edit that changed nothing: %q", got)
	}

	c.send(message.In{ID: "q", Who: "hanger", Text: "note aaa"})
	c.send(message.In{ID: "q@1", Of: "q", Who: "hanger", Text: "note bbb"})
	c.want("a second edit", c.send(message.In{ID: "q@2", Of: "q", Who: "hanger", Text: "note ccc"}), "ccc", "in place of")
	if got := c.say("hanger> log hanger"); strings.Count(got, "[struck") != 2 || !strings.Contains(got, "note ccc") {
		t.Errorf("after two edits the log is\n%s", got)
	}
	c.want("edited back to its first words", c.send(message.In{ID: "q@3", Of: "q", Who: "hanger", Text: "note aaa"}), "noted", "aaa")
	c.want("deleted after edits", c.send(message.In{ID: "q@4", Of: "q", Who: "hanger"}), "struck", "note aaa")

	c.send(message.In{ID: "p2", Who: "hanger", Text: "note wrong stairs"})
	c.want("a deletion is a strike", c.send(message.In{ID: "p2@1", Of: "p2", Who: "hanger"}), "struck", "note wrong stairs")

	c.send(message.In{ID: "p3", Who: "hanger", Text: "lunch?"})
	c.want("chatter edited into a note", c.send(message.In{ID: "p3@1", Of: "p3", Who: "hanger", Text: "duct d3 30 off west 60 off north"}), "noted", "d3")
	if got := c.send(message.In{ID: "p9@1", Of: "p9", Who: "hanger"}); got != "" {
		t.Errorf("an unknown message deleted: %q", got)
	}
}

// What was covered or answered from is asked about and kept until answered.
func TestEditsOfWhatWasUsed(t *testing.T) {
	c := newCrew(t)
	c.say("lead> room den 12' x 10'", "lead> straps ns 16 oc first 16 off west")
	c.send(message.In{ID: "p1", Who: "sparks", Text: "duct d1 26 off west 20 off north"})
	c.say("hanger> hung row 1")
	c.want("deleting a covered one", c.send(message.In{ID: "p1@1", Of: "p1", Who: "sparks"}), "d1 is covered by row 1", "1: take it back", "2: keep")
	c.want("it is kept meanwhile", c.say("lead> covered"), "d1")
	c.want("keeping it", c.say("sparks> 2"), "kept as it was")
	c.want("it is still there", c.say("lead> covered"), "d1")
	c.send(message.In{ID: "p1@2", Of: "p1", Who: "sparks", Text: "oops"})
	c.want("taking it back", c.say("sparks> 1"), "struck")
	c.want("it is gone", c.say("lead> covered"), "nothing covered")

	c.send(message.In{ID: "p2", Who: "sparks", Text: "duct d2 26 off west 100 off north"})
	c.say("hanger> where is d2")
	c.want("editing one that was given out", c.send(message.In{ID: "p2@1", Of: "p2", Who: "sparks", Text: "duct d2 30 off west 100 off north"}), "d2 was given to hanger", "1: take the new one")
	c.want("taking the new one", c.say("sparks> 1"), "struck", `30" off west`)

	c.send(message.In{ID: "p3", Who: "hanger", Text: "gap 96"})
	c.want("editing a gap", c.send(message.In{ID: "p3@1", Of: "p3", Who: "hanger", Text: "gap 97"}), "a cut size was worked out from it")
}

// Words that only brush a thing's label do not take it off the list.
func TestOpenTheDoor(t *testing.T) {
	c := newCrew(t)
	c.say("lead> room den 12' x 10'", "lead> straps ns 16 oc first 16 off west", "sparks> light over door 26 off west 20 off north", "hanger> hung row 1")
	c.want("chatter", c.say("hanger> open the door"), "is that light over door?", "2: no")
	c.want("still covered", c.say("lead> covered"), "light over door")
	c.want("by its kind", c.say("hanger> open the door light"), "noted", "light over door open")
}

// A name that could be two is asked about, and the answer keeps the cut.
func TestCutOfTwoNames(t *testing.T) {
	c := newCrew(t)
	c.say("lead> room den 12' x 10'", "lead> straps ns 16 oc first 16 off west",
		"sparks> light over door 26 off west 20 off north", "sparks> light over desk 90 off west 20 off north")
	c.want("which one", c.say("hanger> hung row 1 cut light"), "which light?", "1: den light over door", "2: den light over desk")
	c.want("the one meant is cut", c.say("hanger> 2"), "cut: light over desk", "covers, not cut: light over door")
}

func TestPhotos(t *testing.T) {
	c := newCrew(t)
	c.say("lead> room den 12' x 10'")
	c.want("with a note", c.send(message.In{Who: "sparks", Text: "duct d1 26 off west 20 off north", Photos: []string{"http://chat/p1"}}), "noted", "photo kept with it")
	c.want("found again", c.say("lead> where is d1"), "photo: http://chat/p1")
	c.want("with no words", c.send(message.In{Who: "sparks", Photos: []string{"http://chat/p2"}}), "which room and wall")
	if got := c.say("sparks> lol"); got != "" {
		t.Errorf("chatter: %q", got)
	}
	c.want("the note it waited for", c.say("sparks> box b1 on north wall 20 off west 16 up"), "noted", "photo of 08:04 kept with it")
	c.want("found again", c.say("lead> where is b1"), "photo: http://chat/p2")
	c.send(message.In{Who: "lead", Photos: []string{"http://chat/p3"}})
	c.want("words that name a place", c.say("lead> den east wall, tv blocking"), "noted", "photo of", "kept with it")
}

// The same id gets the same answer and no second entry; other words are refused.
func TestSameID(t *testing.T) {
	c := newCrew(t)
	first := c.send(message.In{ID: "x", Who: "lead", Text: "room den 12' x 10'"})
	if again := c.send(message.In{ID: "x", Who: "lead", Text: "room den 12' x 10'"}); again != first {
		t.Errorf("got %q, then %q", first, again)
	}
	c.want("the log", c.say("lead> log"), "1 08:01")
	if _, err := c.j.Handle(t.Context(), message.In{ID: "x", Who: "lead", Text: "room den 13' x 10'"}); err != message.ErrOtherText {
		t.Errorf("other words under the same id: %v", err)
	}
}

// A chat message may have waited in a pocket: where its wall was boarded in the
// day before it came in, the face is asked.
func TestFaceAskedWhenOnlyArrivalIsKnown(t *testing.T) {
	c := newCrew(t)
	c.say("lead> room den 12' x 10'", "lead> west wall boarded 1/2")
	c.want("just boarded", c.send(message.In{Who: "sparks", Text: "duct d1 26 off west 20 off north", Arrived: true}), "1: studs", "2: board")
	c.want("held to the studs", c.say("sparks> 1"), `26" off west`, "from the studs")
	c.want("the other wall", c.send(message.In{Who: "sparks", Text: "duct d2 26 off east 20 off north", Arrived: true}), "noted")
	c.want("it said when", c.send(message.In{Who: "sparks", Text: "at 8:04 duct d3 26 off west 20 off north", Arrived: true}), "noted", "board face")
	c.at = c.at.Add(25 * time.Hour)
	c.want("a day later", c.send(message.In{Who: "sparks", Text: "duct d4 26 off west 20 off north", Arrived: true}), "noted", "board face")
}
