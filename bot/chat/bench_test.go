package chat_test

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot"
	"strapline/bot/chat"
	"strapline/bot/chat/fake"
)

// bench is a stand-in server on a loopback port, with a crew.
type bench struct {
	*fake.Server
	b        *testing.B
	me, lead *fake.User
	flat     *fake.Channel
}

func newBench(b *testing.B) *bench {
	s := &bench{Server: fake.New(), b: b}
	b.Cleanup(s.Close)
	s.lead, s.me = s.AddUser("", "lead", false), s.AddUser("", "tape", true)
	s.flat = s.AddChannel("", "flat", s.lead, s.me)
	return s
}

// serve runs the bot on a data folder and returns a function that stops it.
func (s *bench) serve(dir string) (stop func()) {
	jobs, err := bot.New(bot.Options{Dir: dir})
	if err != nil {
		s.b.Fatal(err)
	}
	ctx, cancel := context.WithCancel(s.b.Context())
	ended := make(chan error, 1)
	go func() { ended <- chat.Run(ctx, jobs, chat.Config{URL: s.URL, Token: s.Token(s.me)}) }()
	return func() {
		cancel()
		if err := <-ended; err != nil {
			s.b.Error(err)
		}
		if err := jobs.Close(); err != nil {
			s.b.Error(err)
		}
	}
}

// echo answers every post with its own text, using only the server's client.
func (s *bench) echo() (stop func()) {
	api := model.NewAPIv4Client(s.URL)
	api.SetToken(s.Token(s.me))
	ws, err := model.NewWebSocketClient4("ws"+strings.TrimPrefix(s.URL, "http"), s.Token(s.me))
	if err != nil {
		s.b.Fatal(err)
	}
	ws.Listen()
	go func() {
		for range ws.ResponseChannel {
		}
	}()
	go func() {
		for ev := range ws.EventChannel {
			text, _ := ev.GetData()["post"].(string)
			var p model.Post
			if ev.EventType() != model.WebsocketEventPosted || json.Unmarshal([]byte(text), &p) != nil || p.UserId == s.me.ID {
				continue
			}
			if _, _, err := api.CreatePost(context.Background(), &model.Post{ChannelId: p.ChannelId, RootId: p.Id, Message: p.Message}); err != nil {
				return // closed
			}
		}
	}()
	return func() { _ = ws.Conn.Close() }
}

// until polls every 50 us for something that another goroutine does.
func (s *bench) until(count int) {
	for end := time.Now().Add(5 * time.Minute); s.Count(s.me) < count; time.Sleep(50 * time.Microsecond) {
		if time.Now().After(end) {
			s.b.Fatalf("%d replies, want %d", s.Count(s.me), count)
		}
	}
}

// up waits until the bot is connected and warmed up.
func (s *bench) up() {
	for n := s.Count(s.me); s.Count(s.me) == n; time.Sleep(50 * time.Millisecond) {
		s.Post(s.lead, s.flat, "", "note up")
	}
	time.Sleep(300 * time.Millisecond)
}

// idle is the median time from a post to its reply, with no other posts.
func (s *bench) idle() time.Duration {
	s.up()
	var took []time.Duration
	for i := range 60 {
		time.Sleep(20 * time.Millisecond)
		n, start := s.Count(s.me), time.Now()
		s.Post(s.lead, s.flat, "", fmt.Sprintf("note number %d", i))
		s.until(n + 1)
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	return took[len(took)/2]
}

// BenchmarkReply compares a reply at idle with that of a bot that only echoes.
func BenchmarkReply(b *testing.B) {
	var over, bare []float64
	for b.Loop() {
		s := newBench(b)
		stop := s.echo()
		echo := s.idle()
		stop()
		s = newBench(b)
		stop = s.serve(b.TempDir())
		ours := s.idle()
		stop()
		over, bare = append(over, (ours-echo).Seconds()*1e3), append(bare, echo.Seconds()*1e3)
	}
	slices.Sort(over)
	slices.Sort(bare)
	b.ReportMetric(over[len(over)/2], "ms-over")
	b.ReportMetric(bare[len(bare)/2], "ms-echo")
}

// BenchmarkCatchUp answers 1,300 posts made while the bot was away, compared with as many
// made while it listens, in turn. On a busy machine one pair says little: run five or more.
func BenchmarkCatchUp(b *testing.B) {
	var live, away, ratio []float64
	for b.Loop() {
		l, a := rate(b, false), rate(b, true)
		live, away, ratio = append(live, l), append(away, a), append(ratio, a/l)
	}
	for _, all := range [][]float64{live, away, ratio} {
		slices.Sort(all)
	}
	b.ReportMetric(live[len(live)/2], "live/s")
	b.ReportMetric(away[len(away)/2], "away/s")
	b.ReportMetric(ratio[len(ratio)/2], "x-live")
	b.ReportMetric(ratio[0], "x-least")
}

// rate is how many replies a second the bot gives to posts made while it listens or,
// with gone, before it started.
func rate(b *testing.B, gone bool) float64 {
	const posts = 1300
	s, dir := newBench(b), b.TempDir()
	stop := s.serve(dir)
	s.up()
	if gone {
		stop()
	}
	n, start := s.Count(s.me), time.Now()
	for i := range posts {
		s.Post(s.lead, s.flat, "", fmt.Sprintf("note number %d", i))
	}
	if gone {
		start = time.Now()
		stop = s.serve(dir)
	}
	s.until(n + posts)
	took := time.Since(start)
	stop()
	return posts / took.Seconds()
}
