package chat_test

import (
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"strapline/bot/chat/fake"
)

// posts makes faults of requests that create posts.
func posts(fault func() fake.Fault) fake.Faults {
	return fake.Faults{Request: func(method, path string) fake.Fault {
		if method == "POST" && path == "/posts" {
			return fault()
		}
		return fake.Fine
	}}
}

// If the server stores the reply but its response is lost, the reply is posted once, however
// long the server is out of reach, whatever it forgets, and whichever side restarts.
func TestDoubtfulReply(t *testing.T) {
	for _, tc := range []struct {
		name      string
		meanwhile func(*site)
	}{
		{"at once", func(*site) {}},
		{"after the pending id is forgotten", func(*site) { time.Sleep(2 * time.Minute) }},
		{"after a restart of the server", func(s *site) { s.Restart() }},
		{"after a restart of ours", func(s *site) { s.end(); s.SetFaults(fake.Faults{}); s.begin() }},
		{"after a long stop of ours", func(s *site) { s.end(); time.Sleep(time.Hour); s.SetFaults(fake.Faults{}); s.begin() }},
	} {
		t.Run(tc.name, func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				tries := 0
				s.SetFaults(fake.Faults{
					Request: func(method, path string) fake.Fault {
						if method == "POST" && path == "/posts" {
							if tries++; tries == 1 {
								return fake.Lost
							}
						}
						if tries > 0 {
							return fake.Unheard
						}
						return fake.Fine
					},
					Event: func() fake.Delivery { // otherwise the echo would tell the bot
						if tries > 0 {
							return fake.Cut
						}
						return fake.Once
					},
				})
				note := s.Post(s.lead, s.flat, "", "note once")
				s.settle()
				if len(s.replies(s.flat)[note]) != 1 {
					t.Fatal("the first try did not store the reply")
				}
				tc.meanwhile(s)
				s.SetFaults(fake.Faults{})
				time.Sleep(2 * time.Minute)
				s.settle()
				s.reply(s.flat, note)
				s.end()
				if log := s.log.String(); !strings.Contains(log, "found=1") || !strings.Contains(log, "doubled=0") {
					t.Error("the health line does not count the reply that was found")
				}
			})
		})
	}
}

// If a try hangs in the server and is carried out after the next one, the server recognises
// it by its pending ID while it remembers that. If it hangs longer, the reply is posted
// twice. That is the remaining window, and it is counted.
func TestStuckReply(t *testing.T) {
	for stuck, want := range map[time.Duration]int{25 * time.Second: 1, 45 * time.Second: 1, 70 * time.Second: 2} {
		t.Run(stuck.String(), func(t *testing.T) {
			onSite(t, func(s *site) {
				s.StuckTime = stuck
				s.begin()
				tries := 0
				s.SetFaults(posts(func() fake.Fault {
					if tries++; tries == 1 {
						return fake.Stuck
					}
					return fake.Fine
				}))
				note := s.Post(s.lead, s.flat, "", "note once")
				time.Sleep(2 * time.Minute)
				s.SetFaults(fake.Faults{})
				s.settle()
				if got := s.replies(s.flat)[note]; len(got) != want {
					t.Errorf("%d replies, want %d", len(got), want)
				}
				if tries != 2 {
					t.Errorf("%d tries, want 2", tries)
				}
				list := s.Post(s.lead, s.flat, "", "log")
				s.settle()
				if got := s.reply(s.flat, list).Text; strings.Count(got, "once") != 1 {
					t.Errorf("the log says %q", got)
				}
				s.end()
				if count := fmt.Sprintf("doubled=%d", want-1); !strings.Contains(s.log.String(), count) {
					t.Errorf("the health line does not say %s", count)
				}
			})
		})
	}
}

// If the bot stops between the commit and the post, the reply is sent after the restart.
func TestReplySurvivesAStop(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.SetFaults(posts(func() fake.Fault { return fake.Unheard }))
		note := s.Post(s.lead, s.flat, "", "note once")
		s.settle()
		s.end()
		if got := s.replies(s.flat)[note]; got != nil {
			t.Fatalf("got %v", got)
		}
		s.SetFaults(fake.Faults{})
		s.begin()
		s.reply(s.flat, note)
	})
}

// A reply being sent at shutdown arrives, and is not sent again.
func TestReplyInFlightAtAStop(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.SetFaults(posts(func() fake.Fault { return fake.Slow }))
		note := s.Post(s.lead, s.flat, "", "note once")
		time.Sleep(fake.SlowTime / 2)
		s.end()
		time.Sleep(fake.SlowTime)
		s.SetFaults(fake.Faults{})
		s.begin()
		s.end()
		s.reply(s.flat, note)
		if strings.Contains(s.log.String(), "found=1") {
			t.Error("the reply was not known to be sent")
		}
	})
}

// A reply that the server fails on does not hold up the others.
func TestBrokenReplyWaitsAlone(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		first := true
		s.SetFaults(posts(func() fake.Fault {
			if first {
				first = false
				return fake.Broken
			}
			return fake.Fine
		}))
		one := s.Post(s.lead, s.flat, "", "note one")
		two := s.Post(s.lead, s.flat, "", "note two")
		s.settle()
		if a, b := s.reply(s.flat, one), s.reply(s.flat, two); a.At <= b.At {
			t.Errorf("the broken one did not wait, or both did: %v %v", a, b)
		}
	})
}

// All requests obey a Retry-After, and continue after it.
func TestTooManyRequests(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		var at []time.Time
		limited := 0
		s.SetFaults(fake.Faults{Request: func(string, string) fake.Fault {
			at = append(at, time.Now())
			if limited++; limited <= 5 {
				return fake.TooMany
			}
			return fake.Fine
		}})
		note := s.Post(s.lead, s.flat, "", "note once")
		time.Sleep(time.Minute)
		s.SetFaults(fake.Faults{})
		s.settle()
		s.reply(s.flat, note)
		for i := 1; i < 6; i++ {
			if wait := at[i].Sub(at[i-1]); wait < time.Second {
				t.Errorf("request %d came %v after a 429 that wants a second", i, wait)
			}
		}
	})
}

// The waits between tries grow up to a minute, and start again after a success.
func TestBackOff(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		// waits returns the waits between the failing tries to post within d.
		waits := func(d time.Duration) (all []time.Duration) {
			var last time.Time
			s.SetFaults(posts(func() fake.Fault {
				if !last.IsZero() {
					all = append(all, time.Since(last))
				}
				last = time.Now()
				return fake.Broken
			}))
			s.Post(s.lead, s.flat, "", "note "+d.String())
			time.Sleep(d)
			s.SetFaults(fake.Faults{})
			time.Sleep(2 * time.Minute)
			return all
		}
		all := waits(10 * time.Minute)
		if len(all) < 11 {
			t.Errorf("%d waits in ten minutes", len(all))
		}
		for i, wait := range all {
			full := min(500*time.Millisecond<<i, time.Minute)
			if wait < full/2 || wait > full {
				t.Errorf("wait %d is %v, want from %v to %v", i, wait, full/2, full)
			}
		}
		s.end()
		if strings.Contains(s.log.String(), "unsure=0") {
			t.Error("replies posted again after a doubt are not counted")
		}
		s.begin()
		if w := waits(time.Second); len(w) == 0 || w[0] > 500*time.Millisecond {
			t.Errorf("after a success the first waits are %v", w)
		}
	})
}

// A reply that the server refuses permanently is given up, and the log says why.
func TestRefusedReplies(t *testing.T) {
	for _, tc := range []struct {
		name, why string
		do        func(s *site, note string)
	}{
		{"archived", "the channel is archived", func(s *site, _ string) { s.Archive(s.flat, s.lead, true) }},
		{"not a member", "the account is not a member of the channel", func(s *site, _ string) { s.Remove(s.flat, s.me, s.lead) }},
		{"shorter than any server wants", "takes no such text", func(s *site, _ string) { s.MaxRunes = 3 }},
		{"thread deleted", "its thread was deleted", func(s *site, note string) { s.Delete(s.lead, note) }},
	} {
		t.Run(tc.name, func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				s.SetFaults(posts(func() fake.Fault { return fake.TooMany }))
				note := s.Post(s.lead, s.flat, "", "note once")
				s.settle()
				tc.do(s, note)
				s.SetFaults(fake.Faults{})
				time.Sleep(2 * time.Minute)
				s.settle()
				if log := s.log.String(); !strings.Contains(log, "a reply is given up") || !strings.Contains(log, tc.why) {
					t.Errorf("the log does not say %q", tc.why)
				}
				s.end()
				s.begin() // it is not tried again
				s.end()
				if got := strings.Count(s.log.String(), "a reply is given up"); got != 1 {
					t.Errorf("given up %d times", got)
				}
			})
		})
	}
}

// A server with an old database has a lower limit, and refuses longer posts with the same
// error.
func TestLongReplyIsCut(t *testing.T) {
	const most = 4000
	onSite(t, func(s *site) {
		s.MaxRunes = most
		s.begin()
		note := s.Post(s.lead, s.flat, "", "note "+strings.Repeat("*", 3900)) // each of them is escaped
		s.settle()
		got := s.reply(s.flat, note).Text
		if n := utf8.RuneCountInString(got); n > most || n < most/2 || !strings.Contains(got, "cut off") {
			t.Errorf("%d runes, ending in %q", n, got[len(got)-100:])
		}
	})
}

// A frozen server closes no connection, but its pings stop, which is noticed. A request that
// it received before, and carries out when it thaws, is not posted twice.
func TestFrozenServer(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Freeze(true)
		note := s.Post(s.lead, s.flat, "", "note once") // its event is sent when the server thaws
		time.Sleep(3 * time.Minute)
		s.Freeze(false)
		time.Sleep(2 * time.Minute)
		s.settle()
		s.reply(s.flat, note)
		if !strings.Contains(s.log.String(), "does not ping") {
			t.Error("the log does not say that the server froze")
		}
	})
}
