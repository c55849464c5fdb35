package bot_test

import (
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/answer"
	"strapline/bot/console"
	"strapline/bot/doortest"
	"strapline/bot/message"
)

// cautions are all there are, with what each defers to.
var cautions = []string{
	answer.CautionScrew, answer.CautionReach, answer.CautionReady, answer.CautionWire, answer.CautionCut, answer.CautionOld, answer.CautionFloor, answer.CautionWater, answer.CautionCable,
	answer.CautionGas, answer.CautionNearWire, answer.CautionNearGas, answer.CautionNearPipe, answer.CautionNearDuct,
}

// hurts are the kinds of answer after which somebody cuts, screws, lifts or
// opens; no other kind carries a caution.
var hurts = []string{"built", "hung", "find", "run", "thing", "open", "reach", "hit", "order", "painted", "ready", "missed", "notes"}

func TestCautionsDefer(t *testing.T) {
	for _, c := range cautions {
		if !slices.ContainsFunc([]string{"local code", "Local code", "plumber", "electrician", "gas company"}, func(w string) bool { return strings.Contains(c, w) }) {
			t.Errorf("%q defers to nobody", c)
		}
	}
}

// All conversations: a caution is one of the list, stands only where the work
// can hurt, and every one of the list is said somewhere.
func TestCautionsWhereItHurts(t *testing.T) {
	var said sync.Map
	t.Cleanup(func() { // all conversations are over
		for _, c := range cautions {
			if _, ok := said.Load(c); !ok {
				t.Errorf("no conversation says %q", c)
			}
		}
	})
	doortest.Each(t, "../testdata", func(t *testing.T, _ string, steps []console.Step) {
		j := openJob(t, open(t, bot.Options{Loc: time.UTC}), "flat")
		for _, s := range steps {
			if s.Who == "" {
				continue
			}
			out, err := j.Handle(t.Context(), message.In{Who: s.Who, Text: s.Text})
			if err != nil {
				t.Fatal(err)
			}
			for _, a := range out.Answers {
				for _, n := range a.Notes {
					if n.Kind != "caution" {
						continue
					}
					i := slices.IndexFunc(cautions, func(c string) bool { return strings.Contains(n.Text, c) })
					if i < 0 {
						t.Errorf("%q: a caution that is not on the list: %q", s.Text, n.Text)
						continue
					}
					said.Store(cautions[i], true)
					if !slices.Contains(hurts, a.Kind) {
						t.Errorf("%q: a caution in an answer of kind %s: %q", s.Text, a.Kind, n.Text)
					}
				}
			}
		}
	})
}
