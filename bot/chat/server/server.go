// Package server is the chat server as an account sees it: requests that wait while the token is in doubt, the
// socket, and which refusals are to be believed. It knows nothing of jobs.
package server

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"time"
	"unicode"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot/backoff"
)

// Config says which server to serve, and as whom.
type Config struct {
	URL   string       // such as https://chat.example.test
	Token string       // of the bot's account; it reaches no log and no error
	Log   *slog.Logger // by default nothing is logged
	// Dial connects to the server; the default is TCP.
	Dial func(ctx context.Context, network, addr string) (net.Conn, error)

	Pace backoff.Pace
}

// requestTimeout is the timeout of a request. The server never delays a response longer.
const requestTimeout = 20 * time.Second

// Server is the chat server as an account sees it.
type Server struct {
	Cfg   Config
	API   *model.Client4
	Log   *slog.Logger
	Fail  context.CancelCauseFunc
	Start func(func(context.Context)) // starts a goroutine that Run waits for
	quiet atomic.Int64                // Unix nanoseconds; the server asked for no requests until then

	Failed  atomic.Int64 // failed requests
	Limited atomic.Int64 // of those, requests refused as too many

	Me       *model.User // set before anything else runs
	accepted atomic.Bool // the token was accepted at least once

	mu    sync.Mutex
	users map[string]user
	doubt *doubt // about the token; nil while it is accepted

	tries   backoff.Retry // used by settle only, which never runs twice at once
	settled time.Time     // when settle last returned
}

// checkToken returns an error that names the likely mistake if token cannot be valid.
func checkToken(token string) error {
	switch {
	case token == "":
		return errors.New("a token for the chat server is needed")
	case strings.HasPrefix(token, "\ufeff"):
		return errors.New("the token for the chat server has a byte-order mark in front: save its file as plain text without one")
	case strings.ContainsAny(token, "\"'`“”‘’"):
		return errors.New("the token for the chat server has quotes in it: leave them out")
	case strings.ContainsFunc(token, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }):
		return errors.New("the token for the chat server has a space or a line break in it")
	case strings.ContainsFunc(token, func(r rune) bool { return r > unicode.MaxASCII || !unicode.IsPrint(r) }):
		return errors.New("the token for the chat server has a character in it that no token has: copy it again")
	}
	return nil
}

// New returns the server of cfg, before it is asked anything.
func New(cfg Config) (*Server, error) {
	u, err := url.Parse(cfg.URL)
	if err != nil || (u.Scheme != "http" && u.Scheme != "https") || u.Host == "" {
		return nil, fmt.Errorf("the chat server's address must be like https://chat.example.test, not %q", cfg.URL)
	}
	if u.User != nil || u.RawQuery != "" || u.Fragment != "" {
		return nil, errors.New("the chat server's address must have no user, no ? and no #")
	}
	if whole, isAPI := strings.CutSuffix(strings.TrimRight(cfg.URL, "/"), model.APIURLSuffix); isAPI {
		return nil, fmt.Errorf("the chat server's address must be the one that people open, without %s: try %s", model.APIURLSuffix, whole)
	}
	if err := checkToken(cfg.Token); err != nil {
		return nil, err
	}
	cfg.Log = cmp.Or(cfg.Log, slog.New(slog.DiscardHandler))
	if cfg.Dial == nil {
		cfg.Dial = new(net.Dialer).DialContext
	}
	if cfg.Pace == (backoff.Pace{}) {
		cfg.Pace = backoff.Pace{First: 500 * time.Millisecond, Most: time.Minute}
	}
	api := model.NewAPIv4Client(cfg.URL)
	api.SetToken(cfg.Token)
	api.HTTPClient = &http.Client{
		Timeout: requestTimeout,
		Transport: &http.Transport{
			Proxy: http.ProxyFromEnvironment, DialContext: cfg.Dial,
			TLSHandshakeTimeout: 10 * time.Second, IdleConnTimeout: 90 * time.Second, MaxIdleConnsPerHost: 8,
		},
		// A redirected POST would arrive as a GET; the address has to be the final one.
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}
	return &Server{Cfg: cfg, API: api, Log: cfg.Log, users: map[string]user{}}, nil
}

// LikelyCause says what is probably wrong if no chat server was ever reached: something
// else responds at the address, or the path is wrong. It is "" for other errors.
func (d *Server) LikelyCause(err error) string {
	t, ok := errors.AsType[*Error](err)
	if !ok || t.Status == 0 || t.ID != "" && t.Status != http.StatusNotFound || t.Status >= 500 || d.accepted.Load() {
		return ""
	}
	if u, err := url.Parse(d.Cfg.URL); err == nil && strings.Trim(u.Path, "/") != "" {
		return "the address ends in " + u.Path + ": it must be the one that people open the chat at, as a rule without a path"
	}
	return "no chat server answers at " + d.Cfg.URL + ": the address must be the one that people open the chat at"
}

// user is a cached account.
type user struct {
	Name string
	Bot  bool
	till time.Time // when the cache expires
}

func (d *Server) User(ctx context.Context, id string) (user, error) {
	d.mu.Lock()
	u, ok := d.users[id]
	d.mu.Unlock()
	if ok && time.Now().Before(u.till) {
		return u, nil
	}
	rec, err := Call(ctx, d, func(ctx context.Context) (*model.User, *model.Response, error) {
		return d.API.GetUser(ctx, id, "")
	})
	if err == nil {
		u = user{Name: rec.Username, Bot: rec.IsBot}
	} else if gone, err := d.Believed(ctx, err); gone {
		u = user{Name: id} // the account was deleted, but it did write the message
	} else {
		return user{}, err
	}
	u.till = time.Now().Add(time.Hour)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.users[id] = u
	return u, nil
}
