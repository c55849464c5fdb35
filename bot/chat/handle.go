package chat

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot/message"
)

// errReadBefore reports that the post was handled before its edit after all, which only
// its receipt shows.
var errReadBefore = errors.New("the post was read before it was edited")

// handle handles a message, unless it was handled before.
func (c *channel) handle(ctx context.Context, m revision) error {
	p := m.post
	if !c.wanted(m) {
		return nil
	}
	who, err := c.d.User(ctx, p.UserId)
	if err != nil {
		return err
	}
	in := c.in(m, who.Name)
	if who.Bot || m.version == 0 && in.Text == "" && len(in.Photos) == 0 {
		return nil
	}
	saved, answered := c.answered[in.ID]
	if answered && !saved {
		c.keep(m) // its sender was told to send it again
		return nil
	}
	if !answered {
		if in.Row, err = json.Marshal(c.row(m)); err != nil {
			return err
		}
	}
	last := c.job.Figures().Last
	out, err := c.job.Handle(ctx, in)
	if answered && c.job.Figures().Last > last {
		c.rebuilt++
	}
	switch {
	case errors.Is(err, message.ErrOtherText) && m.fresh:
		return errReadBefore
	case errors.Is(err, message.ErrOtherText):
		c.d.Log.Warn("a message came again with other words, or from a sender with another name", "channel", c.label, "post", p.Id)
	case err != nil:
		return err
	}
	c.d.stats.handled.Add(1)
	c.keep(m)
	switch {
	case len(out.Answers) == 0:
		// There is no receipt, so the mark has to say that it was read. It is saved before
		// the next message is read; otherwise the message might come again and answer a
		// question that was asked after it.
		c.mark.Seen[m.key()], c.mark.Seen[m.own()] = m.at, m.at
		return c.save(ctx)
	case out.Failed():
		// The sender is told to send it again, so it must not come again by itself.
		c.mark.Seen[m.key()], c.mark.Seen[m.own()], c.sinceSave = m.at, m.at, saveEvery
		c.mu.Lock()
		c.unsaved = append(c.unsaved, parcel{key: in.ID, row: c.row(m), out: out})
		c.mu.Unlock()
	}
	poke(c.send)
	return nil
}

// wanted reports whether m is to be handled and was not handled before.
func (c *channel) wanted(m revision) bool {
	p := m.post
	if p.UserId == c.d.Me.Id || p.OriginalId != "" || strings.HasPrefix(p.Type, model.PostSystemMessagePrefix) {
		return false
	}
	if p.CreateAt < c.mark.Joined {
		return false
	}
	if _, seen := c.mark.Seen[m.own()]; seen {
		return false
	}
	if last, ok := c.latest[p.Id]; ok {
		same := m.version != deleted && last.n != deleted && last.text == strings.TrimSpace(p.Message)
		return m.version > last.n && !same
	}
	return true
}

// keep notes that m was handled.
func (c *channel) keep(m revision) {
	if len(c.latest) >= maxLatest {
		clear(c.latest)
	}
	c.latest[m.post.Id] = version{m.version, strings.TrimSpace(m.post.Message)}
	c.mark.Read = max(c.mark.Read, m.order)
	c.sinceSave++
}

// in converts a message for the job.
func (c *channel) in(m revision, who string) message.In {
	p := m.post
	in := message.In{ID: m.key(), Who: who, Sent: time.UnixMilli(p.CreateAt), Arrived: true, Thread: c.original(p.RootId), Text: c.addressed(p.Message)}
	if m.version != 0 && !m.fresh {
		in.Of, in.Thread = p.Id, c.original(m.thread())
	}
	if m.version == deleted {
		in.Text = ""
		return in
	}
	if picture(p) {
		in.Photos = []string{c.link(p.Id)}
	}
	return in
}

// original is the thread that a thread begun by one of our own posts continues, or else
// the thread itself.
func (c *channel) original(thread string) string {
	c.mu.Lock()
	defer c.mu.Unlock()
	if root, ok := c.threads[thread]; ok {
		return root
	}
	return thread
}

// ourName is the name by which the bot recognises that it is addressed.
const ourName = "strapline"

// addressed replaces the account's name at the beginning of a message by ourName.
func (c *channel) addressed(text string) string {
	text = strings.TrimSpace(text)
	at := "@" + c.d.Me.Username
	if len(text) >= len(at) && strings.EqualFold(text[:len(at)], at) {
		if rest := text[len(at):]; rest == "" || strings.ContainsAny(rest[:1], " \n\t,:") {
			return ourName + rest
		}
	}
	return text
}

// picture reports whether the post has a picture, a film or a PDF. If the server does not
// say what the files are, any file counts.
func picture(p *model.Post) bool {
	if p.Metadata == nil || len(p.Metadata.Files) == 0 {
		return len(p.FileIds) > 0
	}
	for _, f := range p.Metadata.Files {
		if strings.HasPrefix(f.MimeType, "image/") || strings.HasPrefix(f.MimeType, "video/") || f.MimeType == "application/pdf" {
			return true
		}
	}
	return false
}

// link is the URL of a post for people.
func (c *channel) link(post string) string {
	team := c.team
	if team == "" {
		c.d.mu.Lock()
		team = c.d.team
		c.d.mu.Unlock()
	}
	return fmt.Sprintf("%s/%s/pl/%s", c.d.API.URL, team, post)
}
