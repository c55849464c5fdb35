package chat_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"strapline/bot/chat/fake"
)

// What happens while the bot is away is answered once, in order; what was there before is
// not answered again.
func TestGap(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		seen := s.Post(s.lead, s.flat, "", "note one")
		chat := s.Post(s.lead, s.flat, "", "1")
		changed := s.Post(s.lead, s.flat, "", "note tow")
		gone := s.Post(s.lead, s.flat, "", "note three")
		s.settle()
		s.end()
		before := s.Count(s.me)

		time.Sleep(time.Hour)
		s.React(seen)
		s.React(chat)
		s.Edit(s.lead, changed, "note two")
		s.Delete(s.lead, gone)
		asked := s.Post(s.hanger, s.flat, "", "gap 84 2")
		s.Post(s.hanger, s.flat, "", "anyone seen the saw")
		typo := s.Post(s.lead, s.flat, "", "note fuor")
		time.Sleep(time.Second)
		s.Edit(s.lead, typo, "note four")
		taken := s.Post(s.lead, s.flat, "", "note five")
		s.Delete(s.lead, taken)
		under := s.Post(s.lead, s.flat, seen, "note six")
		time.Sleep(time.Hour)

		for range 2 { // the second start finds nothing to do
			s.begin()
			for _, key := range []string{seen, asked, typo, under, gone + "@deleted"} {
				s.reply(s.flat, key)
			}
			var edits []string
			for key := range s.replies(s.flat) {
				if strings.HasPrefix(key, changed+"@") {
					edits = append(edits, key)
				}
			}
			if len(edits) != 1 {
				t.Errorf("the edit has %d replies", len(edits))
			}
			if got := s.Count(s.me) - before; got != 5 {
				t.Errorf("%d replies to the gap, want 5: %v", got, s.replies(s.flat))
			}
			if got := s.reply(s.flat, typo).Text; !strings.Contains(got, "four") {
				t.Errorf("the post that was edited before anybody read it is answered %q", got)
			}
			s.end()
		}
	})
}

// A post may become visible a little late, after newer ones have been read.
func TestPostSeenAfterItsTime(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		time.Sleep(time.Hour)
		for range 60 { // enough for the watermark to be saved
			s.Post(s.lead, s.flat, "", "note young")
		}
		s.settle()
		s.end()
		s.Now = func() time.Time { return time.Now().Add(-20 * time.Second) }
		old := s.Post(s.lead, s.flat, "", "note old")
		s.begin()
		s.reply(s.flat, old)
	})
}

// Chatter is never read again, not even right after a restart: it could answer a question
// that was asked later.
func TestChatterIsReadOnce(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		early := s.Post(s.hanger, s.flat, "", "1")
		s.settle()
		ask := s.Post(s.hanger, s.flat, "", "gap 84 2")
		s.settle()
		s.Drop()
		s.settle()
		s.end()
		s.begin()
		if got := s.replies(s.flat)[early]; got != nil {
			t.Errorf("the old 1 answers the new question: %v", got)
		}
		s.reply(s.flat, ask)
	})
}

// The server returns 1,000 changes without saying that there are more.
func TestGapOfMoreThanAThousand(t *testing.T) {
	t.Parallel()
	onSite(t, func(s *site) {
		s.begin()
		old := s.Post(s.lead, s.flat, "", "note the old one")
		s.settle()
		s.end()
		time.Sleep(time.Hour)
		var keys []string
		for i := range 1300 {
			keys = append(keys, s.Server.Post(s.lead, s.flat, "", fmt.Sprintf("note flood %d", i)))
			if i%3 == 0 {
				time.Sleep(time.Millisecond) // some share a millisecond
			}
		}
		s.Edit(s.lead, old, "note the new one") // the 1,301st change
		// Deleting a post while pages are read moves the next one to a page already read.
		gone, pages := keys[1250], 0
		s.SetFaults(fake.Faults{Request: func(method, path string) fake.Fault {
			if method == "GET" && strings.HasSuffix(path, "/posts") {
				if pages++; pages == 2 { // after the first page
					go s.Delete(s.lead, gone)
				}
			}
			return fake.Fine
		}})
		s.begin()
		time.Sleep(time.Minute)
		s.settle()
		replies := s.replies(s.flat)
		for i, key := range keys {
			if key == gone {
				continue
			}
			var seq int
			if _, err := fmt.Sscanf(s.only(replies, key).Text, "noted %d", &seq); err != nil || seq < i-1 || seq > i+5 {
				t.Errorf("post %d is entry %d: not in order", i, seq)
			}
		}
		edited := false
		for key := range replies {
			edited = edited || strings.HasPrefix(key, old+"@")
		}
		if !edited {
			t.Error("the edit of the old post is lost")
		}
		if !strings.Contains(s.log.String(), "more changed than the server names") {
			t.Error("the log does not say that the gap was long")
		}
	})
}

// Only what is posted while the account is a member is read.
func TestMembership(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		// In a gap: a direct message, and a channel that it is added to.
		s.end()
		direct := s.AddDirect("", s.lead, s.me)
		private := s.Post(s.lead, direct, "", "note to you alone")
		hall := s.AddChannel("", "hall", s.lead)
		before := s.Post(s.lead, hall, "", "note before")
		time.Sleep(time.Second)
		s.Join(hall, s.me, s.lead)
		time.Sleep(time.Second)
		after := s.Post(s.lead, hall, "", "note after")
		s.begin()
		s.reply(direct, private)
		s.reply(hall, after)
		if got := s.replies(hall)[before]; got != nil {
			t.Errorf("what was posted before it joined is answered: %v", got)
		}
		s.Edit(s.lead, before, "note before, edited")
		s.settle()
		if got := len(s.replies(hall)); got != 1 {
			t.Errorf("the edit of what was posted before it joined is answered: %v", s.replies(hall))
		}

		// While it listens.
		bed := s.AddChannel("", "bed", s.lead)
		s.Post(s.lead, bed, "", "note before")
		time.Sleep(time.Second)
		s.Join(bed, s.me, s.lead)
		live := s.Post(s.lead, bed, "", "note at once")
		s.settle()
		s.reply(bed, live)
		s.Remove(bed, s.me, s.lead)
		s.settle()
		s.Post(s.lead, bed, "", "note while it is away")
		time.Sleep(time.Second)
		s.Join(bed, s.me, s.lead)
		time.Sleep(time.Second)
		back := s.Post(s.lead, bed, "", "note when it is back")
		s.settle()
		s.reply(bed, back)
		if got := len(s.replies(bed)); got != 2 {
			t.Errorf("%d replies: %v", got, s.replies(bed))
		}
		if log := s.log.String(); !strings.Contains(log, "no longer served") || !strings.Contains(log, "channel=crew/bed") {
			t.Error("the log does not say that it was removed")
		}

		s.Archive(bed, s.lead, true)
		s.settle()
		s.Archive(bed, s.lead, false)
		s.settle()
		open := s.Post(s.lead, bed, "", "note it is open again")
		s.settle()
		s.reply(bed, open)
	})
}

// If the server does not say who joined when, what is there counts as read.
func TestJoiningUnsaid(t *testing.T) {
	onSite(t, func(s *site) {
		s.Unsaid = true
		hall := s.AddChannel("", "hall", s.lead, s.me)
		s.Post(s.lead, hall, "", "note before")
		s.begin()
		after := s.Post(s.lead, hall, "", "note after")
		s.settle()
		s.reply(hall, after)
		if got := len(s.replies(hall)); got != 1 {
			t.Errorf("%d replies: %v", got, s.replies(hall))
		}
		if !strings.Contains(s.log.String(), "nothing in the channel says when the account joined") {
			t.Error("the log does not say that it does not know when it joined")
		}
	})
}

// Events that the server dropped are noticed by the sequence numbers or the broken connection.
func TestLostEvents(t *testing.T) {
	for name, how := range map[string]fake.Delivery{"skip": fake.Skip, "cut": fake.Cut, "hang up": fake.HangUp, "twice": fake.Twice} {
		t.Run(name, func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				n := 0
				s.SetFaults(fake.Faults{Event: func() fake.Delivery {
					if n++; n%3 == 0 {
						return how
					}
					return fake.Once
				}})
				var keys []string
				for i := range 10 {
					keys = append(keys, s.Post(s.lead, s.flat, "", fmt.Sprintf("note %d", i)))
					time.Sleep(700 * time.Millisecond)
				}
				time.Sleep(2 * time.Minute)
				s.settle()
				for _, key := range keys {
					s.reply(s.flat, key)
				}
			})
		})
	}
}
