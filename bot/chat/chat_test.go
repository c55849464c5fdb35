package chat_test

import (
	"bytes"
	"image/png"
	"strings"
	"testing"
	"time"

	"strapline/bot/chat/fake"
)

const kitchen = "room kitchen 13' 4 x 11' 9"

func TestReplyGoesIntoTheThread(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Post(s.lead, s.flat, "", "morning all")
		room := s.Post(s.lead, s.flat, "", kitchen)
		s.settle()
		reply := s.Post(s.hanger, s.flat, room, "light 6\" l1 26 off west 41 off north")
		two := s.Post(s.lead, s.flat, "", "light l2 30 off west 50 off north\nlight l3 35 off west 60 off north")
		s.settle()
		if got := len(s.replies(s.flat)); got != 3 {
			t.Errorf("%d replies, chatter must get none: %v", got, s.replies(s.flat))
		}
		for key, root := range map[string]string{room: room, reply: room, two: two} {
			if got := s.reply(s.flat, key); got.RootID != root {
				t.Errorf("the reply %q stands in thread %q, want %q", got.Text, got.RootID, root)
			}
		}
		if got := s.reply(s.flat, two).Text; strings.Count(got, "noted") != 2 {
			t.Errorf("two lines of a post are answered %q", got)
		}
	})
}

// A question is answered in its thread, or by the next message.
func TestQuestionIsAnsweredInItsThread(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		ask := s.Post(s.hanger, s.flat, "", "gap 84 2")
		s.settle()
		if got := s.reply(s.flat, ask).Text; !strings.Contains(got, "1:") {
			t.Fatalf("not a question: %q", got)
		}
		s.Post(s.lead, s.flat, "", "what about lunch")
		other := s.Post(s.lead, s.flat, ask, "1")
		pick := s.Post(s.hanger, s.flat, ask, "1")
		s.settle()
		if got := s.reply(s.flat, pick).Text; !strings.Contains(got, "84-1/2") {
			t.Errorf("the pick is answered %q", got)
		}
		if got := s.replies(s.flat)[other]; got != nil {
			t.Errorf("somebody else's pick is answered %v", got)
		}
	})
}

func TestWhoIsLeftAlone(t *testing.T) {
	onSite(t, func(s *site) {
		other := s.AddUser("", "crane", true)
		s.Join(s.flat, other, s.lead)
		s.begin()
		s.Post(other, s.flat, "", kitchen)
		s.Post(s.me, s.flat, "", kitchen)
		s.settle()
		if got := s.replies(s.flat); len(got) != 1 || len(got[""]) != 1 { // the one that the test posted as the bot
			t.Errorf("bots are answered: %v", got)
		}
		// Anybody can mark a post as a bot's.
		fake := s.Claim(s.lead, s.flat, map[string]any{"from_bot": "true", "from_webhook": "true", "strapline": "x"}, kitchen)
		s.settle()
		s.reply(s.flat, fake)
	})
}

// It never answers itself or the server, whatever kind of account it has.
func TestItselfAndTheServerAreLeftAlone(t *testing.T) {
	onSite(t, func(s *site) {
		plain := s.AddUser("", "reader", false)
		s.Join(s.flat, plain, s.lead)
		s.cfg.Token = s.Token(plain)
		s.begin()
		s.Post(plain, s.flat, "", kitchen)
		note := s.AddUser("", "note", false)
		s.Join(s.flat, note, note) // "note joined the channel."
		s.settle()
		if got := s.Count(plain); got != 1 {
			t.Errorf("%d replies: %v", got-1, s.Posts(s.flat))
		}
	})
}

func TestOurNameIsTheAccounts(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		named := s.Post(s.lead, s.flat, "", "@tape: what do you make of this")
		s.Post(s.lead, s.flat, "", "@tapered edges are the ones to ask about")
		s.settle()
		if len(s.replies(s.flat)) != 1 || s.reply(s.flat, named).Text == "" {
			t.Errorf("got %v", s.replies(s.flat))
		}
	})
}

func TestEditsAndDeletions(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		note := s.Post(s.lead, s.flat, "", "note the hatch is 22 wide")
		root := s.Post(s.lead, s.flat, "", "note bring the long level")
		s.Post(s.hanger, s.flat, root, "note level is on the landing")
		s.settle()
		s.Pin(note)
		s.React(note)
		s.Edit(s.lead, note, "note the hatch is 22 wide") // with unchanged text
		s.settle()
		if got := len(s.replies(s.flat)); got != 3 {
			t.Fatalf("%d replies to three notes and no change", got)
		}

		s.Edit(s.lead, note, "note the hatch is 24 wide")
		s.settle()
		var edit string
		for key, posts := range s.replies(s.flat) {
			if strings.HasPrefix(key, note+"@") {
				edit = key
				if posts[0].RootID != note || !strings.Contains(posts[0].Text, "24") {
					t.Errorf("the edit is answered %+v", posts)
				}
			}
		}
		if edit == "" {
			t.Errorf("the edit is not answered: %v", s.replies(s.flat))
		}

		s.Delete(s.lead, root) // deletes the hanger's reply with it
		s.settle()
		gone := s.reply(s.flat, root+"@deleted")
		if gone.RootID != "" {
			t.Errorf("the answer to a deletion is in a thread that is gone: %+v", gone)
		}
		stands := func() {
			list := s.Post(s.lead, s.flat, "", "log")
			s.settle()
			for line := range strings.Lines(s.reply(s.flat, list).Text) {
				if strings.HasPrefix(line, "3 ") && strings.HasSuffix(strings.TrimSpace(line), "level is on the landing") {
					return
				}
			}
			t.Errorf("a reply was struck with its root: %s", s.reply(s.flat, list).Text)
		}
		stands()
		before := s.Count(s.me)
		s.end()
		s.begin() // everything is fetched again
		if again := s.Count(s.me) - before; again != 0 {
			t.Errorf("%d more replies after a restart: %v", again, s.replies(s.flat))
		}
		stands()
	})
}

// If the event of an edit arrives before that of the post, only the edit is read.
func TestPostToldAfterItsEdit(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		first := true
		s.SetFaults(fake.Faults{Event: func() fake.Delivery {
			if first {
				first = false
				return fake.Overdue
			}
			return fake.Once
		}})
		note := s.Post(s.lead, s.flat, "", "note the hatch is 22 wide")
		time.Sleep(time.Second)
		s.Edit(s.lead, note, "note the hatch is 24 wide")
		s.settle()
		if got := s.Count(s.me); got != 1 {
			t.Errorf("%d replies: %v", got, s.replies(s.flat))
		}
	})
}

// The answer to a deletion begins a new thread. A question in it can be answered there, even
// after a restart.
func TestQuestionAboutADeletion(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		gap := s.Post(s.hanger, s.flat, "", "gap 84 3/8")
		s.settle()
		s.Delete(s.hanger, gap)
		s.settle()
		ask := s.reply(s.flat, gap+"@deleted")
		if !strings.Contains(ask.Text, "1:") || ask.RootID != "" {
			t.Fatalf("the deletion of a cut that was answered from is not asked about: %+v", ask)
		}
		s.end()
		s.begin()
		s.Post(s.hanger, s.flat, "", "who has the saw?")
		pick := s.Post(s.hanger, s.flat, ask.ID, "1")
		s.settle()
		if got := s.reply(s.flat, pick); !strings.Contains(got.Text, "struck") || got.RootID != ask.ID {
			t.Errorf("the pick is answered %+v", got)
		}
	})
}

// Deleting a post strikes what the answer to its question saved, even after a restart. A
// digit in the thread of a question answers it, even if its sender has moved on.
func TestDeletionOfAPostThatWasAskedAbout(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Post(s.lead, s.flat, "", kitchen)
		ask := s.Post(s.lead, s.flat, "", `light 6" a3 60 2 off west 41 off north`)
		s.settle()
		pick := s.Post(s.lead, s.flat, ask, "1")
		s.settle()
		if got := s.reply(s.flat, pick).Text; !strings.Contains(got, "noted") {
			t.Fatalf("the pick is answered %q", got)
		}
		s.end()
		s.begin()
		s.Edit(s.lead, pick, "2")
		s.settle()
		edited := false
		for key, posts := range s.replies(s.flat) {
			edited = edited || strings.HasPrefix(key, pick+"@") && strings.Contains(posts[0].Text, "in place of")
		}
		if !edited {
			t.Errorf("the edited pick is not taken again: %v", s.replies(s.flat))
		}
		s.Delete(s.lead, ask)
		s.settle()
		if got := s.reply(s.flat, ask+"@deleted").Text; !strings.Contains(got, "struck") {
			t.Errorf("the deletion is answered %q", got)
		}

		lost := s.Post(s.hanger, s.flat, "", "gap 84 2")
		s.Post(s.hanger, s.flat, "", "note bring the long level")
		s.settle()
		late := s.Post(s.hanger, s.flat, lost, "1")
		s.settle()
		if got := s.reply(s.flat, late).Text; !strings.Contains(got, "gap 84-1/2") {
			t.Errorf("the late pick is answered %q", got)
		}
	})
}

// Several pictures wait independently; words in a picture's thread apply to that one.
func TestSeveralPictures(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Post(s.lead, s.flat, "", kitchen)
		s.Post(s.lead, s.flat, "", "light l1 26 off west 41 off north")
		first := s.Picture(s.lead, s.flat, "image/jpeg", "")
		second := s.Picture(s.lead, s.flat, "image/jpeg", "")
		s.settle()
		s.end()
		s.begin()
		label := s.Post(s.hanger, s.flat, second, "l1")
		note := s.Post(s.lead, s.flat, "", "light l2 80 off west 41 off north")
		s.settle()
		for post, want := range map[string]string{label: "kept with l1", note: "photo of"} {
			if got := s.reply(s.flat, post).Text; !strings.Contains(got, want) {
				t.Errorf("got %q, want %q in it", got, want)
			}
		}
		for name, pic := range map[string]string{"l1": second, "l2": first} {
			find := s.Post(s.lead, s.flat, "", "find "+name)
			s.settle()
			if got := s.reply(s.flat, find).Text; !strings.Contains(got, "/crew/pl/"+pic) {
				t.Errorf("find %s says %q", name, got)
			}
		}
	})
}

func TestPictures(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Post(s.lead, s.flat, "", kitchen)
		note := s.Picture(s.lead, s.flat, "image/jpeg", "light l1 26 off west 41 off north")
		s.settle()
		if got := s.reply(s.flat, note).Text; !strings.Contains(got, "photo kept") {
			t.Errorf("a note with a picture is answered %q", got)
		}
		find := s.Post(s.lead, s.flat, "", "find l1")
		s.settle()
		if got, want := s.reply(s.flat, find).Text, "/crew/pl/"+note; !strings.Contains(got, s.URL+want) {
			t.Errorf("find says %q, want a link to %s", got, want)
		}
		bare := s.Picture(s.hanger, s.flat, "image/png", "")
		s.Picture(s.lead, s.flat, "text/csv", "")
		film := s.Picture(s.hanger, s.flat, "video/mp4", "")
		paper := s.Picture(s.hanger, s.flat, "application/pdf", "")
		s.settle()
		for _, post := range []string{film, paper} {
			if got := s.reply(s.flat, post).Text; !strings.Contains(got, "photos wait") {
				t.Errorf("a film or a PDF without words is answered %q", got)
			}
		}
		if got := s.reply(s.flat, bare).Text; !strings.Contains(got, "photo") {
			t.Errorf("a picture without words is answered %q", got)
		}
		if got := len(s.replies(s.flat)); got != 6 {
			t.Errorf("%d replies: a file that is no picture is answered", got)
		}
	})
}

// A sketch is posted with its picture, once, whatever requests fail.
func TestSketch(t *testing.T) {
	for name, fault := range map[string]fake.Fault{"fine": fake.Fine, "lost": fake.Lost, "unheard": fake.Unheard, "broken": fake.Broken, "too many": fake.TooMany} {
		for _, path := range []string{"/files", "/posts"} {
			t.Run(name+path, func(t *testing.T) {
				onSite(t, func(s *site) {
					s.begin()
					s.Post(s.lead, s.flat, "", kitchen)
					s.Post(s.lead, s.flat, "", "light l1 26 off west 41 off north")
					s.settle()
					once := true
					s.SetFaults(fake.Faults{Request: func(method, at string) fake.Fault {
						if method == "POST" && at == path && once {
							once = false
							return fault
						}
						return fake.Fine
					}})
					ask := s.Post(s.lead, s.flat, "", "sketch kitchen")
					s.settle()
					got := s.reply(s.flat, ask)
					if !strings.HasPrefix(got.Text, "kitchen ceiling as of entry 2, seen from above") || strings.Contains(got.Text, "no picture") {
						t.Errorf("answered %q", got.Text)
					}
					pic, err := png.Decode(bytes.NewReader(s.Files(got.ID)["kitchen.png"]))
					if err != nil || pic.Bounds().Dx() != 1080 {
						t.Errorf("the picture: %v", err)
					}
				})
			})
		}
	}
}

// If the server refuses files or fails on every one, the words are posted alone.
func TestSketchRefused(t *testing.T) {
	for name, fault := range map[string]fake.Fault{"refused": fake.Refused, "broken": fake.Broken} {
		t.Run(name, func(t *testing.T) {
			onSite(t, func(s *site) {
				s.begin()
				s.Post(s.lead, s.flat, "", kitchen)
				s.settle()
				s.SetFaults(fake.Faults{Request: func(_, at string) fake.Fault {
					if at == "/files" {
						return fault
					}
					return fake.Fine
				}})
				ask := s.Post(s.lead, s.flat, "", "sketch kitchen")
				s.settle()
				time.Sleep(5 * time.Minute)
				s.settle()
				if got := s.reply(s.flat, ask).Text; !strings.HasSuffix(got, "\nno picture: it could not be sent") {
					t.Errorf("answered %q", got)
				}
			})
		})
	}
}

// The place of a thing is posted with the plan. If the server refuses files, the words are
// posted at once, without mention of a picture that nobody asked for.
func TestPictureBesideWords(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Post(s.lead, s.flat, "", kitchen)
		s.Post(s.lead, s.flat, "", "light l1 26 off west 41 off north")
		s.settle()
		ask := s.Post(s.lead, s.flat, "", "where is l1")
		s.settle()
		if _, err := png.Decode(bytes.NewReader(s.Files(s.reply(s.flat, ask).ID)["kitchen.png"])); err != nil {
			t.Errorf("the picture: %v", err)
		}
		s.SetFaults(fake.Faults{Request: func(_, at string) fake.Fault {
			if at == "/files" {
				return fake.Broken
			}
			return fake.Fine
		}})
		ask = s.Post(s.lead, s.flat, "", "where is l1")
		s.settle()
		if got := s.reply(s.flat, ask); !strings.HasPrefix(got.Text, "kitchen light l1: 26\" off west") || strings.Contains(got.Text, "picture") || len(s.Files(got.ID)) > 0 {
			t.Errorf("answered %q", got.Text)
		}
	})
}

// Whoever was given a value is mentioned when it changes.
func TestCorrectionCallsThoseWhoWereTold(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		s.Post(s.lead, s.flat, "", kitchen)
		s.Post(s.lead, s.flat, "", "light l1 26 off west 41 off north")
		s.settle()
		s.Post(s.hanger, s.flat, "", "where is l1")
		s.settle()
		fix := s.Post(s.lead, s.flat, "", "fix l1 28 off west")
		s.settle()
		if got := s.reply(s.flat, fix).Text; !strings.Contains(got, "hanger (") {
			t.Errorf("the correction is answered %q", got)
		}
	})
}

func TestOrder(t *testing.T) {
	onSite(t, func(s *site) {
		s.begin()
		var held bool
		s.SetFaults(fake.Faults{Event: func() fake.Delivery { // the first event arrives after the second
			if held = !held; held {
				return fake.Late
			}
			return fake.Once
		}})
		room := s.Post(s.lead, s.flat, "", kitchen)
		time.Sleep(time.Millisecond)
		light := s.Post(s.hanger, s.flat, "", "light l1 26 off west 41 off north")
		s.settle()
		if got := s.reply(s.flat, light).Text; !strings.Contains(got, "noted 2") {
			t.Errorf("the second message is answered %q", got)
		}
		s.reply(s.flat, room)
	})
}
