package chat

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"slices"
	"time"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot/backoff"
	"strapline/bot/chat/markup"
	"strapline/bot/chat/server"
	"strapline/bot/job"
	"strapline/bot/message"
)

const (
	propName    = "strapline"         // property of our posts: the key of the message they answer
	unsavedName = "strapline_unsaved" // property of our posts that say that it was not saved

	// The length limit of a post in runes: the server's usual one, and that of a server
	// with an old database.
	mostRunes, leastRunes = 16383, 4000

	// finishTime is how long a reply being sent at shutdown may take.
	finishTime = 3 * time.Second
)

// row is what is needed to deliver a reply.
type row struct {
	Root    string `json:"root,omitempty"` // the root of the thread to post it in; "" for a new thread
	Thread  string `json:"thread"`         // the thread that it belongs to, even if Root is ""
	Pending string `json:"pending"`        // the pending ID for all tries
	At      int64  `json:"at"`             // the reply is not older, by the server's clock, in Unix milliseconds
}

// row makes the row for the reply to m.
func (c *channel) row(m revision) row {
	r := row{Root: m.thread(), Thread: m.thread(), Pending: model.NewId(), At: m.post.CreateAt}
	if m.version == deleted && m.post.RootId == "" {
		// Its thread was deleted with it. The reply will be newer than what was read.
		r.Root, r.At = "", max(r.At, c.mark.Read-overlap.Milliseconds())
	}
	return r
}

// parcel is a reply to be sent.
type parcel struct {
	key string
	row row
	out message.Out
}

// outbox returns the replies waiting in the job, those to older messages first.
func (c *channel) outbox() ([]parcel, error) {
	rows, err := c.job.Outbox()
	if err != nil {
		return nil, err
	}
	var all []parcel
	for key, p := range rows {
		var r row
		if err := json.Unmarshal(p.Row, &r); err != nil || r.Pending == "" {
			continue // of another door
		}
		all = append(all, parcel{key, r, p.Out})
	}
	slices.SortFunc(all, func(a, b parcel) int {
		return cmp.Or(cmp.Compare(a.row.At, b.row.At), cmp.Compare(a.key, b.key))
	})
	return all, nil
}

// attempt is the state of sending a reply.
type attempt struct {
	backoff.Retry
	due    time.Time // of the next try
	doubt  bool      // the reply may be on the server already
	logged time.Time // when it was last logged that the reply waits
}

var (
	errLater     = errors.New("there is more to send later")
	errNoPicture = errors.New("no picture")
)

// deliver sends replies until ctx is done. Those waiting when the job was opened may have
// been sent already.
func (c *channel) deliver(ctx context.Context, waiting []parcel) {
	tries := map[string]*attempt{}
	for _, p := range waiting {
		tries[p.key] = &attempt{Retry: backoff.Retry{Pace: c.d.Cfg.Pace}, doubt: true}
	}
	again := backoff.Retry{Pace: c.d.Cfg.Pace}
	for {
		wait := time.Hour
		switch err := c.pass(ctx, tries, &again); {
		case ctx.Err() != nil || errors.Is(err, job.ErrClosed):
			return
		case errors.Is(err, errLater):
			wait = c.soonest(tries)
		case err != nil:
			wait = again.Next()
			c.d.Log.Warn("replies wait", "channel", c.label, "err", err, "again_in", wait)
			if !backoff.Sleep(ctx, wait) {
				return
			}
			continue
		}
		t := time.NewTimer(wait)
		select {
		case <-t.C:
		case <-c.send:
		case <-ctx.Done():
			t.Stop()
			return
		}
		t.Stop()
	}
}

// soonest is the time until the next try is due, an hour at most.
func (c *channel) soonest(tries map[string]*attempt) time.Duration {
	wait := time.Hour
	for _, t := range tries {
		wait = min(wait, time.Until(t.due))
	}
	return max(wait, 0)
}

// pass sends the replies that are due. If the server fails on a reply, only that one waits;
// if the server cannot be reached or asks for a pause, all wait.
func (c *channel) pass(ctx context.Context, tries map[string]*attempt, again *backoff.Retry) (err error) {
	parcels, err := c.outbox()
	if err != nil {
		return err
	}
	c.mu.Lock()
	parcels = append(parcels, c.unsaved...)
	c.mu.Unlock()
	var sent []string
	defer func() {
		// Even at shutdown: the job stays open until Run has returned.
		err = errors.Join(err, c.done(context.WithoutCancel(ctx), sent))
	}()
	stop := ctx
	ctx, cancel := outlive(ctx, finishTime)
	defer cancel()
	later := false
	for _, p := range parcels {
		if stop.Err() != nil {
			return stop.Err()
		}
		t := tries[p.key]
		if t == nil {
			t = &attempt{Retry: backoff.Retry{Pace: c.d.Cfg.Pace}}
			tries[p.key] = t
		}
		if time.Until(t.due) > 0 {
			later = true
			continue
		}
		err := c.post(ctx, p, t.doubt, t.N < pictureTries)
		if err == nil {
			again.Reset()
			sent = append(sent, p.key)
			delete(tries, p.key)
			continue
		}
		t.doubt = t.doubt || server.Doubtful(err)
		if e, ok := errors.AsType[*server.Error](err); !ok || e.ID == "" || e.Status == http.StatusTooManyRequests {
			return err
		}
		wait := t.Next()
		t.due, later = time.Now().Add(wait), true
		if time.Since(t.logged) > server.LogEvery {
			t.logged = time.Now()
			c.d.Log.Warn("a reply waits", "channel", c.label, "message", p.key, "err", err, "again_in", wait)
		}
	}
	if later {
		return errLater
	}
	return nil
}

// outlive returns a context that is done the given time after ctx.
func outlive(ctx context.Context, by time.Duration) (context.Context, context.CancelFunc) {
	longer, cancel := context.WithCancel(context.WithoutCancel(ctx))
	stop := context.AfterFunc(ctx, func() { time.AfterFunc(by, cancel) })
	return longer, func() {
		stop()
		cancel()
	}
}

// done removes replies from the outbox.
func (c *channel) done(ctx context.Context, keys []string) error {
	if len(keys) == 0 {
		return nil
	}
	c.mu.Lock()
	c.unsaved = slices.DeleteFunc(c.unsaved, func(p parcel) bool { return slices.Contains(keys, p.key) })
	c.mu.Unlock()
	return c.job.Sent(ctx, keys...)
}

// post sends a reply. It returns nil when the reply needs no further tries.
func (c *channel) post(ctx context.Context, p parcel, doubt, pictures bool) error {
	if doubt {
		found, err := c.find(ctx, p)
		switch {
		case server.Permanent(err):
			return c.giveUp(ctx, p, err)
		case err != nil:
			return err
		case found:
			c.d.stats.found.Add(1)
			return nil
		}
		c.d.stats.unsure.Add(1)
	}
	limit := int(c.d.limit.Load())
	post := &model.Post{ChannelId: c.id, RootId: p.row.Root, PendingPostId: p.row.Pending}
	files, err := c.upload(ctx, p.out, pictures)
	switch {
	case errors.Is(err, errNoPicture):
		post.Message = markup.Text(p.out, limit-len(noPicture)) + noPicture
	case err != nil:
		return err
	default:
		post.Message, post.FileIds = markup.Text(p.out, limit), files
	}
	post.AddProp(propName, p.key)
	if p.out.Failed() {
		post.AddProp(unsavedName, "true")
	}
	made, err := server.Call(ctx, c.d.Server, func(ctx context.Context) (*model.Post, *model.Response, error) { return c.d.API.CreatePost(ctx, post) })
	t, _ := err.(*server.Error)
	switch {
	case err == nil:
		c.d.stats.sent.Add(1)
		if p.row.Thread != p.row.Root {
			c.keepThread(ctx, made.Id, p.row.Thread)
		}
		return nil
	case t != nil && t.ID == "api.post.deduplicate_create_post.failed_to_get":
		c.d.stats.found.Add(1) // it was posted, and somebody deleted it
		return nil
	case t != nil && t.ID == "model.post.is_valid.msg.app_error" && limit > leastRunes:
		c.d.limit.Store(leastRunes)
		return c.post(ctx, p, false, pictures)
	case server.Permanent(err):
		return c.giveUp(ctx, p, err)
	}
	return err
}

// keepThread stores which thread a post of ours continues, so that an answer in the post's
// thread is recognised. If that fails the reply is still sent.
func (c *channel) keepThread(ctx context.Context, post, thread string) {
	c.mu.Lock()
	c.threads[post] = thread
	c.mu.Unlock()
	value, err := json.Marshal(thread)
	if err == nil {
		err = c.job.Mark(ctx, threadNames+post, value)
	}
	if err != nil {
		c.d.Log.Error("a thread cannot be kept", "channel", c.label, "post", post, "err", err)
	}
}
