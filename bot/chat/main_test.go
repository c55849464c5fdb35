package chat_test

import (
	"bytes"
	"context"
	"flag"
	"log/slog"
	"os"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"strapline/bot"
	"strapline/bot/chat"
	"strapline/bot/chat/fake"
	"strapline/bot/job"
)

var long = flag.Bool("long", false, "run the long versions of tests")

// TestMain lets the test binary act as the process that is killed.
func TestMain(m *testing.M) {
	if dir := os.Getenv("STRAPLINE_TEST_CHILD"); dir != "" {
		os.Exit(child(dir))
	}
	os.Exit(m.Run())
}

// site is a server with a crew and a bot, in a synctest bubble.
type site struct {
	*fake.Server
	t                *testing.T
	me, lead, hanger *fake.User
	flat             *fake.Channel
	dir              string
	now              func() time.Time
	log              *logs
	cfg              chat.Config
	bot              *job.Jobs
	stop             func() error // ends the bot and closes its jobs
	ended            chan error   // what Run returned
}

// logs is a log that may be read while it is written.
type logs struct {
	mu  sync.Mutex
	buf bytes.Buffer
}

func (l *logs) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.buf.Write(p)
}

func (l *logs) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.buf.String()
}

// onSite runs do with a running server and a bot that is not started yet.
func onSite(t *testing.T, do func(*site)) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		s := &site{Server: fake.Pipe(), t: t, dir: t.TempDir(), log: new(logs), now: time.Now}
		defer s.Close()
		s.lead = s.AddUser("", "lead", false)
		s.hanger = s.AddUser("", "hanger", false)
		s.me = s.AddUser("", "tape", true)
		s.flat = s.AddChannel("", "flat", s.lead, s.hanger, s.me)
		s.cfg = chat.Config{URL: s.URL, Token: s.Token(s.me), Dial: s.Dial,
			Log: slog.New(slog.NewTextHandler(s.log, &slog.HandlerOptions{Level: slog.LevelDebug}))}
		time.Sleep(time.Second)
		defer func() {
			if s.stop != nil {
				s.end()
			}
			if strings.Contains(s.log.String(), s.cfg.Token) {
				t.Error("the token is in the log")
			}
			if t.Failed() {
				t.Log(s.log)
			}
		}()
		do(s)
	})
}

// begin starts the bot and lets it settle.
func (s *site) begin() {
	s.t.Helper()
	b, err := bot.New(bot.Options{Dir: s.dir, Loc: time.UTC, Now: func() time.Time { return s.now() }})
	if err != nil {
		s.t.Fatal(err)
	}
	s.bot = b
	ctx, cancel := context.WithCancel(s.t.Context())
	ended := make(chan error, 1)
	s.ended = ended
	go func() { ended <- chat.Run(ctx, b, s.cfg) }()
	s.stop = func() error {
		cancel()
		err := <-ended
		if cerr := b.Close(); cerr != nil {
			s.t.Error(cerr)
		}
		return err
	}
	s.settle()
}

func (s *site) end() {
	s.t.Helper()
	if err := s.stop(); err != nil {
		s.t.Errorf("Run: %v", err)
	}
	s.stop = nil
}

// over reports whether Run has returned by itself.
func (s *site) over() bool {
	synctest.Wait()
	return len(s.ended) > 0
}

// settle lets a few seconds pass.
func (s *site) settle() {
	time.Sleep(3 * time.Second)
	synctest.Wait()
}

// replies returns the bot's posts by the key of the message they answer.
func (s *site) replies(ch *fake.Channel) map[string][]fake.Post {
	by := map[string][]fake.Post{}
	for _, p := range s.Posts(ch) {
		if p.UserID == s.me.ID {
			key, _ := p.Props["strapline"].(string)
			by[key] = append(by[key], p)
		}
	}
	return by
}

// reply returns the only reply to a message.
func (s *site) reply(ch *fake.Channel, key string) fake.Post {
	s.t.Helper()
	return s.only(s.replies(ch), key)
}

// only is the one reply to a message among replies.
func (s *site) only(replies map[string][]fake.Post, key string) fake.Post {
	s.t.Helper()
	all := replies[key]
	if len(all) != 1 {
		s.t.Fatalf("%d replies to %s: %v", len(all), key, all)
	}
	return all[0]
}

// Post posts, a millisecond after the last post.
func (s *site) Post(u *fake.User, ch *fake.Channel, root, text string) string {
	time.Sleep(time.Millisecond)
	return s.Server.Post(u, ch, root, text)
}

// Picture posts a picture, a millisecond after the last post.
func (s *site) Picture(u *fake.User, ch *fake.Channel, mime, text string) string {
	time.Sleep(time.Millisecond)
	return s.Server.Picture(u, ch, mime, text)
}
