package bot_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/answer"
	"strapline/bot/job"
)

// cautions are all there are, with what each defers to.
var cautions = []string{
	answer.CautionScrew, answer.CautionReach, answer.CautionReady, answer.CautionWire, answer.CautionCut, answer.CautionOld, answer.CautionFloor, answer.CautionWater, answer.CautionCable,
	answer.CautionGas, answer.CautionNearWire, answer.CautionNearGas, answer.CautionNearPipe, answer.CautionNearDuct,
}

// hurts are the kinds of answer after which somebody cuts, screws, lifts or
// opens; no other kind carries a caution.
var hurts = []string{"built", "hung", "find", "run", "thing", "open", "reach", "hit", "order", "painted", "ready", "missed"}

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
	files, err := filepath.Glob("../testdata/*.chat")
	if err != nil || len(files) == 0 {
		t.Fatal("no conversations", err)
	}
	said := map[string]bool{}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		b, err := bot.New(bot.Options{Dir: t.TempDir(), Loc: time.UTC})
		if err != nil {
			t.Fatal(err)
		}
		j, err := b.Job("flat")
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			if strings.HasPrefix(line, "|") || strings.HasPrefix(line, "#") {
				continue
			}
			if _, after, ok := strings.Cut(line, "] "); ok && line[0] == '[' {
				line = after
			}
			who, text, ok := strings.Cut(strings.TrimSpace(line), "> ")
			if !ok {
				continue
			}
			out, err := j.Handle(t.Context(), job.In{Who: who, Text: text})
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
						t.Errorf("%s: %q: a caution that is not on the list: %q", file, text, n.Text)
						continue
					}
					said[cautions[i]] = true
					if !slices.Contains(hurts, a.Kind) {
						t.Errorf("%s: %q: a caution in an answer of kind %s: %q", file, text, a.Kind, n.Text)
					}
				}
			}
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range cautions {
		if !said[c] {
			t.Errorf("no conversation says %q", c)
		}
	}
}
