//go:build unix

package main

import (
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"strapline/bot/wire/wiretest"
	"strapline/store"
)

// crew lists the senders of the chaos test.
var crew = []string{"lead", "hanger", "sparks", "taper", "pipes", "helper", "driver", "office"}

// texting is one sender in the chaos test. It resends each message until it gets a
// reply, over connections that drop, to a server that is killed now and then.
type texting struct {
	who     string
	addr    func() string
	rng     *rand.Rand
	peer    *wiretest.Peer
	replies []wiretest.Reply // by message
	resent  int
	dropped int
}

// text returns message i: a note, a measurement, a question, or something that the
// server has to ask about.
func (s *texting) text(i int) string {
	switch i % 10 {
	case 3:
		return fmt.Sprintf("gap %d 3/8", 60+i%60)
	case 5:
		return "covered"
	case 7:
		return "gap 84 2" // ambiguous, so it is asked; the next message drops the question
	}
	return fmt.Sprintf("note %s %d", s.who, i)
}

// sent is the time on message i by its sender's clock; the times are out of order.
func (s *texting) sent(i int) time.Time {
	return time.Date(2026, 5, 4, 7, 0, 0, 0, time.UTC).Add(time.Duration(i*7919%600) * time.Minute)
}

func (s *texting) line(i int) string {
	return fmt.Sprintf("#%d @%s %s", i, s.sent(i).Format(time.RFC3339), s.text(i))
}

// drop sends part of a line and disconnects without reading.
func (s *texting) drop(line string) {
	if s.peer != nil {
		_, _ = io.WriteString(s.peer.Conn, line)
		s.peer.Conn.Close()
		s.peer = nil
		s.dropped++
	}
}

// ask sends message i until it gets a reply, for a minute at most.
func (s *texting) ask(i int) (wiretest.Reply, error) {
	deadline := time.Now().Add(time.Minute)
	for {
		var err error
		if s.peer == nil {
			s.peer, err = wiretest.Dial(s.addr(), s.who, flat)
		}
		if err == nil {
			var r wiretest.Reply
			if r, err = s.peer.Say(s.line(i)); err == nil {
				return r, nil
			}
			s.peer.Conn.Close()
		}
		s.peer = nil
		s.resent++
		if time.Now().After(deadline) {
			return wiretest.Reply{}, err
		}
	}
}

// run sends n messages and calls answered after each reply.
func (s *texting) run(n int, answered func()) error {
	for i := range n {
		switch line := s.line(i) + "\n"; s.rng.IntN(10) {
		case 0:
			s.drop(line[:s.rng.IntN(len(line))])
		case 1:
			s.drop(line)
		}
		r, err := s.ask(i)
		if err != nil {
			return fmt.Errorf("%s %d: %w", s.who, i, err)
		}
		s.replies = append(s.replies, r)
		answered()
		// A repeated message gets the same reply, whichever process answers it.
		for _, k := range []int{i, s.rng.IntN(i + 1)} {
			if s.rng.IntN(5) > 0 {
				continue
			}
			again, err := s.ask(k)
			if err != nil {
				return fmt.Errorf("%s %d again: %w", s.who, k, err)
			}
			if diff := cmp.Diff(s.replies[k], again); diff != "" {
				return fmt.Errorf("%s %d was answered otherwise (-first +again):\n%s", s.who, k, diff)
			}
		}
	}
	if s.peer != nil {
		s.peer.Conn.Close()
	}
	return nil
}

// Eight people text at once while connections drop, messages are sent twice and the
// server is killed. Every message must be in the log once and get one reply.
func TestChaos(t *testing.T) {
	messages, kills := 500, 5
	if *long {
		messages, kills = 10_000, 50
	}
	dir := filepath.Join(t.TempDir(), "data")
	seed := rand.Uint64()
	t.Logf("seed %d", seed)

	var mu sync.RWMutex // locked while no server is running
	server := start(t, dir)
	addr := func() string {
		mu.RLock()
		defer mu.RUnlock()
		return server.addr
	}
	kill := func() {
		mu.Lock()
		defer mu.Unlock()
		if err := server.end(t, os.Kill); err == nil {
			t.Error("the server ended by itself")
		}
		server = start(t, dir)
	}

	began := time.Now()
	var count atomic.Int64
	killing := make(chan struct{}, kills)
	answered := func() {
		// Kill the server after each share of the messages.
		n, share := count.Add(1), int64(messages/(kills+1))
		if n%share == 0 && n/share <= int64(kills) {
			killing <- struct{}{}
		}
	}
	people := make([]*texting, len(crew))
	var all sync.WaitGroup
	for i, who := range crew {
		s := &texting{who: who, addr: addr, rng: rand.New(rand.NewPCG(seed, uint64(i)))}
		people[i] = s
		n := messages / len(crew)
		if i < messages%len(crew) {
			n++
		}
		all.Go(func() {
			if err := s.run(n, answered); err != nil {
				t.Error(err)
			}
		})
	}
	done := make(chan struct{})
	go func() { defer close(done); all.Wait() }()
	killed := 0
	for running := true; running; {
		select {
		case <-killing:
			kill()
			killed++
		case <-done:
			running = false
		}
	}
	took := time.Since(began)
	if killed != kills || int(count.Load()) != messages {
		t.Errorf("%d kills and %d answers, want %d and %d", killed, count.Load(), kills, messages)
	}
	onlooker := join(t, addr(), "onlooker")
	r, err := onlooker.Say("since 1")
	if err != nil {
		t.Fatal(err)
	}
	server.stop(t)
	resent, dropped := 0, 0
	for _, s := range people {
		resent, dropped = resent+s.resent, dropped+s.dropped
	}
	entries := logged(t, filepath.Join(dir, flat+".job"), people)
	if len(onlooker.Seen) != entries || r.Seq() != uint64(entries) {
		t.Errorf("an onlooker saw %d entries and %q of %d", len(onlooker.Seen), r.Status, entries)
	}
	t.Logf("%d messages, %d entries, %d kills, %d connections dropped, %d sent again, %v (%.0f a second)", messages, entries,
		killed, dropped, resent, took.Round(time.Millisecond), float64(messages)/took.Seconds())
}

// logged checks that the log holds every entry the replies claim, once each, and
// returns the number of entries.
func logged(t *testing.T, path string, people []*texting) int {
	t.Helper()
	mustCheck(t, path)
	log, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer log.Close()
	records := map[string][]store.Record{}
	n := 0
	for r, err := range log.Records(1) {
		if err != nil {
			t.Fatal(err)
		}
		records[r.ID] = append(records[r.ID], r)
		n++
	}
	saved := 0
	for _, s := range people {
		for i, r := range s.replies {
			id := fmt.Sprintf("wire:%s#%d", s.who, i)
			got := records[id]
			if text := s.text(i); !saves(text) {
				if len(got) > 0 || text == "gap 84 2" && r.Status != "ask" {
					t.Errorf("%s %q was answered %q and stands %d times in the log", id, text, r.Status, len(got))
				}
				continue
			}
			saved++
			if len(got) != 1 {
				t.Errorf("%s stands %d times in the log", id, len(got))
				continue
			}
			e := got[0]
			if e.Seq != r.Seq() || e.Text != s.text(i) || e.Who != s.who || e.Sent != s.sent(i).UnixMilli() {
				t.Errorf("%s was answered %q and is %+v", id, r.Status, e)
			}
			if !slices.ContainsFunc(r.Lines, func(l string) bool { return strings.Contains(l, fmt.Sprintf("noted %d", e.Seq)) }) {
				t.Errorf("%s is entry %d and was answered %q", id, e.Seq, r.Lines)
			}
		}
	}
	if n != saved {
		t.Errorf("%d entries for %d messages that make one", n, saved)
	}
	return n
}

func saves(text string) bool { return text != "covered" && text != "gap 84 2" }
