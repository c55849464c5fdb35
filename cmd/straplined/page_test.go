//go:build unix

package main

import (
	"bufio"
	"io"
	"net/http"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"strapline/bot"
	"strapline/bot/message"
)

var jobsPage = regexp.MustCompile(`msg="the page of a job" job=` + flat + ` link=(\S+)`)

// servePage serves the jobs' pages and returns the link from the log.
func servePage(t *testing.T, dir string) (link string, stop func()) {
	t.Helper()
	cmd := exec.Command("straplined", "--data", dir, "--page", "0")
	r, err := cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = cmd.Process.Kill() })
	var said strings.Builder
	for lines := bufio.NewScanner(io.TeeReader(r, &said)); link == "" && lines.Scan(); {
		if m := jobsPage.FindStringSubmatch(lines.Text()); m != nil {
			link = m[1]
		}
	}
	if link == "" {
		t.Fatalf("no link in the log:\n%s", said.String())
	}
	return link, func() {
		t.Helper()
		if err := cmd.Process.Signal(syscall.SIGTERM); err != nil {
			t.Fatal(err)
		}
		_, _ = io.Copy(io.Discard, r)
		if err := cmd.Wait(); err != nil {
			t.Errorf("ended with %v", err)
		}
	}
}

// links runs straplined to print links and returns its output.
func links(t *testing.T, dir string, args ...string) string {
	t.Helper()
	out, err := exec.Command("straplined", append([]string{"--data", dir, "--page", "7718"}, args...)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// The link to a job's page is logged, and survives a restart until a new one is made.
func TestPage(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	b, err := bot.New(bot.Options{Dir: dir})
	if err != nil {
		t.Fatal(err)
	}
	j, err := b.Job(flat)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := j.Handle(t.Context(), message.In{Who: "lead", Text: "note one"}); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	link, stop := servePage(t, dir)
	r, err := http.Get(link)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if html, err := io.ReadAll(r.Body); err != nil || r.StatusCode != http.StatusOK || !strings.Contains(string(html), "<h1>"+flat) {
		t.Errorf("%s: %v %s %s", link, err, r.Status, html)
	}
	stop()

	path := link[strings.Index(link, "/"+flat):]
	if got := links(t, dir, "--links"); got != "http://127.0.0.1:7718"+path+"\n" {
		t.Errorf("%q, and the log had %s", got, link)
	}
	fresh := links(t, dir, "--new-link", "Larkspur upper flat", "--page-url", "https://log.example.test/")
	if !strings.HasPrefix(fresh, "https://log.example.test/"+flat+"/") || strings.HasSuffix(fresh, path+"\n") {
		t.Errorf("a new link: %q, the old one %s", fresh, link)
	}
	link, stop = servePage(t, dir)
	if !strings.HasSuffix("https://log.example.test"+link[strings.Index(link, "/"+flat):]+"\n", fresh) {
		t.Errorf("the new link is not %s", link)
	}
	stop()
	out, err := exec.Command("straplined", "--data", dir, "--page", "0", "--new-link", "other").CombinedOutput()
	if err == nil || !strings.Contains(string(out), "no job") {
		t.Errorf("%v %s", err, out)
	}
}
