package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"strapline/bot"
	"strapline/bot/chat"
	"strapline/bot/job"
	"strapline/bot/wire"
	"strapline/cmd/cli"
)

// serve is the command line; its tags are the manual.
type serve struct {
	cli.Flags

	Data string `type:"path" predictor:"dir" placeholder:"DIR" help:"The data folder; by default the user's own."`
	Chat bool   `help:"Serve the channels of the chat server at STRAPLINE_CHAT_URL, with the token in STRAPLINE_CHAT_TOKEN or in the file that STRAPLINE_CHAT_TOKEN_FILE names."`
	Wire string `placeholder:"ADDR" help:"Open the text line at ADDR, such as 127.0.0.1:7717. Any address but loopback needs STRAPLINE_WIRE_PASS or STRAPLINE_WIRE_PASS_FILE."`
	pageFlags
}

// A door runs a way in to the jobs, or a task beside them, until ctx is done.
type door func(ctx context.Context) error

// Run serves until the context of s is done or a door fails.
func (c *serve) Run(s *cli.Streams) (err error) {
	if c.Wire == "" && !c.Chat && c.Page == "" {
		return errors.New("nothing to serve; try `straplined --wire 7717`, --chat or --page 7718")
	}
	log := s.Log()
	dir, err := cli.Folder(c.Data)
	if err != nil {
		return err
	}
	b, err := bot.New(bot.Options{Dir: dir, Log: log})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	names, err := openJobs(b, dir, log)
	if err != nil {
		return err
	}
	if c.Links || c.NewLink != "" {
		return c.printLinks(s.Ctx, b, s.Out)
	}
	srv := server{jobs: b, dir: dir, log: log}
	doors := []door{srv.health, srv.copyOnSignal}
	if c.Wire != "" {
		d, err := srv.openWire(s.Ctx, c.Wire)
		if err != nil {
			return err
		}
		doors = append(doors, d)
	}
	if c.Chat {
		d, err := srv.openChat()
		if err != nil {
			return err
		}
		doors = append(doors, d)
	}
	if c.Page != "" {
		d, err := srv.openPage(s.Ctx, c.pageFlags)
		if err != nil {
			return err
		}
		doors = append(doors, d)
	}
	log.Info("serving", "data", dir, "jobs", len(names))
	err = runAll(s.Ctx, doors)
	log.Info("stopped", srv.figures()...)
	return err
}

// runAll runs the doors until ctx is done. If one fails, it stops the others.
func runAll(ctx context.Context, doors []door) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	errs := make([]error, len(doors))
	var all sync.WaitGroup
	for i, d := range doors {
		all.Go(func() {
			if errs[i] = d(ctx); errs[i] != nil {
				cancel()
			}
		})
	}
	all.Wait()
	return errors.Join(errs...)
}

// server is what the doors of a process share.
type server struct {
	jobs *job.Jobs
	dir  string
	log  *slog.Logger
	wire *wire.Server
}

func (s *server) openWire(ctx context.Context, flag string) (door, error) {
	addr, err := cli.Address(flag)
	if err != nil {
		return nil, err
	}
	pass, err := secret("STRAPLINE_WIRE_PASS")
	if err != nil {
		return nil, err
	}
	ln, err := wire.Listen(ctx, addr, pass)
	if err != nil {
		return nil, err
	}
	s.wire = wire.New(wire.Config{Bot: s.jobs, Pass: pass, Backup: s.copy, Log: s.log})
	s.log.Info("the wire is open", "addr", ln.Addr())
	return func(ctx context.Context) error { return s.wire.Serve(ctx, ln) }, nil
}

func (s *server) openChat() (door, error) {
	token, err := secret("STRAPLINE_CHAT_TOKEN")
	if err != nil {
		return nil, err
	}
	cfg := chat.Config{URL: os.Getenv("STRAPLINE_CHAT_URL"), Token: token, Log: s.log}
	if cfg.URL == "" || token == "" {
		return nil, errors.New("--chat needs STRAPLINE_CHAT_URL, and STRAPLINE_CHAT_TOKEN or STRAPLINE_CHAT_TOKEN_FILE")
	}
	return s.serveChat(cfg), nil
}

func (s *server) serveChat(cfg chat.Config) door {
	return func(ctx context.Context) error {
		err := chat.Run(ctx, s.jobs, cfg)
		if errors.Is(err, chat.ErrToken) {
			err = refused{err}
		}
		return err
	}
}

// exitToken is the exit code when the chat server keeps refusing the token. A service
// manager should not restart the program until someone has set a new token.
const exitToken = 3

// refused reports that the chat server refused the token.
type refused struct{ error }

func (refused) ExitCode() int { return exitToken }

func (e refused) Unwrap() error { return e.error }

// openJobs opens every job in the data folder and returns their names, so that a
// damaged file is logged at startup and not when someone needs the job.
func openJobs(b *job.Jobs, dir string, log *slog.Logger) ([]string, error) {
	names, err := jobNames(dir)
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		if _, err := b.Job(name); err != nil {
			log.Error("a job cannot be opened", "job", name, "err", err)
		}
	}
	return names, nil
}

func jobNames(dir string) ([]string, error) {
	files, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("cannot list the data folder: %w", err)
	}
	var names []string
	for _, f := range files {
		if name, ok := strings.CutSuffix(f.Name(), ".job"); ok && job.Slug(name) == name {
			names = append(names, name)
		}
	}
	return names, nil
}

// health logs the figures of the server once a minute.
func (s *server) health(ctx context.Context) error {
	every := time.NewTicker(time.Minute)
	defer every.Stop()
	for {
		select {
		case <-every.C:
			s.log.Info("health", s.figures()...)
		case <-ctx.Done():
			return nil
		}
	}
}

// figures returns, as key-value pairs: the number of jobs, entries and commits in all of
// them, replies waiting for delivery, and on the wire the peers now connected and the
// lines answered since startup.
func (s *server) figures() []any {
	names, err := jobNames(s.dir)
	if err != nil {
		return []any{"err", err}
	}
	waiting := 0
	var entries uint64
	var commits int64
	for _, name := range names {
		j, err := s.jobs.Job(name)
		if err != nil {
			continue // logged when the job was first opened
		}
		rows, err := j.Outbox()
		if err != nil {
			return []any{"err", err}
		}
		fig := j.Figures()
		entries, commits, waiting = entries+fig.Last, commits+fig.Commits, waiting+len(rows)
	}
	f := []any{"jobs", len(names), "entries", entries, "commits", commits, "waiting", waiting}
	if s.wire != nil {
		f = append(f, "peers", s.wire.Peers(), "lines", s.wire.Lines())
	}
	return f
}

// copyOnSignal backs up every job whenever the backup signal arrives.
func (s *server) copyOnSignal(ctx context.Context) error {
	ask := make(chan os.Signal, 1)
	notifyCopy(ask)
	defer signal.Stop(ask)
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-ask:
		}
		names, err := jobNames(s.dir)
		if err != nil {
			s.log.Error("no backup", "err", err)
		}
		for _, name := range names {
			if to, err := s.copy(ctx, name); err != nil {
				s.log.Error("no backup", "job", name, "err", err)
			} else {
				s.log.Info("copied", "job", name, "to", to)
			}
		}
	}
}

// copy backs up a job while it is in use, to a file named for the job and the time in
// UTC. It returns the path of that file relative to the data folder.
func (s *server) copy(_ context.Context, name string) (to string, err error) {
	j, err := s.jobs.Job(name)
	if err != nil {
		return "", err
	}
	const backups = "backups"
	to = filepath.Join(backups, name+"-"+time.Now().UTC().Format("20060102T150405Z")+".job")
	return to, j.Backup(filepath.Join(s.dir, to))
}

// maxSecret limits how much of a secret's file is used, in bytes.
const maxSecret = 4096

// secret returns a secret, which must never be on a command line: the value of the
// environment variable name, or the first line of the file that name_FILE names.
func secret(name string) (string, error) {
	word, path := os.Getenv(name), os.Getenv(name+"_FILE")
	switch {
	case path == "":
		return word, nil
	case word != "":
		return "", fmt.Errorf("both %s and %s_FILE are set; set one", name, name)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return "", fmt.Errorf("%s_FILE: %w", name, err)
	}
	line, _, _ := strings.Cut(string(data[:min(len(data), maxSecret)]), "\n")
	if line = strings.TrimSpace(line); line == "" {
		return "", fmt.Errorf("%s_FILE: %s is empty", name, path)
	}
	return line, nil
}
