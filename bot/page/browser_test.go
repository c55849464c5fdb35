package page_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"strapline/bot/page"
	"strapline/bot/wire"
	"strapline/bot/wire/wiretest"
)

var shots = flag.String("shots", "", "keep pictures of the page in this folder")

// browser starts a browser for the test and its subtests, or skips the test if none is
// installed.
func browser(t *testing.T) context.Context {
	t.Helper()
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "chromium-headless-shell"} {
		if p, err := exec.LookPath(name); err == nil {
			path = p
			break
		}
	}
	if path == "" {
		t.Skip("no chromium on this machine: install the package chromium to run this")
	}
	opts := []chromedp.ExecAllocatorOption{chromedp.ExecPath(path)} // with a temporary profile
	for _, f := range []string{
		"headless", "no-sandbox", "disable-gpu", "disable-quic", "no-first-run", "disable-background-networking",
		"disable-component-update", "disable-sync", "disable-dev-shm-usage", "hide-scrollbars",
	} {
		opts = append(opts, chromedp.Flag(f, true))
	}
	alloc, end := chromedp.NewExecAllocator(context.Background(), opts...)
	t.Cleanup(end)
	ctx, _ := chromedp.NewContext(alloc)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal("the browser does not start:", err)
	}
	t.Cleanup(func() {
		if err := chromedp.Cancel(ctx); err != nil {
			t.Error(err)
		}
	})
	return ctx
}

// tab is a tab of the browser. Violations of the policy and errors of the script fail the test.
type tab struct {
	t   *testing.T
	ctx context.Context
}

func open1(t *testing.T, in context.Context) *tab {
	t.Helper()
	ctx, end := chromedp.NewContext(in)
	t.Cleanup(end)
	ctx, stop := context.WithTimeout(ctx, time.Minute)
	t.Cleanup(stop)
	var mu sync.Mutex
	var faults []string
	err := chromedp.Listen(ctx, func(ev any) {
		mu.Lock()
		defer mu.Unlock()
		switch ev := ev.(type) {
		case *runtime.EventExceptionThrown:
			faults = append(faults, fmt.Sprintf("%s %+v", ev.ExceptionDetails.Text, ev.ExceptionDetails.Exception))
		case *cdplog.EventEntryAdded:
			if ev.Entry.Source != cdplog.EntrySourceNetwork { // a stopped server is not the page's fault
				faults = append(faults, ev.Entry.Text)
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		mu.Lock()
		defer mu.Unlock()
		if len(faults) > 0 {
			t.Errorf("the browser complains: %s", strings.Join(faults, "\n"))
		}
	})
	tb := &tab{t, ctx}
	run(tb, cdplog.Enable, cdp.Empty{})
	run(tb, runtime.Enable, cdp.Empty{})
	return tb
}

// run runs a command of the browser's protocol.
func run[P, R any](b *tab, command cdp.Command[P, R], with P) {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, command, with); err != nil {
		b.t.Fatal(err)
	}
}

// result runs an action and returns its result.
func result[T any](b *tab, action chromedp.Action[T]) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, action)
	if err != nil {
		b.t.Fatal(err)
	}
	return v
}

func (b *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, actions...); err != nil {
		b.t.Fatal(err)
	}
}

// is waits until a JavaScript condition holds.
func (b *tab) is(condition string) {
	b.t.Helper()
	if _, err := chromedp.Run(b.ctx, chromedp.Poll[bool](condition, chromedp.WithPollingTimeout(20*time.Second))); err != nil {
		b.t.Fatalf("%s: %v\n%s", condition, err, eval[string](b, `document.body.innerText`))
	}
}

// eval returns the value of a JavaScript expression.
func eval[T any](b *tab, expression string) T {
	b.t.Helper()
	return result(b, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}

// shot saves a screenshot in the folder of -shots.
func (b *tab) shot(name string) {
	b.t.Helper()
	if *shots == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*shots, name+".png"), result(b, chromedp.FullScreenshot(100)), 0o644); err != nil {
		b.t.Fatal(err)
	}
}

func TestInABrowser(t *testing.T) {
	chrome := browser(t)
	b, j := open(t, "upper-flat.chat")
	text(t, j, "sparks", "bed: note feed for the hood is behind row 1", "https://chat.example.test/larkspur/pl/abc")
	text(t, j, "hanger", `room bath 8' x 6'`)
	text(t, j, "hanger", "straps ew 16 oc first 14 off north")
	text(t, j, "sparks", `bath: light 6" over tub 26 off west 30 off north`)
	text(t, j, "sparks", `bath: duct 4" d9 60 off west 30 off north`)
	text(t, j, "hanger", "bath: hung row 1")
	text(t, j, "lead", "bath: snag screw missed strap 2")
	cfg := page.Config{Bot: b, Limits: page.Limits{Gather: 1, Fresh: 1}}
	url, _ := tcp(t, cfg, j)

	// Messages over another door are shown too.
	ln, err := wire.Listen(t.Context(), loopback, "")
	if err != nil {
		t.Fatal(err)
	}
	ctx, end := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- wire.New(wire.Config{Bot: b}).Serve(ctx, ln) }()
	defer func() {
		end()
		if err := <-served; err != nil {
			t.Error(err)
		}
	}()
	peer, err := wiretest.Dial(ln.Addr().String(), "sparks", flat)
	if err != nil {
		t.Fatal(err)
	}
	defer peer.Conn.Close()

	t.Run("news", func(t *testing.T) {
		tb := open1(t, chrome)
		tb.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(url))
		tb.is(`document.getElementById("live").textContent.startsWith("New entries")`)
		tb.shot("wide")
		eval[bool](tb, `window.same = true`)
		text(t, j, "hanger", "bath: snag <b>edge</b> broke")
		tb.is(`document.querySelector(".log li .said").textContent.includes("snag <b>edge</b> broke")`)
		tb.is(`document.getElementById("snags").textContent.includes("<b>edge</b> broke")`)
		tb.is(`document.getElementById("news").textContent.startsWith("New: hanger, ")`)
		tb.is(`document.querySelectorAll(".log .new").length === 1`)
		if !eval[bool](tb, `window.same === true`) {
			t.Error("the page was loaded again")
		}
		// The plan is updated with the rest.
		if r, err := peer.Say("bath: light l9 70 off west 50 off north"); err != nil || !strings.HasPrefix(r.Status, "ok ") {
			t.Fatal(err, r)
		}
		tb.is(`[...document.querySelectorAll("#rooms svg text")].some((e) => e.textContent === "l9")`)
		// An update keeps the focus on the same link.
		eval[chromedp.Void](tb, `document.querySelector(".log a.photo").focus()`)
		text(t, j, "hanger", "note one more")
		tb.is(`document.querySelector(".log li .said").textContent.includes("one more")`)
		if got := eval[string](tb, `document.activeElement.className`); got != "photo" {
			t.Errorf("the focus went to %q", got)
		}
		// A hidden page fetches nothing; when visible again, it catches up.
		seen := func(hidden bool) {
			eval[bool](tb, fmt.Sprintf(`Object.defineProperty(document, "hidden", { value: %v, configurable: true }); document.dispatchEvent(new Event("visibilitychange"))`, hidden))
		}
		seen(true)
		text(t, j, "hanger", "note unseen")
		if got := eval[string](tb, `new Promise((done) => setTimeout(() => done(document.querySelector(".log li .said").textContent), 500))`); strings.Contains(got, "unseen") {
			t.Error("a page that nobody sees was told of news")
		}
		seen(false)
		tb.is(`document.querySelector(".log li .said").textContent.includes("unseen")`)
	})

	t.Run("away", func(t *testing.T) {
		ln, err := page.Listen(t.Context(), loopback, "")
		if err != nil {
			t.Fatal(err)
		}
		addr := ln.Addr().String()
		stop := serve(t, cfg, ln)
		tb := open1(t, chrome)
		tb.do(chromedp.Navigate("http://" + addr + link(t, j)))
		tb.is(`document.getElementById("live").textContent.startsWith("New entries")`)
		stop()
		tb.is(`document.getElementById("live").textContent.startsWith("Not connected")`)
		text(t, j, "hanger", "note while nobody was there")
		if ln, err = net.Listen("tcp", addr); err != nil {
			t.Fatal(err)
		}
		stop = serve(t, cfg, ln)
		tb.is(`document.querySelector(".log li .said").textContent.includes("while nobody was there")`)
		tb.is(`document.getElementById("live").textContent.startsWith("New entries")`)

		stop()
		old := link(t, j)
		if _, err := page.Secret(t.Context(), j, true); err != nil {
			t.Fatal(err)
		}
		if ln, err = net.Listen("tcp", addr); err != nil {
			t.Fatal(err)
		}
		serve(t, cfg, ln)
		tb.is(`document.getElementById("live").textContent.startsWith("This link has been replaced")`)
		secret, _ := json.Marshal(map[string]string{"secret": filepath.Base(old)}) // restored for the other tests
		if err := j.Mark(t.Context(), "page", secret); err != nil {
			t.Fatal(err)
		}
	})

	t.Run("phone", func(t *testing.T) {
		text(t, j, "lead", "note "+strings.Repeat("W", 300)+" "+strings.Repeat("1234567890/", 40))
		text(t, j, "lead", "bath: snag "+strings.Repeat("M", 300))
		tb := open1(t, chrome)
		for _, wide := range []int64{320, 360, 414, 768, 1280} {
			tb.do(chromedp.EmulateViewport(wide, 740, chromedp.EmulateMobile), chromedp.Navigate(url))
			got := eval[[]int](tb, `[document.documentElement.scrollWidth, window.innerWidth]`)
			if got[0] > got[1] || got[1] > int(wide) {
				t.Errorf("%d px: the page is %d px wide in a window of %d", wide, got[0], got[1])
			}
			if got := eval[[]float64](tb, `[...document.querySelectorAll(".plan svg")].map((e) => e.getBoundingClientRect().right)`); len(got) < 4 || slices.Max(got) > float64(wide) {
				t.Errorf("%d px: plans reach to %v", wide, got)
			}
			tb.shot(fmt.Sprintf("phone-%d", wide))
			// On a page of its own it scrolls inside its frame.
			tb.do(chromedp.Navigate(url + "?room=kitchen&surface=ceiling"))
			got = eval[[]int](tb, `[document.documentElement.scrollWidth, window.innerWidth, Math.round(document.querySelector(".large svg").getBoundingClientRect().width)]`)
			if got[0] > got[1] || got[1] > int(wide) || got[2] < 720 {
				t.Errorf("%d px: the page is %d px wide in a window of %d, its plan %d", wide, got[0], got[1], got[2])
			}
			tb.shot(fmt.Sprintf("plan-%d", wide))
		}
	})

	t.Run("scripts off", func(t *testing.T) {
		tb := open1(t, chrome)
		run(tb, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		tb.do(chromedp.Navigate(url))
		html := result(tb, chromedp.OuterHTML(chromedp.CSS("html")))
		for _, want := range []string{"Load the page again for what is new", "all 4 rows up", "light over tub", "electrical inspection", "snag screw missed strap 2", "Older entries"} {
			if !strings.Contains(html, want) {
				t.Errorf("no %q", want)
			}
		}
		tb.do(chromedp.Click(chromedp.CSS(`a[rel=next]`)), chromedp.WaitReady(chromedp.CSS(`a[rel=prev]`)))
		if html = result(tb, chromedp.OuterHTML(chromedp.CSS("html"))); !strings.Contains(html, "Newest entries") || !strings.Contains(html, `id="e1"`) {
			t.Error("the older entries are not there")
		}
		tb.do(chromedp.Navigate(url), chromedp.Click(chromedp.CSS(`a.plan span`)), chromedp.WaitReady(chromedp.CSS(`.large svg`)))
		if html = result(tb, chromedp.OuterHTML(chromedp.CSS("html"))); !strings.Contains(html, "kitchen ceiling, plan to scale") || strings.Contains(html, `id="rooms"`) {
			t.Error("the plan is not there alone")
		}
	})

	t.Run("keyboard and structure", func(t *testing.T) {
		tb := open1(t, chrome)
		tb.do(chromedp.Navigate(url), chromedp.KeyEvent("\t"))
		if got := eval[string](tb, `document.activeElement.className`); got != "skip" {
			t.Errorf("the first stop is %q", got)
		}
		if left := eval[float64](tb, `document.activeElement.getBoundingClientRect().left`); left < 0 {
			t.Error("the skip link is not to be seen")
		}
		if got := eval[string](tb, `getComputedStyle(document.activeElement).outlineStyle`); got != "solid" {
			t.Errorf("the focus is shown as %q", got)
		}
		tb.do(chromedp.KeyEvent("\r"))
		tb.is(`document.activeElement.id === "log"`)
		// A plan can be reached, opened and scrolled with the keyboard.
		tb.do(chromedp.Navigate(url))
		tb.do(chromedp.Focus(chromedp.CSS("#rooms")), chromedp.KeyEvent("\t"))
		if got := eval[string](tb, `document.activeElement.className + getComputedStyle(document.activeElement).outlineStyle`); got != "plansolid" {
			t.Errorf("the first stop in the rooms is %q", got)
		}
		tb.do(chromedp.KeyEvent("\r"), chromedp.WaitReady(chromedp.CSS(".large svg")), chromedp.Focus(chromedp.CSS(".large")))
		if got := eval[string](tb, `document.activeElement.className`); got != "large" {
			t.Errorf("the focus is on %q", got)
		}
		// To a screen reader it is an image with a name and a description.
		tree, err := chromedp.Call(tb.ctx, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, n := range tree.Nodes {
			if n.Role != nil && (string(n.Role.Value) == `"image"` || string(n.Role.Value) == `"img"`) && n.Name != nil && n.Description != nil {
				said += string(n.Name.Value) + string(n.Description.Value)
			}
		}
		if !strings.Contains(said, "kitchen ceiling, plan to scale") || !strings.Contains(said, "8 straps") {
			t.Errorf("a screen reader is told %q", said)
		}
		tb.do(chromedp.Navigate(url))
		// There is one h1, no skipped heading level, a heading for every section, and no
		// duplicate id.
		levels := eval[[]int](tb, `[...document.querySelectorAll("h1,h2,h3,h4")].map((h) => Number(h.tagName[1]))`)
		for i, n := range levels {
			if i == 0 && n != 1 || i > 0 && (n == 1 || n > levels[i-1]+1) {
				t.Errorf("headings %v", levels)
				break
			}
		}
		for what, bad := range map[string]string{
			"sections without a name": `[...document.querySelectorAll("section")].filter((s) => !document.getElementById(s.getAttribute("aria-labelledby"))).length`,
			"ids that come twice":     `((all) => all.length - new Set(all).size)([...document.querySelectorAll("[id]")].map((e) => e.id))`,
			"links without words":     `[...document.querySelectorAll("a")].filter((a) => !a.textContent.trim()).length`,
			"links to nowhere":        `[...document.querySelectorAll("a[href^='#']")].filter((a) => !document.querySelector(a.getAttribute("href"))).length`,
			"landmarks amiss":         `Math.abs(3 - document.querySelectorAll("header, main, footer").length)`,
			"no language":             `document.documentElement.lang === "en" ? 0 : 1`,
		} {
			if n := eval[int](tb, bad); n != 0 {
				t.Errorf("%d %s", n, what)
			}
		}
	})

	t.Run("night, stillness, paper", func(t *testing.T) {
		tb := open1(t, chrome)
		feature := func(name, value string) {
			run(tb, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: name, Value: value}}})
		}
		paper := `getComputedStyle(document.body).backgroundColor`
		feature("prefers-color-scheme", "light")
		tb.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(url))
		day := eval[string](tb, paper)
		feature("prefers-color-scheme", "dark")
		if night := eval[string](tb, paper); night == day {
			t.Errorf("%s by day and by night", day)
		}
		if ink, sheet := eval[string](tb, `getComputedStyle(document.querySelector(".plan svg text[font-weight]")).fill`), eval[string](tb, `getComputedStyle(document.querySelector(".plan svg rect")).fill`); ink != "rgb(240, 236, 226)" || sheet != "rgb(19, 25, 29)" {
			t.Errorf("by night a plan is drawn in %s on %s", ink, sheet)
		}
		tb.shot("night")
		moves := `(() => { document.querySelector(".log li").classList.add("new"); return getComputedStyle(document.querySelector(".log li")).animationName; })()`
		if got := eval[string](tb, moves); got != "come" {
			t.Errorf("a new entry: %q", got)
		}
		feature("prefers-reduced-motion", "reduce")
		if got := eval[string](tb, moves); got != "none" {
			t.Errorf("a new entry moves where nothing should: %q", got)
		}
		run(tb, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
		if got := eval[string](tb, `getComputedStyle(document.querySelector("header nav")).display + getComputedStyle(document.getElementById("live")).display`); got != "nonenone" {
			t.Errorf("on paper: %s", got)
		}
		tb.shot("paper")
	})
}
