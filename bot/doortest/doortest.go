// Package doortest has the conversations of testdata with any door: whatever a message
// comes in by, it gets the reply that stands under it.
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

// Each runs a test for each conversation in a folder.
func Each(t *testing.T, dir string, do func(t *testing.T, file string, steps []console.Step)) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.chat"))
	if err != nil || len(files) == 0 {
		t.Fatal("no conversations", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".chat"), func(t *testing.T) {
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

// Messages are the steps that somebody sends.
func Messages(steps []console.Step) []console.Step {
	return slices.DeleteFunc(slices.Clone(steps), func(s console.Step) bool { return s.Who == "" })
}

// Have has a conversation: say sends message n and gives the lines of its reply. show, when it is not nil,
// is how the door shows a reply that stands in a conversation.
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
