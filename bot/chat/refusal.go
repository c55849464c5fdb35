package chat

import (
	"context"
	"errors"
	"net/http"
	"strings"

	"github.com/mattermost/mattermost/server/public/model"
)

// Reasons why a reply can never be posted.
var (
	errThreadGone = errors.New("its thread was deleted")
	errArchived   = errors.New("the channel is archived")
	errNoMember   = errors.New("the account is not a member of the channel")
	errText       = errors.New("the server takes no such text")
)

// giveUp drops a reply that the server refused permanently and returns nil, if the server's
// state confirms a reason. A server without its database gives the same refusals; then the
// reply waits, and the error says why.
func (c *channel) giveUp(ctx context.Context, p parcel, refusal error) error {
	why, err := c.verified(ctx, func() (error, error) {
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

// verified returns the reason that look finds, if the server's database was up before and
// after.
func (c *channel) verified(ctx context.Context, look func() (why, err error)) (why, err error) {
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

// closed finds out whether the account cannot post in the channel, and why.
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

// threadGone finds out whether the thread of a reply was deleted, with the message that it
// answers.
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

// badText reports whether the text of a post was refused, which the server decides without
// its database.
func badText(err error) bool {
	t, ok := errors.AsType[*apiError](err)
	return ok && strings.HasPrefix(t.id, "model.post.is_valid.")
}

// absent reports whether the server says that something does not exist or is forbidden.
func absent(err error) bool {
	t, ok := errors.AsType[*apiError](err)
	return ok && t.id != "" && (t.status == http.StatusNotFound || t.status == http.StatusForbidden)
}
