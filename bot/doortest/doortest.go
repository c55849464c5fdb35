// Package doortest plays the conversations of testdata through a door, to test that every
// door gives the reply that is written under each message.
package doortest

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/bot/console"
)

// Each runs do as a parallel subtest for each conversation file in dir: most of their time they wait for the disk.
func Each(t *testing.T, dir string, do func(t *testing.T, file string, steps []console.Step)) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.chat"))
	if err != nil || len(files) == 0 {
		t.Fatal("no conversations", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".chat"), func(t *testing.T) {
			t.Parallel()
			f, err := os.Open(file)
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			steps, err := console.ReadChat(f)
			if err != nil {
				t.Fatal(err)
			}
			do(t, file, steps)
		})
	}
}

// Messages returns the steps that are messages, without the comments.
func Messages(steps []console.Step) []console.Step {
	return slices.DeleteFunc(slices.Clone(steps), func(s console.Step) bool { return s.Who == "" })
}

// Have plays a conversation: say sends message n and returns the lines of its reply. show,
// if not nil, converts an expected reply to the form in which the door delivers it.
func Have(t *testing.T, steps []console.Step, clock *console.Clock, show func([]string) []string, say func(n int, s console.Step) []string) {
	t.Helper()
	for n, s := range Messages(steps) {
		clock.Set(s.Sent)
		want := s.Want
		if show != nil {
			want = show(want)
		}
		if diff := cmp.Diff(want, say(n, s)); diff != "" {
			t.Fatalf("line %d: %s\nreplies differ (-expected +got):\n%s", s.Line, s, diff)
		}
	}
}
