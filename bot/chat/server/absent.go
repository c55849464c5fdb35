package server

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
	ErrText       = errors.New("the server takes no such text")
)

// Verified returns the reason that look finds, if the server's database was up before and
// after.
func (d *Server) Verified(ctx context.Context, look func() (why, err error)) (why, err error) {
	if err := d.database(ctx); err != nil {
		return nil, err
	}
	why, err = look()
	if err == nil && why != nil {
		err = d.database(ctx)
	}
	if err != nil {
		return nil, err
	}
	return why, nil
}

// Closed finds out whether the account cannot post in the channel, and why.
func (d *Server) Closed(ctx context.Context, channel string) (why, err error) {
	ch, err := Call(ctx, d, func(ctx context.Context) (*model.Channel, *model.Response, error) {
		return d.API.GetChannel(ctx, channel)
	})
	switch {
	case absent(err):
		return errNoMember, nil
	case err != nil:
		return nil, err
	case ch.DeleteAt > 0:
		return errArchived, nil
	}
	_, err = Call(ctx, d, func(ctx context.Context) (*model.ChannelMember, *model.Response, error) {
		return d.API.GetChannelMember(ctx, channel, d.Me.Id, "")
	})
	if absent(err) {
		return errNoMember, nil
	}
	return nil, err
}

// ThreadGone finds out whether the thread of a reply was deleted, with the message that it
// answers.
func (d *Server) ThreadGone(ctx context.Context, root, message string) (why, err error) {
	for _, id := range []string{root, message} {
		if err := d.Exists(ctx, id); !absent(err) {
			return nil, err
		}
	}
	return errThreadGone, nil
}

// BadText reports whether the text of a post was refused, which the server decides without
// its database.
func BadText(err error) bool {
	t, ok := errors.AsType[*Error](err)
	return ok && strings.HasPrefix(t.ID, "model.post.is_valid.")
}

// absent reports whether the server says that something does not exist or is forbidden.
func absent(err error) bool {
	t, ok := errors.AsType[*Error](err)
	return ok && t.ID != "" && (t.Status == http.StatusNotFound || t.Status == http.StatusForbidden)
}
