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

	"strapline/bot/scene"
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

// policy allows only what the page needs: its inline style and script, by their hashes,
// its icon as a data URL, and connections to this server.
var policy = "default-src 'none'; style-src " + hashOf(style) + "; script-src " + hashOf(script) +
	"; img-src data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

func hashOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// headers are set on every response, a 404 included.
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

// ServeHTTP answers a request. Without the secret, a job that exists looks like one that
// does not.
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
	p, want := s.page(name), noSecret
	if p != nil {
		want = p.secret
	}
	known := equal(secret, want) && p != nil
	switch {
	case known && !parted:
		s.show(w, r, p)
	case known && part == "live":
		s.stream(w, r, p.job)
	default:
		notFound(w)
	}
}

// notFound is the response for a page that does not exist, and for one whose secret is
// wrong.
func notFound(w http.ResponseWriter) { plain(w, http.StatusNotFound, "There is nothing here.") }

func plain(w http.ResponseWriter, code int, line string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(code)
	fmt.Fprintln(w, line)
}

// show sends the page.
func (s *Server) show(w http.ResponseWriter, r *http.Request, p *page) {
	var q query
	switch values := r.URL.Query(); {
	case values.Has("before"):
		var err error
		if q.before, err = strconv.ParseUint(values.Get("before"), 10, 64); err != nil || q.before == 0 {
			notFound(w)
			return
		}
	case values.Has("room"):
		if q.plan = parsePlanID(values); q.plan == nil {
			notFound(w)
			return
		}
	}
	ctx, cancel := context.WithTimeout(r.Context(), s.cfg.Limits.Write)
	defer cancel()
	v, err := s.view(ctx, p, q)
	if errors.Is(err, scene.ErrNone) {
		notFound(w)
		return
	}
	if err != nil {
		s.log.Error("a page cannot be shown", "job", p.job.Name(), "err", err)
		plain(w, http.StatusServiceUnavailable, "The job cannot be read just now. Load the page again in a minute.")
		return
	}
	doc, err := p.html(v, q == query{})
	if err != nil {
		s.log.Error("a page cannot be written", "job", p.job.Name(), "err", err)
		plain(w, http.StatusInternalServerError, "Something went wrong on this side.")
		return
	}
	html := doc.plain
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Vary", "Accept-Encoding")
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		html = doc.gzip
		w.Header().Set("Content-Encoding", "gzip")
	}
	w.Header().Set("Content-Length", strconv.Itoa(len(html)))
	if r.Method == http.MethodGet {
		_, _ = w.Write(html)
	}
}

// document is a page as HTML, plain and compressed.
type document struct{ plain, gzip []byte }

// rendered is a document and the view it was made from.
type rendered struct {
	document
	board *board
	seq   uint64
}

// html renders a view. If it is the newest, with nothing special asked for, it is rendered
// once for all readers.
func (p *page) html(v *view, newest bool) (document, error) {
	if !newest {
		return render(v)
	}
	p.rendering.Lock()
	defer p.rendering.Unlock()
	if p.rendered.board == v.board && p.rendered.seq == v.seq {
		return p.rendered.document, nil
	}
	html, err := render(v)
	if err == nil {
		p.rendered = rendered{html, v.board, v.seq}
	}
	return html, err
}

func render(v *view) (document, error) {
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
	return document{plain.Bytes(), packed.Bytes()}, err
}
