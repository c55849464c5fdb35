package page_test

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"testing"
	"time"

	"strapline/bot/job"
	"strapline/bot/page"
)

// BenchmarkView is how long the page holds the writer when something changed, and how long
// one of many readers waits for it, beside one
// message of the crew: in a job of 20 rooms with 400 things, half of them covered,
// and 5,000 entries.
func BenchmarkView(b *testing.B) {
	jobs, j := open(b, "")
	say := func(words string) {
		if _, err := j.Handle(context.Background(), job.In{Who: "lead", Sent: time.Date(2026, 5, 4, 16, 0, 0, 0, time.UTC), Text: words}); err != nil {
			b.Fatal(err)
		}
	}
	for r := range 20 {
		say(fmt.Sprintf("room r%02d 20' x 20'", r))
		say("straps ew 16 oc first 14 off north")
		say("pipe p1 40 off west from strap 2 to strap 9 depth 3/4")
		for i := range 20 {
			say(fmt.Sprintf("light l%d %d off west %d off north", r*20+i, 10+i*10, 20+i*9))
		}
		say("hung row 1")
		say("hung row 2")
	}
	for i := range 4500 {
		say(fmt.Sprintf("note number %d", i))
	}
	at := link(b, j)
	get := func(h http.Handler) {
		r := ask(h, "GET", at)
		if n, err := io.Copy(io.Discard, r.Body); err != nil || r.StatusCode != http.StatusOK || n < 1000 {
			b.Fatal(r.Status, err)
		}
	}
	b.Run("message", func(b *testing.B) {
		for b.Loop() {
			say("note one more")
		}
	})
	b.Run("held", func(b *testing.B) {
		for b.Loop() {
			if err := j.Look(context.Background(), page.Board); err != nil {
				b.Fatal(err)
			}
		}
	})
	h := looking(page.Config{Bot: jobs})
	b.Run("page", func(b *testing.B) {
		for b.Loop() {
			get(h)
		}
	})
}
