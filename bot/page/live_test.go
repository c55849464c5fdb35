package page_test

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"strapline/bot/job"
	"strapline/bot/page"
)

// serve serves ln until the test ends or stop is called.
func serve(t testing.TB, cfg page.Config, ln net.Listener) (stop func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- page.New(cfg).Serve(ctx, ln) }()
	stop = sync.OnceFunc(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	t.Cleanup(stop)
	return stop
}

// loopback is a loopback address with a free port.
var loopback = &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1)}

// tcp serves on loopback and returns the URL of the job's page.
func tcp(t testing.TB, cfg page.Config, j *job.Job) (url string, stop func()) {
	t.Helper()
	ln, err := page.Listen(t.Context(), loopback, "")
	if err != nil {
		t.Fatal(err)
	}
	stop = serve(t, cfg, ln)
	return "http://" + ln.Addr().String() + link(t, j), stop
}

// stream is an open event stream.
type stream struct {
	*http.Response
	lines *bufio.Scanner
}

func listen(t testing.TB, c *http.Client, url string) *stream {
	t.Helper()
	r, err := c.Get(url + "/live")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Body.Close() })
	return &stream{r, bufio.NewScanner(r.Body)}
}

// next returns the number in the next event, "" at the end.
func (l *stream) next() string {
	for l.lines.Scan() {
		if n, ok := strings.CutPrefix(l.lines.Text(), "data: "); ok {
			return n
		}
	}
	return ""
}

func client(t testing.TB) *http.Client {
	tr := &http.Transport{}
	t.Cleanup(tr.CloseIdleConnections)
	return &http.Client{Transport: tr}
}

// Streams announce every message, whoever sent it, and end when the server stops.
func TestNews(t *testing.T) {
	b, j := open(t, "")
	url, stop := tcp(t, page.Config{Bot: b, Limits: page.Limits{Gather: 1}}, j)
	c := client(t)
	l := listen(t, c, url)
	if l.StatusCode != http.StatusOK || l.Header.Get("Content-Type") != "text/event-stream" || l.Header.Get("Cache-Control") != "no-store" {
		t.Error(l.Status, l.Header)
	}
	if n := l.next(); n != "0" {
		t.Errorf("first %q", n)
	}
	for i := 1; i <= 200; i++ { // more than a watch holds
		text(t, j, "lead", fmt.Sprintf("note %d", i))
	}
	last := ""
	for last != "200" {
		if last = l.next(); last == "" {
			t.Fatal("the stream ended")
		}
	}
	stop()
	if n := l.next(); n != "" {
		t.Errorf("%q after the end", n)
	}
}

// After a burst of messages that a stream could not keep up with, it is quiet again.
func TestQuietAgain(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b, j := open(t, "")
		ln := newPipes()
		stop := serve(t, page.Config{Bot: b}, ln)
		l := listen(t, ln.client(t), "http://page.test"+link(t, j))
		l.next()
		for i := range 50 {
			text(t, j, "lead", fmt.Sprintf("note %d", i))
		}
		for l.next() != "50" {
		}
		began := time.Now()
		l.next()
		if took := time.Since(began); took < 10*time.Second {
			t.Errorf("said again after %v", took)
		}
		text(t, j, "lead", "note last")
		began = time.Now()
		if n := l.next(); n != "51" || time.Since(began) > time.Second {
			t.Errorf("%s after %v", n, time.Since(began))
		}
		began = time.Now()
		ended := make(chan struct{})
		go func() { defer close(ended); stop() }()
		l.next()
		<-ended
		if took := time.Since(began); took >= time.Second {
			t.Errorf("a stream held up the end for %v", took)
		}
	})
}

// The number of connections is limited.
func TestConnectionsAreBounded(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b, j := open(t, "")
		ln := newPipes()
		serve(t, page.Config{Bot: b, Limits: page.Limits{Conns: 1}}, ln)
		first := listen(t, ln.client(t), "http://page.test"+link(t, j))
		here, there := net.Pipe()
		defer here.Close()
		select {
		case ln.come <- there:
			t.Error("a second was taken")
		case <-time.After(5 * time.Second):
		}
		first.Body.Close()
		ln.come <- there
	})
}

// The links are logged, also for a job that is opened later.
func TestLinksInTheLog(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b, j := open(t, "")
		var mu sync.Mutex
		var log bytes.Buffer
		said := func(what string) int {
			mu.Lock()
			defer mu.Unlock()
			return strings.Count(log.String(), what)
		}
		serve(t, page.Config{Bot: b, Front: "https://log.example.test/jobs/", Log: slog.New(slog.NewTextHandler(writer(func(p []byte) (int, error) {
			mu.Lock()
			defer mu.Unlock()
			return log.Write(p)
		}), nil))}, newPipes())
		synctest.Wait()
		if want := "https://log.example.test/jobs" + link(t, j); said(want) != 1 {
			t.Errorf("no %s in\n%s", want, log.String())
		}
		later, err := b.Job("garage")
		if err != nil {
			t.Fatal(err)
		}
		text(t, later, "lead", "note roof is on")
		time.Sleep(3 * time.Minute)
		synctest.Wait()
		if said(link(t, later)) != 1 || said(link(t, j)) != 1 {
			t.Error(log.String())
		}
	})
}

type writer func([]byte) (int, error)

func (w writer) Write(p []byte) (int, error) { return w(p) }

// The number of streams is limited, but not of readers of the page. A stream that ends
// makes room for another.
func TestStreamsAreBounded(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b, j := open(t, "")
		ln := newPipes()
		serve(t, page.Config{Bot: b, Limits: page.Limits{Live: 2}}, ln)
		c, url := ln.client(t), "http://page.test"+link(t, j)
		first := listen(t, c, url)
		listen(t, c, url).next()
		full := listen(t, c, url)
		if full.StatusCode != http.StatusServiceUnavailable || full.Header.Get("Retry-After") == "" {
			t.Error(full.Status)
		}
		if r, err := c.Get(url); err != nil || r.StatusCode != http.StatusOK {
			t.Error(r, err)
		} else {
			r.Body.Close()
		}
		first.Body.Close()
		synctest.Wait()
		if l := listen(t, c, url); l.StatusCode != http.StatusOK {
			t.Error(l.Status)
		}
	})
}

// The number is repeated while there is nothing new, and a stream ends after Limits.Stay.
func TestBeats(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b, j := open(t, "")
		ln := newPipes()
		serve(t, page.Config{Bot: b}, ln)
		began := time.Now()
		l := listen(t, ln.client(t), "http://page.test"+link(t, j))
		beats := 0
		for l.next() != "" {
			beats++
		}
		if took := time.Since(began); took != time.Hour || beats < 239 || beats > 241 {
			t.Errorf("%d beats in %v", beats, took)
		}
	})
}

// A client that does not read a stream or a page, or sends half a request, is
// disconnected. The job is not held up.
func TestSlowReaders(t *testing.T) {
	for name, request := range map[string]string{
		"stream": "GET %s/live HTTP/1.1\r\nHost: page.test\r\n\r\n", "page": "GET %s HTTP/1.1\r\nHost: page.test\r\n\r\n",
		"half": "GET %s HTTP/1.1\r\nHo", "nothing": "",
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				b, j := open(t, "")
				ln := newPipes()
				serve(t, page.Config{Bot: b}, ln)
				conn := ln.dial()
				defer conn.Close()
				if request != "" {
					if _, err := io.WriteString(conn, strings.Replace(request, "%s", link(t, j), 1)); err != nil {
						t.Fatal(err)
					}
				}
				began := time.Now()
				for i := range 50 {
					text(t, j, "lead", fmt.Sprintf("note %d", i))
				}
				if took := time.Since(began); took != 0 {
					t.Errorf("the job was held up for %v", took)
				}
				time.Sleep(20 * time.Second)
				synctest.Wait()
				if _, err := conn.Write([]byte("x")); err == nil {
					t.Error("not dropped after 20 s")
				}
			})
		})
	}
}

// pipes is a listener of in-memory connections, which work in fake time.
type pipes struct {
	come   chan net.Conn
	closed chan struct{}
	once   sync.Once
}

func newPipes() *pipes { return &pipes{come: make(chan net.Conn), closed: make(chan struct{})} }

func (p *pipes) Accept() (net.Conn, error) {
	select {
	case c := <-p.come:
		return c, nil
	case <-p.closed:
		return nil, net.ErrClosed
	}
}

func (p *pipes) Close() error {
	p.once.Do(func() { close(p.closed) })
	return nil
}

func (p *pipes) Addr() net.Addr { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 80} }

func (p *pipes) dial() net.Conn {
	here, there := net.Pipe()
	p.come <- there
	return here
}

func (p *pipes) client(t testing.TB) *http.Client {
	tr := &http.Transport{DialContext: func(context.Context, string, string) (net.Conn, error) { return p.dial(), nil }}
	t.Cleanup(tr.CloseIdleConnections)
	return &http.Client{Transport: tr}
}

func TestListen(t *testing.T) {
	for _, c := range []struct{ ip, base, fault string }{
		{"127.0.0.1", "", ""}, {"::1", "", ""}, {"127.0.0.1", "https://log.example.test", ""}, {"0.0.0.0", "https://log.example.test/jobs/", ""},
		{"0.0.0.0", "", "not encrypted"}, {"::", "", "not encrypted"},
		{"0.0.0.0", "http://log.example.test", "no address"}, {"127.0.0.1", "log.example.test", "no address"}, {"127.0.0.1", "https://", "no address"}, {"127.0.0.1", "https://x?y", "no address"},
	} {
		ln, err := page.Listen(t.Context(), &net.TCPAddr{IP: net.ParseIP(c.ip)}, c.base)
		if err == nil {
			ln.Close()
		}
		if (err == nil) != (c.fault == "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%q %q: %v", c.ip, c.base, err)
		}
	}
}
