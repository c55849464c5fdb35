package chat

import (
	"context"
	"sync/atomic"
	"time"

	"strapline/bot/backoff"
)

const healthEvery = 5 * time.Minute

// stats counts since startup.
type stats struct {
	up       atomic.Bool  // the socket is open
	connects atomic.Int64 // times that it was opened
	handled  atomic.Int64 // messages given to a job
	sent     atomic.Int64 // replies that the server accepted
	found    atomic.Int64 // replies in doubt that turned out to be on the server
	dropped  atomic.Int64 // replies that the server refused permanently
	unsure   atomic.Int64 // replies posted again in doubt: an earlier try may still be carried out
	doubled  atomic.Int64 // replies seen twice
}

// health logs the health line every healthEvery, and at the end.
func (d *door) health(ctx context.Context) {
	for backoff.Sleep(ctx, healthEvery) {
		d.report()
	}
	d.report()
}

func (d *door) report() {
	d.mu.Lock()
	channels := len(d.channels)
	d.mu.Unlock()
	s := &d.stats
	d.Log.Info("chat health", "connected", s.up.Load(), "refused", d.Refused(), "connects", s.connects.Load(), "channels", channels,
		"handled", s.handled.Load(), "sent", s.sent.Load(), "found", s.found.Load(), "dropped", s.dropped.Load(),
		"unsure", s.unsure.Load(), "doubled", s.doubled.Load(), "failed", d.Failed.Load(), "limited", d.Limited.Load())
}
