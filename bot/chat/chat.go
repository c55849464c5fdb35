package chat

import (
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
	"strapline/bot/job"
)

// Config says which server to serve, and as whom.
type Config struct {
	URL   string       // such as https://chat.example.test
	Token string       // of the bot's account; it reaches no log and no error
	Log   *slog.Logger // by default nothing is logged
	// Dial connects to the server; the default is TCP.
	Dial func(ctx context.Context, network, addr string) (net.Conn, error)

	pace backoff.Pace
}

// requestTimeout is the timeout of a request. The server never delays a response longer.
const requestTimeout = 20 * time.Second

// door is the state of a Run.
type door struct {
	cfg   Config
	jobs  *job.Jobs
	api   *model.Client4
	log   *slog.Logger
	fail  context.CancelCauseFunc
	start func(func(context.Context)) // starts a goroutine that Run waits for
	stats stats
	quiet atomic.Int64 // Unix nanoseconds; the server asked for no requests until then
	limit atomic.Int64 // of a post, in runes

	me       *model.User // set before anything else runs
	accepted atomic.Bool // the token was accepted at least once
	relist   chan struct{}

	mu       sync.Mutex
	channels map[string]*channel
	users    map[string]user
	team     string // a team for links into direct messages
	doubt    *doubt // about the token; nil while it is accepted

	tries   backoff.Retry // used by settle only, which never runs twice at once
	settled time.Time     // when settle last returned
}

// Run serves every channel that the account is a member of until ctx is done, and then
// returns nil. It recovers by itself from any trouble with the server, except that it
// returns [ErrToken] if the token stays refused. It returns an error if cfg is invalid.
// The bot must stay open until Run has returned.
func Run(ctx context.Context, b *job.Jobs, cfg Config) error {
	d, err := newDoor(b, cfg)
	if err != nil {
		return err
	}
	ctx, d.fail = context.WithCancelCause(ctx)
	defer d.fail(nil)
	defer d.api.HTTPClient.CloseIdleConnections()
	var wg sync.WaitGroup
	defer wg.Wait()
	d.start = func(do func(context.Context)) { wg.Go(func() { do(ctx) }) }

	d.start(d.health)
	again := backoff.Retry{Pace: d.cfg.pace}
	for {
		began := time.Now()
		err := d.session(ctx)
		if ctx.Err() != nil {
			break
		}
		if time.Since(began) > d.cfg.pace.Most { // the session lasted; one that breaks at once is no success
			again.Reset()
		}
		wait := again.Next()
		attrs := []any{"err", err, "again_in", wait}
		if cause := d.likelyCause(err); cause != "" {
			attrs = append(attrs, "likely", cause)
		}
		d.log.Warn("no connection to the chat server", attrs...)
		backoff.Sleep(ctx, wait)
	}
	if errors.Is(context.Cause(ctx), ErrToken) {
		return ErrToken
	}
	return nil
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

func newDoor(b *job.Jobs, cfg Config) (*door, error) {
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
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	if cfg.Dial == nil {
		cfg.Dial = new(net.Dialer).DialContext
	}
	if cfg.pace == (backoff.Pace{}) {
		cfg.pace = backoff.Pace{First: 500 * time.Millisecond, Most: time.Minute}
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
	d := &door{
		cfg: cfg, jobs: b, api: api, log: cfg.Log,
		relist: make(chan struct{}, 1), channels: map[string]*channel{}, users: map[string]user{},
	}
	d.limit.Store(mostRunes)
	return d, nil
}

// likelyCause says what is probably wrong if no chat server was ever reached: something
// else responds at the address, or the path is wrong. It is "" for other errors.
func (d *door) likelyCause(err error) string {
	t, ok := errors.AsType[*apiError](err)
	if !ok || t.status == 0 || t.id != "" && t.status != http.StatusNotFound || t.status >= 500 || d.accepted.Load() {
		return ""
	}
	if u, err := url.Parse(d.cfg.URL); err == nil && strings.Trim(u.Path, "/") != "" {
		return "the address ends in " + u.Path + ": it must be the one that people open the chat at, as a rule without a path"
	}
	return "no chat server answers at " + d.cfg.URL + ": the address must be the one that people open the chat at"
}

// poke wakes the receiver of a channel with a buffer of one. It never blocks.
func poke(ch chan struct{}) {
	select {
	case ch <- struct{}{}:
	default:
	}
}

// user is a cached account.
type user struct {
	name string
	bot  bool
	till time.Time // when the cache expires
}

func (d *door) user(ctx context.Context, id string) (user, error) {
	d.mu.Lock()
	u, ok := d.users[id]
	d.mu.Unlock()
	if ok && time.Now().Before(u.till) {
		return u, nil
	}
	rec, err := call(ctx, d, func(ctx context.Context) (*model.User, *model.Response, error) {
		return d.api.GetUser(ctx, id, "")
	})
	if err == nil {
		u = user{name: rec.Username, bot: rec.IsBot}
	} else if gone, err := d.believed(ctx, err); gone {
		u = user{name: id} // the account was deleted, but it did write the message
	} else {
		return user{}, err
	}
	u.till = time.Now().Add(time.Hour)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.users[id] = u
	return u, nil
}
