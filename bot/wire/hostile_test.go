package wire_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net"
	"runtime"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/wire"
	"strapline/bot/wire/wiretest"
)

// inFakeTime runs a test against a server of pipes: nothing there waits for real.
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

// A peer has so long for its first line, for each line and between lines.
func TestDeadlines(t *testing.T) {
	for name, c := range map[string]struct {
		send string
		want time.Duration
	}{
		"nothing":           {"", 10 * time.Second},
		"half a hello":      {"hel", 10 * time.Second},
		"silent for long":   {"hello lead " + flat + "\n", time.Hour},
		"half a line":       {"hello lead " + flat + "\nnote half", 30 * time.Second},
		"wrong pass word":   {"hello lead " + flat + " wrong-wrong-wrong\n", time.Second},
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

// A byte now and then does not stretch the time a line may take; an empty line
// keeps a silent peer connected.
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
		// Its first byte came at 9 s; it finds out with the next one it sends.
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

// A peer that does not read holds up nobody, and is dropped.
func TestSlowReader(t *testing.T) {
	inFakeTime(t, wire.Config{}, func(t *testing.T, l *pipes, b *job.Jobs) {
		l.join(t, "taper") // reads no more
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

// One that did not read for a moment gets every entry once and in order.
func TestFallenBehind(t *testing.T) {
	const n = 150 // more than the server holds for one peer
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

// Too many lines at once are read more slowly; all of them are answered.
func TestPace(t *testing.T) {
	inFakeTime(t, wire.Config{Limits: wire.Limits{Rate: 10, Burst: 5}}, func(t *testing.T, l *pipes, b *job.Jobs) {
		p := l.join(t, "lead")
		start := time.Now()
		for range 25 {
			say(t, p, "covered")
		}
		// The first 5 at once, the others at 10 a second.
		if got := time.Since(start).Round(time.Millisecond); got != 1900*time.Millisecond && got != 2*time.Second {
			t.Errorf("25 lines took %v", got)
		}
	})
}

func TestTooManyPeers(t *testing.T) {
	inFakeTime(t, wire.Config{Limits: wire.Limits{Peers: 4, PerAddress: 2, Jobs: 1}}, func(t *testing.T, l *pipes, b *job.Jobs) {
		from := func(addr, hello string) string {
			p := wiretest.New(l.dial(t, addr))
			go fmt.Fprintln(p.Conn, hello) // which nobody reads of a peer for whom there is no room
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
			{"::ffff:192.0.2.7", hello, "no 0 there are as many peers from your address"},
			{"127.0.0.1", "hello lead another-job", "no 0 there are 1 jobs open"},
			{"127.0.0.1", hello, "ok"},
			{"192.0.2.8", hello, "ok"},
			{"127.0.0.1", hello, "no 0 there are as many peers as can be served"},
		} {
			if got := from(c.addr, c.line); !strings.HasPrefix(got, c.want) {
				t.Errorf("from %s: %q, want %q", c.addr, got, c.want)
			}
			synctest.Wait()
		}
	})
}

// flaky is a listener that fails now and then, as one does that has run out of files.
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
		// Each came in after three failures: 10, 20 and 40 ms.
		if got := time.Since(start); got != 140*time.Millisecond {
			t.Errorf("two came in after %v", got)
		}
		stop()
	})
}

// What comes in of a line without an end is thrown away, and soon refused.
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

// Bytes that are no message change nothing.
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

// binary is n bytes that repeat every 251.
func binary(n int) []byte {
	b := make([]byte, n)
	for i := range b {
		b[i] = byte(i%251) * 7
	}
	return b
}

// What was read when the stop comes is answered; a peer that is silent, or does
// not read, does not hold it up for long.
func TestStop(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := open(t, bot.Options{})
		l := newPipes()
		s, stop := serve(t, wire.Config{Bot: b}, l)
		lead := l.join(t, "lead")
		l.join(t, "taper") // silent
		deaf := l.join(t, "hanger")
		fmt.Fprintln(deaf.Conn, "covered") // waits to send the reply for good
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
