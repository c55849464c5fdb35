package chat

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"time"

	"github.com/mattermost/mattermost/server/public/model"
)

const (
	// A refused token is believed when it was refused all that time, with the
	// server's database well: a server without its database refuses every token
	// once the sessions in its memory have run out.
	refusedTime  = 10 * time.Minute
	refusedStart = time.Minute // before the token was ever taken

	sayTime = 10 * time.Minute // between two words about a trouble that lasts
)

// ErrToken ends Run: no further try can succeed.
var ErrToken = errors.New("the chat server refuses the token: it was revoked or has run out, or the account is disabled; set a new one and start again")

var errDatabase = errors.New("the chat server's database is away")

// doubt is a refused token, until it is settled whether to believe that.
type doubt struct {
	over chan struct{} // closed when it is settled
	err  error         // set before that: why no request is made any more; nil: the token is taken again
}

// trusted waits while the token is in doubt.
func (d *door) trusted(ctx context.Context) error {
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

// refused puts the token in doubt. From then on every request waits.
func (d *door) refused() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.doubt != nil {
		return
	}
	w := &doubt{over: make(chan struct{})}
	d.doubt = w
	d.start(func(ctx context.Context) {
		w.err = d.settle(ctx)
		if w.err == nil {
			d.mu.Lock()
			d.doubt = nil
			d.mu.Unlock()
		}
		close(w.over)
	})
}

// settle tries until the token is taken again, and ends Run when it is not.
func (d *door) settle(ctx context.Context) error {
	began := time.Now()
	if began.Sub(d.settled) > d.cfg.pace.most { // it was taken for a while, not only once
		d.tries = retry{pace: d.cfg.pace}
	}
	defer func() { d.settled = time.Now() }()
	enough := refusedTime
	if !d.taken.Load() {
		enough = refusedStart
	}
	var since, said time.Time // refused with the database well since; when we last spoke of it
	for {
		wait := d.tries.next()
		if !since.IsZero() {
			wait = min(wait, time.Until(since.Add(enough)))
		}
		if !sleep(ctx, wait) {
			return ctx.Err()
		}
		_, err := try(ctx, d, d.whoAmI)
		if err == nil {
			if !said.IsZero() {
				d.log.Info("the chat server takes the token again", "after", time.Since(began))
			}
			return nil
		}
		counted := !since.IsZero()
		if t, ok := errors.AsType[*trouble](err); ok && t.status == http.StatusUnauthorized {
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
			d.fail(ErrToken)
			return ErrToken
		case time.Since(said) < sayTime && counted == !since.IsZero():
		case since.IsZero():
			said = time.Now()
			d.log.Warn("the chat server refuses the token, which is not believed: everything waits", "err", err)
		default:
			said = time.Now()
			d.log.Warn("the chat server refuses the token: everything waits", "err", err, "gives_up_in", time.Until(since.Add(enough)))
		}
	}
}

// database asks the server whether its database is there. nil: it is, or the
// server does not say. The token plays no part in it.
func (d *door) database(ctx context.Context) error {
	says, err := try(ctx, d, func(ctx context.Context) (string, *model.Response, error) {
		const ping = "/system/ping?get_server_status=true&use_rest_semantics=true"
		req, err := http.NewRequestWithContext(ctx, http.MethodGet, d.api.APIURL+ping, nil)
		if err != nil {
			return "", nil, err
		}
		resp, err := d.api.HTTPClient.Do(req)
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
			err = nil // the status, 500 on older servers, tells of more than the database
		case resp.StatusCode >= 500 || resp.StatusCode == http.StatusTooManyRequests:
			err = fmt.Errorf("ping: %s", resp.Status)
		case resp.StatusCode >= 400:
			err = nil // it is kept from us
		}
		return body.Database, model.BuildResponse(resp), err
	})
	switch {
	case err != nil:
		return fmt.Errorf("nobody knows how the chat server's database is: %v", err) // no trouble of the request in question
	case says != "" && says != model.StatusOk:
		return errDatabase
	}
	return nil
}

// believed reports whether the server refused for good, and was in a state to
// know; an error says that it was not.
func (d *door) believed(ctx context.Context, err error) (bool, error) {
	if !forGood(err) {
		return false, err
	}
	if away := d.database(ctx); away != nil {
		return false, away
	}
	return true, nil
}
