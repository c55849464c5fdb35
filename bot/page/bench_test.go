package page_test

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"sync"
	"testing"
	"time"

	"strapline/bot/message"
	"strapline/bot/page"
)

// BenchmarkView measures a message of the crew, alone and while a page is being rendered
// all the time, and how long a reader waits for an unchanged page and for one with a new
// thing. The job has 20 rooms with plans, 400 things, half of them covered, and 5,000
// entries.
func BenchmarkView(b *testing.B) {
	jobs, j := open(b, "")
	say := func(words string) {
		if _, err := j.Handle(context.Background(), message.In{Who: "lead", Sent: time.Date(2026, 5, 4, 16, 0, 0, 0, time.UTC), Text: words}); err != nil {
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
	h := newServerWith(page.Config{Bot: jobs, Limits: page.Limits{Fresh: 1}})
	get(h)
	b.Run("message beside", func(b *testing.B) {
		ctx, end := context.WithCancel(context.Background())
		var reader sync.WaitGroup
		reader.Go(func() {
			for ctx.Err() == nil {
				get(h)
			}
		})
		for b.Loop() {
			say("note one more")
		}
		end()
		reader.Wait()
	})
	b.Run("page as it was", func(b *testing.B) {
		for b.Loop() {
			get(h)
		}
	})
	n := 0
	b.Run("page anew", func(b *testing.B) {
		for b.Loop() {
			say(fmt.Sprintf("in r07; light x%d 30 off west %d off north", n, 30+n%200))
			n++
			get(h)
		}
	})
}
