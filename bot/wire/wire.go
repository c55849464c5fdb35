package wire

import (
	"cmp"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/netip"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"strapline/bot/backoff"
	"strapline/bot/job"
)

// Config configures a Server. Only Bot is required.
type Config struct {
	Bot    *job.Jobs
	Pass   string                                                // required from every peer, unless ""
	Backup func(ctx context.Context, job string) (string, error) // copies a job and returns the path; if nil, backup is refused
	Now    func() time.Time                                      // the bot's clock; default time.Now
	Loc    *time.Location                                        // of times without a zone; default time.Local
	Log    *slog.Logger                                          // by default nothing is logged
	Limits Limits
}

// Limits of a Server. Zero values stand for the defaults given here.
type Limits struct {
	Peers      int           // peers in all; 600
	Strangers  int           // connections before hello; a new one closes the oldest; 60
	PerAddress int           // connections from one address; none for loopback, where tunnels end; 40
	Jobs       int           // jobs that peers may have open at once; 200
	Rate       int           // sustained lines per second read from a peer; 50
	Burst      int           // lines read at full speed before Rate applies; 200
	Hello      time.Duration // until the first line; 10 s
	Line       time.Duration // from the first byte of a line to its end; 30 s
	Idle       time.Duration // from one line to the next; 1 h
	Write      time.Duration // for a peer to accept a write; 10 s
}

func (l Limits) orDefaults() Limits {
	return Limits{
		cmp.Or(l.Peers, 600), cmp.Or(l.Strangers, 60), cmp.Or(l.PerAddress, 40), cmp.Or(l.Jobs, 200), cmp.Or(l.Rate, 50), cmp.Or(l.Burst, 200),
		cmp.Or(l.Hello, 10*time.Second), cmp.Or(l.Line, 30*time.Second), cmp.Or(l.Idle, time.Hour), cmp.Or(l.Write, 10*time.Second),
	}
}

// Server serves the jobs of a bot.
type Server struct {
	cfg   Config
	log   *slog.Logger
	pass  [sha256.Size]byte
	lines atomic.Int64

	mu        sync.Mutex
	peers     int                      // connections that said hello
	strangers []*peer                  // connections that have not yet, oldest first
	from      map[netip.Addr]int       // all connections, by address
	jobs      map[string]int           // peers, by open job
	failed    map[netip.Addr]*failures // by passKey
	backups   map[string]time.Time     // the last one, by job
}

// New makes a Server.
func New(cfg Config) *Server {
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	cfg.Loc = cmp.Or(cfg.Loc, time.Local)
	cfg.Log = cmp.Or(cfg.Log, slog.New(slog.DiscardHandler))
	cfg.Limits = cfg.Limits.orDefaults()
	return &Server{
		cfg: cfg, log: cfg.Log, pass: sha256.Sum256([]byte(cfg.Pass)),
		from: map[netip.Addr]int{}, jobs: map[string]int{}, failed: map[netip.Addr]*failures{}, backups: map[string]time.Time{},
	}
}

// minPass is the shortest pass word, in bytes. With the delays after wrong ones, this
// many random letters cannot be guessed.
const minPass = 12

// Listen opens the address that peers connect to. Any address other than loopback
// requires a pass word.
func Listen(ctx context.Context, addr *net.TCPAddr, pass string) (net.Listener, error) {
	if !addr.IP.IsLoopback() && pass == "" {
		return nil, fmt.Errorf("others than this machine reach %s: set a pass word, or listen on 127.0.0.1 behind a tunnel", addr)
	}
	if pass != "" && (len(pass) < minPass || strings.ContainsAny(pass, " \t\r\n")) {
		return nil, fmt.Errorf("the pass word must be one word of at least %d bytes", minPass)
	}
	return new(net.ListenConfig).Listen(ctx, "tcp", addr.String())
}

// Peers returns how many connections are open.
func (s *Server) Peers() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.peers + len(s.strangers)
}

// Lines returns how many lines have been answered.
func (s *Server) Lines() int64 { return s.lines.Load() }

// Serve accepts connections until ctx is done, then finishes the lines being answered and
// returns nil. It closes ln.
func (s *Server) Serve(ctx context.Context, ln net.Listener) error {
	ctx, cancel := context.WithCancel(ctx)
	var all sync.WaitGroup
	defer all.Wait()
	defer cancel()
	defer context.AfterFunc(ctx, func() { ln.Close() })()
	for pause := minPause; ; {
		conn, err := ln.Accept()
		switch {
		case ctx.Err() != nil:
			if err == nil {
				conn.Close()
			}
			return nil
		case err == nil:
			pause = minPause
			all.Go(func() { s.serve(ctx, conn) })
		case errors.Is(err, net.ErrClosed):
			return fmt.Errorf("the wire was closed: %w", err)
		default: // usually too many open files, which is temporary
			s.log.Warn("cannot take a connection", "err", err)
			if !backoff.Sleep(ctx, pause) {
				return nil
			}
			pause = min(2*pause, maxPause)
		}
	}
}

// The pause after a failed accept, which doubles with each further failure.
const (
	minPause = 10 * time.Millisecond
	maxPause = time.Second
)

// enter registers a connection as a stranger. If it may not connect, full says why.
func (s *Server) enter(addr netip.Addr, p *peer) (full string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !addr.IsLoopback() && s.from[addr] >= s.cfg.Limits.PerAddress {
		return "too many connections from your address; close one"
	}
	if len(s.strangers) >= s.cfg.Limits.Strangers {
		s.strangers[0].conn.Close()
		s.strangers = s.strangers[1:]
	}
	s.strangers = append(s.strangers, p)
	s.from[addr]++
	return ""
}

// settle turns a stranger that said hello into a peer, if there is room.
func (s *Server) settle(p *peer) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	i := slices.Index(s.strangers, p)
	switch {
	case i < 0:
		return net.ErrClosed // closed to make room for a newer one
	case s.peers >= s.cfg.Limits.Peers:
		return &fault{0, "too many connections; try again later"}
	}
	s.strangers = slices.Delete(s.strangers, i, i+1)
	s.peers++
	return nil
}

// leave forgets a connection.
func (s *Server) leave(addr netip.Addr, p *peer) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.strangers = slices.DeleteFunc(s.strangers, func(o *peer) bool { return o == p })
	if p.settled {
		s.peers--
	}
	if s.from[addr]--; s.from[addr] == 0 {
		delete(s.from, addr)
	}
}

// addrOf returns the remote IP address. A connection without one counts as loopback.
func addrOf(conn net.Conn) netip.Addr {
	ap, err := netip.ParseAddrPort(conn.RemoteAddr().String())
	if err != nil {
		return netip.IPv6Loopback()
	}
	return ap.Addr().Unmap()
}

// job opens a job until done is called, unless peers have too many open.
func (s *Server) job(name string) (j *job.Job, done func(), err error) {
	s.mu.Lock()
	if s.jobs[name] == 0 && len(s.jobs) >= s.cfg.Limits.Jobs {
		s.mu.Unlock()
		return nil, nil, &fault{0, fmt.Sprintf("there are %d jobs open, no more can be; check the name", s.cfg.Limits.Jobs)}
	}
	s.jobs[name]++
	s.mu.Unlock()
	free := func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		if s.jobs[name]--; s.jobs[name] == 0 {
			delete(s.jobs, name)
		}
	}
	j, end, err := s.cfg.Bot.Lease(name)
	if err != nil {
		free()
		s.log.Error("a job cannot be opened", "job", name, "err", err)
		return nil, nil, &fault{0, "the job cannot be opened: " + job.Plain(err)}
	}
	return j, func() {
		free()
		if err := end(); err != nil {
			s.log.Error("a job was not closed in good order", "job", name, "err", err)
		}
	}, nil
}

// backupEvery is the shortest time between two backups of a job over the wire, since each
// is a full copy on disk.
const backupEvery = time.Minute

// backup copies a job and returns the reply.
func (s *Server) backup(ctx context.Context, name string) string {
	if s.cfg.Backup == nil {
		return refuse(&fault{1, "no backups over this wire"})
	}
	s.mu.Lock()
	now := s.cfg.Now()
	if now.Sub(s.backups[name]) < backupEvery {
		s.mu.Unlock()
		return refuse(&fault{1, "a copy was made less than a minute ago; try again in a minute"})
	}
	s.backups[name] = now
	s.mu.Unlock()
	path, err := s.cfg.Backup(ctx, name)
	if err != nil {
		s.log.Error("a backup failed", "job", name, "err", err)
		return refuse(&fault{0, "no copy was made: " + job.Plain(err)})
	}
	return reply("ok 0", "copied to "+path)
}
