package page_test

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"go.uber.org/goleak"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/job"
	"strapline/bot/message"
	"strapline/bot/page"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

const flat = "larkspur-upper-flat"

// open makes a bot with one job, and plays a conversation to it.
func open(t testing.TB, chat string) (*job.Jobs, *job.Job) {
	t.Helper()
	clock := new(console.Clock)
	clock.Set(time.Date(2026, 5, 4, 7, 0, 0, 0, time.UTC))
	b, err := bot.New(bot.Options{Dir: t.TempDir(), Now: clock.Now, Loc: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	j, err := b.Job(flat)
	if err != nil {
		t.Fatal(err)
	}
	if chat != "" {
		f, err := os.Open("../../testdata/" + chat)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		steps, err := console.ReadChat(f)
		if err != nil {
			t.Fatal(err)
		}
		if err := (console.Play{Job: j, Clock: clock}).Run(context.Background(), steps, io.Discard); err != nil {
			t.Fatal(err)
		}
	}
	link(t, j) // the mark creates the job's file, without which it gets no page
	return b, j
}

// text sends a message that must not be refused.
func text(t testing.TB, j *job.Job, who, words string, photos ...string) {
	t.Helper()
	out, err := j.Handle(context.Background(), message.In{Who: who, Sent: time.Date(2026, 5, 4, 16, 0, 0, 0, time.UTC), Text: words, Photos: photos})
	if err != nil || out.Failed() || len(out.Answers) == 0 || !out.Answers[0].Saved {
		t.Fatalf("%s %q: %v %+v", who, words, err, out)
	}
}

// newServer makes a server whose pages are never older than the request.
func newServer(b *job.Jobs) *page.Server {
	return newServerWith(page.Config{Bot: b, Loc: time.UTC, Limits: page.Limits{Fresh: 1}})
}

// newServerWith makes a server with pages for the open jobs.
func newServerWith(cfg page.Config) *page.Server {
	s := page.New(cfg)
	s.AddPages(context.Background())
	return s
}

// link returns the path of the job's page.
func link(t testing.TB, j *job.Job) string {
	t.Helper()
	secret, err := page.Secret(context.Background(), j, false)
	if err != nil {
		t.Fatal(err)
	}
	return page.Link("", j.Name(), secret)
}

// ask sends a request to h.
func ask(h http.Handler, method, path string) *http.Response {
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(method, path, nil))
	return w.Result()
}

// body returns the body of a GET that must succeed.
func body(t testing.TB, h http.Handler, path string) string {
	t.Helper()
	r := ask(h, "GET", path)
	data, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != http.StatusOK {
		t.Fatalf("%s: %v %s\n%s", path, err, r.Status, data)
	}
	return string(data)
}

// part returns a section of a page.
func part(t testing.TB, html, id string) string {
	t.Helper()
	_, after, ok := strings.Cut(html, `<section id="`+id+`"`)
	in, _, end := strings.Cut(after, "</section>")
	if !ok || !end {
		t.Fatalf("no section %s in\n%s", id, html)
	}
	return in
}
