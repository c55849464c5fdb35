package chat_test

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/chat"
	"strapline/bot/chat/fake"
	"strapline/store"
)

// child serves the chat until its standard input ends or it is killed.
func child(dir string) int {
	log := slog.New(slog.NewTextHandler(os.Stderr, nil))
	b, err := bot.New(bot.Options{Dir: dir, Log: log})
	if err != nil {
		log.Error("no bot", "err", err)
		return 1
	}
	ctx, cancel := context.WithCancel(context.Background())
	go func() {
		_, _ = io.Copy(io.Discard, os.Stdin)
		cancel()
	}()
	cfg := chat.Hurried(chat.Config{URL: os.Getenv("STRAPLINE_CHAT_URL"), Token: os.Getenv("STRAPLINE_CHAT_TOKEN"), Log: log})
	if err := chat.Run(ctx, b, cfg); err != nil {
		log.Error("chat", "err", err)
		return 1
	}
	if err := b.Close(); err != nil {
		log.Error("close", "err", err)
		return 1
	}
	return 0
}

// strapline is a child process that serves the chat.
type strapline struct {
	cmd *exec.Cmd
	in  io.WriteCloser
}

func startChild(t *testing.T, s *fake.Server, me *fake.User, dir string, log io.Writer) *strapline {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "STRAPLINE_TEST_CHILD="+dir, "STRAPLINE_CHAT_URL="+s.URL, "STRAPLINE_CHAT_TOKEN="+s.Token(me))
	cmd.Stderr = log
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return &strapline{cmd, in}
}

// chaos decides at random what goes wrong, with a limit for each kind.
type chaos struct {
	rng  *rand.Rand
	left map[string]int
	done map[string]int
}

// hit reports whether kind happens now, with a chance of 1 in n.
func (c *chaos) hit(kind string, n int) bool {
	if c.left[kind] == 0 || c.rng.IntN(n) > 0 {
		return false
	}
	c.left[kind]--
	c.done[kind]++
	return true
}

func (c *chaos) request(string, string) fake.Fault {
	switch {
	case c.hit("429", 60):
		return fake.TooMany
	case c.hit("500", 25):
		return fake.Broken
	case c.hit("answer lost", 25):
		return fake.Lost
	case c.hit("request lost", 50):
		return fake.Unheard
	}
	return fake.Fine
}

func (c *chaos) event() fake.Delivery {
	switch {
	case c.hit("event twice", 20):
		return fake.Twice
	case c.hit("event late", 20):
		return fake.Late
	case c.hit("event lost", 60):
		return fake.Cut
	case c.hit("hang up", 60):
		return fake.HangUp
	}
	return fake.Once
}

// said is a message in the chaos test.
type said struct {
	id, text, edit string
	silent         bool
	ch             *fake.Channel
}

// say posts message i of a sender, or edits the one before.
func say(s *fake.Server, u *fake.User, ch *fake.Channel, i int, before []*said) *said {
	if i%10 == 9 {
		m := before[i-1]
		m.edit = m.text + " changed"
		s.Edit(u, m.id, m.edit)
		return m
	}
	m := &said{text: fmt.Sprintf("note %s %d", u.Name, i), ch: ch}
	switch i % 10 {
	case 3:
		m.text = fmt.Sprintf("gap %d 3/8", 60+i%60)
	case 5:
		m.text = "gap 84 2" // ambiguous, so it is asked; the next message drops the question
	case 7:
		m.text, m.silent = "anyone seen the long level", true
	}
	m.id = s.Post(u, ch, "", m.text)
	return m
}

// Eight people text while everything goes wrong, the server loses its database and the bot
// is killed again and again. Every message must be in the log once and answered once.
func TestChaos(t *testing.T) {
	t.Parallel()
	messages, kills, many := 500, 5, 1
	if *long {
		messages, kills, many = 10_000, 50, 10
	}
	seed := rand.Uint64()
	t.Log("seed", seed)
	wild := &chaos{rng: rand.New(rand.NewPCG(seed, 1)), done: map[string]int{}, left: map[string]int{
		"429": 4 * many, "500": 40 * many, "answer lost": 40 * many, "request lost": 20 * many,
		"event twice": 50 * many, "event late": 50 * many, "event lost": 6 * many, "hang up": 6 * many,
	}}
	s := fake.New()
	defer s.Close()
	lead := s.AddUser("", "lead", false)
	me := s.AddUser("", "tape", true)
	flats := []*fake.Channel{s.AddChannel("", "upper", lead, me), s.AddChannel("", "lower", lead, me)}
	crew := []*fake.User{lead}
	for _, name := range []string{"hanger", "sparks", "taper", "pipes", "helper", "driver", "office"} {
		u := s.AddUser("", name, false)
		for _, ch := range flats {
			s.Join(ch, u, lead)
		}
		crew = append(crew, u)
	}
	s.SetFaults(fake.Faults{Request: wild.request, Event: wild.event})
	dir := t.TempDir()
	logFile, err := os.Create(filepath.Join(t.TempDir(), "log"))
	if err != nil {
		t.Fatal(err)
	}
	defer logFile.Close()
	began := time.Now()

	// until polls, since it waits for another process.
	deadline := time.Now().Add(time.Duration(messages) * 300 * time.Millisecond)
	until := func(what string, done func() bool) {
		for !done() {
			if time.Now().After(deadline) {
				t.Errorf("never: %s; %d replies", what, s.Count(me))
				return
			}
			time.Sleep(2 * time.Millisecond)
		}
	}
	c := startChild(t, s, me, dir, logFile)
	var mu sync.Mutex
	var all []*said
	due := 0 // replies
	var wg sync.WaitGroup
	for n, u := range crew {
		wg.Go(func() {
			var mine []*said
			for i := range (messages + len(crew) - 1) / len(crew) {
				mu.Lock()
				m := say(s, u, flats[n%2], i, mine)
				mine = append(mine, m)
				if m.edit == "" {
					all = append(all, m)
				}
				if m.edit == "" && !m.silent {
					due++
				}
				far := due - 40
				mu.Unlock()
				until("the replies keep up", func() bool { return s.Count(me) >= far })
			}
		})
	}
	met := 0 // requests made while the server had no database
	for k := range kills {
		until("enough replies for a kill", func() bool { return s.Count(me) >= (k+1)*messages*7/10/(kills+1) })
		// While the server has no database nobody can post. In turn it forgets its sessions
		// at once, soon, and not at all; in the second case the bot is killed.
		mu.Lock()
		lose := func(sessions time.Duration) {
			lost := time.Now()
			s.LoseDatabase(sessions)
			until("no database", func() bool { return s.Met() >= 20 || time.Since(lost) > 500*time.Millisecond })
		}
		sessions := []time.Duration{0, 100 * time.Millisecond, time.Hour}
		lose(sessions[(k+2)%3])
		met += s.FindDatabase()
		lose(sessions[k%3])
		if err := c.cmd.Process.Kill(); err != nil {
			t.Error(err)
		}
		if err := c.cmd.Wait(); err == nil || c.cmd.ProcessState.ExitCode() != -1 {
			t.Errorf("the bot ended by itself: %v", err)
		}
		if k%2 == 1 {
			s.Restart()
		}
		c = startChild(t, s, me, dir, logFile)
		before := s.Met()
		until("a start without database", func() bool { return s.Met() >= before+10 })
		met += s.FindDatabase()
		mu.Unlock()
	}
	wg.Wait()
	s.SetFaults(fake.Faults{})
	answers := func() (replies map[string]int, changed map[string]bool) { // by message, and by post
		replies, changed = map[string]int{}, map[string]bool{}
		for _, ch := range flats {
			for _, p := range s.Posts(ch) {
				if key, ok := p.Props["strapline"].(string); ok && p.UserID == me.ID {
					post, _, _ := strings.Cut(key, "@")
					replies[key]++
					changed[post] = changed[post] || strings.Contains(p.Text, "changed")
				}
			}
		}
		return replies, changed
	}
	until("everything is answered", func() bool {
		replies, changed := answers()
		return !slices.ContainsFunc(all, func(m *said) bool {
			return !m.silent && replies[m.id] == 0 || m.edit != "" && !changed[m.id]
		})
	})
	took := time.Since(began)
	if err := c.in.Close(); err != nil {
		t.Error(err)
	}
	if err := c.cmd.Wait(); err != nil {
		t.Errorf("the bot did not stop in good order: %v", err)
	}
	log, err := os.ReadFile(logFile.Name())
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(log), s.Token(me)) {
		t.Error("the token is in the log")
	}
	if strings.Contains(string(log), "given up") || strings.Contains(string(log), "no longer served") {
		t.Error("a reply was given up, or a channel")
	}
	replies, _ := answers()
	for key, n := range replies {
		if n != 1 {
			t.Errorf("%d replies to %s", n, key)
		}
	}
	for _, ch := range flats {
		verify(t, s, dir, ch, all)
	}
	if t.Failed() {
		t.Logf("%s", log)
	}
	health := ""
	for line := range strings.Lines(string(log)) {
		if strings.Contains(line, "chat health") {
			health = line[strings.Index(line, "connected"):]
		}
	}
	t.Logf("%d messages (%d posts, the others edits), %d kills in %v (%.0f a second); %v, no database %d; at the end %s", messages, len(all), kills,
		took.Round(time.Millisecond), float64(messages)/took.Seconds(), wild.done, met, health)
}

// verify compares the job of a channel with what was said in it.
func verify(t *testing.T, s *fake.Server, dir string, ch *fake.Channel, all []*said) {
	t.Helper()
	path := filepath.Join(dir, "crew-"+ch.Name+"-"+ch.ID+".job")
	rep, err := store.Check(path, nil)
	if err != nil || len(rep.Faults) > 0 {
		t.Fatalf("check: %v %v", rep.Faults, err)
	}
	log, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := log.Outbox()
	if err != nil || len(rows) > 0 {
		t.Errorf("%d replies are still to be sent: %v", len(rows), err)
	}
	at := map[string]int64{}
	for _, p := range s.Posts(ch) {
		at[p.ID] = p.At
	}
	entries, notes := map[string]int{}, map[string]int{}
	for r, err := range log.Records(1) {
		if err != nil {
			t.Fatal(err)
		}
		post, _, _ := strings.Cut(r.ID, "@")
		if r.Sent != at[post] {
			t.Errorf("entry %d of post %s has time %d, want %d", r.Seq, post, r.Sent, at[post])
		}
		entries[r.ID]++
		if r.Kind == "note" {
			notes[r.Text]++
		}
	}
	if err := log.Close(); err != nil {
		t.Fatal(err)
	}
	standing := standing(t, dir, ch)
	for _, m := range all {
		if m.ch != ch {
			continue
		}
		if m.edit != "" && (notes[m.edit] != 1 || standing[m.edit] == 0 || standing[m.text] != 0) {
			t.Errorf("%q was noted %d times, and %q, which it replaces, stands %d times", m.edit, notes[m.edit], m.text, standing[m.text])
		}
		want := 1
		if m.silent || m.text == "gap 84 2" {
			want = 0
		}
		if got := entries[m.id]; got != want {
			t.Errorf("%q stands %d times in the log, want %d", m.text, got, want)
		}
	}
}

// standing counts the entries that are not struck, by text.
func standing(t *testing.T, dir string, ch *fake.Channel) map[string]int {
	t.Helper()
	b, err := bot.New(bot.Options{Dir: dir})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	j, err := b.Job("crew-" + ch.Name + "-" + ch.ID)
	if err != nil {
		t.Fatal(err)
	}
	entries, err := j.Entries(t.Context(), 1, 1<<30)
	if err != nil {
		t.Fatal(err)
	}
	n := map[string]int{}
	for _, e := range entries {
		if !e.Struck {
			n[e.Text]++
		}
	}
	return n
}
