package chat_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"strapline/bot/chat/fake"
	"strapline/bot/console"
	"strapline/bot/doortest"
)

// The conversations get the same replies here as through any other door.
func TestConversations(t *testing.T) {
	doortest.Each(t, "../../testdata", func(t *testing.T, _ string, steps []console.Step) {
		onSite(t, func(s *site) { s.play(steps) })
	})
}

var (
	escaped = regexp.MustCompile("\\\\([\\\\`*_~\\[\\]#>+.)-])")
	aChoice = regexp.MustCompile(`^\d: `)
)

// asSaid converts a posted reply to its form in a conversation: not escaped, with the choices
// on one line.
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
	messages := doortest.Messages(steps)
	at := messages[0].Sent.Add(-time.Hour)
	for _, step := range messages {
		if step.Sent.Before(at) {
			at = step.Sent.Add(-time.Hour)
		}
	}
	clock.Set(at)
	s.now = clock.Now
	s.Now = func() time.Time { return at }
	crew := map[string]*fake.User{}
	flat := s.AddChannel("", "larkspur", s.me)
	for _, step := range messages {
		if crew[step.Who] == nil {
			crew[step.Who] = s.AddUser("", step.Who, false)
			s.Join(flat, crew[step.Who], s.me)
		}
	}
	s.begin()
	count := 0
	doortest.Have(s.t, steps, clock, asSaid, func(_ int, step console.Step) []string {
		at = step.Sent
		id := s.Server.Post(crew[step.Who], flat, "", step.Text)
		s.settle()
		var got []string
		if all := s.replies(flat); len(all) > count {
			count = len(all)
			got = strings.Split(s.reply(flat, id).Text, "\n")
		}
		// Mentions are on a line of their own below the reply.
		if n := len(got); n > 0 && strings.HasPrefix(got[n-1], "@") {
			got = got[:n-1]
		}
		return asSaid(got)
	})
}
