package job_test

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/message"
)

// phrases are what random crews say: right, wrong, ambiguous and idle.
var phrases = []string{
	"room kitchen 13' 4 1/2 x 11' 9", "room hall 22' x 50", "in hall", "kitchen", "units metric", "units imperial",
	"straps ew 16 oc first 14 3/8 off north", "straps ns at 9 1/2 25 1/4 41 56 3/4 off west", "strap 2 at 30", "strap 3 stops 20 off east",
	"board 5/8", "boards along", "boards across", "rows from south", "clearance 3/8", "screw 1 5/8",
	`light 6" over sink 26 off west 41 off north`, "duct d1 30 off west 20 off north", "duct d1 31 off west 20 off north",
	"light 26 off west", "41 off north", "light 84 2 off west 20 off north", "gap 96 96 1/2", "gap 12.6", "1", "2", "3",
	"box 2x4 on north wall 52 off west 16 up", "mark a on strap 2 22 off west", "vent 4x10 10 south of mark a", "lights 2 x 2 even",
	"hung 96 row 1", "hung row 1", "hung row 2 cut d1", "ceiling up", "north wall up", "north wall boarded 1/2", "west wall finished",
	"open d1", "open light 1", "find d1", "where is the sink light", "covered", "status", "log", "who hung row 1", "any pipe over row 2",
	"undo", "strike 3", "strike 7", "fix d1 7 south of strap 2", "fix d1 33 off west", "33 not 31", "*40", "scratch that",
	"note mind the stairs", "snag proud nail row 1", "snag 9 fixed", "hit cable", "hit water", "north is window wall", "built 1938",
	"lol", "coffee?", "hung over today", "light 61 left", "light 900 off west 3 off north", "help", "help light", "pipe p1 40 off west from strap 1 to strap 2 depth 3/4", "plate p1 strap 2", "code us", "set margin 3/8",
	"reach", "screws", "ready", "check nails ok", "check add fire caulk", "handoff", "coat 1 60f 70%", "painted",
	"layout", "layout 2", "cuts", "order", "stock 9 x 12' 4 x 8'", "delivered 2 x 10'", "boards left", "longest in 10'", "bring tomorrow", "hung r1", "hung r1.1 cut d1",
	"*41", "86 not 40", "hung rows 1 and 2", "hung 47 + 40 row 2", "hung r2.1 r1", "stock 3 x 14' 2 x 8'", "used 1 x 8'", "whats r1", "whats left to hang",
	"lay it out the other way", "room hall 22' 2 x 50", "strap 4 at 57", "hall: layout", "east wall boarded 5/8",
	"", "\x00\xff", "note \x00\xff\xfe", "note 🙂", "🙂",
}

// Whatever a crew says, what a job knows live and what it reads again from its log are the
// same: the state, what is asked, what waits, and which message is an edit of which.
func TestReplayEqualsLive(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(rt *rapid.T) {
		dir := t.TempDir()
		clock := new(console.Clock)
		b, err := bot.New(bot.Options{Dir: dir, Now: clock.Now, Loc: time.UTC})
		if err != nil {
			rt.Fatal(err)
		}
		j, err := b.Job("flat")
		if err != nil {
			rt.Fatal(err)
		}
		start := time.Date(2026, 5, 4, 8, 0, 0, 0, time.UTC)
		for i := range rapid.IntRange(5, 60).Draw(rt, "messages") {
			sent := start.Add(time.Duration(i-rapid.IntRange(0, 5).Draw(rt, "late")) * time.Minute)
			clock.Set(sent)
			in := message.In{
				Who:  rapid.SampledFrom([]string{"lead", "hanger", "sparks"}).Draw(rt, "who"),
				Text: rapid.SampledFrom(phrases).Draw(rt, "text"), Sent: sent, ID: fmt.Sprint(i),
			}
			earlier := rapid.IntRange(0, 4*i+4).Draw(rt, "earlier")
			switch kind := rapid.IntRange(0, 9).Draw(rt, "kind"); {
			case earlier >= i:
			case kind < 2: // edited
				in.Of = fmt.Sprint(earlier)
			case kind == 2: // deleted
				in.Of, in.Text = fmt.Sprint(earlier), ""
			case kind == 3:
				in.Thread = fmt.Sprint(earlier)
			case kind == 4:
				in.Text, in.Photos = "", []string{"http://chat/" + in.ID}
			}
			out, err := j.Handle(t.Context(), in)
			if err != nil {
				rt.Fatal(err)
			}
			for _, a := range out.Answers {
				if a.Kind == "failure" {
					rt.Fatalf("%q: %s", in.Text, a.Reply)
				}
			}
		}
		live := j.Knows()
		if err := b.Close(); err != nil {
			rt.Fatal(err)
		}
		if b, err = bot.New(bot.Options{Dir: dir}); err != nil {
			rt.Fatal(err)
		}
		defer b.Close()
		again, err := b.Job("flat")
		if err != nil {
			rt.Fatal(err)
		}
		back := again.Knows()
		if reflect.DeepEqual(live.State, back.State) { // as nearly always; a diff of it takes long
			live.State, back.State = nil, nil
		}
		if diff := cmp.Diff(live, back, cmp.Exporter(func(reflect.Type) bool { return true }), cmpopts.EquateEmpty()); diff != "" {
			rt.Fatalf("read back otherwise (-live +again):\n%s", diff)
		}
	})
}
