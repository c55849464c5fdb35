package page

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"errors"
	"fmt"
	"html/template"
	"io"
	"net/http"
	"strconv"
	"strings"

	"strapline/bot/sketch"
)

var (
	//go:embed page.html
	source string
	//go:embed page.css
	style string
	//go:embed page.js
	script string

	tmpl = template.Must(template.New("page").Funcs(template.FuncMap{"inc": func(i int) int { return i + 1 }}).Parse(source))
)

// policy lets a page do what ours does: its one style and script, by what they
// are, its icon, and asking here for what is new.
var policy = "default-src 'none'; style-src " + hashOf(style) + "; script-src " + hashOf(script) +
	"; img-src data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

func hashOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// headers of every answer, of nothing too.
var headers = [][2]string{
	{"Content-Security-Policy", policy},
	{"X-Content-Type-Options", "nosniff"},
	{"X-Frame-Options", "DENY"},
	{"Referrer-Policy", "no-referrer"}, // the secret is in the address
	{"Cache-Control", "no-store"},
	{"Cross-Origin-Opener-Policy", "same-origin"},
	{"Cross-Origin-Embedder-Policy", "require-corp"},
	{"Cross-Origin-Resource-Policy", "same-origin"},
	{"X-Robots-Tag", "noindex, nofollow"},
}

// ServeHTTP answers a request. Only who knows the secret learns that there is anything.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	for _, h := range headers {
		w.Header().Set(h[0], h[1])
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		plain(w, http.StatusMethodNotAllowed, "This page is read-only.")
		return
	}
	name, rest, _ := strings.Cut(strings.TrimPrefix(r.URL.Path, "/"), "/")
	secret, part, parted := strings.Cut(rest, "/")
	p, want := s.page(name), nobody
	if p != nil {
		want = p.secret
	}
	known := right(secret, want) && p != nil
	switch {
	case known && !parted:
		s.show(w, r, p)
	case known && part == "live":
		s.stream(w, r, p.job)
	default:
		nothing(w)
	}
}

// nothing is the answer where there is nothing, and to whoever should think so.
func nothing(w http.ResponseWriter) { plain(w, http.StatusNotFound, "There is nothing here.") }

func plain(w http.ResponseWriter, code int, line string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(code)
	fmt.Fprintln(w, line)
}

// show sends the page.
func (s *Server) show(w http.ResponseWriter, r *http.Request, p *page) {
	var q query
	switch said := r.URL.Query(); {
	case said.Has("before"):
		var err error
		if q.before, err = strconv.ParseUint(said.Get("before"), 10, 64); err != nil || q.before == 0 {
			nothing(w)
			return
		}
	case said.Has("room"):
		if q.which = asked(said); q.which == nil {
			nothing(w)
			return
		}
	}
	ctx, cancel := context.WithTimeout(r.Context(), s.cfg.Limits.Write)
	defer cancel()
	v, err := s.view(ctx, p, q)
	if errors.Is(err, sketch.ErrNone) {
		nothing(w)
		return
	}
	if err != nil {
		s.log.Error("a page cannot be shown", "job", p.job.Name(), "err", err)
		plain(w, http.StatusServiceUnavailable, "The job cannot be read just now. Load the page again in a minute.")
		return
	}
	sent, err := p.html(v, q == query{})
	if err != nil {
		s.log.Error("a page cannot be written", "job", p.job.Name(), "err", err)
		plain(w, http.StatusInternalServerError, "Something went wrong on this side.")
		return
	}
	html := sent.plain
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Vary", "Accept-Encoding")
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		html = sent.packed
		w.Header().Set("Content-Encoding", "gzip")
	}
	w.Header().Set("Content-Length", strconv.Itoa(len(html)))
	if r.Method == http.MethodGet {
		_, _ = w.Write(html)
	}
}

// sent is a page as it is sent: with pictures in it, and read on a phone, it is worth packing.
type sent struct{ plain, packed []byte }

// written is a page as it was last sent.
type written struct {
	sent
	of  *board
	seq uint64
}

// html writes a page. The newest is written once for all who ask for it.
func (p *page) html(v *view, newest bool) (sent, error) {
	if !newest {
		return write(v)
	}
	p.writing.Lock()
	defer p.writing.Unlock()
	if p.written.of == v.board && p.written.seq == v.seq {
		return p.written.sent, nil
	}
	html, err := write(v)
	if err == nil {
		p.written = written{html, v.board, v.seq}
	}
	return html, err
}

func write(v *view) (sent, error) {
	var plain, packed bytes.Buffer
	pack, err := gzip.NewWriterLevel(&packed, gzip.BestSpeed)
	if err == nil {
		err = tmpl.Execute(io.MultiWriter(&plain, pack), struct {
			*view
			Style  template.CSS
			Script template.JS
		}{v, template.CSS(style), template.JS(script)})
	}
	if err == nil {
		err = pack.Close()
	}
	return sent{plain.Bytes(), packed.Bytes()}, err
}
