package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"github.com/alecthomas/kong"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/job"
	"strapline/store"
)

// cli is the command line; its tags are its manual.
type cli struct {
	Play   playCmd   `cmd:"" help:"Play a conversation file and print the replies."`
	Talk   talkCmd   `cmd:"" help:"Text to a job at a prompt, or through a pipe."`
	Serve  serveCmd  `cmd:"" help:"Serve jobs to a crew until told to stop."`
	Export exportCmd `cmd:"" help:"Write a job as JSON lines."`
	Import importCmd `cmd:"" help:"Make a job from exported JSON lines."`
	Check  checkCmd  `cmd:"" help:"Verify a job's whole file."`
	Backup backupCmd `cmd:"" help:"Copy a job that nobody has open."`
	Sketch sketchCmd `cmd:"" help:"Draw the ceiling of a room into a file."`
}

// streams are what a command reads and writes.
type streams struct {
	ctx context.Context
	in  io.Reader
	out io.Writer
	err io.Writer
}

// run parses args and runs one command. Its result is the exit code: 0, 1 when
// the command failed, 2 when the command line was wrong, 3 when the chat server
// goes on refusing the token.
func run(ctx context.Context, args []string, in io.Reader, out, errw io.Writer) int {
	var c cli
	exited := -1
	p, err := kong.New(&c, kong.Name("strapline"),
		kong.Description("A field assistant for the crew that boards ceilings and walls."),
		kong.Writers(out, errw), kong.Exit(func(code int) { exited = code }), kong.UsageOnError())
	if err != nil {
		fmt.Fprintf(errw, "strapline: %v\n", err)
		return 2
	}
	kctx, err := p.Parse(args)
	if exited >= 0 {
		return exited
	}
	if err != nil {
		fmt.Fprintf(errw, "strapline: %v\nstrapline: try `strapline --help`\n", err)
		return 2
	}
	if err := kctx.Run(&streams{ctx, in, out, errw}); err != nil {
		fmt.Fprintf(errw, "strapline: %s\n", plain(err))
		return exitCode(err)
	}
	return 0
}

// plain says an error in words where the store has some, with the file it is about.
func plain(err error) string {
	for _, known := range []error{store.ErrFull, store.ErrReadOnly, store.ErrInUse, store.ErrCutOff, store.ErrNewer, store.ErrDamaged} {
		if errors.Is(err, known) {
			file, _, _ := strings.Cut(err.Error(), ": ")
			return job.Plain(err) + " (" + file + ")"
		}
	}
	return err.Error()
}

// which names a job in a data folder.
type which struct {
	Job  string `default:"site" help:"The job, by its name."`
	Data string `type:"path" placeholder:"DIR" help:"The data folder; by default the user's own."`
}

func (j which) path() (string, error) {
	dir, err := dataDir(j.Data)
	if err != nil {
		return "", err
	}
	slug := job.Slug(j.Job)
	if slug == "" {
		return "", fmt.Errorf("a job needs a name of letters or digits, not %q", j.Job)
	}
	return filepath.Join(dir, slug+".job"), nil
}

// dataDir is where jobs are kept unless told: the user's data folder by the
// platform's convention.
func dataDir(said string) (string, error) {
	if said != "" {
		return said, nil
	}
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "strapline"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("no home folder to keep jobs in (%w); name one with --data", err)
	}
	switch runtime.GOOS {
	case "windows":
		if dir := os.Getenv("LocalAppData"); dir != "" {
			return filepath.Join(dir, "strapline"), nil
		}
	case "darwin":
		return filepath.Join(home, "Library", "Application Support", "strapline"), nil
	}
	return filepath.Join(home, ".local", "share", "strapline"), nil
}

func logTo(w io.Writer) *slog.Logger { return slog.New(slog.NewTextHandler(w, nil)) }

type playCmd struct {
	File  string `arg:"" help:"The conversation; - reads it from standard input."`
	JSON  bool   `name:"json" help:"Print one JSON object an entry."`
	Check bool   `help:"Print only what differs from the expected replies, and fail on it."`
	Data  string `type:"path" placeholder:"DIR" help:"Keep the job in DIR instead of a fresh temporary folder."`
	Job   string `help:"The job; by default the file's name."`
	As    string `help:"Play only what this sender wrote."`
}

func (c *playCmd) Run(s *streams) (err error) {
	in := s.in
	name := "standard-input"
	if c.File != "-" {
		f, err := os.Open(c.File)
		if err != nil {
			return err
		}
		defer f.Close()
		in, name = f, strings.TrimSuffix(filepath.Base(c.File), filepath.Ext(c.File))
	}
	if c.Job != "" {
		name = c.Job
	}
	steps, err := console.ReadChat(in)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	if c.As != "" {
		var mine []console.Step
		for _, st := range steps {
			if st.Who == "" || strings.EqualFold(st.Who, c.As) {
				mine = append(mine, st)
			}
		}
		steps = mine
	}
	dir := c.Data
	if dir == "" {
		if dir, err = os.MkdirTemp("", "strapline-play-"); err != nil {
			return err
		}
		defer os.RemoveAll(dir)
	}
	clock := new(console.Clock)
	b, err := bot.New(bot.Options{Dir: dir, Now: clock.Now, Loc: time.UTC, Log: logTo(s.err)})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	j, err := b.Job(name)
	if err != nil {
		return err
	}
	p := console.Play{Job: j, Clock: clock, JSON: c.JSON, Check: c.Check, Pictures: new(console.Pictures)}
	if c.Data != "" {
		p.Dir = pictures(c.Data)
	}
	return p.Run(s.ctx, steps, s.out)
}

type talkCmd struct {
	which
	JSON bool   `name:"json" help:"Print one JSON object an entry."`
	As   string `default:"lead" help:"Who is texting."`
}

func (c *talkCmd) Run(s *streams) (err error) {
	dir, err := dataDir(c.Data)
	if err != nil {
		return err
	}
	b, err := bot.New(bot.Options{Dir: dir, Log: logTo(s.err)})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	j, err := b.Job(c.Job)
	if err != nil {
		return err
	}
	t := console.Talk{Job: j, Who: c.As, JSON: c.JSON, Pictures: &console.Pictures{Dir: pictures(dir)}}
	return t.Run(s.ctx, s.in, s.out)
}

// pictures is where those that were asked for are kept.
func pictures(data string) string { return filepath.Join(data, "pictures") }

type exportCmd struct {
	which
}

func (c *exportCmd) Run(s *streams) error {
	path, err := c.path()
	if err != nil {
		return err
	}
	return store.Export(path, s.out)
}

type importCmd struct {
	which
	File string `arg:"" help:"The exported lines; - reads standard input."`
}

func (c *importCmd) Run(s *streams) error {
	path, err := c.path()
	if err != nil {
		return err
	}
	in := s.in
	if c.File != "-" {
		f, err := os.Open(c.File)
		if err != nil {
			return err
		}
		defer f.Close()
		in = f
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	if err := store.Import(in, path); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("there is a job %q already; name another with --job", c.Job)
		}
		return err
	}
	fmt.Fprintf(s.out, "imported into %s\n", path)
	return nil
}

type checkCmd struct {
	which
	File string `arg:"" optional:"" type:"path" help:"A job's file, instead of --job."`
}

func (c *checkCmd) Run(s *streams) error {
	path, err := c.path()
	if err != nil {
		return err
	}
	if c.File != "" {
		path = c.File
	}
	rep, err := store.Check(path)
	if err != nil {
		return err
	}
	for _, f := range rep.Faults {
		fmt.Fprintln(s.out, f)
	}
	if len(rep.Faults) > 0 {
		return fmt.Errorf("%d faults in %s", len(rep.Faults), path)
	}
	fmt.Fprintf(s.out, "%s: %d entries, all sound\n", path, rep.LastSeq)
	return nil
}

type backupCmd struct {
	which
	To string `arg:"" type:"path" help:"The copy; it must not be there yet."`
}

func (c *backupCmd) Run(s *streams) error {
	path, err := c.path()
	if err != nil {
		return err
	}
	if err := store.Backup(path, c.To); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "copied to %s\n", c.To)
	return nil
}
