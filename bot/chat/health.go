package chat

import (
	"context"
	"sync/atomic"
	"time"
)

const healthTime = 5 * time.Minute

// stats counts since the start.
type stats struct {
	up       atomic.Bool  // the socket stands
	connects atomic.Int64 // how often it was opened
	handled  atomic.Int64 // messages given to a job
	sent     atomic.Int64 // replies the server took
	found    atomic.Int64 // replies that stood on the server already, after a doubt
	dropped  atomic.Int64 // replies the server refused for good
	unsure   atomic.Int64 // replies posted after a doubt: an earlier try may still be carried out
	doubled  atomic.Int64 // replies seen twice
	failed   atomic.Int64 // requests that failed
	limited  atomic.Int64 // requests turned away as too many
}

// health writes the health line now and then, and at the end.
func (d *door) health(ctx context.Context) {
	for sleep(ctx, healthTime) {
		d.report()
	}
	d.report()
}

func (d *door) report() {
	d.mu.Lock()
	channels, refused := len(d.channels), d.doubt != nil
	d.mu.Unlock()
	s := &d.stats
	d.log.Info("chat health", "connected", s.up.Load(), "refused", refused, "connects", s.connects.Load(), "channels", channels,
		"handled", s.handled.Load(), "sent", s.sent.Load(), "found", s.found.Load(), "dropped", s.dropped.Load(),
		"unsure", s.unsure.Load(), "doubled", s.doubled.Load(), "failed", s.failed.Load(), "limited", s.limited.Load())
}
