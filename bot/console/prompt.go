package console

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/chzyer/readline"
)

// exitWords end a session at the prompt. From a pipe they have no meaning, since the
// lines after them would be lost.
var exitWords = []string{"exit", "quit", "bye"}

// prompt reads lines with an editor and a history that is kept between sessions. Ctrl-C
// clears the line, or ends the session if the line is empty.
func (t Talk) prompt(ctx context.Context, cfg *readline.Config, w io.Writer) error {
	cfg.Prompt, cfg.InterruptPrompt, cfg.EOFPrompt = t.Who+"> ", "\n", "\n"
	cfg.DisableAutoSaveHistory, cfg.HistorySearchFold = true, true
	rl, err := readline.NewEx(cfg)
	if err != nil {
		return err
	}
	defer rl.Close()
	room, err := t.Job.RoomOf(ctx, t.Who)
	if err != nil {
		return err
	}
	if !t.JSON {
		fmt.Fprintf(w, "%s, %s. help lists what I read; exit, or Ctrl-C on an empty line, leaves\n", t.Job.Name(), cmp.Or(room, "no room yet"))
	}
	kept, err := readHistory(t.History)
	if err != nil {
		return err
	}
	for {
		kept.show(rl)
		line, err := rl.Readline()
		switch {
		case errors.Is(err, readline.ErrInterrupt) && line != "":
			continue
		case errors.Is(err, readline.ErrInterrupt), errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		case slices.Contains(exitWords, strings.ToLower(strings.TrimSpace(line))):
			return nil
		}
		if err := kept.add(line); err != nil {
			return err
		}
		if err := t.say(ctx, w, line, true); err != nil && !errors.Is(err, ErrNotConfirmed) {
			return err
		}
	}
}

// maxHistory is how many lines of history are offered, the newest ones. The file holds all.
const maxHistory = 500

// history is what was typed at the prompt. It is kept in the file path unless that is "".
type history struct {
	path  string
	lines []string
}

func readHistory(path string) (*history, error) {
	h := &history{path: path}
	if path == "" {
		return h, nil
	}
	text, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	h.lines = strings.FieldsFunc(string(text), func(r rune) bool { return r == '\n' || r == '\r' })
	return h, nil
}

// add appends a line, unless it is blank or repeats the last one.
func (h *history) add(line string) error {
	line = strings.TrimSpace(line)
	if line == "" || len(h.lines) > 0 && h.lines[len(h.lines)-1] == line {
		return nil
	}
	h.lines = append(h.lines, line)
	if h.path == "" {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(h.path), 0o700); err != nil {
		return err
	}
	f, err := os.OpenFile(h.path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	_, err = f.WriteString(line + "\n")
	return errors.Join(err, f.Close())
}

// show loads the history into the editor. The editor's own saving is off because it
// saves an empty line for one that was found with Ctrl-R.
func (h *history) show(rl *readline.Instance) {
	rl.ResetHistory()
	for _, l := range append([]string{""}, h.lines[max(0, len(h.lines)-maxHistory):]...) {
		_ = rl.SaveHistory(l) // in memory only: no file is set
	}
}
