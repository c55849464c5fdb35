//go:build unix

package main

import (
	"bufio"
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"strapline/bot"
	"strapline/bot/message"
	"strapline/bot/wire/wiretest"
	"strapline/store"
)

var long = flag.Bool("long", false, "run the long versions of tests")

const flat = "larkspur-upper-flat"

// process is a running `straplined`.
type process struct {
	cmd  *exec.Cmd
	addr string // of the wire

	mu  sync.Mutex
	log bytes.Buffer
	eof chan struct{} // closed when the log ends
}

var wireOpen = regexp.MustCompile(`msg="the wire is open" addr=(\S+)`)

// start runs a server on a data folder and waits until the wire is open.
func start(t testing.TB, dir string, env ...string) *process {
	t.Helper()
	p := &process{cmd: exec.Command("straplined", "--data", dir, "--wire", "0"), eof: make(chan struct{})}
	p.cmd.Env = append(os.Environ(), env...)
	r, err := p.cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := p.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = p.cmd.Process.Kill() }) // no effect once it has exited
	opened := make(chan string, 1)
	go func() {
		defer close(p.eof)
		defer close(opened)
		for lines := bufio.NewScanner(r); lines.Scan(); {
			p.mu.Lock()
			fmt.Fprintln(&p.log, lines.Text())
			p.mu.Unlock()
			if m := wireOpen.FindStringSubmatch(lines.Text()); m != nil {
				opened <- m[1]
			}
		}
	}()
	if p.addr = <-opened; p.addr == "" {
		t.Fatalf("straplined did not open its wire:\n%s", p.said())
	}
	return p
}

// said returns what the process has logged so far.
func (p *process) said() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.log.String()
}

// end sends a signal and waits for the process to exit.
func (p *process) end(t testing.TB, sig os.Signal) error {
	t.Helper()
	if err := p.cmd.Process.Signal(sig); err != nil {
		t.Fatal(err)
	}
	<-p.eof
	return p.cmd.Wait()
}

// stop ends the process as a service manager would.
func (p *process) stop(t testing.TB) {
	t.Helper()
	if err := p.end(t, syscall.SIGTERM); err != nil {
		t.Errorf("straplined ended with %v:\n%s", err, p.said())
	}
}

// eventually polls for something that another process does.
func eventually(t testing.TB, what string, done func() bool) {
	t.Helper()
	for deadline := time.Now().Add(20 * time.Second); !done(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("waited in vain for %s", what)
		}
	}
}

func join(t testing.TB, addr, name string) *wiretest.Peer {
	t.Helper()
	p, err := wiretest.Dial(addr, name, flat)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { p.Conn.Close() })
	return p
}

func say(t testing.TB, p *wiretest.Peer, line, want string) wiretest.Reply {
	t.Helper()
	r, err := p.Say(line)
	if err != nil || r.Status != want {
		t.Fatalf("%.80q was answered %q %q (%v), want %q", line, r.Status, r.Lines, err, want)
	}
	return r
}

func mustCheck(t testing.TB, path string) store.Report {
	t.Helper()
	rep, err := store.Check(path, nil)
	if err != nil || len(rep.Faults) > 0 {
		t.Fatalf("check %s: %v %v", path, rep.Faults, err)
	}
	return rep
}

func TestServe(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	const pass = "three-planks-and-a-jack"
	passFile := filepath.Join(t.TempDir(), "pass")
	if err := os.WriteFile(passFile, []byte(pass+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	p := start(t, dir, "STRAPLINE_WIRE_PASS_FILE="+passFile)
	if _, err := wiretest.Dial(p.addr, "lead", flat+" wrong-"+pass); err == nil {
		t.Error("a wrong pass word was taken")
	}
	lead, err := wiretest.Dial(p.addr, "lead", flat+" "+pass)
	if err != nil {
		t.Fatal(err)
	}
	defer lead.Conn.Close()
	say(t, lead, "note one", "ok 1")
	p.stop(t)
	log := p.said()
	for _, want := range []string{"serving", "a peer came", "who=lead", "wrong pass word", "msg=stopped jobs=1 entries=1 commits=1 waiting=0 peers=0 lines=1"} {
		if !strings.Contains(log, want) {
			t.Errorf("no %q in the log", want)
		}
	}
	if strings.Contains(log, pass) {
		t.Error("the pass word is in the log")
	}
	if t.Failed() {
		t.Log(log)
	}
	// A restarted server carries on where it was, and also stops on an interrupt.
	p = start(t, dir)
	lead = join(t, p.addr, "lead")
	say(t, lead, "note two", "ok 2")
	if err := p.end(t, os.Interrupt); err != nil {
		t.Errorf("ended with %v", err)
	}
}

// The server logs a line of figures every minute.
func TestHealth(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		dir := filepath.Join(t.TempDir(), "data")
		b, err := bot.New(bot.Options{Dir: dir})
		if err != nil {
			t.Fatal(err)
		}
		defer b.Close()
		j, err := b.Job(flat)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := j.Handle(t.Context(), message.In{Who: "lead", Text: "note one"}); err != nil {
			t.Fatal(err)
		}
		var log bytes.Buffer
		s := &server{jobs: b, dir: dir, log: slog.New(slog.NewTextHandler(&log, nil))}
		ctx, cancel := context.WithTimeout(t.Context(), 3*time.Minute+time.Second)
		defer cancel()
		if err := s.health(ctx); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(log.String(), "msg=health jobs=1 entries=1 commits=1 waiting=0\n"); n != 3 {
			t.Errorf("%d health lines in 3 minutes:\n%s", n, log.String())
		}
	})
}

// A hot backup, by signal or over the wire, is a sound job.
func TestServeBackup(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	p := start(t, dir)
	lead := join(t, p.addr, "lead")
	say(t, lead, "note before the copy", "ok 1")
	copies := func() []string {
		list, err := filepath.Glob(filepath.Join(dir, "backups", "*.job"))
		if err != nil {
			t.Fatal(err)
		}
		return list
	}
	if err := p.cmd.Process.Signal(syscall.SIGUSR1); err != nil {
		t.Fatal(err)
	}
	eventually(t, "a copy", func() bool { return len(copies()) == 1 })
	say(t, lead, "note after the copy", "ok 2")
	if rep := mustCheck(t, copies()[0]); rep.LastSeq != 1 {
		t.Errorf("the copy has %d entries", rep.LastSeq)
	}
	if err := os.Remove(copies()[0]); err != nil {
		t.Fatal(err)
	}
	r := say(t, lead, "backup", "ok 0")
	name, _ := strings.CutPrefix(r.Lines[0], "copied to ")
	if rep := mustCheck(t, filepath.Join(dir, name)); rep.LastSeq != 2 {
		t.Errorf("the copy has %d entries", rep.LastSeq)
	}
	say(t, lead, "backup", "no 1")
	p.stop(t)
	mustCheck(t, filepath.Join(dir, flat+".job"))
	// No file may be readable by other users.
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if want := map[bool]os.FileMode{true: 0o700, false: 0o600}[d.IsDir()]; err == nil && info.Mode().Perm() != want {
			t.Errorf("%s has mode %o, want %o", path, info.Mode().Perm(), want)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Bad flags are refused at startup, and the message says what to do.
func TestServeRefuses(t *testing.T) {
	open := filepath.Join(t.TempDir(), "open")
	if err := os.Mkdir(open, 0o755); err != nil {
		t.Fatal(err)
	}
	fresh := filepath.Join(t.TempDir(), "data")
	for _, c := range []struct {
		args, env []string
		want      string
	}{
		{nil, nil, "nothing to serve"},
		{[]string{"--wire", "0", "--data", open}, nil, "chmod 700"},
		{[]string{"--wire", "0.0.0.0:0"}, nil, "set a pass word"},
		{[]string{"--wire", "0.0.0.0:0"}, []string{"STRAPLINE_WIRE_PASS=short"}, "at least 12 bytes"},
		{[]string{"--wire", "0"}, []string{"STRAPLINE_WIRE_PASS=x", "STRAPLINE_WIRE_PASS_FILE=x"}, "set one"},
		{[]string{"--wire", "0"}, []string{"STRAPLINE_WIRE_PASS_FILE=" + fresh + "/none"}, "no such file"},
		{[]string{"--wire", "0"}, []string{"STRAPLINE_WIRE_PASS_FILE=/dev/null"}, "is empty"},
		{[]string{"--wire", "nowhere:x"}, nil, "is no address"},
		{[]string{"--page", "0.0.0.0:0"}, nil, "not encrypted"},
		{[]string{"--page", "0", "--page-url", "http://log.example.test"}, nil, "no address like https"},
	} {
		cmd := exec.CommandContext(t.Context(), "straplined", append([]string{"--data", fresh}, c.args...)...)
		cmd.Env = append(os.Environ(), c.env...)
		out, err := cmd.CombinedOutput()
		if cmd.ProcessState.ExitCode() != 1 || !strings.Contains(string(out), c.want) {
			t.Errorf("straplined %v ended with %v, want %q:\n%s", c.args, err, c.want, out)
		}
	}
}

// 500 peers, half of which never read, fit in 200 MB.
func TestManyPeers(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("reads /proc")
	}
	if info, ok := debug.ReadBuildInfo(); ok && slices.Contains(info.Settings, debug.BuildSetting{Key: "-race", Value: "true"}) {
		t.Skip("the race detector takes memory of its own")
	}
	const peers, notes, most = 500, 20, 200 << 10 // KB
	dir := filepath.Join(t.TempDir(), "data")
	p := start(t, dir)
	before := peak(t, p)
	all := make([]*wiretest.Peer, peers)
	for i := range all {
		all[i] = join(t, p.addr, fmt.Sprintf("hanger%d", i))
	}
	text := strings.Repeat("x", 4000)
	for i := range notes {
		say(t, all[i], "note "+text, fmt.Sprintf("ok %d", i+1))
	}
	var wg sync.WaitGroup
	for i, q := range all {
		if i%2 == 1 {
			// Ask for the whole log again and again, and read none of it.
			if _, err := io.WriteString(q.Conn, strings.Repeat("since 1\nlog\n", 50)+"note "+text[:3000]); err != nil {
				t.Fatal(err)
			}
			continue
		}
		wg.Go(func() {
			if r, err := q.Say("since 1"); err != nil || r.Seq() != notes || len(q.Seen) < notes {
				t.Errorf("a peer got %q (%v) and %d entries", r.Status, err, len(q.Seen))
			}
		})
	}
	wg.Wait()
	say(t, all[0], "note last", fmt.Sprintf("ok %d", notes+1))
	kb := peak(t, p)
	t.Logf("%d peers: %.1f MB at most, %.1f MB before the first", peers, float64(kb)/1024, float64(before)/1024)
	if kb > most {
		t.Errorf("%d peers took %d KB", peers, kb)
	}
	for _, q := range all {
		q.Conn.Close()
	}
	p.stop(t)
}

// peak returns the peak memory of a process, in KB.
func peak(t *testing.T, p *process) (kb int) {
	t.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", p.cmd.Process.Pid))
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(data), "VmHWM:")
	if _, err := fmt.Sscan(rest, &kb); err != nil {
		t.Fatal(err)
	}
	return kb
}
