// Package backoff waits between tries of something that fails, longer each time.
package backoff

import (
	"context"
	"math/rand/v2"
	"time"
)

// Pace is an exponential backoff: the wait starts at First and doubles up to Most. Each wait is shortened by a
// random part of up to half, so that clients do not all retry at once.
type Pace struct{ First, Most time.Duration }

// Retry counts tries at a pace.
type Retry struct {
	Pace
	N int // tries since the last success
}

// Next returns the wait before the next try.
func (r *Retry) Next() time.Duration {
	wait := r.Most
	if r.N < 20 {
		wait = min(r.First<<r.N, r.Most)
	}
	r.N++
	return wait - rand.N(wait/2+1)
}

// Reset starts counting again, after a success.
func (r *Retry) Reset() { r.N = 0 }

// Sleep waits and reports true, or false if ctx is done first.
func Sleep(ctx context.Context, wait time.Duration) bool {
	t := time.NewTimer(wait)
	defer t.Stop()
	select {
	case <-t.C:
		return true
	case <-ctx.Done():
		return false
	}
}
