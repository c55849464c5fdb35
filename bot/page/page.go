package page

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"time"

	"golang.org/x/net/netutil"

	"strapline/bot/job"
)

// Config of a Server. The zero value of each but Bot is usable.
type Config struct {
	Bot    *job.Jobs
	URL    string           // what links begin with, where a TLS server stands in front; http:// and the address listened on
	Now    func() time.Time // the bot's clock; time.Now
	Loc    *time.Location   // of the times shown; time.Local
	Log    *slog.Logger     // discarded
	Limits Limits
}

// Limits of a Server. A zero value stands for the default.
type Limits struct {
	Conns  int           // connections in all; 400
	Live   int           // streams of news in all; 200
	Header time.Duration // for a request to come in; 5 s
	Write  time.Duration // for a reader to take a page, or a piece of news; 10 s
	Idle   time.Duration // from one request to the next; 1 min
	Beat   time.Duration // from one piece of news to the next, when there are none; 15 s
	Gather time.Duration // the least from one piece of news to the next; 300 ms
	Stay   time.Duration // the life of a stream: its reader asks for another; 1 h
	Fresh  time.Duration // how old the view of a job may be when others ask for it meanwhile; 250 ms
}

func (l Limits) orDefaults() Limits {
	return Limits{
		cmp.Or(l.Conns, 400), cmp.Or(l.Live, 200), cmp.Or(l.Header, 5*time.Second), cmp.Or(l.Write, 10*time.Second), cmp.Or(l.Idle, time.Minute),
		cmp.Or(l.Beat, 15*time.Second), cmp.Or(l.Gather, 300*time.Millisecond), cmp.Or(l.Stay, time.Hour), cmp.Or(l.Fresh, 250*time.Millisecond),
	}
}

// Server serves the pages of a bot's jobs.
type Server struct {
	cfg  Config
	log  *slog.Logger
	live chan struct{} // one for each stream

	mu    sync.Mutex
	pages map[string]*page // by job
}

// page is the page of one job.
type page struct {
	job    *job.Job
	secret string

	mu   sync.Mutex
	kept *board // as it was last made
}

// New makes a Server.
func New(cfg Config) *Server {
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	if cfg.Loc == nil {
		cfg.Loc = time.Local
	}
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	cfg.Limits = cfg.Limits.orDefaults()
	return &Server{cfg: cfg, log: cfg.Log, live: make(chan struct{}, cfg.Limits.Live), pages: map[string]*page{}}
}

// CheckURL refuses what links cannot begin with.
func CheckURL(base string) error {
	u, err := url.Parse(base)
	if err != nil || u.Scheme != "https" || u.Host == "" || u.RawQuery != "" || u.Fragment != "" || u.User != nil {
		return fmt.Errorf("%q is no address like https://log.example.test", base)
	}
	return nil
}

// Listen opens the address that browsers, or the TLS server before them, connect to:
// host:port, :port or port. Without a host it is 127.0.0.1. Any address but loopback
// needs the https address that stands in front: the page is not encrypted, and its
// secret is in the link.
func Listen(ctx context.Context, addr, base string) (net.Listener, error) {
	if base != "" {
		if err := CheckURL(base); err != nil {
			return nil, err
		}
	}
	if !strings.Contains(addr, ":") {
		addr = ":" + addr
	}
	host, port, err := net.SplitHostPort(addr)
	if err != nil {
		return nil, fmt.Errorf("%q is no address like 127.0.0.1:7718: %w", addr, err)
	}
	if host == "" {
		host = "127.0.0.1"
	}
	tcp, err := net.ResolveTCPAddr("tcp", net.JoinHostPort(host, port))
	if err != nil {
		return nil, fmt.Errorf("%q is no address like 127.0.0.1:7718: %w", addr, err)
	}
	if !tcp.IP.IsLoopback() && base == "" {
		return nil, fmt.Errorf("others than this machine reach %s, and the page is not encrypted: listen on 127.0.0.1 behind a tunnel, or name the https address of the TLS server in front", tcp)
	}
	return new(net.ListenConfig).Listen(ctx, "tcp", tcp.String())
}

// announceEvery is how soon the log has the link of a job that was begun meanwhile.
const announceEvery = 10 * time.Second

// Serve serves until ctx ends, then finishes what is being sent and returns nil. It
// closes ln. The link of each job goes into the log.
func (s *Server) Serve(ctx context.Context, ln net.Listener) error {
	ctx, cancel := context.WithCancel(ctx)
	var all sync.WaitGroup
	defer all.Wait()
	defer cancel()
	base := cmp.Or(strings.TrimRight(s.cfg.URL, "/"), "http://"+ln.Addr().String())
	all.Go(func() { s.announce(ctx, base) })

	lim := s.cfg.Limits
	srv := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: lim.Header,
		ReadTimeout:       lim.Header,
		WriteTimeout:      lim.Write,
		IdleTimeout:       lim.Idle,
		MaxHeaderBytes:    16 << 10, // a tunnel adds its own
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ErrorLog:          slog.NewLogLogger(s.log.Handler(), slog.LevelDebug), // faults of those who connect
	}
	all.Go(func() {
		<-ctx.Done()
		end, cancel := context.WithTimeout(context.WithoutCancel(ctx), lim.Write)
		defer cancel()
		if srv.Shutdown(end) != nil {
			_ = srv.Close()
		}
	})
	if err := srv.Serve(netutil.LimitListener(ln, lim.Conns)); !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("the page was closed: %w", err)
	}
	return nil
}

// announce logs the link of each job once.
func (s *Server) announce(ctx context.Context, base string) {
	every := time.NewTicker(announceEvery)
	defer every.Stop()
	said := map[string]bool{}
	for {
		for _, j := range s.cfg.Bot.All() {
			if said[j.Name()] {
				continue
			}
			p, err := s.page(ctx, j.Name())
			if err != nil {
				s.log.Error("a job has no page", "job", j.Name(), "err", err)
				continue
			}
			said[j.Name()] = true
			s.log.Info("the page of a job", "job", j.Name(), "link", Link(base, j.Name(), p.secret))
		}
		select {
		case <-every.C:
		case <-ctx.Done():
			return
		}
	}
}

// page is the page of a job that is open; nil when none is.
func (s *Server) page(ctx context.Context, name string) (*page, error) {
	j := s.cfg.Bot.Open(name)
	if j == nil {
		return nil, nil
	}
	s.mu.Lock()
	p := s.pages[name]
	s.mu.Unlock()
	if p != nil {
		return p, nil
	}
	secret, err := Secret(ctx, j, false)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.pages[name] == nil {
		s.pages[name] = &page{job: j, secret: secret}
	}
	return s.pages[name], nil
}
