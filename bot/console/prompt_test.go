package console

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/chzyer/readline"

	"strapline/bot"
)

const (
	ctrlC = "\x03"
	ctrlD = "\x04"
	ctrlG = "\x07"
	ctrlR = "\x12"
	up    = "\x1b[A"
	enter = "\r"
)

// Keys typed in successive sessions that share a folder.
func TestPrompt(t *testing.T) {
	dir := t.TempDir()
	many := strings.Repeat("status\nwhat's covered\n", maxHistory)
	for i, c := range []struct {
		keys    string
		before  string // the history left by an earlier session, unless it is "kept"
		says    string // parts of the output, in order, separated by "|"
		not     string
		history []string // the last lines of the history file
	}{
		{
			keys: ctrlR + ctrlC + "room den 12' x 10'" + enter + "gap 96" + ctrlC + "duct d1 26 off west 41 off north" + enter + enter + "   " + enter + ctrlC + "gap 96" + enter,
			says: "site, no room yet. help|exit|noted 1: den|noted 2: den duct", not: "cut",
			history: []string{"room den 12' x 10'", "duct d1 26 off west 41 off north"},
		},
		{
			keys: ctrlR + "den" + enter + "status" + enter + up + up + ctrlC + " Exit " + enter + "gap 96" + enter,
			says: "site, den. help|noted 3: den|nothing up", not: "cut",
			history: []string{"duct d1 26 off west 41 off north", "room den 12' x 10'", "status"},
		},
		{
			keys: up + up + enter + "lovely weather" + enter + ctrlR + "zzz" + ctrlG + ctrlD + "gap 96" + enter,
			says: "site, den|noted 4: den|nothing for me in that", not: "cut",
			history: []string{"room den 12' x 10'", "status", "room den 12' x 10'", "lovely weather"},
		},
		{keys: "quit" + enter + "gap 96" + enter, not: "cut", history: []string{"lovely weather"}},
		{keys: "bye" + enter + "gap 96" + enter, not: "cut", history: []string{"lovely weather"}},
		{keys: ctrlR + "room" + enter + ctrlC, before: "room kitchen 9' x 9'\n" + many, says: "site, den. help|", not: "noted", history: []string{"what's covered"}},
	} {
		if path := filepath.Join(dir, "history"); c.before != "" {
			if err := os.WriteFile(path, []byte(c.before), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		out := session(t, dir, c.keys)
		rest := out
		for _, want := range strings.Split(c.says, "|") {
			_, after, ok := strings.Cut(rest, want)
			if !ok {
				t.Errorf("session %d: no %q in\n%s", i, want, out)
			}
			rest = after
		}
		if c.not != "" && strings.Contains(out, c.not+" ") {
			t.Errorf("session %d: %q in\n%s", i, c.not, out)
		}
		kept, err := os.ReadFile(filepath.Join(dir, "history"))
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSuffix(string(kept), "\n"), "\n")
		if n := len(lines) - len(c.history); n < 0 || !slices.Equal(lines[n:], c.history) {
			t.Errorf("session %d: the history is %q, want at its end %q", i, lines, c.history)
		}
	}
}

// screen collects the editor's output. The editor may still write just after it is closed.
type screen struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *screen) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *screen) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

// session types keys at a prompt until the session ends, and returns the output.
func session(t *testing.T, dir, keys string) string {
	t.Helper()
	b, err := bot.New(bot.Options{Dir: dir})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	j, err := b.Job("site")
	if err != nil {
		t.Fatal(err)
	}
	in, typed := io.Pipe()
	go func() {
		_, _ = io.WriteString(typed, keys) // returns when the session closes its end
		typed.Close()
	}()
	defer in.Close()
	var out screen
	nothing := func() error { return nil }
	err = Talk{Job: j, Who: "lead", History: filepath.Join(dir, "history")}.prompt(t.Context(), &readline.Config{
		Stdin: in, Stdout: &out, FuncGetWidth: func() int { return 80 },
		FuncIsTerminal: func() bool { return true }, FuncMakeRaw: nothing, FuncExitRaw: nothing, FuncOnWidthChanged: func(func()) {},
	}, &out)
	if err != nil {
		t.Fatal(err)
	}
	return out.String()
}
