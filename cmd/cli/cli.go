// Package cli holds what both programs share: command-line parsing, exit codes,
// and the location of the data folder.
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

// Streams are the context and the input and output of a command.
type Streams struct {
	Ctx context.Context
	In  io.Reader
	Out io.Writer
	Err io.Writer
}

// Log returns a logger that writes to Err.
func (s *Streams) Log() *slog.Logger { return slog.New(slog.NewTextHandler(s.Err, nil)) }

// Run parses args into grammar, a pointer to a struct with kong tags, runs the
// selected command and returns the exit code: 0 on success, 1 when the command
// fails, 2 for a bad command line, or the code of an error that is a
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

// plain returns the message of err. For errors of the store it is the same wording
// that the bot replies with, plus the file name.
func plain(err error) string {
	for _, known := range []error{store.ErrFull, store.ErrReadOnly, store.ErrInUse, store.ErrCutOff, store.ErrNewer, store.ErrDamaged} {
		if errors.Is(err, known) {
			file, _, _ := strings.Cut(err.Error(), ": ")
			return job.Plain(err) + " (" + file + ")"
		}
	}
	return err.Error()
}

// Folder is [DataDir], but fails if other users have access to the folder.
func Folder(flag string) (string, error) {
	dir, err := DataDir(flag)
	if err != nil {
		return "", err
	}
	return dir, private(dir)
}

// DataDir returns the folder that holds the jobs: the value of --data, or by default
// the platform's usual place for a user's application data.
func DataDir(flag string) (string, error) {
	if flag != "" {
		return flag, nil
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

// Address resolves host:port, :port or port. The host defaults to 127.0.0.1.
func Address(flag string) (*net.TCPAddr, error) {
	addr := flag
	if !strings.Contains(addr, ":") {
		addr = ":" + addr
	}
	host, port, err := net.SplitHostPort(addr)
	if err != nil {
		return nil, fmt.Errorf("%q is no address like 127.0.0.1:7717: %w", flag, err)
	}
	tcp, err := net.ResolveTCPAddr("tcp", net.JoinHostPort(cmp.Or(host, "127.0.0.1"), port))
	if err != nil {
		return nil, fmt.Errorf("%q is no address like 127.0.0.1:7717: %w", flag, err)
	}
	return tcp, nil
}

// version returns the module version, followed by the VCS revision when the build
// recorded one and the version does not contain it already.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	v := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && !strings.Contains(v, s.Value[:min(12, len(s.Value))]) {
			v += " " + s.Value
		}
	}
	return v
}
