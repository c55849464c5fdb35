package chat

import (
	"context"
	"strings"

	"strapline/bot/chat/server"
)

// giveUp drops a reply that the server refused permanently and returns nil, if the server's
// state confirms a reason. A server without its database gives the same refusals; then the
// reply waits, and the error says why.
func (c *channel) giveUp(ctx context.Context, p parcel, refusal error) error {
	why, err := c.d.Verified(ctx, func() (error, error) {
		if why, err := c.d.Closed(ctx, c.id); why != nil || err != nil || p.row.Root == "" {
			return why, err
		}
		message, _, _ := strings.Cut(p.key, "@")
		return c.d.ThreadGone(ctx, p.row.Root, message)
	})
	switch {
	case err != nil:
		return err
	case why == nil && server.BadText(refusal):
		why = server.ErrText
	case why == nil:
		return refusal
	}
	c.d.stats.dropped.Add(1)
	c.d.Log.Warn("a reply is given up", "channel", c.label, "message", p.key, "why", why, "err", refusal)
	return nil
}
