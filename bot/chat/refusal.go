package chat

import (
	"context"
	"errors"
	"net/http"
	"strings"

	"github.com/mattermost/mattermost/server/public/model"
)

// Why a reply can never be posted.
var (
	errThreadGone = errors.New("its thread was deleted")
	errArchived   = errors.New("the channel is archived")
	errNoMember   = errors.New("the account is not a member of the channel")
	errText       = errors.New("the server takes no such text")
)

// giveUp drops a reply that the server refused for good, if what stands on the
// server bears that out; nil says so. A server without its database refuses too, and
// gives the same reasons; then the reply waits, and the error says why.
func (c *channel) giveUp(ctx context.Context, p parcel, refusal error) error {
	why, err := c.hopeless(ctx, func() (error, error) {
		if why, err := c.closed(ctx); why != nil || err != nil || p.row.Root == "" {
			return why, err
		}
		return c.threadGone(ctx, p)
	})
	switch {
	case err != nil:
		return err
	case why == nil && badText(refusal):
		why = errText
	case why == nil:
		return refusal
	}
	c.d.stats.dropped.Add(1)
	c.d.log.Warn("a reply is given up", "channel", c.label, "message", p.key, "why", why, "err", refusal)
	return nil
}

// hopeless is what look finds, believed only when the database was there before
// and after.
func (c *channel) hopeless(ctx context.Context, look func() (why, err error)) (why, err error) {
	if err := c.d.database(ctx); err != nil {
		return nil, err
	}
	why, err = look()
	if err == nil && why != nil {
		err = c.d.database(ctx)
	}
	if err != nil {
		return nil, err
	}
	return why, nil
}

// closed looks whether the channel takes no post of ours.
func (c *channel) closed(ctx context.Context) (why, err error) {
	ch, err := call(ctx, c.d, func(ctx context.Context) (*model.Channel, *model.Response, error) {
		return c.d.api.GetChannel(ctx, c.id)
	})
	switch {
	case absent(err):
		return errNoMember, nil
	case err != nil:
		return nil, err
	case ch.DeleteAt > 0:
		return errArchived, nil
	}
	_, err = call(ctx, c.d, func(ctx context.Context) (*model.ChannelMember, *model.Response, error) {
		return c.d.api.GetChannelMember(ctx, c.id, c.d.me.Id, "")
	})
	if absent(err) {
		return errNoMember, nil
	}
	return nil, err
}

// threadGone looks whether the thread that a reply goes into was deleted, and the
// message that it answers with it.
func (c *channel) threadGone(ctx context.Context, p parcel) (why, err error) {
	message, _, _ := strings.Cut(p.key, "@")
	for _, id := range []string{p.row.Root, message} {
		_, err := call(ctx, c.d, func(ctx context.Context) (*model.Post, *model.Response, error) {
			return c.d.api.GetPost(ctx, id, "")
		})
		if !absent(err) {
			return nil, err
		}
	}
	return errThreadGone, nil
}

// badText reports whether the text of a post was at fault, which the server sees
// without its database.
func badText(err error) bool {
	t, ok := errors.AsType[*trouble](err)
	return ok && strings.HasPrefix(t.id, "model.post.is_valid.")
}

// absent reports whether the server says that something is not there, or not for us.
func absent(err error) bool {
	t, ok := errors.AsType[*trouble](err)
	return ok && t.id != "" && (t.status == http.StatusNotFound || t.status == http.StatusForbidden)
}
