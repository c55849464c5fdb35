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
	"strapline/calc/site"
)

// Config of a Server. The zero value of each but Bot is usable.
type Config struct {
	Bot    *job.Jobs
	Front  string           // the https address of what stands in front, with which links begin; the address listened on
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
	Draw   time.Duration // for the pictures of one view, after which no other is begun; 2 s
}

func (l Limits) orDefaults() Limits {
	return Limits{
		cmp.Or(l.Conns, 400), cmp.Or(l.Live, 200), cmp.Or(l.Header, 5*time.Second), cmp.Or(l.Write, 10*time.Second), cmp.Or(l.Idle, time.Minute),
		cmp.Or(l.Beat, 15*time.Second), cmp.Or(l.Gather, 300*time.Millisecond), cmp.Or(l.Stay, time.Hour), cmp.Or(l.Fresh, 250*time.Millisecond),
		cmp.Or(l.Draw, 2*time.Second),
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

	mu    sync.Mutex
	st    *site.State // the page's own, beside the job's: a fold of the same entries, as far as it was looked at
	kept  *board      // as it was last made
	drawn map[which]drawn

	writing sync.Mutex
	written written // the newest page, as it was last written
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

// Base is what links begin with: the https address that stands in front when there
// is one, else the address listened on.
func Base(addr net.Addr, front string) (string, error) {
	if front == "" {
		return "http://" + addr.String(), nil
	}
	u, err := url.Parse(front)
	if err != nil || u.Scheme != "https" || u.Host == "" || u.RawQuery != "" || u.Fragment != "" || u.User != nil {
		return "", fmt.Errorf("%q is no address like https://log.example.test", front)
	}
	return strings.TrimRight(front, "/"), nil
}

// Listen opens the address that browsers, or the TLS server before them, connect to. Any
// address but loopback needs the https address that stands in front: the page is not
// encrypted, and its secret is in the link.
func Listen(ctx context.Context, addr *net.TCPAddr, front string) (net.Listener, error) {
	if _, err := Base(addr, front); err != nil {
		return nil, err
	}
	if !addr.IP.IsLoopback() && front == "" {
		return nil, fmt.Errorf("others than this machine reach %s, and the page is not encrypted: listen on 127.0.0.1 behind a tunnel, or name the https address of the TLS server in front", addr)
	}
	return new(net.ListenConfig).Listen(ctx, "tcp", addr.String())
}

// linger is how long pages that are being sent have when the server stops. A browser keeps
// lines open that it may want; nobody waits for those.
const linger = 2 * time.Second

// takeEvery is how soon a job that was begun meanwhile has its page.
const takeEvery = time.Minute

// Serve serves until ctx ends, then finishes what is being sent and returns nil. It
// closes ln. The link of each job goes into the log.
func (s *Server) Serve(ctx context.Context, ln net.Listener) error {
	ctx, cancel := context.WithCancel(ctx)
	var all sync.WaitGroup
	defer all.Wait()
	defer cancel()
	base, err := Base(ln.Addr(), s.cfg.Front)
	if err != nil {
		return errors.Join(err, ln.Close())
	}
	s.take(ctx, base)
	all.Go(func() { s.takeMore(ctx, base) })

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
		end, cancel := context.WithTimeout(context.WithoutCancel(ctx), linger)
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

// takeMore gives a page to each job that is opened, as long as ctx lasts.
func (s *Server) takeMore(ctx context.Context, base string) {
	every := time.NewTicker(takeEvery)
	defer every.Stop()
	for {
		select {
		case <-every.C:
			s.take(ctx, base)
		case <-ctx.Done():
			return
		}
	}
}

// take gives a page to each job that is open and has none yet, and logs its link.
// Nothing that is asked for over the wire makes one.
func (s *Server) take(ctx context.Context, base string) {
	for _, j := range s.cfg.Bot.All() {
		if s.page(j.Name()) != nil {
			continue
		}
		j, err := s.cfg.Bot.Job(j.Name()) // it stays open, whoever else leaves it
		if err != nil {
			s.log.Error("a job has no page", "job", j.Name(), "err", err)
			continue
		}
		secret, err := Secret(ctx, j, false)
		if err != nil {
			s.log.Error("a job has no page", "job", j.Name(), "err", err)
			continue
		}
		s.mu.Lock()
		s.pages[j.Name()] = &page{job: j, secret: secret}
		s.mu.Unlock()
		s.log.Info("the page of a job", "job", j.Name(), "link", Link(base, j.Name(), secret))
	}
}

// page is the page of a job, nil when it has none.
func (s *Server) page(name string) *page {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.pages[name]
}
