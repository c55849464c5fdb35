package job_test

import (
	"fmt"
	"sync"
	"testing"
	"time"

	"strapline/bot/job"
	"strapline/bot/message"
)

// roomName is the name of room i, no two of which differ in one letter only.
func roomName(i int) string {
	const letters = "bcdfghjklmnp"
	a, b := letters[i/len(letters)], letters[i%len(letters)]
	return string([]byte{a, a, b, b})
}

// manyRooms are rooms with layouts, whose boards are counted: each takes its boards
// after those before it.
func manyRooms(b *testing.B, j *job.Job, rooms int) {
	b.Helper()
	for i := range rooms {
		sayOne(b, j, "lead", fmt.Sprintf("room %s %d' x 12'", roomName(i), 12+i%7))
		sayOne(b, j, "lead", "straps ew 16 oc first 14 off north")
		if i == 0 {
			sayOne(b, j, "lead", "stock 900 x 8' 900 x 10' 900 x 12'")
		}
		sayOne(b, j, "lead", "layout 1")
	}
}

func sayOne(b *testing.B, j *job.Job, who, text string) time.Duration {
	b.Helper()
	start := time.Now()
	out, err := j.Handle(b.Context(), message.In{Who: who, Text: text})
	if err != nil || out.Failed() || len(out.Answers) == 0 || out.Asks() || out.Answers[0].Error != nil {
		b.Fatal(text, out, err)
	}
	return time.Since(start)
}

// BenchmarkStall is a sender's note while another asks for a layout again and again, in a
// job of 120 rooms whose counted boards change each time, next to the same note when
// nobody asks.
func BenchmarkStall(b *testing.B) {
	j := benchJob(b, b.TempDir())
	manyRooms(b, j, 120)
	sayOne(b, j, "sparks", "in "+roomName(0))
	notes := func(until func() bool) (took []time.Duration) {
		for n := 0; n < 50 || !until(); n++ {
			took = append(took, sayOne(b, j, "sparks", fmt.Sprintf("note number %d", n)))
		}
		return took
	}
	var ratio, idle, busy, layout []float64
	for b.Loop() {
		alone := median(notes(func() bool { return true }))
		var wg sync.WaitGroup
		done := make(chan struct{})
		var asked []time.Duration
		wg.Go(func() {
			defer close(done)
			for i := range 50 {
				sayOne(b, j, "lead", fmt.Sprintf("stock %d x 8' %d x 10' %d x 12'", 60+i, 60+7*i%50, 90+i))
				asked = append(asked, sayOne(b, j, "lead", "layout"))
			}
		})
		beside := median(notes(func() bool {
			select {
			case <-done:
				return true
			default:
				return false
			}
		}))
		wg.Wait()
		ratio, idle = append(ratio, float64(beside)/float64(alone)), append(idle, alone.Seconds()*1e3)
		busy, layout = append(busy, beside.Seconds()*1e3), append(layout, median(asked).Seconds()*1e3)
	}
	if x := median(ratio); x > 3 {
		b.Errorf("a note beside layouts takes %.1f times as long as when nobody asks, want under 3", x)
	}
	b.ReportMetric(median(ratio), "x-idle")
	b.ReportMetric(median(idle), "ms-idle")
	b.ReportMetric(median(busy), "ms-beside")
	b.ReportMetric(median(layout), "ms-layout")
}
