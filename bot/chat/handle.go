package chat

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"time"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot/job"
)

// errReadBefore says that a post was read before its edit after all; all we kept
// of that is its receipt.
var errReadBefore = errors.New("the post was read before it was edited")

// handle answers one message, unless it was answered before.
func (c *channel) handle(ctx context.Context, m message) error {
	p := m.post
	if !c.wanted(m) {
		return nil
	}
	who, err := c.d.user(ctx, p.UserId)
	if err != nil {
		return err
	}
	in := c.in(m, who.name)
	if who.bot || m.version == 0 && in.Text == "" && len(in.Photos) == 0 {
		return nil
	}
	saved, stands := c.standing[in.ID]
	if stands && !saved {
		c.keep(m) // its sender was told to send it again
		return nil
	}
	if !stands {
		if in.Row, err = json.Marshal(c.row(m)); err != nil {
			return err
		}
	}
	last := c.job.Figures().Last
	out, err := c.job.Handle(ctx, in)
	if stands && c.job.Figures().Last > last {
		c.rebuilt++
	}
	switch {
	case errors.Is(err, job.ErrOtherText) && m.fresh:
		return errReadBefore
	case errors.Is(err, job.ErrOtherText):
		c.d.log.Warn("a message came again with other words, or from a sender with another name", "channel", c.label, "post", p.Id)
	case err != nil:
		return err
	}
	c.d.stats.handled.Add(1)
	c.keep(m)
	switch {
	case len(out.Answers) == 0:
		// The store has no receipt of it, so the mark has to say that it was read,
		// and before the next message is: else it might come again and answer a
		// question that was asked after it.
		c.mark.Seen[m.key()], c.mark.Seen[m.own()] = m.at, m.at
		return c.save(ctx)
	case out.Failed():
		// The sender is told to send it again, so it must not come again by itself.
		c.mark.Seen[m.key()], c.mark.Seen[m.own()], c.told = m.at, m.at, saveEvery
		c.mu.Lock()
		c.unsaved = append(c.unsaved, parcel{key: in.ID, row: c.row(m), out: out})
		c.mu.Unlock()
	}
	poke(c.send)
	return nil
}

// wanted reports whether m is for us and was not handled before.
func (c *channel) wanted(m message) bool {
	p := m.post
	if p.UserId == c.d.me.Id || p.OriginalId != "" || strings.HasPrefix(p.Type, model.PostSystemMessagePrefix) {
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

// keep notes that m is handled.
func (c *channel) keep(m message) {
	if len(c.latest) >= maxLatest {
		clear(c.latest)
	}
	c.latest[m.post.Id] = version{m.version, strings.TrimSpace(m.post.Message)}
	c.mark.Read = max(c.mark.Read, m.order)
	c.told++
}

// in is the message for the job.
func (c *channel) in(m message, who string) job.In {
	p := m.post
	in := job.In{ID: m.key(), Who: who, Sent: time.UnixMilli(p.CreateAt), Arrived: true, Thread: c.goesOn(p.RootId), Text: c.addressed(p.Message)}
	if m.version != 0 && !m.fresh {
		in.Of, in.Thread = p.Id, c.goesOn(m.thread())
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

// goesOn is the thread that a thread which one of our own posts began goes on.
func (c *channel) goesOn(thread string) string {
	c.mu.Lock()
	defer c.mu.Unlock()
	if on, ok := c.threads[thread]; ok {
		return on
	}
	return thread
}

// ourName is how the bot itself knows that it is spoken to.
const ourName = "strapline"

// addressed puts our name for the account's where a message begins with it.
func (c *channel) addressed(text string) string {
	text = strings.TrimSpace(text)
	at := "@" + c.d.me.Username
	if len(text) >= len(at) && strings.EqualFold(text[:len(at)], at) {
		if rest := text[len(at):]; rest == "" || strings.ContainsAny(rest[:1], " \n\t,:") {
			return ourName + rest
		}
	}
	return text
}

// picture reports whether a picture came with the post, or what is as good as one: a
// film or a PDF. A server that does not say what its files are may have sent one.
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

// link is an address that leads people to a post.
func (c *channel) link(post string) string {
	team := c.team
	if team == "" {
		c.d.mu.Lock()
		team = c.d.team
		c.d.mu.Unlock()
	}
	return fmt.Sprintf("%s/%s/pl/%s", c.d.api.URL, team, post)
}

// Words that call everybody in a channel; nobody means them in a reply.
var everybody = regexp.MustCompile(`(?i)@(channel|all|here)\b`)

// What the server would read as markup, in a line and at its beginning, and an address,
// which it must not be escaped in.
var (
	markup    = regexp.MustCompile("[\\\\`*_~\\[\\]]")
	lineBegin = regexp.MustCompile(`(?m)^( *)(?:([#>+-])|(\d+)([.)] ))`)
	address   = regexp.MustCompile(`https?://[^\s*\[\]()<>]+`)
)

// plain escapes names and notes so that they are shown as they were texted.
func plain(s string) string {
	var b strings.Builder
	at := 0
	for _, a := range append(address.FindAllStringIndex(s, -1), []int{len(s), len(s)}) {
		b.WriteString(markup.ReplaceAllString(s[at:a[0]], `\$0`))
		b.WriteString(s[a[0]:a[1]])
		at = a[1]
	}
	return lineBegin.ReplaceAllStringFunc(b.String(), func(m string) string {
		i := strings.IndexAny(m, "#>+-.)")
		return m[:i] + `\` + m[i:]
	})
}

// choice is where the next choice of a question begins. Each gets a line of its own:
// the server shows spaces in a row as one.
var choice = regexp.MustCompile(`(\S) {2,}(\d: )`)

// text is the reply as posted: people who were given a value that it corrects are
// called, what would be markup is escaped, and it is no longer than limit runes.
func text(out job.Out, limit int) string {
	s := plain(choice.ReplaceAllString(out.Text(), "$1\n$2"))
	s = everybody.ReplaceAllString(s, "@\u200b$1")
	var call []string
	for _, a := range out.Answers {
		for _, who := range a.Tell {
			if at := "@" + who; !strings.Contains(strings.Join(call, " ")+" ", at+" ") {
				call = append(call, at)
			}
		}
	}
	if len(call) > 0 {
		s += "\n" + strings.Join(call, " ")
	}
	runes := []rune(s)
	if len(runes) <= limit {
		return s
	}
	note := fmt.Sprintf("\n… cut off: a post holds %d characters. Ask for less, such as `log today`", limit)
	s = string(runes[:limit-len([]rune(note))])
	if i := strings.LastIndexByte(s, '\n'); i > len(s)/2 {
		s = s[:i]
	}
	return s + note
}
