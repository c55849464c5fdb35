package page_test

import (
	"fmt"
	"io"
	"net/http"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/message"
	"strapline/bot/page"
)

// The page says the same as the replies that the crew gets.
func TestShowsHowTheJobStands(t *testing.T) {
	b, j := open(t, "upper-flat.chat")
	text(t, j, "hanger", "room bath 8' x 6'")
	text(t, j, "hanger", "straps ew 16 oc first 14 off north")
	text(t, j, "sparks", `bath: light 6" over tub 26 off west 30 off north`, "https://chat.example.test/larkspur/pl/one", "https://chat.example.test/larkspur/pl/two")
	text(t, j, "hanger", "ceiling up")
	text(t, j, "lead", "bath: snag screw missed strap 2")
	html := body(t, newServer(b), link(t, j))
	for id, wants := range map[string][]string{
		"rooms": {"<h3>kitchen</h3>", "all 4 rows up", "<h3>bath</h3>", `96&#34; east-west, 72&#34; north-south`, "ceiling up",
			`<div class="due"><dt>covered</dt><dd>1</dd>`, `<div class="due"><dt>snags</dt><dd>1</dd>`},
		"covered": {"bath light over tub", "6&#34;: 26&#34; off west, 30&#34; off north", "under the ceiling since", "May 4 16:00",
			`href="https://chat.example.test/larkspur/pl/two" rel="noreferrer noopener">photo 2`, "Power off and tested dead", "not the same as none"},
		"checks": {"<h3>hall</h3>", "electrical inspection <span class=\"by\">electrician", "hit water at May 4 10:33"},
		"snags":  {"<strong>bath</strong> screw missed strap 2", "lead"},
		"photos": {"light 6&#34; over tub", `href="https://chat.example.test/larkspur/pl/one"`},
		"log":    {"snag screw missed strap 2", "<b>sparks</b>", `<time datetime="2026-05-04T16:00:00Z">May 4 16:00</time>`},
	} {
		in := part(t, html, id)
		for _, want := range wants {
			if !strings.Contains(in, want) {
				t.Errorf("%s lacks %q:\n%s", id, want, in)
			}
		}
	}
	if in := part(t, html, "rooms"); strings.Contains(in, "<i></i>") {
		t.Errorf("all ceilings are up, and a row is not:\n%s", in)
	}
	text(t, j, "sparks", "bath: open light over tub")
	text(t, j, "lead", "bath: check add fire caulk")
	html = body(t, newServer(b), link(t, j))
	if in := part(t, html, "covered"); strings.Contains(in, "tub") || !strings.Contains(in, "Nothing that was noted") {
		t.Errorf("cut, and still covered:\n%s", in)
	}
	if in := part(t, html, "checks"); !strings.Contains(in, "fire caulk") {
		t.Errorf("no added check:\n%s", in)
	}
}

func TestEmptyJob(t *testing.T) {
	b, j := open(t, "")
	html := body(t, newServer(b), link(t, j))
	for _, want := range []string{"No room is noted yet", "Nothing is logged", "No snag is open", "No photo", "<h1>" + flat} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
}

// Viewing the page adds nothing to the job.
func TestLeavesNothing(t *testing.T) {
	b, j := open(t, "upper-flat.chat")
	h, at := newServer(b), link(t, j)
	before := j.Figures()
	for range 3 {
		body(t, h, at)
		body(t, h, at+"?before=20")
	}
	if diff := cmp.Diff(before, j.Figures()); diff != "" {
		t.Error(diff)
	}
}

var seq = regexp.MustCompile(`<li id="e(\d+)"`)

// Every entry is on exactly one page of the log, newest first. Hidden kinds are on none.
func TestPagesOfTheLog(t *testing.T) {
	b, j := open(t, "")
	text(t, j, "lead", "room kitchen 13' x 11'")
	text(t, j, "sparks", "light d1 26 off west 41 off north")
	for i := range 120 {
		if i%10 == 0 { // records who was told, a hidden entry
			if _, err := j.Handle(t.Context(), message.In{Who: "lead", Text: "where is d1"}); err != nil {
				t.Fatal(err)
			}
		}
		text(t, j, "lead", fmt.Sprintf("note number %d", i))
	}
	var want []string
	entries, err := j.Entries(t.Context(), 1, 1000)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range slices.Backward(entries) {
		want = append(want, fmt.Sprint(e.Seq))
	}
	h, at := newServer(b), link(t, j)
	var got []string
	query, pages := "", 0
	for ; pages < 10; pages++ {
		html := body(t, h, at+query)
		for _, m := range seq.FindAllStringSubmatch(html, -1) {
			got = append(got, m[1])
		}
		if newest := strings.Contains(html, `rel="prev"`); newest != (pages > 0) {
			t.Errorf("page %d: a link to the newest entries: %v", pages, newest)
		}
		_, after, more := strings.Cut(html, `<a href="?before=`)
		if !more {
			break
		}
		n, _, _ := strings.Cut(after, "#log")
		query = "?before=" + n
	}
	if diff := cmp.Diff(want, got); diff != "" || pages != 2 {
		t.Errorf("%d pages (-want +got):\n%s", pages+1, diff)
	}
	for _, bad := range []string{"0", "-1", "x", "", "99999999999999999999"} {
		if r := ask(h, "GET", at+"?before="+bad); r.StatusCode != http.StatusNotFound {
			t.Errorf("before=%q: %s", bad, r.Status)
		}
	}
	body(t, h, at+"?before=18446744073709551615")
}

// Messages are escaped on the page.
func TestHostileNotes(t *testing.T) {
	b, j := open(t, "")
	hostile := []string{
		`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `</script><script>alert(1)</script>`, `{{.Secret}} ${1}`,
		"line\u2028\u202eback", `'onmouseover='x`, `</title></style><!--`, `&lt;b&gt;`, strings.Repeat("W", 3000),
	}
	for _, h := range hostile {
		text(t, j, "lead", "note "+h)
	}
	text(t, j, "lead", "job larkspur & sons")
	text(t, j, "<b>lead</b>", "snag <u>here</u>", "javascript:alert(1)", "data:text/html,x", "https://chat.example.test/\"><b>")
	html := body(t, newServer(b), link(t, j))
	for _, bad := range []string{"<script>alert", "<img", "onerror=alert(1)>", "<u>", "<b><b>", "javascript:", "data:text", "Zgotmpl", "-->", "<!--"} {
		if strings.Contains(html, bad) {
			t.Errorf("%q stands in the page as it was texted", bad)
		}
	}
	if n := strings.Count(html, "<script>"); n != 1 {
		t.Errorf("%d scripts", n)
	}
	for _, want := range []string{"&lt;script&gt;alert(1)", "&amp;lt;b&amp;gt;", "<title>larkspur &amp; sons", strings.Repeat("W", 3000)} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
}

// A struck entry stays in the log and names who struck it.
func TestStruck(t *testing.T) {
	b, j := open(t, "")
	text(t, j, "lead", "note wrong")
	text(t, j, "sparks", "strike 1")
	if in := part(t, body(t, newServer(b), link(t, j)), "log"); !strings.Contains(in, "<del>note wrong</del>") || !strings.Contains(in, "struck by sparks, entry 2") {
		t.Error(in)
	}
	// The picture of a struck note is struck with it.
	text(t, j, "lead", "room den 12' x 10'")
	text(t, j, "sparks", "light d1 40 off west 40 off north", "https://chat.example.test/wrong")
	text(t, j, "sparks", "fix d1 50 off west 40 off north", "https://chat.example.test/right")
	text(t, j, "lead", "ceiling up")
	text(t, j, "lead", "strike 4")
	if in := part(t, body(t, newServer(b), link(t, j)), "covered"); strings.Contains(in, "/wrong") || !strings.Contains(in, "/right") {
		t.Error(in)
	}
}

// Readers at the same moment share one board, but the log is always current.
func TestOneViewForAll(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b, j := open(t, "")
		at, h := link(t, j), newServerWith(page.Config{Bot: b, Loc: time.UTC})
		body(t, h, at)
		text(t, j, "lead", "snag proud screw")
		html := body(t, h, at)
		if strings.Contains(part(t, html, "snags"), "proud screw") || !strings.Contains(part(t, html, "log"), "proud screw") || !strings.Contains(html, `data-last="0"`) {
			t.Error(html)
		}
		time.Sleep(time.Second)
		html = body(t, h, at)
		if !strings.Contains(part(t, html, "snags"), "proud screw") || !strings.Contains(html, `data-last="1"`) {
			t.Error(html)
		}
	})
}

// A page is limited in length and says how much it leaves out.
func TestMostListed(t *testing.T) {
	b, j := open(t, "")
	for i := range 230 {
		text(t, j, "lead", fmt.Sprintf("snag number %d", i), fmt.Sprintf("https://chat.example.test/%d", i))
	}
	text(t, j, "lead", "room hall 60' x 60'")
	text(t, j, "lead", "straps ew 16 oc first 14 off north")
	for _, grid := range []string{`lights 4" 9 x 9 even`, `vents 4" 9 x 9 even`, `boxes 4" 9 x 9 even`} {
		text(t, j, "lead", grid)
	}
	text(t, j, "lead", "ceiling up")
	for i := range 120 {
		text(t, j, "lead", fmt.Sprintf("room r%03d 10' x 10'", i))
	}
	html := body(t, newServer(b), link(t, j))
	if in := part(t, html, "rooms"); strings.Count(in, "<h3>") != 100 || !strings.Contains(in, "21 more rooms are not shown") {
		t.Errorf("%d rooms", strings.Count(in, "<h3>"))
	}
	for id, want := range map[string]string{"covered": "43 more are not shown", "snags": "30 more are not shown", "photos": "30 older ones are not shown"} {
		if in := part(t, html, id); strings.Count(in, "<li>") != 200 || !strings.Contains(in, want) {
			t.Errorf("%s: %d, and no %q", id, strings.Count(in, "<li>"), want)
		}
	}
	if in := part(t, html, "photos"); !strings.Contains(in, "number 229<") || strings.Contains(in, "number 29<") {
		t.Error("not the newest photos")
	}
}

// Each job has its own secret. It survives a restart, and a new one invalidates it.
func TestSecret(t *testing.T) {
	dir := t.TempDir()
	reopen := func() (*job.Jobs, *job.Job) {
		b, err := bot.New(bot.Options{Dir: dir})
		if err != nil {
			t.Fatal(err)
		}
		j, err := b.Job(flat)
		if err != nil {
			t.Fatal(err)
		}
		return b, j
	}
	b, j := reopen()
	at := link(t, j)
	if len(at) < len("/"+flat+"/")+26 { // 26 letters of 5 bits: 130 bits
		t.Errorf("a short secret in %s", at)
	}
	other, err := b.Job("other")
	if err != nil {
		t.Fatal(err)
	}
	if strings.HasSuffix(link(t, other), at[len(at)-26:]) {
		t.Error("two jobs have one secret")
	}
	if r := ask(newServer(b), "GET", "/other"+strings.TrimPrefix(at, "/"+flat)); r.StatusCode != http.StatusNotFound {
		t.Errorf("the link of one job opens another: %s", r.Status)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}

	b, j = reopen()
	if again := link(t, j); again != at {
		t.Errorf("%s before the restart, %s after it", at, again)
	}
	secret, err := page.Secret(t.Context(), j, true)
	if err != nil {
		t.Fatal(err)
	}
	h := newServer(b)
	if r := ask(h, "GET", at); r.StatusCode != http.StatusNotFound {
		t.Errorf("the old link: %s", r.Status)
	}
	body(t, h, page.Link("", flat, secret))
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}

	b, j = reopen()
	defer b.Close()
	for _, bad := range []string{`{"secret":""}`, `{"secret":"short"}`, `"x"`, `{}`} {
		if err := j.Mark(t.Context(), "page", []byte(bad)); err != nil {
			t.Fatal(err)
		}
		if got, err := page.Secret(t.Context(), j, false); err == nil {
			t.Errorf("%s is read as %q", bad, got)
		}
		for _, path := range []string{"/" + flat + "/", "/" + flat + "/short", at} {
			if r := ask(newServer(b), "GET", path); r.StatusCode != http.StatusNotFound {
				t.Errorf("%s: %s %s", bad, path, r.Status)
			}
		}
	}
}

// A guessed path does not create a job.
func TestGuessesMakeNoJob(t *testing.T) {
	b, _ := open(t, "")
	for _, path := range []string{"/guess/x", "/Larkspur-Upper-Flat/x", "/../guess/x"} {
		ask(newServer(b), "GET", path)
	}
	files, err := filepath.Glob(filepath.Join(filepath.Dir(b.Path(flat)), "*.job"))
	if err != nil || len(files) != 1 {
		t.Error(files, err)
	}
}

// If a job cannot be read, readers with the secret are told so in plain words.
func TestJobClosed(t *testing.T) {
	b, j := open(t, "")
	h, at := newServer(b), link(t, j)
	body(t, h, at)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	r := ask(h, "GET", at)
	if data, _ := io.ReadAll(r.Body); r.StatusCode != http.StatusServiceUnavailable || !strings.Contains(string(data), "cannot be read just now") {
		t.Errorf("%s %s", r.Status, data)
	}
}

// A picture is no longer linked once its message is deleted, whether that came with the
// note or after it.
func TestDeletedPhoto(t *testing.T) {
	b, j := open(t, "")
	text(t, j, "lead", "room den 12' x 10'")
	h, at := newServer(b), link(t, j)
	send := func(in message.In) {
		t.Helper()
		in.Who, in.Sent = "sparks", time.Date(2026, 5, 4, 16, 0, 0, 0, time.UTC)
		if out, err := j.Handle(t.Context(), in); err != nil || out.Failed() {
			t.Fatal(err, out.Text())
		}
	}
	send(message.In{ID: "a", Text: "light d1 40 off west 40 off north", Photos: []string{"https://chat.example.test/a"}})
	send(message.In{ID: "b", Photos: []string{"https://chat.example.test/b"}})
	send(message.In{ID: "c", Text: "light d2 60 off west 40 off north"})
	for _, c := range []struct{ gone, stays string }{{"", "https://chat.example.test/a https://chat.example.test/b"}, {"b", "https://chat.example.test/a"}, {"a", ""}} {
		if c.gone != "" {
			send(message.In{ID: c.gone + "@1", Of: c.gone})
		}
		html := body(t, h, at)
		for _, l := range []string{"https://chat.example.test/a", "https://chat.example.test/b"} {
			if got, want := strings.Contains(html, l), strings.Contains(c.stays, l); got != want {
				t.Errorf("%q deleted: %s is linked: %v", c.gone, l, got)
			}
		}
	}
}

// A job keeps its page when the last peer on the wire leaves.
func TestJobThatWasLeft(t *testing.T) {
	b, _ := open(t, "")
	j, done, err := b.Lease("hall")
	if err != nil {
		t.Fatal(err)
	}
	text(t, j, "lead", "room hall 12' x 4'")
	h, at := newServer(b), link(t, j)
	if err := done(); err != nil {
		t.Fatal(err)
	}
	picture(t, body(t, h, at), "hall")
	again, done, err := b.Lease("hall")
	if err != nil {
		t.Fatal(err)
	}
	defer done()
	text(t, again, "lead", "room den 12' x 10'")
	picture(t, body(t, h, at), "den")
}
