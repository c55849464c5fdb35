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

// Config configures a Server. Only Bot is required.
type Config struct {
	Bot    *job.Jobs
	Front  string           // the https URL of the server in front, which links begin with; default the listen address
	Now    func() time.Time // the bot's clock; default time.Now
	Loc    *time.Location   // of the times shown; default time.Local
	Log    *slog.Logger     // by default nothing is logged
	Limits Limits
}

// Limits of a Server. Zero values stand for the defaults given here.
type Limits struct {
	Conns  int           // connections in all; 400
	Live   int           // event streams in all; 200
	Header time.Duration // to receive a request; 5 s
	Write  time.Duration // for a reader to accept a page or an event; 10 s
	Idle   time.Duration // from one request to the next; 1 min
	Beat   time.Duration // between events when there is no new entry; 15 s
	Gather time.Duration // the shortest time between events; 300 ms
	Stay   time.Duration // the life of a stream, after which the browser opens another; 1 h
	Fresh  time.Duration // the shortest time between two renderings of a job; 250 ms
	Draw   time.Duration // after which no further picture of a view is started; 2 s
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
	live chan struct{} // holds one element per open stream

	mu    sync.Mutex
	pages map[string]*page // by job
}

// page is the page of one job.
type page struct {
	job    *job.Job
	secret string

	mu    sync.Mutex
	st    *site.State // the page's own fold of the job's entries, up to the last look
	board *board      // the last one made
	drawn map[planID]drawing

	rendering sync.Mutex
	rendered  rendered // the newest page, cached
}

// New makes a Server.
func New(cfg Config) *Server {
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	cfg.Loc = cmp.Or(cfg.Loc, time.Local)
	cfg.Log = cmp.Or(cfg.Log, slog.New(slog.DiscardHandler))
	cfg.Limits = cfg.Limits.orDefaults()
	return &Server{cfg: cfg, log: cfg.Log, live: make(chan struct{}, cfg.Limits.Live), pages: map[string]*page{}}
}

// Base returns the URL that links begin with: front if it is set, which must be an https
// URL, or else the listen address.
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

// Listen opens the address that browsers, or the TLS server in front, connect to. Any
// address other than loopback requires front, because the page is not encrypted and its
// secret is in the link.
func Listen(ctx context.Context, addr *net.TCPAddr, front string) (net.Listener, error) {
	if _, err := Base(addr, front); err != nil {
		return nil, err
	}
	if !addr.IP.IsLoopback() && front == "" {
		return nil, fmt.Errorf("others than this machine reach %s, and the page is not encrypted: listen on 127.0.0.1 behind a tunnel, or name the https address of the TLS server in front", addr)
	}
	return new(net.ListenConfig).Listen(ctx, "tcp", addr.String())
}

// shutdownTime is how long responses in progress may take when the server stops. Spare
// connections of browsers are closed after it.
const shutdownTime = 2 * time.Second

// addEvery is how often newly opened jobs get their pages.
const addEvery = time.Minute

// Serve serves until ctx is done, then finishes the responses in progress and returns nil.
// It closes ln. The link to each job's page is logged.
func (s *Server) Serve(ctx context.Context, ln net.Listener) error {
	ctx, cancel := context.WithCancel(ctx)
	var all sync.WaitGroup
	defer all.Wait()
	defer cancel()
	base, err := Base(ln.Addr(), s.cfg.Front)
	if err != nil {
		return errors.Join(err, ln.Close())
	}
	s.addPages(ctx, base)
	all.Go(func() { s.addLater(ctx, base) })

	lim := s.cfg.Limits
	srv := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: lim.Header,
		ReadTimeout:       lim.Header,
		WriteTimeout:      lim.Write,
		IdleTimeout:       lim.Idle,
		MaxHeaderBytes:    16 << 10, // room for the headers that a tunnel adds
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ErrorLog:          slog.NewLogLogger(s.log.Handler(), slog.LevelDebug), // the clients' errors, not ours
	}
	all.Go(func() {
		<-ctx.Done()
		end, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownTime)
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

// addLater gives newly opened jobs their pages until ctx is done.
func (s *Server) addLater(ctx context.Context, base string) {
	every := time.NewTicker(addEvery)
	defer every.Stop()
	for {
		select {
		case <-every.C:
			s.addPages(ctx, base)
		case <-ctx.Done():
			return
		}
	}
}

// addPages gives a page to each open job that has none, and logs its link. A request never
// creates a page.
func (s *Server) addPages(ctx context.Context, base string) {
	for _, j := range s.cfg.Bot.All() {
		if s.page(j.Name()) != nil {
			continue
		}
		j, err := s.cfg.Bot.Job(j.Name()) // keeps the job open when others release it
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

// page returns the page of a job, or nil if it has none.
func (s *Server) page(name string) *page {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.pages[name]
}
