package chat_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"strapline/bot/chat"
	"strapline/bot/chat/fake"
)

// A server without its database refuses every token. The bot waits, however long it takes,
// without flooding the log, and then continues.
func TestTokenRefusedWithoutDatabase(t *testing.T) {
	for _, tc := range []struct {
		name  string
		early bool // the database is away before the start
	}{{"running", false}, {"at the start", true}} {
		t.Run(tc.name, func(t *testing.T) {
			onSite(t, func(s *site) {
				var note string
				if tc.early {
					note = s.Post(s.lead, s.flat, "", "note once")
					s.LoseDatabase(0)
					s.begin()
				} else {
					s.begin()
					note = s.Post(s.lead, s.flat, "", "note once")
					s.LoseDatabase(0)
				}
				time.Sleep(3 * time.Hour)
				if s.over() {
					t.Fatal("Run ended")
				}
				s.FindDatabase()
				time.Sleep(70 * time.Second)
				s.reply(s.flat, note)
				log := s.log.String()
				if n := strings.Count(log, "refuses the token"); n < 10 || n > 20 {
					t.Errorf("in three hours the log says %d times that the token is refused", n)
				}
				for _, want := range []string{"database is away", "takes the token again", "refused=true"} {
					if !strings.Contains(log, want) {
						t.Errorf("the log does not say %q", want)
					}
				}
				if n := strings.Count(log, "WARN"); n > 25 {
					t.Errorf("%d warnings in three hours", n)
				}
				s.end()
			})
		})
	}
}

// Only time with the database up counts against a token, and it starts again after every
// outage.
func TestTokenRefusedBesideAnOutage(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.LoseDatabase(0)
		time.Sleep(30 * time.Minute)
		s.Revoke(s.cfg.Token)
		s.FindDatabase()
		time.Sleep(8 * time.Minute)
		s.LoseDatabase(0)
		time.Sleep(8 * time.Minute)
		s.FindDatabase()
		time.Sleep(9 * time.Minute)
		if s.over() {
			t.Fatal("Run ended before the token was refused for ten minutes with the database well")
		}
		time.Sleep(3 * time.Minute)
		if !s.over() {
			t.Error("Run goes on")
		}
		err := s.stop()
		s.stop = nil
		if !errors.Is(err, chat.ErrToken) {
			t.Errorf("Run: %v", err)
		}
	})
}

// The time starts again after any other response, and does not start while the state of the
// database is unknown.
func TestTokenRefusedNowAndThen(t *testing.T) {
	for _, what := range []string{"/users/me", "/system/ping"} {
		t.Run(what, func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				s.Revoke(s.cfg.Token)
				s.Post(s.lead, s.flat, "", "note x")
				time.Sleep(8 * time.Minute)
				s.SetFaults(fake.Faults{Request: func(_, path string) fake.Fault {
					if path == what {
						return fake.Echo
					}
					return fake.Fine
				}})
				time.Sleep(8 * time.Minute)
				s.SetFaults(fake.Faults{})
				time.Sleep(9*time.Minute + 30*time.Second)
				if s.over() {
					t.Error("Run ended though the token was not refused for ten minutes on end")
				}
				time.Sleep(3 * time.Minute)
				if !s.over() {
					t.Error("Run goes on")
				}
				if err := s.stop(); !errors.Is(err, chat.ErrToken) {
					t.Errorf("Run: %v", err)
				}
				s.stop = nil
			})
		})
	}
}

// While the token is refused the requests are spaced out, even if only some are refused.
func TestTokenRefusedIsPaced(t *testing.T) {
	for _, all := range []bool{true, false} {
		t.Run(fmt.Sprintf("all %v", all), func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				requests := 0
				s.SetFaults(fake.Faults{Request: func(method, _ string) fake.Fault {
					requests++
					if method == "POST" && !all {
						return fake.Unknown
					}
					return fake.Fine
				}})
				note := s.Post(s.lead, s.flat, "", "note once")
				if all {
					s.LoseDatabase(0)
				}
				time.Sleep(10 * time.Minute)
				if all {
					s.FindDatabase()
				}
				s.SetFaults(fake.Faults{})
				if requests > 60 {
					t.Errorf("%d requests in ten minutes", requests)
				}
				time.Sleep(70 * time.Second)
				s.reply(s.flat, note)
			})
		})
	}
}

// Without its database the server reports every thread as deleted and every channel as
// forbidden. No reply is dropped because of that or sent twice, and all are sent within about
// a minute after the database is back.
func TestRepliesWithoutDatabase(t *testing.T) {
	for _, tc := range []struct {
		name     string
		sessions time.Duration
		length   time.Duration
		restart  bool
	}{
		{"short", time.Hour, 5 * time.Second, false},
		{"long", 24 * time.Hour, 2 * time.Hour, false},
		{"until the sessions run out", time.Minute, 20 * time.Minute, false},
		{"with a restart of ours", 24 * time.Hour, 20 * time.Minute, true},
	} {
		t.Run(tc.name, func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				gone := s.Post(s.lead, s.flat, "", "note gone")
				s.settle()
				var keys []string
				for i := range 40 {
					keys = append(keys, s.Server.Post(s.lead, s.flat, "", fmt.Sprintf("note %d", i)))
				}
				s.Delete(s.lead, gone) // the reply to that is in no thread
				keys = append(keys, gone+"@deleted")
				s.LoseDatabase(tc.sessions)
				time.Sleep(tc.length)
				if got := len(s.replies(s.flat)); got > 1 {
					t.Errorf("%d replies are there already", got)
				}
				if tc.restart {
					s.end()
					s.begin()
					time.Sleep(tc.length)
				}
				if s.FindDatabase() == 0 {
					t.Error("no request met the server without its database")
				}
				time.Sleep(70 * time.Second)
				s.settle()
				for _, key := range keys {
					s.reply(s.flat, key)
				}
				s.end()
				for _, not := range []string{"given up", "no longer served", "doubled=1"} {
					if strings.Contains(s.log.String(), not) {
						t.Errorf("the log says %q", not)
					}
				}
			})
		})
	}
}

// Permanent refusals are not believed while the database is down, whether about the author,
// the channel or a deletion.
func TestReadingWithoutDatabase(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Post(s.lead, s.flat, "", "note one")
		s.settle()
		two := s.Post(s.hanger, s.flat, "", kitchen) // not in the cache of accounts yet
		s.LoseDatabase(time.Hour)
		s.Drop()
		time.Sleep(5 * time.Minute)
		s.FindDatabase()
		time.Sleep(70 * time.Second)
		s.settle()
		s.reply(s.flat, two)
		list := s.Post(s.lead, s.flat, "", "log")
		s.settle()
		if got := s.reply(s.flat, list).Text; !strings.Contains(got, "hanger") || strings.Contains(got, s.hanger.ID) {
			t.Errorf("the log does not name who wrote: %q", got)
		}
		if strings.Contains(s.log.String(), "no longer served") {
			t.Error("the channel was left")
		}
	})
}

// A reply is not dropped for a refusal that nothing on the server confirms.
func TestRefusalWithoutReason(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		tries := 0
		s.SetFaults(posts(func() fake.Fault {
			tries++
			return fake.Refused
		}))
		note := s.Post(s.lead, s.flat, "", "note once")
		time.Sleep(time.Hour)
		s.SetFaults(fake.Faults{})
		if tries < 60 || tries > 140 {
			t.Errorf("%d tries in an hour", tries)
		}
		time.Sleep(70 * time.Second)
		s.reply(s.flat, note)
		if n := strings.Count(s.log.String(), "a reply waits"); n < 3 || n > 8 {
			t.Errorf("in an hour the log says %d times that it waits", n)
		}
		if slices.Contains(strings.Fields(s.log.String()), "dropped=1") {
			t.Error("it counts as dropped")
		}
	})
}

// The database may fail or come back while a refusal is being verified.
func TestDatabaseGoesMeanwhile(t *testing.T) {
	for _, dead := range []int{1, 2} { // which ping after a refusal fails
		t.Run(fmt.Sprint(dead), func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				pings := 0
				s.SetFaults(fake.Faults{Request: func(method, path string) fake.Fault {
					switch {
					case method == "POST":
						pings = 0
						return fake.Refused
					case path == "/system/ping":
						if pings++; pings == dead {
							return fake.Echo
						}
					case strings.HasPrefix(path, "/posts/"):
						return fake.Refused
					}
					return fake.Fine
				}})
				note := s.Post(s.lead, s.flat, "", "note once")
				time.Sleep(10 * time.Minute)
				s.SetFaults(fake.Faults{})
				time.Sleep(70 * time.Second)
				s.reply(s.flat, note)
			})
		})
	}
}

// A thread counts as deleted only if both its root and the message answered are gone, even
// if the reply had to be looked for in it.
func TestThreadHalfGone(t *testing.T) {
	for _, gone := range []string{"root", "message", "thread"} {
		t.Run(gone, func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				root := s.Post(s.hanger, s.flat, "", "what about lunch")
				s.settle()
				note, posts := s.Post(s.lead, s.flat, root, "note once"), 0
				s.SetFaults(fake.Faults{Request: func(method, path string) fake.Fault {
					switch {
					case method == "POST" && gone == "thread":
						if posts++; posts == 1 {
							return fake.Broken // so that the reply is looked for
						}
						return fake.Fine
					case method == "POST":
						return fake.Refused
					case gone == "root" && path == "/posts/"+root,
						gone == "message" && path == "/posts/"+note,
						gone == "thread" && path == "/posts/"+root+"/thread":
						return fake.Refused
					}
					return fake.Fine
				}})
				time.Sleep(10 * time.Minute)
				s.SetFaults(fake.Faults{})
				time.Sleep(70 * time.Second)
				s.reply(s.flat, note)
			})
		})
	}
}

// A post deleted while the bot was away is struck, even if the server cannot say at first
// whether its thread was deleted with it.
func TestDeletionReadWithoutDatabase(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		root := s.Post(s.lead, s.flat, "", "what about lunch")
		note := s.Post(s.hanger, s.flat, root, "note once")
		time.Sleep(time.Hour)
		s.Post(s.lead, s.flat, "", "note later")
		s.Drop() // so that the mark is saved once it is back
		time.Sleep(time.Minute)
		s.end()
		s.Delete(s.hanger, note)
		s.SetFaults(fake.Faults{Request: func(_, path string) fake.Fault {
			switch {
			case path == "/system/ping":
				return fake.Unheard
			case path == "/posts/"+root:
				return fake.Refused
			}
			return fake.Fine
		}})
		s.begin()
		time.Sleep(time.Minute)
		s.SetFaults(fake.Faults{})
		time.Sleep(70 * time.Second)
		s.settle()
		s.reply(s.flat, note+"@deleted")
	})
}
