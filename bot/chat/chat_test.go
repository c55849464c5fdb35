package chat_test

import (
	"testing"
)

func TestReplyInThread(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Post(s.lead, s.flat, "", "morning all")
		id := s.Post(s.lead, s.flat, "", "room kitchen 13' 4 x 11' 9")
		s.settle()
		r := s.reply(s.flat, id)
		t.Log(r)
		if len(s.replies(s.flat)) != 1 || r.RootID != id {
			t.Error(s.replies(s.flat))
		}
	})
}
