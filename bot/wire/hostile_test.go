package wire_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/wire"
	"strapline/bot/wire/wiretest"
)

// inFakeTime runs a test in fake time, against a server that listens on pipes.
func inFakeTime(t *testing.T, cfg wire.Config, test func(t *testing.T, l *pipes, b *job.Jobs)) {
	synctest.Test(t, func(t *testing.T) {
		b := open(t, bot.Options{})
		if _, err := b.Job(flat); err != nil {
			t.Fatal(err)
		}
		cfg.Bot = b
		l := newPipes()
		_, stop := serve(t, cfg, l)
		test(t, l, b)
		stop()
	})
}

// The time for the first line, for each line and between lines is limited.
func TestDeadlines(t *testing.T) {
	for name, c := range map[string]struct {
		send string
		want time.Duration
	}{
		"nothing":           {"", 10 * time.Second},
		"half a hello":      {"hel", 10 * time.Second},
		"silent for long":   {"hello lead " + flat + "\n", time.Hour},
		"half a line":       {"hello lead " + flat + "\nnote half", 30 * time.Second},
		"wrong pass word":   {"hello lead " + flat + " wrong-wrong-wrong\n", 0},
		"no hello at all":   {"covered\n", 0},
		"a line, a silence": {"hello lead " + flat + "\nnote one\n\n", time.Hour},
	} {
		t.Run(name, func(t *testing.T) {
			cfg := wire.Config{}
			if name == "wrong pass word" {
				cfg.Pass = "three-planks-and-a-jack"
			}
			inFakeTime(t, cfg, func(t *testing.T, l *pipes, b *job.Jobs) {
				start := time.Now()
				p := wiretest.New(l.dial(t, ""))
				go io.WriteString(p.Conn, c.send)
				ended(t, p)
				if got := time.Since(start); got != c.want {
					t.Errorf("ended after %v, want %v", got, c.want)
				}
				if list := entries(t, b); len(list) > strings.Count(c.send, "note one") {
					t.Errorf("saved: %v", list)
				}
			})
		})
	}
}

// Sending a byte now and then does not extend the time for a line; an empty line keeps
// a silent peer connected.
func TestDrip(t *testing.T) {
	inFakeTime(t, wire.Config{}, func(t *testing.T, l *pipes, b *job.Jobs) {
		quiet, p := l.join(t, "taper"), l.join(t, "lead")
		start := time.Now()
		for {
			time.Sleep(9 * time.Second)
			if _, err := io.WriteString(p.Conn, "x"); err != nil {
				break
			}
		}
		// The 30 s began with the first byte, at 9 s; the write at 45 s is the first to fail.
		if got := time.Since(start); got != 45*time.Second {
			t.Errorf("dripped for %v", got)
		}
		for range 5 {
			time.Sleep(50 * time.Minute)
			fmt.Fprintln(quiet.Conn)
		}
		if r := say(t, quiet, "covered"); r.Status != "ok 0" {
			t.Errorf("the quiet one got %q", r.Status)
		}
	})
}

// A peer that does not read holds up nobody and is disconnected.
func TestSlowReader(t *testing.T) {
	inFakeTime(t, wire.Config{}, func(t *testing.T, l *pipes, b *job.Jobs) {
		l.join(t, "taper") // never reads again
		lead, hanger := l.join(t, "lead"), l.join(t, "hanger")
		start := time.Now()
		say(t, lead, "note one")
		say(t, lead, "note two")
		if got, err := hanger.Next(); err != nil || got != "+ 1 lead note one" {
			t.Errorf("hanger saw %q (%v)", got, err)
		}
		if waited := time.Since(start); waited != 0 {
			t.Errorf("the others waited %v", waited)
		}
	})
}

// A peer that fell behind gets every entry once, in order.
func TestFallenBehind(t *testing.T) {
	const n = 150 // more than watchBuffer
	inFakeTime(t, wire.Config{}, func(t *testing.T, l *pipes, b *job.Jobs) {
		slow, lead := l.join(t, "taper"), l.join(t, "lead")
		for i := range n {
			say(t, lead, fmt.Sprintf("note %d", i+1))
		}
		for i := range n {
			want := fmt.Sprintf("+ %d lead note %d", i+1, i+1)
			if got, err := slow.Next(); err != nil || got != want {
				t.Fatalf("entry %d: %q (%v)", i+1, got, err)
			}
		}
	})
}

// Lines sent too fast are read more slowly, and all of them are answered.
func TestPace(t *testing.T) {
	inFakeTime(t, wire.Config{Limits: wire.Limits{Rate: 10, Burst: 5}}, func(t *testing.T, l *pipes, b *job.Jobs) {
		p := l.join(t, "lead")
		start := time.Now()
		for range 25 {
			say(t, p, "covered")
		}
		// 5 at once, the other 20 at 10 per second.
		if got := time.Since(start).Round(time.Millisecond); got != 1900*time.Millisecond && got != 2*time.Second {
			t.Errorf("25 lines took %v", got)
		}
	})
}

func TestTooManyPeers(t *testing.T) {
	inFakeTime(t, wire.Config{Limits: wire.Limits{Peers: 4, PerAddress: 2, Jobs: 1}}, func(t *testing.T, l *pipes, b *job.Jobs) {
		from := func(addr, hello string) string {
			p := wiretest.New(l.dial(t, addr))
			go fmt.Fprintln(p.Conn, hello) // in a goroutine, since a server that is full does not read it
			r, err := p.Reply()
			if err != nil {
				t.Error(err)
			}
			return r.Status + " " + strings.Join(r.Lines, "")
		}
		hello := "hello lead " + flat
		for _, c := range []struct{ addr, line, want string }{
			{"192.0.2.7", hello, "ok"},
			{"192.0.2.7", hello, "ok"},
			{"::ffff:192.0.2.7", hello, "no 0 too many connections from your address"},
			{"127.0.0.1", "hello lead another-job", "no 0 there are 1 jobs open"},
			{"127.0.0.1", hello, "ok"},
			{"192.0.2.8", hello, "ok"},
			{"127.0.0.1", hello, "no 0 too many connections;"},
		} {
			if got := from(c.addr, c.line); !strings.HasPrefix(got, c.want) {
				t.Errorf("from %s: %q, want %q", c.addr, got, c.want)
			}
			synctest.Wait()
		}
	})
}

// A job without an entry leaves no file, and does not count once its peer is gone, so
// made-up names cannot lock out real jobs.
func TestJunkJobNames(t *testing.T) {
	inFakeTime(t, wire.Config{Limits: wire.Limits{Jobs: 3}}, func(t *testing.T, l *pipes, b *job.Jobs) {
		before := len(b.All())
		for i := range 50 {
			p := wiretest.New(l.dial(t, ""))
			say(t, p, fmt.Sprintf("hello lead junk-%d", i))
			if r := say(t, p, "covered"); r.Status != "ok 0" {
				t.Fatalf("%d: %q", i, r.Status)
			}
			if r := say(t, p, "#7 gap 9 x"); !strings.HasPrefix(r.Status, "no ") && r.Status != "ask" {
				t.Fatalf("%d: %q", i, r.Status)
			}
			say(t, p, "1") // in case that was a question
			p.Conn.Close()
			synctest.Wait()
		}
		if n := len(b.All()); n != before {
			t.Errorf("%d jobs are open", n-before)
		}
		left, err := filepath.Glob(filepath.Join(filepath.Dir(b.Path("x")), "junk-*"))
		if err != nil || len(left) > 0 {
			t.Errorf("left over: %v %v", left, err)
		}
		p := wiretest.New(l.dial(t, ""))
		say(t, p, "hello lead new-flat")
		if r := say(t, p, "note one"); r.Status != "ok 1" {
			t.Errorf("the first entry of a new job: %q %q", r.Status, r.Lines)
		}
		other := wiretest.New(l.dial(t, ""))
		say(t, other, "hello hanger new-flat")
		p.Conn.Close()
		synctest.Wait()
		if r := say(t, other, "note two"); r.Status != "ok 2" {
			t.Errorf("one of two left, and the other is answered %q %q", r.Status, r.Lines)
		}
		other.Conn.Close()
		synctest.Wait()
		if n := len(b.All()); n != before {
			t.Errorf("%d jobs are open that nobody has", n-before)
		}
		p = wiretest.New(l.dial(t, ""))
		if r := say(t, p, "hello lead new-flat"); r.Status != "ok 2" {
			t.Errorf("opened again it has %q", r.Status)
		}
	})
}

// Silent connections, from one address or through a tunnel, take up a few places only and
// make room for new ones.
func TestSilentPeers(t *testing.T) {
	inFakeTime(t, wire.Config{Limits: wire.Limits{Peers: 6, Strangers: 4}}, func(t *testing.T, l *pipes, b *job.Jobs) {
		crew := l.join(t, "lead")
		for range 300 {
			l.dial(t, "")
		}
		synctest.Wait()
		hanger := l.join(t, "hanger")
		if r := say(t, hanger, "note one"); r.Status != "ok 1" {
			t.Errorf("among silent ones a note is answered %q", r.Status)
		}
		for range 300 {
			l.dial(t, "")
		}
		if r := say(t, crew, "note two"); r.Status != "ok 2" {
			t.Errorf("one who was there before is answered %q", r.Status)
		}
		start := time.Now()
		time.Sleep(11 * time.Second)
		synctest.Wait()
		if n := len(l.conns); n > 0 || time.Since(start) < 11*time.Second {
			t.Error("not all were taken")
		}
	})
}

// Each wrong pass word makes its address wait longer, even if several are sent at once.
// Other addresses do not wait, and a right pass word ends the waiting.
func TestWrongPassWords(t *testing.T) {
	const pass = "three-planks-and-a-jack"
	inFakeTime(t, wire.Config{Pass: pass}, func(t *testing.T, l *pipes, b *job.Jobs) {
		try := func(addr, word string) (string, time.Duration) {
			start := time.Now()
			p := wiretest.New(l.dial(t, addr))
			if _, err := io.WriteString(p.Conn, "hello lead "+flat+" "+word+"\n"); err != nil {
				t.Fatal(err)
			}
			r, err := p.Reply()
			if err != nil {
				t.Fatal(err)
			}
			return r.Status, time.Since(start)
		}
		for i, want := range []time.Duration{0, 1, 2, 4, 8, 16, 30, 30} {
			if got, after := try("192.0.2.7", "wrong-wrong-wrong"); got != "no 0" || after != want*time.Second {
				t.Errorf("wrong word %d: %q after %v, want %d s", i+1, got, after, want)
			}
		}
		if got, after := try("192.0.2.8", pass); got != "ok 0" || after != 0 {
			t.Errorf("another address: %q after %v", got, after)
		}
		if got, after := try("192.0.2.7", pass); got != "ok 0" || after != 30*time.Second {
			t.Errorf("the right word: %q after %v", got, after)
		}
		if _, after := try("192.0.2.7", pass); after != 0 {
			t.Errorf("the right word again: after %v", after)
		}

		for range 4 { // the same /64 as the addresses below
			try("2001:db8::7", "wrong-wrong-wrong")
		}
		var all sync.WaitGroup
		var mu sync.Mutex
		var took []time.Duration
		for i := range 20 {
			p := wiretest.New(l.dial(t, fmt.Sprintf("2001:db8::%d", 10+i)))
			start := time.Now()
			all.Go(func() {
				_, _ = io.WriteString(p.Conn, "hello lead "+flat+" wrong-wrong-wrong\n")
				_, err := p.Reply()
				mu.Lock()
				defer mu.Unlock()
				if err == nil {
					took = append(took, time.Since(start))
				}
			})
		}
		all.Wait()
		soon := 0
		for _, d := range took {
			if d > 0 && d < time.Minute {
				soon++
			}
		}
		if soon > 8 {
			t.Errorf("of 20 at once %d were looked at within a minute: %v", soon, took)
		}
		time.Sleep(20 * time.Minute)
		if _, after := try("2001:db8::7", "wrong-wrong-wrong"); after != 0 {
			t.Errorf("long after: %v", after)
		}
	})
}

// flaky is a listener that fails now and then, as if there were too many open files.
type flaky struct {
	*pipes
	n int
}

func (l *flaky) Accept() (net.Conn, error) {
	if l.n++; l.n%4 > 0 {
		return nil, errors.New("too many open files")
	}
	return l.pipes.Accept()
}

func TestFailedAccept(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := &flaky{pipes: newPipes()}
		_, stop := serve(t, wire.Config{}, l)
		start := time.Now()
		l.join(t, "lead")
		l.join(t, "taper")
		// Each was accepted after three failures: 10, 20 and 40 ms.
		if got := time.Since(start); got != 140*time.Millisecond {
			t.Errorf("two came in after %v", got)
		}
		stop()
	})
}

// A line without an end is discarded as it comes in, and its peer soon disconnected.
func TestEndlessLine(t *testing.T) {
	addr, _, _ := tcp(t, wire.Config{})
	p := join(t, addr, "lead")
	var before, after runtime.MemStats
	block := bytes.Repeat([]byte("x"), 1<<20)
	runtime.ReadMemStats(&before)
	sent := 0
	if err := p.Conn.SetDeadline(time.Now().Add(20 * time.Second)); err != nil {
		t.Fatal(err)
	}
	for sent < 1<<30 {
		n, err := p.Conn.Write(block)
		if sent += n; err != nil {
			break
		}
	}
	runtime.ReadMemStats(&after)
	if sent == 1<<30 {
		t.Error("1 GB was taken")
	}
	if took := after.TotalAlloc - before.TotalAlloc; took > 1<<20 {
		t.Errorf("%d bytes were allocated for it", took)
	}
	if r := say(t, join(t, addr, "hanger"), "since 1"); r.Status != "ok 0" {
		t.Errorf("something was saved: %q", r.Status)
	}
}

// Bytes that are not a message change nothing.
func TestHostile(t *testing.T) {
	b := open(t, bot.Options{})
	addr, _, _ := tcp(t, wire.Config{Bot: b})
	sent := say(t, join(t, addr, "lead"), "note before")
	if sent.Status != "ok 1" {
		t.Fatal(sent)
	}
	hello := "hello evil " + flat + "\n"
	for name, bytes := range map[string]string{
		"binary":           string(binary(64 << 10)),
		"binary later":     hello + string(binary(64<<10)),
		"half a line":      hello + "note half",
		"half a character": hello + "note \xc3\n",
		"overlong utf-8":   hello + "note \xc0\xaf\n",
		"surrogate":        hello + "note \xed\xa0\x80\n",
		"nul":              hello + "note \x00\n",
		"escape":           hello + "note \x1b]0;x\x07\n",
		"long":             hello + strings.Repeat("note ", 2000) + "\n",
		"another name":     hello + "hello lead " + flat + "\n",
		"telnet":           "\xff\xfb\x01\xff\xfd\x03" + hello,
	} {
		t.Run(name, func(t *testing.T) {
			p := dial(t, addr)
			go io.Copy(io.Discard, p.Conn)
			_, err := io.WriteString(p.Conn, bytes)
			if err == nil {
				err = p.Conn.(*net.TCPConn).CloseWrite()
			}
			if err != nil && !isReset(err) {
				t.Fatal(err)
			}
		})
	}
	if r := say(t, join(t, addr, "lead"), "note after"); r.Status != "ok 2" {
		t.Errorf("the next note was answered %q %q", r.Status, r.Lines)
	}
}

func isReset(err error) bool {
	_, ok := errors.AsType[*net.OpError](err)
	return ok
}

// binary returns n bytes in a pattern that repeats every 251.
func binary(n int) []byte {
	b := make([]byte, n)
	for i := range b {
		b[i] = byte(i%251) * 7
	}
	return b
}

// On shutdown, lines already read are answered. A peer that is silent or does not read
// does not delay it for long.
func TestStop(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := open(t, bot.Options{})
		l := newPipes()
		s, stop := serve(t, wire.Config{Bot: b}, l)
		lead := l.join(t, "lead")
		l.join(t, "taper") // silent
		deaf := l.join(t, "hanger")
		fmt.Fprintln(deaf.Conn, "covered") // the reply is never read
		fmt.Fprintln(lead.Conn, "#1 note the last one")
		synctest.Wait()
		start := time.Now()
		got := make(chan wiretest.Reply, 1)
		go func() {
			r, err := lead.Reply()
			if err != nil {
				t.Error(err)
			}
			got <- r
		}()
		stop()
		if r := <-got; r.Status != "ok 1" {
			t.Errorf("the last one was answered %q", r.Status)
		}
		if took := time.Since(start); took > 10*time.Second {
			t.Errorf("the stop took %v", took)
		}
		if n := s.Peers(); n != 0 {
			t.Errorf("%d peers are left", n)
		}
	})
}
