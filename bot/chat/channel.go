package chat

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot/backoff"
	"strapline/bot/chat/server"
	"strapline/bot/job"
	"strapline/bot/message"
)

const (
	// gatherTime is how long the first event waits for others, since simultaneous events
	// may arrive a few milliseconds out of order.
	gatherTime = 3 * time.Millisecond

	maxQueue  = 5000 // events queued for a channel; if there are more, all are dropped and fetched again
	maxLatest = 5000 // posts whose last version is remembered
	saveEvery = 50   // messages between two saves of the watermark
)

// channel is a channel of the server and its job. One goroutine reads it, another sends
// the replies.
type channel struct {
	d     *door
	id    string
	label string // readable name, for logs
	team  string // "" for direct messages
	begun int64  // for direct messages, which nobody joins, when the channel was made; else 0
	job   *job.Job

	wake chan struct{} // there is something to read
	send chan struct{} // there is something to send

	mu      sync.Mutex
	queue   []revision
	behind  bool              // something may have been missed: fetch first
	left    bool              // the channel is archived, or the account is not a member any more
	echoes  map[string]string // the ID of our post, by the key of the message it answers
	threads map[string]string // for a thread begun by our own post, the thread that it continues
	unsaved []parcel          // replies that cannot be in the outbox, such as "not saved"

	// Only the reading goroutine uses the rest.
	mark      mark
	answered  map[string]bool // fetched replies of ours, by key, and whether the message they answer was saved
	rebuilt   int             // messages answered by an earlier log that were added to this one
	latest    map[string]version
	sinceSave int // messages since the mark was saved
}

// mark is how far a channel has been read. Times are in Unix milliseconds.
type mark struct {
	Joined int64            `json:"joined"`         // older posts are ignored
	Read   int64            `json:"read"`           // everything up to here was handled
	Seen   map[string]int64 `json:"seen,omitempty"` // messages without an answer that may be fetched again
}

const (
	markName    = "chat"
	threadNames = "chat thread " // followed by the ID of the post
)

// version is the last handled version of a post.
type version struct {
	n    int64
	text string
}

// revision is a post, an edit or a deletion. Times are in Unix milliseconds, by the server's
// clock.
type revision struct {
	post    *model.Post
	version int64 // 0 for the post, deleted, or the time of the edit
	at      int64 // when it was posted, edited or deleted
	order   int64 // by which messages are sorted
	fresh   bool  // an edit that stands for the post, which was not handled before as far as we know
}

const deleted = math.MaxInt64

// key is the ID of the message in the job.
func (m revision) key() string {
	if m.fresh {
		return m.post.Id
	}
	return m.own()
}

// own is the ID of this version of the post.
func (m revision) own() string {
	switch m.version {
	case 0:
		return m.post.Id
	case deleted:
		return m.post.Id + "@deleted"
	}
	return fmt.Sprintf("%s@%d", m.post.Id, m.version)
}

// compare orders messages by time, then by the ID of the post.
func (m revision) compare(o revision) int {
	return cmp.Or(cmp.Compare(m.order, o.order), cmp.Compare(m.post.Id, o.post.Id))
}

// unread makes an edit stand for the post itself.
func (m revision) unread() revision {
	if m.version != 0 && m.version != deleted {
		m.fresh, m.order = true, m.post.CreateAt
	}
	return m
}

// thread is the ID of the post that begins m's thread, or m's own if it is in none.
func (m revision) thread() string {
	if m.post.RootId != "" {
		return m.post.RootId
	}
	return m.post.Id
}

func newRevision(p *model.Post, gone bool) revision {
	m := revision{post: p, at: p.CreateAt}
	switch {
	case gone || p.DeleteAt > 0:
		m.version, m.at = deleted, max(p.DeleteAt, p.UpdateAt)
	case p.EditAt > 0:
		m.version, m.at = p.EditAt, p.EditAt
	}
	m.order = m.at
	return m
}

// open starts to serve a channel, unless it is served already.
func (d *door) open(team *model.Team, ch *model.Channel) {
	d.mu.Lock()
	known := d.channels[ch.Id] != nil
	d.mu.Unlock()
	if known {
		return
	}
	c := &channel{
		d: d, id: ch.Id, wake: make(chan struct{}, 1), send: make(chan struct{}, 1), behind: true,
		echoes: map[string]string{}, threads: map[string]string{}, latest: map[string]version{},
	}
	switch ch.Type {
	case model.ChannelTypeDirect, model.ChannelTypeGroup:
		c.label, c.begun = "direct message "+ch.Id, ch.CreateAt
	default:
		c.label, c.team = team.Name+"/"+ch.Name, team.Name
	}
	name, err := d.jobName(c.label, ch.Id)
	if err == nil {
		c.job, err = d.jobs.Job(name)
	}
	var rows []parcel
	if err == nil {
		rows, err = c.load()
	}
	if err != nil {
		d.Log.Error("a channel cannot be served: its job cannot be opened", "channel", c.label, "job", name, "err", err)
		return
	}
	d.Log.Info("serving a channel", "channel", c.label, "job", name)
	d.mu.Lock()
	d.channels[ch.Id] = c
	d.mu.Unlock()
	poke(c.wake)
	d.Start(c.read)
	d.Start(func(ctx context.Context) { c.deliver(ctx, rows) })
}

// jobName is the name of the existing job that ends in the channel's ID, or a new name.
func (d *door) jobName(label, id string) (string, error) {
	files, err := os.ReadDir(filepath.Dir(d.jobs.Path("x")))
	if err != nil {
		return "", err
	}
	for _, f := range files {
		if name, ok := strings.CutSuffix(f.Name(), ".job"); ok && strings.HasSuffix(name, "-"+id) {
			return name, nil
		}
	}
	label = job.Slug(strings.TrimSuffix(label, id))
	return label[:min(len(label), 50)] + "-" + id, nil
}

// load reads the marks that the door stored in the job, and returns the waiting replies.
func (c *channel) load() ([]parcel, error) {
	marks, err := c.job.Marks()
	if err != nil {
		return nil, err
	}
	for name, value := range marks {
		if name == markName {
			err = errors.Join(err, json.Unmarshal(value, &c.mark))
		} else if post, ok := strings.CutPrefix(name, threadNames); ok {
			var thread string
			err = errors.Join(err, json.Unmarshal(value, &thread))
			c.threads[post] = thread
		}
	}
	if c.mark.Seen == nil {
		c.mark.Seen = map[string]int64{}
	}
	if err != nil {
		return nil, err
	}
	return c.outbox()
}

// push queues an event.
func (c *channel) push(p *model.Post, gone bool) {
	if p.UserId == c.d.Me.Id && !gone {
		c.echo(p)
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	switch {
	case c.left:
		return
	case len(c.queue) >= maxQueue:
		c.queue, c.behind = nil, true
	default:
		c.queue = append(c.queue, newRevision(p, gone))
	}
	poke(c.wake)
}

// echo notes that a reply of ours is on the server.
func (c *channel) echo(p *model.Post) {
	key, ok := p.GetProp(propName).(string)
	if !ok {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if was := c.echoes[key]; was != "" && was != p.Id {
		c.d.stats.doubled.Add(1)
		c.d.Log.Warn("a reply stands twice", "channel", c.label, "message", key, "posts", []string{was, p.Id})
	}
	if len(c.echoes) >= maxLatest {
		clear(c.echoes)
	}
	c.echoes[key] = p.Id
}

// fallBehind notes that events may have been missed.
func (c *channel) fallBehind() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.behind = true
	poke(c.wake)
}

// setMember says whether the account can use the channel.
func (c *channel) setMember(member bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if !member && !c.left {
		c.d.Log.Warn("a channel is archived, or the account was removed from it: no longer served", "channel", c.label)
		c.queue = nil
	}
	if member && c.left {
		c.d.Log.Info("serving a channel again", "channel", c.label)
		c.behind = true
		poke(c.wake)
	}
	c.left = !member
}

// read handles what is posted in the channel, until ctx is done.
func (c *channel) read(ctx context.Context) {
	again := backoff.Retry{Pace: c.d.Cfg.Pace}
	for {
		select {
		case <-c.wake:
		case <-ctx.Done():
			return
		}
		if !backoff.Sleep(ctx, gatherTime) {
			return
		}
		for {
			err := c.round(ctx)
			if err == nil {
				again.Reset()
				break
			}
			if ctx.Err() != nil || errors.Is(err, job.ErrClosed) {
				return
			}
			wait := again.Next()
			c.d.Log.Warn("a channel cannot be read", "channel", c.label, "err", err, "again_in", wait)
			if !backoff.Sleep(ctx, wait) {
				return
			}
		}
	}
}

// round handles the queued messages, after fetching if the channel is behind. It returns
// to the queue what it did not get to.
func (c *channel) round(ctx context.Context) error {
	c.mu.Lock()
	msgs, behind := c.queue, c.behind && !c.left
	c.queue, c.behind = nil, c.behind && c.left
	c.mu.Unlock()
	upTo := int64(0)
	if behind {
		fetched, newest, err := c.fetch(ctx)
		if err != nil {
			c.giveBack(msgs, true)
			if !server.Permanent(err) {
				return err
			}
			why, doubt := c.d.Verified(ctx, func() (error, error) { return c.d.Closed(ctx, c.id) })
			if why == nil {
				return cmp.Or(doubt, err)
			}
			c.setMember(false)
			return nil
		}
		msgs, upTo = append(fetched, msgs...), newest
	}
	if rest, err := c.fold(ctx, msgs); err != nil {
		c.giveBack(rest, behind)
		return err
	}
	c.mark.Read = max(c.mark.Read, upTo)
	c.answered = nil
	c.sayRebuilt()
	if behind || c.sinceSave >= saveEvery {
		return c.save(ctx)
	}
	return nil
}

// sayRebuilt tells the channel once that the log was rebuilt from it, since our replies
// there refer to another log.
func (c *channel) sayRebuilt() {
	if c.rebuilt == 0 {
		return
	}
	c.d.Log.Warn("the log was rebuilt: messages that another log answered are in this one now, and are not answered again; is the data folder the right one?",
		"channel", c.label, "messages", c.rebuilt)
	notice := fmt.Sprintf("log rebuilt: %d messages that I answered before are in it again. Entries may have other numbers now: `log` lists them", c.rebuilt)
	key := fmt.Sprintf("rebuilt@%d", time.Now().UnixMilli())
	c.rebuilt = 0
	c.mu.Lock()
	c.unsaved = append(c.unsaved, parcel{key: key, row: row{Pending: model.NewId(), At: c.mark.Read}, out: message.Out{Answers: []message.Answer{{Reply: notice}}}})
	c.mu.Unlock()
	poke(c.send)
}

// giveBack returns messages to the front of the queue.
func (c *channel) giveBack(msgs []revision, behind bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.queue = append(msgs, c.queue...)
	c.behind = c.behind || behind
}

// fold handles msgs in order, and returns those it did not get to.
func (c *channel) fold(ctx context.Context, msgs []revision) ([]revision, error) {
	newest := map[string]revision{} // by post, only the last version
	for _, m := range msgs {
		have, ok := newest[m.post.Id]
		if ok && m.version < have.version {
			m, have = have, m
		}
		if ok && (have.version == 0 || have.fresh) {
			m = m.unread()
		}
		newest[m.post.Id] = m
	}
	msgs = slices.SortedFunc(maps.Values(newest), revision.compare)
	for len(msgs) > 0 {
		m := msgs[0]
		err := c.handle(ctx, m)
		if err != nil && !errors.Is(err, errReadBefore) {
			return msgs, err
		}
		msgs = msgs[1:]
		if err != nil {
			m.fresh, m.order = false, m.at
			i, _ := slices.BinarySearchFunc(msgs, m, revision.compare)
			msgs = slices.Insert(msgs, i, m)
		}
	}
	return nil, nil
}

// save saves the mark.
func (c *channel) save(ctx context.Context) error {
	maps.DeleteFunc(c.mark.Seen, func(_ string, at int64) bool { return at < c.mark.Read-overlap.Milliseconds() })
	value, err := json.Marshal(c.mark)
	if err != nil {
		return err
	}
	c.sinceSave = 0
	return c.job.Mark(ctx, markName, value)
}
