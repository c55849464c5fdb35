package backoff_test

import (
	"context"
	"testing"
	"testing/synctest"
	"time"

	"strapline/bot/backoff"
)

// Waits double up to the most, each between half of that and all of it, and start again after a success.
func TestRetry(t *testing.T) {
	r := backoff.Retry{Pace: backoff.Pace{First: time.Second, Most: 10 * time.Second}}
	for range 2 {
		for i, most := range []time.Duration{1, 2, 4, 8, 10, 10} {
			if got := r.Next(); got < most*time.Second/2 || got > most*time.Second {
				t.Errorf("wait %d is %v, want up to %d s", i, got, most)
			}
		}
		r.Reset()
	}
	for range 100 { // no overflow
		if got := r.Next(); got <= 0 || got > 10*time.Second {
			t.Fatalf("waits %v", got)
		}
	}
}

func TestSleep(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
		defer cancel()
		from := time.Now()
		if !backoff.Sleep(ctx, time.Second) || time.Since(from) != time.Second {
			t.Errorf("slept %v of a second", time.Since(from))
		}
		if backoff.Sleep(ctx, time.Hour) || time.Since(from) != time.Minute {
			t.Errorf("slept on until %v", time.Since(from))
		}
	})
}
