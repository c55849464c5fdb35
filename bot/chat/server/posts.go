package server

import (
	"context"
	"slices"

	"github.com/mattermost/mattermost/server/public/model"
)

const (
	pageSize = 200 // the server's limit
	MaxPages = 500 // of a channel that are read
)

// Page reads a page of a channel, the newest posts on page 0.
func (d *Server) Page(ctx context.Context, channel string, n int) (*model.PostList, error) {
	return Call(ctx, d, func(ctx context.Context) (*model.PostList, *model.Response, error) {
		return d.API.GetPostsForChannel(ctx, channel, n, pageSize, "", false, false)
	})
}

// InOrder returns the posts in the order of a list, which may contain others as well.
func InOrder(list *model.PostList) []*model.Post {
	var posts []*model.Post
	for _, id := range list.Order {
		if p := list.Posts[id]; p != nil {
			posts = append(posts, p)
		}
	}
	return posts
}

// Pages reads the channel from its newest post back to the time from. Posts made meanwhile
// move others to the next page, which does no harm. A deletion moves one back to a page
// already read, so if a page does not continue the last one, all are read again.
func (d *Server) Pages(ctx context.Context, channel string, from int64) ([]*model.Post, error) {
	var posts []*model.Post
	next, tries := "", 0
	for n := 0; n < MaxPages; n++ {
		list, err := d.Page(ctx, channel, n)
		if err != nil {
			return nil, err
		}
		if next != "" && !slices.Contains(list.Order, next) && tries < 5 {
			posts, next, n = nil, "", -1
			tries++
			continue
		}
		page := InOrder(list)
		posts = append(posts, page...)
		next = list.PrevPostId
		if len(page) == 0 || slices.ContainsFunc(page, func(p *model.Post) bool { return p.CreateAt < from }) {
			break
		}
	}
	return posts, nil
}

// Thread reads a thread.
func (d *Server) Thread(ctx context.Context, root string) (*model.PostList, error) {
	return Call(ctx, d, func(ctx context.Context) (*model.PostList, *model.Response, error) {
		return d.API.GetPostThread(ctx, root, "", false)
	})
}

// Exists returns an error unless the server shows the post.
func (d *Server) Exists(ctx context.Context, post string) error {
	_, err := Call(ctx, d, func(ctx context.Context) (*model.Post, *model.Response, error) { return d.API.GetPost(ctx, post, "") })
	return err
}
