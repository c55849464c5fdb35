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

	"strapline/bot/backoff"
)

// apiError is a failed request. Its text contains no secrets.
type apiError struct {
	status int    // of the response; 0 if there was none
	id     string // the server's ID of the error; "" if something in between responded
	text   string
}

func (t *apiError) Error() string {
	switch {
	case t.id != "":
		return fmt.Sprintf("the chat server says %d %s", t.status, t.id)
	case t.status != 0:
		return fmt.Sprintf("status %d: %s", t.status, t.text)
	}
	return t.text
}

// permanent reports whether the server refused the request and, if its database is up,
// would refuse it again.
func permanent(err error) bool {
	t, ok := errors.AsType[*apiError](err)
	return ok && t.id != "" && t.status >= 400 && t.status < 500 && t.status != http.StatusTooManyRequests
}

// doubtful reports whether the failed request may have been carried out nevertheless.
func doubtful(err error) bool {
	t, ok := errors.AsType[*apiError](err)
	return ok && (t.status < 300 || t.status >= 500)
}

// call makes a request. It waits while the token is in doubt, and repeats the request if
// it failed because the token was refused.
func call[T any](ctx context.Context, d *door, do func(context.Context) (T, *model.Response, error)) (T, error) {
	for {
		if err := d.awaitToken(ctx); err != nil {
			var none T
			return none, err
		}
		v, err := try(ctx, d, do)
		if t, ok := errors.AsType[*apiError](err); !ok || t.status != http.StatusUnauthorized {
			return v, err
		}
		d.doubtToken()
	}
}

// try makes a request, once the server allows one.
func try[T any](ctx context.Context, d *door, do func(context.Context) (T, *model.Response, error)) (T, error) {
	var none T
	if wait := time.Until(time.Unix(0, d.quiet.Load())); wait > 0 && !backoff.Sleep(ctx, wait) {
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
	t := &apiError{text: d.clean(err.Error())}
	if resp != nil {
		t.status = resp.StatusCode
	}
	if app, ok := errors.AsType[*model.AppError](err); ok {
		t.id = d.clean(app.Id)
	}
	if t.status == http.StatusTooManyRequests {
		d.stats.limited.Add(1)
		d.holdOff(resp.Header.Get("Retry-After"))
	}
	return none, t
}

// holdOff holds back every request for the time of a Retry-After header, in seconds.
func (d *door) holdOff(after string) {
	secs, err := strconv.Atoi(after)
	if err != nil || secs < 1 {
		secs = 1
	}
	wait := min(time.Duration(secs)*time.Second, 10*time.Minute)
	wait += rand.N(wait/4 + 1)
	d.quiet.Store(time.Now().Add(wait).UnixNano())
}

// clean makes external text safe to log: without the token, and at most 300 bytes.
func (d *door) clean(s string) string {
	s = strings.ReplaceAll(s, d.cfg.Token, "TOKEN")
	const most = 300
	if len(s) > most {
		s = s[:most] + "…"
	}
	return strings.ToValidUTF8(s, "")
}
