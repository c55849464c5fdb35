package chat_test

import (
	"context"
	"testing"
	"time"

	"go.uber.org/goleak"

	"strapline/bot"
	"strapline/bot/chat"
	"strapline/bot/chat/fake"
)

// Run leaves no goroutine behind, whether it is connected, waiting for a server that is down
// or for one that is frozen.
func TestStopLeavesNothing(t *testing.T) {
	defer goleak.VerifyNone(t, goleak.IgnoreCurrent())
	for _, tc := range []struct {
		name   string
		before func(*fake.Server)
	}{
		{"connected", func(*fake.Server) {}},
		{"away", func(s *fake.Server) {
			s.SetFaults(fake.Faults{Request: func(string, string) fake.Fault { return fake.Unheard }})
		}},
		{"frozen", func(s *fake.Server) { s.Freeze(true) }},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s := fake.New()
			defer s.Close()
			me := s.AddUser("", "tape", true)
			lead := s.AddUser("", "lead", false)
			flat := s.AddChannel("", "flat", lead, me)
			tc.before(s)
			b, err := bot.New(bot.Options{Dir: t.TempDir()})
			if err != nil {
				t.Fatal(err)
			}
			ctx, cancel := context.WithCancel(t.Context())
			ended := make(chan error)
			go func() { ended <- chat.Run(ctx, b, chat.Hurried(chat.Config{URL: s.URL, Token: s.Token(me)})) }()
			if tc.name == "connected" {
				s.Post(lead, flat, "", "note one")
				for deadline := time.Now().Add(10 * time.Second); s.Count(me) == 0 && time.Now().Before(deadline); {
					time.Sleep(time.Millisecond)
				}
			}
			cancel()
			select {
			case err := <-ended:
				if err != nil {
					t.Error(err)
				}
			case <-time.After(5 * time.Second):
				t.Error("Run does not end")
			}
			if err := b.Close(); err != nil {
				t.Error(err)
			}
		})
	}
}
