package chat_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"strapline/bot/chat/fake"
	"strapline/bot/console"
)

// Every conversation has the same replies here as anywhere else.
func TestConversations(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.chat")
	if err != nil || len(files) == 0 {
		t.Fatal("no conversations", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".chat"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			steps, err := console.ReadChat(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			steps = slices.DeleteFunc(steps, func(s console.Step) bool { return s.Who == "" })
			onSite(t, func(s *site) { s.play(steps) })
		})
	}
}

var (
	escaped = regexp.MustCompile("\\\\([\\\\`*_~\\[\\]#>+.)-])")
	aChoice = regexp.MustCompile(`^\d: `)
)

// asSaid is a reply as it stands in a conversation: not escaped, with its choices in one line.
func asSaid(lines []string) (out []string) {
	for _, l := range lines {
		l = escaped.ReplaceAllString(strings.TrimRight(l, " "), "$1")
		if aChoice.MatchString(l) && len(out) > 0 {
			out[len(out)-1] += "  " + l
			continue
		}
		out = append(out, l)
	}
	return out
}

// play posts the messages, each at the time it was sent, and compares the replies.
func (s *site) play(steps []console.Step) {
	clock := new(console.Clock)
	at := steps[0].Sent.Add(-time.Hour)
	for _, step := range steps {
		if step.Sent.Before(at) {
			at = step.Sent.Add(-time.Hour)
		}
	}
	clock.Set(at)
	s.now = clock.Now
	s.Now = func() time.Time { return at }
	crew := map[string]*fake.User{}
	flat := s.AddChannel("", "larkspur", s.me)
	for _, step := range steps {
		if crew[step.Who] == nil {
			crew[step.Who] = s.AddUser("", step.Who, false)
			s.Join(flat, crew[step.Who], s.me)
		}
	}
	s.begin()
	count := 0
	for _, step := range steps {
		at = step.Sent
		clock.Set(at)
		id := s.Server.Post(crew[step.Who], flat, "", step.Text)
		s.settle()
		var got []string
		if all := s.replies(flat); len(all) > count {
			count = len(all)
			got = strings.Split(s.reply(flat, id).Text, "\n")
		}
		// People who are called stand on a line of their own, below the reply.
		if n := len(got); n > 0 && strings.HasPrefix(got[n-1], "@") {
			got = got[:n-1]
		}
		if diff := cmp.Diff(asSaid(step.Want), asSaid(got)); diff != "" {
			s.t.Errorf("line %d: %s\nreplies differ (-expected +got):\n%s", step.Line, step, diff)
		}
	}
}
