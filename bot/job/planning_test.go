package job_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/message"
)

// hall is a ceiling that takes long to plan, from counted boards.
var hall = []string{
	"room hall 200' x 200'", "straps ew 16 oc first 8 off north",
	"stock 90 x 8' 90 x 9' 90 x 10' 900 x 12' 90 x 14' 90 x 16'",
}

func flat(t *testing.T) *job.Job {
	t.Helper()
	jobs, err := bot.New(bot.Options{Dir: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := jobs.Close(); err != nil {
			t.Error(err)
		}
	})
	j, err := jobs.Job("flat")
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func say(t *testing.T, j *job.Job, who string, texts ...string) (last message.Out) {
	t.Helper()
	for _, text := range texts {
		out, err := j.Handle(t.Context(), message.In{Who: who, Text: text})
		if err != nil {
			t.Fatal(err)
		}
		last = out
	}
	return last
}

// A message has one budget of planning however many layouts it asks for: what is
// over it is asked for alone, and no layout is given that is worse for it.
func TestOneMessageOneBudget(t *testing.T) {
	t.Parallel()
	j := flat(t)
	say(t, j, "lead", "room hall 100' x 100'", hall[1], "stock 30 x 8' 30 x 9' 30 x 10' 300 x 12' 30 x 14' 30 x 16'")
	alone := say(t, j, "lead", "layout")
	text := []string{}
	for i := range 20 {
		text = append(text, fmt.Sprintf("used %d x 12'", 1+i%2), "layout")
	}
	out := say(t, j, "lead", strings.Join(text, ";"))
	planned, over := 0, 0
	for _, a := range out.Answers {
		switch {
		case a.Kind == "layout":
			planned++
		case a.Error != nil && strings.Contains(a.Reply, "Send it by itself"):
			over++
		}
	}
	if planned == 0 || planned > 8 || over == 0 || planned+over != 20 {
		t.Errorf("%d layouts given, %d asked for alone", planned, over)
	}
	if again := say(t, j, "lead", "layout"); again.Answers[0].Kind != "layout" || alone.Answers[0].Kind != "layout" {
		t.Errorf("alone: %s, and again: %s", alone.Text(), again.Text())
	}
}

// While a layout is worked out, others go on, the sender's own messages wait their
// turn, and the answer says which entry it was made from.
func TestOthersGoOnWhileALayoutIsPlanned(t *testing.T) {
	j := flat(t)
	say(t, j, "lead", hall...)
	say(t, j, "sparks", "in hall")
	var mu sync.Mutex
	var order []string
	done := func(what string) { mu.Lock(); order = append(order, what); mu.Unlock() }
	var wg sync.WaitGroup
	asked := make(chan struct{})
	wg.Go(func() {
		close(asked)
		out := say(t, j, "lead", "layout")
		done("layout")
		a := out.Answers[len(out.Answers)-1]
		if a.Kind != "layout" || !strings.Contains(a.Reply, fmt.Sprintf("as of entry %d", a.From)) {
			t.Errorf("kind %s, from %d: %s", a.Kind, a.From, a.Reply)
		}
	})
	<-asked
	for !j.Planning() {
		runtime.Gosched()
	}
	wg.Go(func() {
		say(t, j, "lead", "gap 98 3/8")
		done("gap")
	})
	for i := range 20 {
		say(t, j, "sparks", fmt.Sprintf("note number %d", i))
	}
	done("notes")
	wg.Wait()
	if order[0] != "notes" {
		t.Errorf("got %q", order)
	}
}

// The same question again takes the older one's place; a stop ends the work at once.
func TestANewerLayoutDropsTheOlder(t *testing.T) {
	j := flat(t)
	say(t, j, "lead", hall...)
	older := make(chan message.Out, 1)
	go func() {
		out, _ := j.Handle(t.Context(), message.In{ID: "a", Who: "lead", Text: "layout"})
		older <- out
	}()
	for !j.Planning() {
		runtime.Gosched()
	}
	newer := say(t, j, "lead", "layout")
	if out := <-older; out.Answers[0].Kind != "dropped" {
		t.Errorf("the older one: %s", out.Text())
	}
	if newer.Answers[0].Kind != "layout" {
		t.Errorf("the newer one: %s", newer.Text())
	}
}

func TestAStopEndsPlanning(t *testing.T) {
	jobs, err := bot.New(bot.Options{Dir: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	j, err := jobs.Job("flat")
	if err != nil {
		t.Fatal(err)
	}
	say(t, j, "lead", hall...)
	answered := make(chan error, 1)
	go func() {
		_, err := j.Handle(t.Context(), message.In{Who: "lead", Text: "layout"})
		answered <- err
	}()
	for !j.Planning() {
		runtime.Gosched()
	}
	if err := jobs.Close(); err != nil {
		t.Fatal(err)
	}
	if err := <-answered; err != job.ErrClosed {
		t.Errorf("got %v", err)
	}
}

// TestWhatWaitsLeavesNothing: a message that has to wait for its planning is answered anew, and what it
// had written of messages by then is not there twice.
func TestWhatWaitsLeavesNothing(t *testing.T) {
	j := flat(t)
	say(t, j, "lead", hall...)
	for _, in := range []message.In{{ID: "m", Who: "lead", Text: "light l1 60 off west 40 off north"}, {ID: "m2", Who: "lead", Of: "m", Text: "light l1 61 off west 40 off north\nlayout"}} {
		if _, err := j.Handle(t.Context(), in); err != nil {
			t.Fatal(err)
		}
	}
	if got := j.Knows().Edits["m"]; !slices.Equal(got, []string{"m2"}) {
		t.Errorf("a message that was edited once has the edits %q", got)
	}
}
