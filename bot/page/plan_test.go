package page_test

import (
	"compress/gzip"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"strapline/bot/page"
)

var drawing = regexp.MustCompile(`(?s)<svg xmlns.*?</svg>`)

// words returns the text of a drawing or page, with each tag replaced by a "|".
func words(html string) string {
	return regexp.MustCompile(`(?s)<[^>]*>\s*`).ReplaceAllString(html, "|")
}

// picture returns the drawing of a room's ceiling on the page.
func picture(t *testing.T, html, room string) string {
	t.Helper()
	for _, svg := range drawing.FindAllString(html, -1) {
		if strings.Contains(svg, "<title>"+room+" ceiling, plan to scale</title>") {
			return svg
		}
	}
	t.Fatalf("no plan of %s in\n%s", room, words(html))
	return ""
}

func two(t *testing.T) (h *page.Server, at string, say func(words string)) {
	t.Helper()
	b, j := open(t, "")
	say = func(words string) { text(t, j, "lead", words) }
	for _, words := range []string{
		"room kitchen 13' x 12'", "straps ew 16 oc first 14 off north", `light 6" over sink 26 off west 41 off north`, "room bath 8' x 6'",
	} {
		say(words)
	}
	return newServer(b), link(t, j), say
}

// The page shows the plan of every room as SVG with text, and a link to see it larger.
func TestPlans(t *testing.T) {
	h, at, say := two(t)
	html := body(t, h, at)
	svg := picture(t, html, "kitchen")
	for _, want := range []string{
		">light over sink</text>", ">26&#34;</text>", ">41&#34;</text>", ">Seen from above: looking up it is mirrored.</text>", ">noted</text>",
		"9 straps. light over sink 6&#34;: 26&#34; off west, 41&#34; off north, noted.</desc>",
	} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %s in\n%s", want, words(svg))
		}
	}
	picture(t, part(t, html, "rooms"), "bath")
	links := regexp.MustCompile(`<a class="plan" href="([^"]+)">`).FindAllStringSubmatch(html, -1)
	if len(links) != 2 {
		t.Fatalf("%d links to plans", len(links))
	}
	query := strings.ReplaceAll(links[0][1], "&amp;", "&")
	alone := body(t, h, at+query)
	if picture(t, alone, "kitchen") != svg || strings.Contains(alone, "bath ceiling") || strings.Contains(alone, `id="log"`) {
		t.Errorf("%s is not the kitchen alone:\n%s", query, alone)
	}
	if strings.Contains(alone, "{{") || !strings.Contains(alone, `<a href="?">`) {
		t.Error("no way back")
	}
	up := regexp.MustCompile(`<a href="(\?[^"]+up=1)">As seen looking up`).FindStringSubmatch(strings.ReplaceAll(alone, "&amp;", "&"))
	if up == nil {
		t.Fatalf("no way to see it looking up:\n%s", alone)
	}
	if mirrored := body(t, h, at+up[1]); !strings.Contains(picture(t, mirrored, "kitchen"), "Seen looking up: east and west have changed sides.") ||
		!strings.Contains(mirrored, ">Seen from above</a>") {
		t.Errorf("looking up:\n%s", mirrored)
	}
	// The picture says that a thing is covered.
	say("kitchen: ceiling up")
	if svg := picture(t, body(t, h, at), "kitchen"); !strings.Contains(svg, ">the ceiling, not cut</text>") || !strings.Contains(svg, "--ink-hidden") {
		t.Error("covered, and not drawn so")
	}
}

// An unknown room or surface gets a 404, and so does a query that is not exactly as in our
// links.
func TestNoSuchPlan(t *testing.T) {
	h, at, _ := two(t)
	for _, query := range []string{
		"?room=attic&surface=ceiling", "?room=kitchen&surface=floor", "?room=kitchen", "?room=&surface=ceiling", "?room=Kitchen&surface=ceiling",
		"?room=kitchen&surface=ceiling&up=2", "?room=kitchen&surface=ceiling&up=", "?room=kitchen&room=bath&surface=ceiling", "?room=kitchen&surface=ceiling&x=1",
	} {
		r := ask(h, "GET", at+query)
		if data, _ := io.ReadAll(r.Body); r.StatusCode != http.StatusNotFound || string(data) != "There is nothing here.\n" {
			t.Errorf("%s: %s %.200s", query, r.Status, data)
		}
	}
}

// Names are escaped in pictures too.
func TestHostilePlan(t *testing.T) {
	h, at, say := two(t)
	say("job <script>alert(1)</script> & </svg>")
	say(`room den 12' x 10'`)
	html := body(t, h, at+"?"+url.Values{"room": {"den"}, "surface": {"ceiling"}}.Encode())
	if strings.Contains(html, "<script>alert") || strings.Count(html, "</svg>") != 1 || !strings.Contains(html, "&lt;script&gt;alert(1)") {
		t.Error(html)
	}
}

// A picture is kept until its scene changes, and names the entry it was drawn at.
func TestPlanIsKept(t *testing.T) {
	h, at, say := two(t)
	html := body(t, h, at)
	kitchen, bath := picture(t, html, "kitchen"), picture(t, html, "bath")
	if !strings.Contains(kitchen, ", entry 4</text>") {
		t.Errorf("not of entry 4:\n%s", words(kitchen))
	}
	say("note nothing to see")
	say("bath: light l1 20 off west 20 off north")
	html = body(t, h, at)
	if picture(t, html, "kitchen") != kitchen {
		t.Error("nothing changed in the kitchen, and it was drawn anew")
	}
	if now := picture(t, html, "bath"); now == bath || !strings.Contains(now, ">l1</text>") || !strings.Contains(now, ", entry 6</text>") {
		t.Errorf("the light is not in the bath:\n%s", words(now))
	}
	// A setting of the whole job changes the scene too.
	say("units metric")
	if now := picture(t, body(t, h, at), "kitchen"); now == kitchen || !strings.Contains(now, ">1041 mm</text>") {
		t.Error("not in millimetres")
	}
}

// When drawing takes too long, each view draws at least one plan, and later views the rest.
func TestPlansOneByOne(t *testing.T) {
	b, j := open(t, "")
	for _, room := range []string{"den", "hall", "bath"} {
		text(t, j, "lead", "room "+room+" 12' x 10'")
	}
	h := newServerWith(page.Config{Bot: b, Limits: page.Limits{Fresh: 1, Draw: 1}})
	at := link(t, j)
	for n := 1; n <= 3; n++ {
		html := body(t, h, at)
		if got := len(drawing.FindAllString(html, -1)); got != n {
			t.Errorf("view %d has %d pictures", n, got)
		}
		if due := strings.Count(html, "is being drawn"); due != 3-n {
			t.Errorf("view %d: %d are being drawn", n, due)
		}
		// The script fetches the page again, as the stream names entry 3, until all are drawn.
		if again := strings.Contains(html, `data-last="0"`); again != (n < 3) {
			t.Errorf("view %d asks to be fetched again: %v", n, again)
		}
	}
}

// A page has a limited number of pictures; further rooms get only a link.
func TestMostPlans(t *testing.T) {
	b, j := open(t, "")
	for i := range 30 {
		text(t, j, "lead", fmt.Sprintf("room r%02d 10' x 10'", i))
	}
	h, at := newServer(b), link(t, j)
	html := body(t, h, at)
	if n := len(drawing.FindAllString(html, -1)); n != 24 {
		t.Errorf("%d pictures", n)
	}
	if !strings.Contains(html, `<p class="to-plan"><a href="?room=r29&amp;surface=ceiling">r29 ceiling, plan</a></p>`) {
		t.Error("no link to the last room's plan")
	}
	picture(t, body(t, h, at+"?room=r29&surface=ceiling"), "r29")
}

// The page is sent compressed to browsers that accept gzip, with the same content.
func TestPacked(t *testing.T) {
	h, at, _ := two(t)
	want := body(t, h, at)
	w, r := httptest.NewRecorder(), httptest.NewRequest("GET", at, nil)
	r.Header.Set("Accept-Encoding", "gzip, br")
	h.ServeHTTP(w, r)
	if w.Header().Get("Content-Encoding") != "gzip" || w.Header().Get("Vary") != "Accept-Encoding" || w.Header().Get("Content-Length") != fmt.Sprint(w.Body.Len()) {
		t.Errorf("%v, %d bytes", w.Header(), w.Body.Len())
	}
	if n := w.Body.Len(); 3*n > len(want) {
		t.Errorf("%d bytes of %d", n, len(want))
	}
	z, err := gzip.NewReader(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := io.ReadAll(z); err != nil || string(got) != want {
		t.Errorf("unpacked it is another page: %v", err)
	}
}
