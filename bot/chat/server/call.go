package server

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

// Error is a failed request. Its text contains no secrets.
type Error struct {
	Status int    // of the response; 0 if there was none
	ID     string // the server's ID of the error; "" if something in between responded
	text   string
}

func (t *Error) Error() string {
	switch {
	case t.ID != "":
		return fmt.Sprintf("the chat server says %d %s", t.Status, t.ID)
	case t.Status != 0:
		return fmt.Sprintf("status %d: %s", t.Status, t.text)
	}
	return t.text
}

// Permanent reports whether the server refused the request and, if its database is up,
// would refuse it again.
func Permanent(err error) bool {
	t, ok := errors.AsType[*Error](err)
	return ok && t.ID != "" && t.Status >= 400 && t.Status < 500 && t.Status != http.StatusTooManyRequests
}

// Doubtful reports whether the failed request may have been carried out nevertheless.
func Doubtful(err error) bool {
	t, ok := errors.AsType[*Error](err)
	return ok && (t.Status < 300 || t.Status >= 500)
}

// Call makes a request. It waits while the token is in doubt, and repeats the request if
// it failed because the token was refused.
func Call[T any](ctx context.Context, d *Server, do func(context.Context) (T, *model.Response, error)) (T, error) {
	for {
		if err := d.awaitToken(ctx); err != nil {
			var none T
			return none, err
		}
		v, err := try(ctx, d, do)
		if t, ok := errors.AsType[*Error](err); !ok || t.Status != http.StatusUnauthorized {
			return v, err
		}
		d.doubtToken()
	}
}

// try makes a request, once the server allows one.
func try[T any](ctx context.Context, d *Server, do func(context.Context) (T, *model.Response, error)) (T, error) {
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
	d.Failed.Add(1)
	t := &Error{text: d.Clean(err.Error())}
	if resp != nil {
		t.Status = resp.StatusCode
	}
	if app, ok := errors.AsType[*model.AppError](err); ok {
		t.ID = d.Clean(app.Id)
	}
	if t.Status == http.StatusTooManyRequests {
		d.Limited.Add(1)
		d.holdOff(resp.Header.Get("Retry-After"))
	}
	return none, t
}

// holdOff holds back every request for the time of a Retry-After header, in seconds.
func (d *Server) holdOff(after string) {
	secs, err := strconv.Atoi(after)
	if err != nil || secs < 1 {
		secs = 1
	}
	wait := min(time.Duration(secs)*time.Second, 10*time.Minute)
	wait += rand.N(wait/4 + 1)
	d.quiet.Store(time.Now().Add(wait).UnixNano())
}

// Clean makes external text safe to log: without the token, and at most 300 bytes.
func (d *Server) Clean(s string) string {
	s = strings.ReplaceAll(s, d.Cfg.Token, "TOKEN")
	const most = 300
	if len(s) > most {
		s = s[:most] + "…"
	}
	return strings.ToValidUTF8(s, "")
}
