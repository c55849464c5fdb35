package chat

import (
	"context"
	"slices"
	"time"

	"strapline/bot/chat/server"

	"github.com/mattermost/mattermost/server/public/model"
)

const (
	// overlap is how far before the watermark is fetched again, because a post may become
	// visible a little after its time.
	overlap = time.Minute

	maxSince = 1000           // changes that the server returns at once, without saying that there are more
	editAge  = 24 * time.Hour // how far before the watermark to look for edits if the changes were cut off
)

// fetch gets what changed since the channel was last read, and the time up to which that
// is complete.
func (c *channel) fetch(ctx context.Context) ([]revision, int64, error) {
	if c.mark.Joined == 0 {
		if err := c.join(ctx); err != nil {
			return nil, 0, err
		}
	}
	from := max(c.mark.Read-overlap.Milliseconds(), c.mark.Joined-1, 1)
	list, err := server.Call(ctx, c.d.Server, func(ctx context.Context) (*model.PostList, *model.Response, error) {
		return c.d.API.GetPostsSince(ctx, c.id, from, false)
	})
	if err != nil {
		return nil, 0, err
	}
	posts, upTo := server.InOrder(list), int64(0)
	if len(posts) >= maxSince {
		c.d.Log.Warn("more changed than the server names at once: reading page by page; deletions of older posts may go unseen",
			"channel", c.label)
		pages, err := c.d.Pages(ctx, c.id, from-editAge.Milliseconds())
		if err != nil {
			return nil, 0, err
		}
		for _, p := range pages {
			upTo = max(upTo, p.CreateAt)
		}
		posts = append(posts, pages...)
	} else {
		for _, p := range posts {
			upTo = max(upTo, p.UpdateAt)
		}
	}
	msgs, err := c.changes(ctx, posts, from)
	return msgs, upTo, err
}

// changes makes messages of the fetched posts that were made, edited or deleted after
// from, except those from times when the account was not a member.
func (c *channel) changes(ctx context.Context, posts []*model.Post, from int64) ([]revision, error) {
	slices.SortStableFunc(posts, func(a, b *model.Post) int { return int(a.CreateAt - b.CreateAt) })
	byID := map[string]*model.Post{}
	out := int64(0) // when the account was removed; 0 while it is a member
	var away [][2]int64
	for _, p := range posts {
		byID[p.Id] = p
		if c.removes(p) {
			out = p.CreateAt
		} else if out > 0 && c.joins(p) {
			away, out = append(away, [2]int64{out, p.CreateAt}), 0
		}
	}
	var msgs []revision
	c.answered = map[string]bool{}
	for _, p := range posts {
		if p.UserId == c.d.Me.Id && p.DeleteAt == 0 {
			c.echo(p)
			if key, ok := p.GetProp(propName).(string); ok {
				c.answered[key] = p.GetProp(unsavedName) == nil
			}
		}
		m := newRevision(p, false)
		if m.at <= from || slices.ContainsFunc(away, func(a [2]int64) bool { return a[0] <= p.CreateAt && p.CreateAt <= a[1] }) {
			continue
		}
		if m.version == deleted && p.RootId != "" {
			withRoot, err := c.wentWithRoot(ctx, p, byID[p.RootId])
			if err != nil {
				return nil, err
			}
			if withRoot {
				continue
			}
		}
		if _, read := c.mark.Seen[p.Id]; p.EditAt > 0 && p.CreateAt > from && !read {
			m = m.unread()
		}
		msgs = append(msgs, m)
	}
	return msgs, nil
}

// wentWithRoot reports whether a reply was deleted only because the root of its thread
// was, so that its writer retracted nothing.
func (c *channel) wentWithRoot(ctx context.Context, p, root *model.Post) (bool, error) {
	if root != nil {
		return root.DeleteAt == p.DeleteAt, nil
	}
	return c.d.Believed(ctx, c.d.Exists(ctx, p.RootId))
}

// join finds when the account joined the channel, by the server's post about it. Without
// one, only what is posted from now on is read.
func (c *channel) join(ctx context.Context) error {
	if c.begun > 0 {
		c.mark.Joined = c.begun
		return nil
	}
	newest := int64(0)
	for n := range server.MaxPages {
		list, err := c.d.Page(ctx, c.id, n)
		if err != nil {
			return err
		}
		page := server.InOrder(list)
		for _, p := range page {
			newest = max(newest, p.CreateAt)
			if c.joins(p) {
				c.mark.Joined = p.CreateAt
				return nil
			}
		}
		if len(page) == 0 {
			break
		}
	}
	c.d.Log.Warn("nothing in the channel says when the account joined it: what was posted before now is not read", "channel", c.label)
	c.mark.Joined = newest + 1
	return nil
}

// joins reports whether a system post says that the account joined.
func (c *channel) joins(p *model.Post) bool {
	switch p.Type {
	case model.PostTypeJoinChannel, model.PostTypeJoinTeam:
		return p.UserId == c.d.Me.Id
	case model.PostTypeAddToChannel, model.PostTypeAddToTeam:
		return p.GetProp("addedUserId") == c.d.Me.Id || p.GetProp("addedUsername") == c.d.Me.Username
	}
	return false
}

// removes reports whether a system post says that the account left.
func (c *channel) removes(p *model.Post) bool {
	switch p.Type {
	case model.PostTypeLeaveChannel, model.PostTypeLeaveTeam:
		return p.UserId == c.d.Me.Id
	case model.PostTypeRemoveFromChannel, model.PostTypeRemoveFromTeam:
		return p.GetProp("removedUserId") == c.d.Me.Id || p.GetProp("removedUsername") == c.d.Me.Username
	}
	return false
}

// find reports whether a reply of ours is on the server already.
func (c *channel) find(ctx context.Context, p parcel) (bool, error) {
	mine := func(post *model.Post) bool { return post.UserId == c.d.Me.Id && post.GetProp(propName) == p.key }
	if p.row.Root != "" {
		list, err := c.d.Thread(ctx, p.row.Root)
		if err != nil {
			return false, err
		}
		return slices.ContainsFunc(server.InOrder(list), mine), nil
	}
	posts, err := c.d.Pages(ctx, c.id, p.row.At)
	return slices.ContainsFunc(posts, mine), err
}
