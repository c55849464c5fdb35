package chat

import (
	"context"
	"errors"
	"net/http"
	"strings"
	"time"

	"github.com/mattermost/mattermost/server/public/model"
)

// How long a token is refused before that is believed. A server whose database is
// away refuses every token once its cache of sessions has run out; a restart of the
// server, and of the bot after it, takes less than this.
const (
	refusedAtStart = time.Minute // before anything was ever answered
	refusedLater   = 10 * time.Minute
)

// denied takes note of a refused token. It ends the Run when the refusal has lasted
// while the server says that its database is there.
func (d *door) denied(ctx context.Context) {
	now := time.Now().UnixNano()
	first := d.refused.CompareAndSwap(0, now)
	if first {
		d.log.Warn("the chat server refuses the token; it is tried on, for the server's database may be away", "for", d.patience())
	}
	if !d.databaseThere(ctx) {
		d.refused.Store(now) // it cannot know
		return
	}
	if now-d.refused.Load() >= d.patience().Nanoseconds() {
		d.fail(ErrToken)
	}
}

func (d *door) patience() time.Duration {
	if d.known.Load() {
		return refusedLater
	}
	return refusedAtStart
}

// accepted takes note that the server knows the token.
func (d *door) accepted() {
	d.known.Store(true)
	if d.refused.Swap(0) != 0 {
		d.log.Info("the chat server accepts the token again")
	}
}

// databaseThere asks the server whether its database is there. Without a clear
// answer it is not.
func (d *door) databaseThere(ctx context.Context) bool {
	status, resp, err := d.api.GetPingWithOptions(ctx, model.SystemPingOptions{FullStatus: true})
	if err != nil || resp == nil || resp.StatusCode != http.StatusOK {
		return false
	}
	db, said := status["database_status"].(string)
	return !said || db == model.StatusOk // older servers do not say
}

// forGood is [forGood] of a server whose database is there: what others say they do not have, they may have.
func (d *door) forGood(ctx context.Context, err error) bool {
	return forGood(err) && d.databaseThere(ctx)
}

// gone finds out whether a reply that was refused can never be delivered: the channel, or
// the thread it belongs in, is not there for us any more, or its text is at fault. Of a
// server whose database is away nothing is believed. It is why the reply is given up, nil
// when it is to be tried again.
func (c *channel) gone(ctx context.Context, p parcel, refusal error) error {
	if !c.d.databaseThere(ctx) {
		return nil
	}
	why := c.whyGone(ctx, p, refusal)
	if why != nil && !c.d.databaseThere(ctx) { // it went while we asked
		return nil
	}
	return why
}

func (c *channel) whyGone(ctx context.Context, p parcel, refusal error) error {
	ch, err := call(ctx, c.d, func(ctx context.Context) (*model.Channel, *model.Response, error) {
		return c.d.api.GetChannel(ctx, c.id)
	})
	switch {
	case forGood(err):
		return err
	case err != nil:
		return nil
	case ch.DeleteAt > 0:
		return &trouble{status: http.StatusBadRequest, id: archived}
	}
	if id := p.row.Root; id != "" {
		_, err := call(ctx, c.d, func(ctx context.Context) (*model.Post, *model.Response, error) { return c.d.api.GetPost(ctx, id, "") })
		switch {
		case forGood(err):
			return errThreadGone
		case err != nil:
			return nil
		}
	}
	if t, ok := errors.AsType[*trouble](refusal); ok && strings.HasPrefix(t.id, "model.post.is_valid.") {
		return refusal
	}
	return nil
}

// archived is the server's name for a channel that takes no more posts.
const archived = "api.post.create_post.can_not_post_to_deleted.error"
