package page_test

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Without the secret every path gets the same bytes, whether or not the job exists.
func TestNothingLooksAlike(t *testing.T) {
	b, j := open(t, "upper-flat.chat")
	srv := httptest.NewServer(newServer(b))
	defer srv.Close()
	at := link(t, j)
	secret := strings.TrimPrefix(at, "/"+flat+"/")
	answer := func(method, path string) string {
		req, err := http.NewRequest(method, srv.URL, nil)
		if err != nil {
			t.Fatal(err)
		}
		req.URL.Opaque = path // sent verbatim, not cleaned
		r, err := srv.Client().Transport.RoundTrip(req)
		if err != nil {
			t.Fatal(err)
		}
		defer r.Body.Close()
		r.Header.Del("Date")
		dump, err := httputil.DumpResponse(r, true)
		if err != nil {
			t.Fatal(err)
		}
		return string(dump)
	}
	for _, method := range []string{"GET", "HEAD"} {
		want := answer(method, "/nothing/at/all")
		if !strings.HasPrefix(want, "HTTP/1.1 404") {
			t.Error(want)
		}
		for _, path := range []string{
			"/", "//", "/" + flat, "/" + flat + "/", "/" + flat + "//", "/" + flat + "/" + strings.Repeat("A", len(secret)), "/" + flat + "/" + secret[1:], at + "A",
			at + "/", at + "/live/", at + "/other", at + "//live", "/" + at, "/" + flat + "/../" + flat + "/" + secret, "/" + flat + "/" + strings.ToLower(secret),
			"/other/" + secret, "/" + secret, "/" + secret + "/" + flat, "/" + strings.ToUpper(flat) + "/" + secret, at + "?before=x", "/favicon.ico", "/robots.txt",
			"/" + flat + "/live", "/" + flat + "/%00", "/%2e%2e/x",
		} {
			if got := answer(method, path); got != want {
				t.Errorf("%s %s:\n%s\nwant\n%s", method, path, got, want)
			}
		}
	}
	// The page is read-only, and says so in the same way for pages that do not exist.
	for _, method := range []string{"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "LOOK"} {
		there, not := answer(method, at), answer(method, "/nothing")
		if there != not || !strings.HasPrefix(there, "HTTP/1.1 405") || !strings.Contains(there, "Allow: GET, HEAD") {
			t.Errorf("%s:\n%s\n%s", method, there, not)
		}
	}
}

func TestHeaders(t *testing.T) {
	b, j := open(t, "upper-flat.chat")
	h, at := newServer(b), link(t, j)
	for method, paths := range map[string][]string{"GET": {at, at + "?before=9", "/nothing"}, "HEAD": {at, at + "/live"}, "POST": {at}} {
		for _, path := range paths {
			r := ask(h, method, path)
			for name, want := range map[string]string{
				"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cache-Control": "no-store", "X-Frame-Options": "DENY",
				"Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Embedder-Policy": "require-corp", "Cross-Origin-Resource-Policy": "same-origin",
				"X-Robots-Tag": "noindex, nofollow",
			} {
				if got := r.Header.Get(name); got != want {
					t.Errorf("%s %s: %s: %q", method, path, name, got)
				}
			}
			csp := r.Header.Get("Content-Security-Policy")
			for _, want := range []string{"default-src 'none'", "connect-src 'self'", "base-uri 'none'", "form-action 'none'", "frame-ancestors 'none'", "img-src data:"} {
				if !strings.Contains(csp, want) {
					t.Errorf("%s %s: policy %q", method, path, csp)
				}
			}
			if strings.Contains(csp, "unsafe") || strings.Contains(csp, "*") || strings.Contains(csp, "http") {
				t.Errorf("%s %s: policy %q", method, path, csp)
			}
			if data, _ := io.ReadAll(r.Body); method == "HEAD" && len(data) > 0 {
				t.Errorf("a body for HEAD %s", path)
			}
		}
	}
}

// The hashes in the policy match the style and script in the page.
func TestPolicyFitsThePage(t *testing.T) {
	b, j := open(t, "")
	r := ask(newServer(b), "GET", link(t, j))
	data, _ := io.ReadAll(r.Body)
	for _, tag := range []string{"style", "script"} {
		m := regexp.MustCompile(`(?s)<`+tag+`>(.*?)</`+tag+`>`).FindAllSubmatch(data, -1)
		if len(m) != 1 {
			t.Fatalf("%d of %s", len(m), tag)
		}
		sum := sha256.Sum256(m[0][1])
		if want := tag + "-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"; !strings.Contains(r.Header.Get("Content-Security-Policy"), want) {
			t.Errorf("%s is not in %s", want, r.Header.Get("Content-Security-Policy"))
		}
	}
	for _, bad := range []string{" style=", " onclick=", "<img", "<iframe", "<form", "<link rel=\"stylesheet"} {
		if strings.Contains(string(data), bad) {
			t.Errorf("%s in the page", bad)
		}
	}
	if m := regexp.MustCompile(`(?:src|href)="(?:https?:)?//`).Find(data); m != nil {
		t.Errorf("the page asks elsewhere: %s", m)
	}
}

// Text has a contrast of at least 4.5:1 with its background, by day and by night (WCAG
// 2.2, success criterion 1.4.3, with its definitions of contrast ratio and relative
// luminance).
func TestContrast(t *testing.T) {
	css, err := os.ReadFile("page.css")
	if err != nil {
		t.Fatal(err)
	}
	screen, print, _ := strings.Cut(string(css), "@media print")
	day, night, _ := strings.Cut(screen, "@media (prefers-color-scheme: dark)")
	night, _, _ = strings.Cut(night, "* {")
	colour := regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{3,6});`)
	for name, sheet := range map[string]string{"day": day, "night": night, "print": print} {
		is := map[string]string{}
		for _, m := range colour.FindAllStringSubmatch(sheet, -1) {
			is[m[1]] = m[2]
		}
		for _, pair := range []string{
			"ink paper", "ink sheet", "ink wood-pale", "ink new", "quiet paper", "quiet sheet", "quiet new", "link paper", "link sheet", "link new", "wood sheet",
			"head-ink head", "head-quiet head", "ink-line ink-sheet", "ink-quiet ink-sheet", "ink-board ink-sheet", "ink-dim ink-sheet", "ink-hidden ink-sheet",
			"ink-run ink-sheet",
		} {
			words, on, _ := strings.Cut(pair, " ")
			if is[words] == "" || is[on] == "" {
				t.Errorf("%s: no %s", name, pair)
				continue
			}
			a, b := luminance(t, is[words]), luminance(t, is[on])
			if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < 4.5 {
				t.Errorf("%s: %s: %.2f", name, pair, ratio)
			}
		}
		// Lines need 3:1 (criterion 1.4.11). By day and on paper the pictures keep their own
		// colours, where a darker hatch would hide what it lies over; those just miss it.
		for _, line := range []string{"ink-centre", "ink-hatch"} {
			a, b := luminance(t, is[line]), luminance(t, is["ink-sheet"])
			if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < 2.8 {
				t.Errorf("%s: %s: %.2f", name, line, ratio)
			}
		}
	}
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	h := strings.TrimPrefix(hex, "#")
	if len(h) == 3 {
		h = fmt.Sprintf("%c%c%c%c%c%c", h[0], h[0], h[1], h[1], h[2], h[2])
	}
	var sum float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(h[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}
