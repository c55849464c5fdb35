package bot_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/doortest"
	"strapline/bot/job"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/store"
)

// The conversations of testdata are the spec: each message gets exactly the
// reply that stands under it, and the job is the same when it is read again.
func TestConversations(t *testing.T) {
	doortest.Each(t, "../testdata", func(t *testing.T, file string, steps []console.Step) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		clock := new(console.Clock)
		b := open(t, bot.Options{Dir: dir, Now: clock.Now, Loc: time.UTC})
		j := openJob(t, b, "flat")
		var out bytes.Buffer
		if err := (console.Play{Job: j, Clock: clock}).Run(t.Context(), steps, &out); err != nil {
			t.Fatal(err)
		}
		if *update {
			if err := os.WriteFile(file, out.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		} else if diff := cmp.Diff(strings.Split(string(data), "\n"), strings.Split(out.String(), "\n")); diff != "" {
			t.Errorf("replies differ (-expected +got):\n%s", diff)
		}
		sameAgain(t, b, dir, j)
	})
}

// sameAgain closes the job, verifies its file, and compares the live state with
// the one read back.
func sameAgain(t *testing.T, b *job.Jobs, dir string, j *job.Job) {
	t.Helper()
	live := stateOf(t, j)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	rep, err := store.Check(b.Path("flat"), nil)
	if err != nil || len(rep.Faults) > 0 {
		t.Fatalf("check: %v %v", rep.Faults, err)
	}
	again := openJob(t, open(t, bot.Options{Dir: dir}), "flat")
	sameState(t, live, stateOf(t, again))
}

func sameState(t interface{ Fatalf(string, ...any) }, live, again *site.State) {
	if len(live.Entries) != len(again.Entries) {
		t.Fatalf("%d entries live, %d read back", len(live.Entries), len(again.Entries))
	}
	// Places that were asked for are kept until the next entry.
	for _, st := range []*site.State{live, again} {
		if err := st.Apply(event.Event{Seq: uint64(len(st.Entries)) + 1, Body: event.Note{}}); err != nil {
			t.Fatalf("%v", err)
		}
	}
	if !reflect.DeepEqual(live, again) {
		t.Fatalf("the state read back differs from the live one")
	}
}

func stateOf(t interface{ Fatal(...any) }, j *job.Job) (st *site.State) {
	if err := j.Look(context.Background(), func(s *site.State) { st = s }); err != nil {
		t.Fatal(err)
	}
	return st
}

// The demo day is what a newcomer plays first, so it has to be a whole day.
func TestUpperFlatIsAWholeDay(t *testing.T) {
	f, err := os.Open("../testdata/upper-flat.chat")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	steps, err := console.ReadChat(f)
	if err != nil {
		t.Fatal(err)
	}
	messages := slices.DeleteFunc(steps, func(s console.Step) bool { return s.Who == "" })
	who := map[string]bool{}
	for _, s := range messages {
		who[s.Who] = true
	}
	last := messages[len(messages)-1]
	if len(messages) < 60 || len(who) < 4 || last.Text != "covered" || len(last.Want) == 0 || !strings.HasPrefix(last.Want[0], "nothing covered") {
		t.Errorf("%d messages by %d people, the last %q: %q", len(messages), len(who), last.Text, last.Want)
	}
}

// Every message and reply that the README shows stands so in a conversation.
func TestReadmeIsTrue(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob("../testdata/*.chat")
	if err != nil {
		t.Fatal(err)
	}
	played := map[string]bool{}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			_, said, stamped := strings.Cut(line, "] ")
			if stamped && line[0] == '[' {
				line = said
			}
			played[strings.TrimSpace(line)] = true
		}
	}
	message := regexp.MustCompile(`^(lead|hanger|sparks|taper)> `)
	shown, inTalk := 0, false
	for line := range strings.Lines(string(readme)) {
		line = strings.TrimSpace(line)
		inTalk = message.MatchString(line) || inTalk && strings.HasPrefix(line, "| ")
		if inTalk {
			if shown++; !played[line] {
				t.Errorf("no conversation has %q", line)
			}
		}
	}
	if shown < 8 {
		t.Errorf("the README shows only %d lines of talk", shown)
	}
}
