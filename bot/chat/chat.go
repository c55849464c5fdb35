package chat

import (
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"time"

	"strapline/bot/backoff"
	"strapline/bot/chat/server"
	"strapline/bot/job"
)

// Config says which server to serve, and as whom.
type Config = server.Config

// ErrToken ends Run when the token is refused permanently.
var ErrToken = server.ErrToken

// door is the state of a Run.
type door struct {
	*server.Server
	jobs  *job.Jobs
	stats stats
	limit atomic.Int64 // of a post, in runes

	relist chan struct{}

	mu       sync.Mutex
	channels map[string]*channel
	team     string // a team for links into direct messages
}

// Run serves every channel that the account is a member of until ctx is done, and then
// returns nil. It recovers by itself from any trouble with the server, except that it
// returns [ErrToken] if the token stays refused. It returns an error if cfg is invalid.
// The bot must stay open until Run has returned.
func Run(ctx context.Context, b *job.Jobs, cfg Config) error {
	srv, err := server.New(cfg)
	if err != nil {
		return err
	}
	d := &door{Server: srv, jobs: b, relist: make(chan struct{}, 1), channels: map[string]*channel{}}
	d.limit.Store(mostRunes)
	ctx, d.Fail = context.WithCancelCause(ctx)
	defer d.Fail(nil)
	defer d.API.HTTPClient.CloseIdleConnections()
	var wg sync.WaitGroup
	defer wg.Wait()
	d.Start = func(do func(context.Context)) { wg.Go(func() { do(ctx) }) }

	d.Start(d.health)
	again := backoff.Retry{Pace: d.Cfg.Pace}
	for {
		began := time.Now()
		err := d.session(ctx)
		if ctx.Err() != nil {
			break
		}
		if time.Since(began) > d.Cfg.Pace.Most { // the session lasted; one that breaks at once is no success
			again.Reset()
		}
		wait := again.Next()
		attrs := []any{"err", err, "again_in", wait}
		if cause := d.LikelyCause(err); cause != "" {
			attrs = append(attrs, "likely", cause)
		}
		d.Log.Warn("no connection to the chat server", attrs...)
		backoff.Sleep(ctx, wait)
	}
	if errors.Is(context.Cause(ctx), ErrToken) {
		return ErrToken
	}
	return nil
}

// poke wakes the receiver of a channel with a buffer of one. It never blocks.
func poke(ch chan struct{}) {
	select {
	case ch <- struct{}{}:
	default:
	}
}
