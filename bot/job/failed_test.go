package job_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"strapline/bot"
	"strapline/bot/message"
	"strapline/calc/site"
)

// A commit fails and the log cannot be opened again: what was tried is not in the
// job, and it refuses everything in one line until it has loaded.
func TestAFailedCommitIsNoFact(t *testing.T) {
	jobs, err := bot.New(bot.Options{Dir: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	defer jobs.Close()
	j, err := jobs.Job("flat")
	if err != nil {
		t.Fatal(err)
	}
	say(t, j, "lead", "room den 12' x 10'")
	path := jobs.Path("flat")
	if err := j.Lose(); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(path, path+".away"); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"note the key is under the mat", "log", "lol", "room bath 5' x 8'"} {
		out := say(t, j, "lead", text)
		if !out.Failed() || strings.Contains(out.Text(), "mat") || strings.Contains(out.Text(), "\n") {
			t.Errorf("%q: %s", text, out.Text())
		}
	}
	if err := j.Mark(t.Context(), "read", []byte("1")); err == nil {
		t.Error("a door's mark is taken")
	}
	if err := os.Rename(path+".away", path); err != nil {
		t.Fatal(err)
	}
	out := say(t, j, "lead", "log")
	if text := out.Text(); out.Failed() || strings.Contains(text, "mat") || strings.Contains(text, "bath") || !strings.Contains(text, "room den") {
		t.Errorf("after it was back: %s", text)
	}
	if out := say(t, j, "lead", "note the key is under the mat"); out.Answers[0].Seq != 2 {
		t.Errorf("sent again: %+v", out.Answers[0])
	}
}

// Somebody who looks at the job and trips over it does not end it.
func TestALookThatFails(t *testing.T) {
	j := flat(t)
	if err := j.Look(t.Context(), func(*site.State) { panic("at the fence") }); err == nil || !strings.Contains(err.Error(), "at the fence") {
		t.Errorf("a look that failed: %v", err)
	}
	if out := say(t, j, "lead", "note still here"); out.Failed() {
		t.Error(out.Text())
	}
}

// A list that grows without end is cut for a phone, and the reply says how to see the rest.
func TestLongRepliesAreCut(t *testing.T) {
	j := flat(t)
	alone := j.Alone()
	do := func(text string) message.Out {
		out, err := alone(message.In{Who: "lead", Text: text})
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	do("room den 12' x 10'")
	for range 2000 {
		do("snag " + strings.Repeat("proud nail ", 30))
	}
	for n := range 80 {
		do(fmt.Sprintf("room bed %d, 12' x 10'", n+1))
	}
	for _, text := range []string{"snags", "log", "status", "covered", "handoff", "help", "log since 1"} {
		out := do(text).Text()
		if n := strings.Count(out, "\n") + 1; n > 30 || len(out) > 8000 {
			t.Errorf("%q: %d lines, %d bytes", text, n, len(out))
		}
		if !strings.Contains(out, "more") && !strings.Contains(out, "earlier") && text != "handoff" && text != "covered" {
			t.Errorf("%q does not say what is left out: %s", text, out)
		}
	}
}

// A message of very many entries is answered in a phone's length: the question and what
// was not taken are in it, and how to see the rest.
func TestManyEntriesAreCut(t *testing.T) {
	j := flat(t)
	say(t, j, "lead", "room den 12' x 10'", "snag proud nail", "snag split tape")
	for name, tt := range map[string]struct {
		text string
		want []string
	}{
		"lists": {strings.Repeat("snags;", 300), []string{"2 open", "more lines; `log` shows"}},
		"notes": {strings.Repeat("note again\n", 40) + "light l1 26 off wset 40 off north\n" + strings.Repeat("note again\n", 40), []string{"not saved", "noted", "more lines"}},
		"asked": {"snags\n" + strings.Repeat("note again\n", 40), []string{"2 open", "noted", "more lines"}},
		"wrong": {strings.Repeat("light l1 26 off wset 40 off north\n", 40) + "gap 84 2", []string{"not saved", "more lines", `1: 84-1/2"`}},
		"asks":  {strings.Repeat("note again\n", 40) + "gap 84 2", []string{"noted", "more lines", `1: 84-1/2"`}},
	} {
		out := say(t, j, "lead", tt.text)
		text := out.Text()
		if n := strings.Count(text, "\n") + 1; n > 30 || n < 20 {
			t.Errorf("%s: %d lines", name, n)
		}
		for _, want := range tt.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in\n%s", name, want, text)
			}
		}
		if last := text[strings.LastIndex(text, "\n")+1:]; out.Asks() != strings.Contains(last, "1: ") {
			t.Errorf("%s: ends in %q", name, last)
		}
	}
}
