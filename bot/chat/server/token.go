package server

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"time"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot/backoff"
)

const (
	// How long a token has to be refused, with the server's database up, to be given up. A
	// server without its database refuses every token once the sessions in its memory have
	// expired.
	refusedTime  = 10 * time.Minute
	refusedStart = time.Minute // if the token was never accepted

	LogEvery = 10 * time.Minute // between two log lines about a lasting problem
)

// ErrToken ends Run when the token is refused permanently.
var ErrToken = errors.New("the chat server refuses the token: it was revoked or has run out, or the account is disabled; set a new one and start again")

var errDatabase = errors.New("the chat server's database is away")

// doubt is a refusal of the token that may be temporary.
type doubt struct {
	over chan struct{} // closed when it is settled
	err  error         // set before that; nil if the token was accepted again, else no more requests are made
}

// awaitToken waits while the token is in doubt.
func (d *Server) awaitToken(ctx context.Context) error {
	d.mu.Lock()
	w := d.doubt
	d.mu.Unlock()
	if w == nil {
		return nil
	}
	select {
	case <-w.over:
		return w.err
	case <-ctx.Done():
		return ctx.Err()
	}
}

// Refused reports whether the token is in doubt.
func (d *Server) Refused() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.doubt != nil
}

// doubtToken puts the token in doubt, which holds back every request.
func (d *Server) doubtToken() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.doubt != nil {
		return
	}
	w := &doubt{over: make(chan struct{})}
	d.doubt = w
	d.Start(func(ctx context.Context) {
		w.err = d.settle(ctx)
		if w.err == nil {
			d.mu.Lock()
			d.doubt = nil
			d.mu.Unlock()
		}
		close(w.over)
	})
}

// settle tries the token until it is accepted again, or ends Run.
func (d *Server) settle(ctx context.Context) error {
	began := time.Now()
	if began.Sub(d.settled) > d.Cfg.Pace.Most { // the token was accepted for a while since
		d.tries = backoff.Retry{Pace: d.Cfg.Pace}
	}
	defer func() { d.settled = time.Now() }()
	enough := refusedTime
	if !d.accepted.Load() {
		enough = refusedStart
	}
	var since, logged time.Time // since: start of the refusals with the database up
	for {
		wait := d.tries.Next()
		if !since.IsZero() {
			wait = min(wait, time.Until(since.Add(enough)))
		}
		if !backoff.Sleep(ctx, wait) {
			return ctx.Err()
		}
		_, err := try(ctx, d, d.whoAmI)
		if err == nil {
			if !logged.IsZero() {
				d.Log.Info("the chat server takes the token again", "after", time.Since(began))
			}
			return nil
		}
		counted := !since.IsZero()
		if t, ok := errors.AsType[*Error](err); ok && t.Status == http.StatusUnauthorized {
			if away := d.database(ctx); away != nil {
				err, since = away, time.Time{}
			} else if !counted {
				since = time.Now()
			}
		} else {
			since = time.Time{}
		}
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case !since.IsZero() && time.Since(since) >= enough:
			d.Fail(ErrToken)
			return ErrToken
		case time.Since(logged) < LogEvery && counted == !since.IsZero():
		case since.IsZero():
			logged = time.Now()
			d.Log.Warn("the chat server refuses the token, which is not believed: everything waits", "err", err)
		default:
			logged = time.Now()
			d.Log.Warn("the chat server refuses the token: everything waits", "err", err, "gives_up_in", time.Until(since.Add(enough)))
		}
	}
}

// database returns nil if the server says that its database is up, or does not say. The
// request does not use the token.
func (d *Server) database(ctx context.Context) error {
	says, err := try(ctx, d, func(ctx context.Context) (string, *model.Response, error) {
		const ping = "/system/ping?get_server_status=true&use_rest_semantics=true"
		req, err := http.NewRequestWithContext(ctx, http.MethodGet, d.API.APIURL+ping, nil)
		if err != nil {
			return "", nil, err
		}
		resp, err := d.API.HTTPClient.Do(req)
		if err != nil {
			return "", nil, err
		}
		defer resp.Body.Close()
		var body struct {
			Database string `json:"database_status"`
		}
		err = json.NewDecoder(io.LimitReader(resp.Body, 1<<16)).Decode(&body)
		switch {
		case body.Database != "":
			err = nil // ignore the HTTP status, which is 500 on older servers for other reasons too
		case resp.StatusCode >= 500 || resp.StatusCode == http.StatusTooManyRequests:
			err = fmt.Errorf("ping: %s", resp.Status)
		case resp.StatusCode >= 400:
			err = nil // the server does not tell
		}
		return body.Database, model.BuildResponse(resp), err
	})
	switch {
	case err != nil:
		return fmt.Errorf("nobody knows how the chat server's database is: %v", err) // not wrapped, since it is not about the caller's request
	case says != "" && says != model.StatusOk:
		return errDatabase
	}
	return nil
}

// Believed reports whether err is a permanent refusal by a server whose database is up. If
// the database is down, it returns an error.
func (d *Server) Believed(ctx context.Context, err error) (bool, error) {
	if !Permanent(err) {
		return false, err
	}
	if away := d.database(ctx); away != nil {
		return false, away
	}
	return true, nil
}
