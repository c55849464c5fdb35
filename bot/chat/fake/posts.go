package fake

import (
	"cmp"
	"maps"
	"net/http"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// post is a post as the server stores it.
type post struct {
	ID           string         `json:"id"`
	CreateAt     int64          `json:"create_at"`
	UpdateAt     int64          `json:"update_at"`
	EditAt       int64          `json:"edit_at"`
	DeleteAt     int64          `json:"delete_at"`
	IsPinned     bool           `json:"is_pinned"`
	UserID       string         `json:"user_id"`
	ChannelID    string         `json:"channel_id"`
	RootID       string         `json:"root_id"`
	ParentID     string         `json:"parent_id"`
	OriginalID   string         `json:"original_id"`
	Message      string         `json:"message"`
	Type         string         `json:"type"`
	Props        map[string]any `json:"props"`
	Hashtags     string         `json:"hashtags"`
	FileIDs      []string       `json:"file_ids,omitempty"`
	Pending      string         `json:"pending_post_id"`
	HasReactions bool           `json:"has_reactions,omitempty"`
	ReplyCount   int            `json:"reply_count"`
	LastReplyAt  int64          `json:"last_reply_at"`
	Participants []any          `json:"participants"`
	Metadata     map[string]any `json:"metadata,omitzero"`
}

// refusal is an error response.
type refusal struct {
	status int
	id     string
	text   string
}

var (
	refForbidden = &refusal{http.StatusForbidden, "api.context.permissions.app_error", "You do not have the appropriate permissions."}
	refSession   = &refusal{http.StatusUnauthorized, "api.context.session_expired.app_error", "Invalid or expired session, please login again."}
	refBody      = &refusal{http.StatusBadRequest, "api.context.invalid_body_param.app_error", "Invalid or missing post in request body."}
	refType      = &refusal{http.StatusBadRequest, "api.context.invalid_param.app_error", "Invalid post.type parameter."}
	refArchived  = &refusal{http.StatusBadRequest, "api.post.create_post.can_not_post_to_deleted.error", "Can not post to deleted channel."}
	refRoot      = &refusal{http.StatusBadRequest, "api.post.create_post.root_id.app_error", "Invalid RootId parameter."}
	refRootChan  = &refusal{http.StatusBadRequest, "api.post.create_post.channel_root_id.app_error", "Invalid ChannelId for RootId parameter."}
	refLong      = &refusal{http.StatusBadRequest, "model.post.is_valid.msg.app_error", "Invalid message."}
	refExisting  = &refusal{http.StatusBadRequest, "app.post.save.existing.app_error", "You cannot update an existing Post."}
	refSave      = &refusal{http.StatusInternalServerError, "app.post.save.app_error", "Unable to save the Post."}
	refGone      = &refusal{http.StatusNotFound, "app.post.get.app_error", "Unable to get the post."}
	refOriginal  = &refusal{http.StatusInternalServerError, "api.post.deduplicate_create_post.failed_to_get", "Failed to fetch original post after deduplicating a client repeating the same request."}
	refNoChannel = &refusal{http.StatusNotFound, "app.channel.get.existing.app_error", "Unable to find the existing channel."}
	refNoUser    = &refusal{http.StatusNotFound, "app.user.missing_account.const", "Unable to find the user."}
	refBroken    = &refusal{http.StatusInternalServerError, "app.fake.broken", "Something went wrong."}
)

const (
	sinceLimit = 1000
	pageLimit  = 200
	pendingTTL = 30 * time.Second
)

// pending is what the server remembers about a pending_post_id.
type pending struct {
	post string
	at   int64
}

// create stores a post by u, like POST /posts.
func (s *Server) create(u *User, in post) (*post, *refusal) {
	ch := s.chans[in.ChannelID]
	switch {
	case ch == nil || !slices.Contains(ch.members, u.ID):
		return nil, refForbidden
	case strings.HasPrefix(in.Type, "system_"):
		return nil, refType
	case ch.archived > 0:
		return nil, refArchived
	}
	now := s.ms()
	if key := s.keys[in.Pending]; in.Pending != "" && key != nil && now-key.at < pendingTTL.Milliseconds() {
		p := s.byID[key.post]
		if p == nil || p.DeleteAt > 0 {
			return nil, refOriginal
		}
		again := *p
		again.Pending, again.Metadata = "", nil
		return &again, nil
	}
	if in.RootID != "" {
		root := s.byID[in.RootID]
		switch {
		case root == nil || root.DeleteAt > 0 || root.RootID != "":
			return nil, refRoot
		case root.ChannelID != in.ChannelID:
			return nil, refRootChan
		}
	}
	switch {
	case in.ID != "":
		return nil, refExisting
	case utf8.RuneCountInString(in.Message) > s.MaxRunes:
		return nil, refLong
	case strings.Contains(in.Message, "\x00"):
		return nil, refSave
	}
	p := s.store(ch, u, in, now)
	u.posts++
	if in.Pending != "" {
		s.keys[in.Pending] = &pending{p.ID, now}
	}
	made := s.shown(p, true)
	made.Pending = in.Pending
	s.posted(ch, &made, "@"+u.Name)
	return &made, nil
}

func (s *Server) store(ch *Channel, u *User, in post, now int64) *post {
	p := &post{
		ID: s.id(), CreateAt: now, UpdateAt: now, UserID: u.ID, ChannelID: ch.ID,
		RootID: in.RootID, ParentID: in.RootID, Message: in.Message, Type: in.Type, FileIDs: in.FileIDs,
		Props: map[string]any{}, Metadata: map[string]any{},
	}
	maps.Copy(p.Props, in.Props)
	if u.Bot {
		p.Props["from_bot"] = "true"
	}
	if in.Metadata != nil {
		p.Metadata = in.Metadata
	} else {
		s.attach(p)
	}
	s.posts = append(s.posts, p)
	s.byID[p.ID] = p
	if root := s.byID[p.RootID]; root != nil {
		root.UpdateAt = now
	}
	delete(s.newest, ch.ID)
	return p
}

// system stores a system post.
func (s *Server) system(ch *Channel, u *User, kind, text string, props map[string]any) {
	if s.Unsaid {
		return
	}
	p := s.store(ch, u, post{Message: text, Type: kind, Props: props}, s.ms())
	made := s.shown(p, true)
	s.posted(ch, &made, "System")
}

// shown is the post as in a response: blank if it is deleted, and with the number of replies
// only if counted is set.
func (s *Server) shown(p *post, counted bool) post {
	out := *p
	out.Props = maps.Clone(p.Props)
	if p.DeleteAt > 0 {
		out.Message = ""
	}
	if counted {
		out.ReplyCount = s.replies(cmp.Or(p.RootID, p.ID))
	}
	return out
}

func (s *Server) replies(root string) int {
	n := 0
	for _, p := range s.posts {
		if p.RootID == root && p.DeleteAt == 0 {
			n++
		}
	}
	return n
}

// revise stores the old version of p under a new ID.
func (s *Server) revise(p *post, now int64) {
	old := *p
	old.ID, old.OriginalID, old.DeleteAt, old.UpdateAt = s.id(), p.ID, now, now
	old.Props = maps.Clone(p.Props)
	s.posts = append(s.posts, &old)
	s.byID[old.ID] = &old
	delete(s.newest, p.ChannelID)
}

func (s *Server) edit(u *User, id, text string) (*post, *refusal) {
	p := s.byID[id]
	switch {
	case p == nil || p.DeleteAt > 0 || p.UserID != u.ID:
		return nil, refForbidden
	case utf8.RuneCountInString(text) > s.MaxRunes:
		return nil, refLong
	}
	now := s.ms()
	s.revise(p, now)
	p.UpdateAt = now
	if p.Message != text {
		p.EditAt, p.Message = now, text
	}
	if root := s.byID[p.RootID]; root != nil {
		root.UpdateAt = now
	}
	s.changed("post_edited", p)
	out := s.shown(p, true)
	return &out, nil
}

func (s *Server) pin(id string) *refusal {
	p := s.byID[id]
	if p == nil || p.DeleteAt > 0 {
		return refGone
	}
	now := s.ms()
	s.revise(p, now)
	p.UpdateAt, p.IsPinned = now, true
	s.changed("post_edited", p)
	return nil
}

// remove deletes a post and, without events about them, its replies.
func (s *Server) remove(u *User, id string) *refusal {
	p := s.byID[id]
	if p == nil || p.DeleteAt > 0 || p.UserID != u.ID {
		return refForbidden
	}
	s.changed("post_deleted", p)
	now := s.ms()
	for _, q := range s.posts {
		if q.ID == id || q.RootID == id {
			q.DeleteAt, q.UpdateAt = now, now
			q.Props = map[string]any{"deleteBy": u.ID}
		}
	}
	delete(s.newest, p.ChannelID)
	return nil
}

func (s *Server) react(id string) {
	if p := s.byID[id]; p != nil {
		p.HasReactions, p.UpdateAt = true, s.ms()
		delete(s.newest, p.ChannelID)
	}
}

// list is a list of posts as in a response.
type list struct {
	Order []string        `json:"order"`
	Posts map[string]post `json:"posts"`
	Next  string          `json:"next_post_id"`
	Prev  string          `json:"prev_post_id"`
}

func (s *Server) listOf(posts []*post, counted bool) list {
	l := list{Order: []string{}, Posts: map[string]post{}}
	for _, p := range posts {
		l.Order = append(l.Order, p.ID)
		l.Posts[p.ID] = s.shown(p, counted)
	}
	return l
}

// since is everything that changed after t, newest post first. If there are more than 1,000
// changes it is an arbitrary 1,000, without saying so. Worse, when then asked for everything
// after the newest of those, the server answers from its cache that there is nothing, until
// something new happens.
func (s *Server) since(ch *Channel, t int64) list {
	if last, ok := s.newest[ch.ID]; ok && last <= t {
		return s.listOf(nil, false)
	}
	var found []*post
	last := t
	for _, p := range s.posts {
		if p.ChannelID == ch.ID && p.UpdateAt > t && len(found) < sinceLimit {
			found = append(found, p)
			last = max(last, p.UpdateAt)
		}
	}
	s.newest[ch.ID] = last
	slices.SortStableFunc(found, func(a, b *post) int { return cmp.Compare(b.CreateAt, a.CreateAt) })
	return s.listOf(found, false)
}

// page is a page of the channel, newest first. It includes the roots of threads, but not in
// its order.
func (s *Server) page(ch *Channel, n, size int) list {
	size = min(size, pageLimit)
	var all []*post
	for _, p := range s.posts {
		if p.ChannelID == ch.ID && p.DeleteAt == 0 {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b *post) int { return cmp.Compare(b.CreateAt, a.CreateAt) })
	from, to := min(n*size, len(all)), min((n+1)*size, len(all))
	l := s.listOf(all[from:to], true)
	for _, p := range all[from:to] {
		if root := s.byID[p.RootID]; root != nil {
			l.Posts[root.ID] = s.shown(root, true)
		}
	}
	if to < len(all) {
		l.Prev = all[to].ID
	}
	if n > 0 && from > 0 && from < len(all) {
		l.Next = all[from-1].ID
	}
	return l
}

// thread lists the root, then the whole thread including the root again, by age from the
// second post on.
func (s *Server) thread(id string) (list, *refusal) {
	p := s.byID[id]
	if p == nil || p.DeleteAt > 0 {
		return list{}, refGone
	}
	root := cmp.Or(p.RootID, p.ID)
	l := s.listOf([]*post{s.byID[root]}, true)
	for _, q := range s.posts {
		if q.RootID == root && q.DeleteAt == 0 {
			l.Order = append(l.Order, q.ID)
			l.Posts[q.ID] = s.shown(q, true)
		}
	}
	l.Order = append(l.Order, root)
	return l, nil
}
