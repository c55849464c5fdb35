package wire_test

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"net"
	"sync"
	"testing"
	"time"

	"go.uber.org/goleak"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/wire"
	"strapline/bot/wire/wiretest"
	"strapline/store"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

const flat = "larkspur-upper-flat"

// open makes a bot whose job files are verified when the test ends.
func open(t testing.TB, opt bot.Options) *job.Jobs {
	t.Helper()
	if opt.Dir == "" {
		opt.Dir = t.TempDir()
	}
	b, err := bot.New(opt)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
		rep, err := store.Check(b.Path(flat), nil)
		if err != nil && !errors.Is(err, fs.ErrNotExist) || len(rep.Faults) > 0 { // it may have no entry
			t.Errorf("check: %v %v", rep.Faults, err)
		}
	})
	return b
}

// serve serves ln until the test ends, or stop is called.
func serve(t testing.TB, cfg wire.Config, ln net.Listener) (s *wire.Server, stop func()) {
	t.Helper()
	if cfg.Bot == nil {
		cfg.Bot = open(t, bot.Options{})
	}
	s = wire.New(cfg)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- s.Serve(ctx, ln) }()
	stop = sync.OnceFunc(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	t.Cleanup(stop)
	return s, stop
}

// tcp serves on loopback and returns the address.
func tcp(t testing.TB, cfg wire.Config) (addr string, s *wire.Server, stop func()) {
	t.Helper()
	ln, err := wire.Listen(t.Context(), &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1)}, cfg.Pass)
	if err != nil {
		t.Fatal(err)
	}
	s, stop = serve(t, cfg, ln)
	return ln.Addr().String(), s, stop
}

// pipes is a listener of net.Pipes, for tests in fake time.
type pipes struct {
	conns chan net.Conn
	once  sync.Once
	done  chan struct{}
}

func newPipes() *pipes { return &pipes{conns: make(chan net.Conn), done: make(chan struct{})} }

func (l *pipes) Accept() (net.Conn, error) {
	select {
	case c := <-l.conns:
		return c, nil
	case <-l.done:
		return nil, net.ErrClosed
	}
}

func (l *pipes) Close() error   { l.once.Do(func() { close(l.done) }); return nil }
func (l *pipes) Addr() net.Addr { return &net.UnixAddr{Name: "pipe"} }

// at is a connection with a given remote address.
type at struct {
	net.Conn
	addr net.TCPAddr
}

func (c at) RemoteAddr() net.Addr { return &c.addr }

// dial connects from an address; "" stands for the same machine.
func (l *pipes) dial(t testing.TB, from string) net.Conn {
	t.Helper()
	near, far := net.Pipe()
	if from != "" {
		far = at{far, net.TCPAddr{IP: net.ParseIP(from), Port: 40000}}
	}
	l.conns <- far
	t.Cleanup(func() { near.Close() })
	return near
}

// join connects and says hello.
func (l *pipes) join(t testing.TB, name string) *wiretest.Peer {
	t.Helper()
	p := wiretest.New(l.dial(t, ""))
	say(t, p, "hello "+name+" "+flat)
	return p
}

func join(t testing.TB, addr, name string) *wiretest.Peer {
	t.Helper()
	p, err := wiretest.Dial(addr, name, flat)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { p.Conn.Close() })
	return p
}

func say(t testing.TB, p *wiretest.Peer, line string) wiretest.Reply {
	t.Helper()
	r, err := p.Say(line)
	if err != nil {
		t.Fatalf("%.80q: %v", line, err)
	}
	return r
}

// ended checks that the server closes the connection.
func ended(t testing.TB, p *wiretest.Peer) {
	t.Helper()
	for {
		if err := p.Conn.SetReadDeadline(time.Now().Add(24 * time.Hour)); errors.Is(err, io.ErrClosedPipe) {
			return // closed already
		} else if err != nil {
			t.Fatal(err)
		}
		if _, err := p.Reply(); err != nil {
			if ne, ok := err.(net.Error); ok && ne.Timeout() {
				t.Fatal("the server did not end the connection")
			}
			return
		}
	}
}
