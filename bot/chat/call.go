package chat

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/http"
	"strconv"
	"strings"
	"time"

	"github.com/mattermost/mattermost/server/public/model"
)

// trouble is a request that failed, with nothing secret in its text.
type trouble struct {
	status int    // of the answer; 0: none came
	id     string // the server's own name for what is wrong; "": it came from something in between
	text   string
}

func (t *trouble) Error() string {
	switch {
	case t.id != "":
		return fmt.Sprintf("the chat server says %d %s", t.status, t.id)
	case t.status != 0:
		return fmt.Sprintf("status %d: %s", t.status, t.text)
	}
	return t.text
}

// forGood reports whether the server refused and, if it is well, will refuse again.
func forGood(err error) bool {
	t, ok := errors.AsType[*trouble](err)
	return ok && t.id != "" && t.status >= 400 && t.status < 500 && t.status != http.StatusTooManyRequests
}

// doubtful reports whether the request may have been carried out all the same.
func doubtful(err error) bool {
	t, ok := errors.AsType[*trouble](err)
	return ok && (t.status < 300 || t.status >= 500)
}

// call makes one request. It waits while the token is in doubt, and asks again
// when that was why it was refused.
func call[T any](ctx context.Context, d *door, do func(context.Context) (T, *model.Response, error)) (T, error) {
	for {
		if err := d.trusted(ctx); err != nil {
			var none T
			return none, err
		}
		v, err := try(ctx, d, do)
		if t, ok := errors.AsType[*trouble](err); !ok || t.status != http.StatusUnauthorized {
			return v, err
		}
		d.refused()
	}
}

// try makes one request, not before the server wants one.
func try[T any](ctx context.Context, d *door, do func(context.Context) (T, *model.Response, error)) (T, error) {
	var none T
	if wait := time.Until(time.Unix(0, d.quiet.Load())); wait > 0 && !sleep(ctx, wait) {
		return none, ctx.Err()
	}
	v, resp, err := do(ctx)
	if err == nil {
		return v, nil
	}
	if ctx.Err() != nil {
		return none, ctx.Err()
	}
	d.stats.failed.Add(1)
	t := &trouble{text: d.clean(err.Error())}
	if resp != nil {
		t.status = resp.StatusCode
	}
	if app, ok := errors.AsType[*model.AppError](err); ok {
		t.id = d.clean(app.Id)
	}
	if t.status == http.StatusTooManyRequests {
		d.stats.limited.Add(1)
		d.hush(resp.Header.Get("Retry-After"))
	}
	return none, t
}

// hush keeps every request back for as long as a Retry-After says, in seconds.
func (d *door) hush(after string) {
	secs, err := strconv.Atoi(after)
	if err != nil || secs < 1 {
		secs = 1
	}
	wait := min(time.Duration(secs)*time.Second, 10*time.Minute)
	wait += rand.N(wait/4 + 1)
	d.quiet.Store(time.Now().Add(wait).UnixNano())
}

// clean makes text from elsewhere fit for a log.
func (d *door) clean(s string) string {
	s = strings.ReplaceAll(s, d.cfg.Token, "TOKEN")
	const most = 300
	if len(s) > most {
		s = s[:most] + "…"
	}
	return strings.ToValidUTF8(s, "")
}

// pace is how tries are spaced: from first on, doubled each time, up to most,
// and each up to half shorter, so that many clients do not come back at once.
type pace struct{ first, most time.Duration }

type retry struct {
	pace
	n int
}

func (r *retry) next() time.Duration {
	wait := r.most
	if r.n < 20 {
		wait = min(r.first<<r.n, r.most)
	}
	r.n++
	return wait - rand.N(wait/2+1)
}

func (r *retry) reset() { r.n = 0 }

// sleep waits, and reports whether it waited to the end.
func sleep(ctx context.Context, wait time.Duration) bool {
	t := time.NewTimer(wait)
	defer t.Stop()
	select {
	case <-t.C:
		return true
	case <-ctx.Done():
		return false
	}
}
