// Package cli is what the programs have in common: how their command lines are
// read, their exit codes, and where jobs are kept.
package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/alecthomas/kong"
	"github.com/willabides/kongplete"

	"strapline/bot/job"
	"strapline/store"
)

// Streams are what a command reads and writes.
type Streams struct {
	Ctx context.Context
	In  io.Reader
	Out io.Writer
	Err io.Writer
}

// Log logs to the standard error.
func (s *Streams) Log() *slog.Logger { return slog.New(slog.NewTextHandler(s.Err, nil)) }

// Run parses args into the grammar, a pointer to a struct with kong's tags, and runs the
// command chosen with the streams. Its result is the exit code: 0, 1 when the command
// failed, 2 when the command line was wrong, or what an error says that is a
// [kong.ExitCoder].
func Run(name, about string, grammar any, args []string, s *Streams) int {
	exited := -1
	p, err := kong.New(grammar, kong.Name(name), kong.Description(about),
		kong.Writers(s.Out, s.Err), kong.Exit(func(code int) { exited = code }), kong.UsageOnError(), kong.Vars{"version": name + " " + version()})
	if err != nil {
		fmt.Fprintf(s.Err, "%s: %v\n", name, err)
		return 2
	}
	kongplete.Complete(p, kongplete.WithPredictors(predictors))
	if exited >= 0 {
		return exited
	}
	chosen, err := p.Parse(args)
	if exited >= 0 {
		return exited
	}
	if err != nil {
		fmt.Fprintf(s.Err, "%s: %v\n%s: try `%s --help`\n", name, err, name, name)
		return 2
	}
	if err := chosen.Run(s); err != nil {
		fmt.Fprintf(s.Err, "%s: %s\n", name, plain(err))
		var code kong.ExitCoder
		if errors.As(err, &code) {
			return code.ExitCode()
		}
		return 1
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

// Folder is the data folder. One that others can look into is refused.
func Folder(said string) (string, error) {
	dir, err := DataDir(said)
	if err != nil {
		return "", err
	}
	return dir, private(dir)
}

// DataDir is where jobs are kept: where it was said, else the user's data folder by
// the platform's convention.
func DataDir(said string) (string, error) {
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

// Address reads host:port, :port or port; without a host it is 127.0.0.1.
func Address(said string) (*net.TCPAddr, error) {
	addr := said
	if !strings.Contains(addr, ":") {
		addr = ":" + addr
	}
	host, port, err := net.SplitHostPort(addr)
	if err != nil {
		return nil, fmt.Errorf("%q is no address like 127.0.0.1:7717: %w", said, err)
	}
	tcp, err := net.ResolveTCPAddr("tcp", net.JoinHostPort(cmp.Or(host, "127.0.0.1"), port))
	if err != nil {
		return nil, fmt.Errorf("%q is no address like 127.0.0.1:7717: %w", said, err)
	}
	return tcp, nil
}

// version is the module's version and the commit it was built from, as far as the build knows them.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	said := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && !strings.Contains(said, s.Value[:min(12, len(s.Value))]) {
			said += " " + s.Value
		}
	}
	return said
}
