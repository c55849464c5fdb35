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

	"strapline/bot/job"
)

// Config says which server to serve, and as whom.
type Config struct {
	URL   string       // such as https://chat.example.test
	Token string       // of the bot's account; it reaches no log and no error
	Log   *slog.Logger // nil: discarded
	// Dial connects to the server; nil is TCP.
	Dial func(ctx context.Context, network, addr string) (net.Conn, error)

	pace pace
}

// The server does not hold an answer back for long: longer means that none comes.
const answerTime = 20 * time.Second

// door is one Run.
type door struct {
	cfg   Config
	jobs  *job.Jobs
	api   *model.Client4
	log   *slog.Logger
	fail  context.CancelCauseFunc
	start func(func(context.Context)) // runs it until Run ends
	stats stats
	quiet atomic.Int64 // Unix nanoseconds; the server asked for silence until then
	limit atomic.Int64 // runes a post may have

	me     *model.User // set before anything else runs
	taken  atomic.Bool // the token was, once
	relist chan struct{}

	mu       sync.Mutex
	channels map[string]*channel
	users    map[string]user
	team     string // a team for links into direct messages
	doubt    *doubt // of the token; nil while it is taken

	tries   retry // only settle, one at a time
	settled time.Time
}

// Run serves every channel that the account is a member of until ctx ends, and
// then returns nil. It comes back by itself from whatever else goes wrong
// between it and the server. It returns an error when cfg is wrong, and
// [ErrToken] when the token is refused for long. The bot must stay open until Run has returned.
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
	again := retry{pace: d.cfg.pace}
	for {
		began := time.Now()
		err := d.session(ctx)
		if ctx.Err() != nil {
			break
		}
		if time.Since(began) > d.cfg.pace.most { // it stood; one that breaks at once is no success
			again.reset()
		}
		wait := again.next()
		said := []any{"err", err, "again_in", wait}
		if cause := d.likely(err); cause != "" {
			said = append(said, "likely", cause)
		}
		d.log.Warn("no connection to the chat server", said...)
		sleep(ctx, wait)
	}
	if errors.Is(context.Cause(ctx), ErrToken) {
		return ErrToken
	}
	return nil
}

// tokenForm names what is likely wrong with a token that can be none.
func tokenForm(token string) error {
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
	if err := tokenForm(cfg.Token); err != nil {
		return nil, err
	}
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	if cfg.Dial == nil {
		cfg.Dial = new(net.Dialer).DialContext
	}
	if cfg.pace == (pace{}) {
		cfg.pace = pace{first: 500 * time.Millisecond, most: time.Minute}
	}
	api := model.NewAPIv4Client(cfg.URL)
	api.SetToken(cfg.Token)
	api.HTTPClient = &http.Client{
		Timeout: answerTime,
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

// likely names what is likely wrong when the server was never reached: something that is
// no chat server answers, or not at this path.
func (d *door) likely(err error) string {
	t, ok := errors.AsType[*trouble](err)
	if !ok || t.status == 0 || t.id != "" && t.status != http.StatusNotFound || t.status >= 500 || d.taken.Load() {
		return ""
	}
	if u, err := url.Parse(d.cfg.URL); err == nil && strings.Trim(u.Path, "/") != "" {
		return "the address ends in " + u.Path + ": it must be the one that people open the chat at, as a rule without a path"
	}
	return "no chat server answers at " + d.cfg.URL + ": the address must be the one that people open the chat at"
}

// poke wakes whoever waits on a channel of one place; it never blocks.
func poke(ch chan struct{}) {
	select {
	case ch <- struct{}{}:
	default:
	}
}

// user is what matters of an account.
type user struct {
	name string
	bot  bool
	till time.Time // looked up again after
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
		u = user{name: id} // an account that is gone for good still wrote the message
	} else {
		return user{}, err
	}
	u.till = time.Now().Add(time.Hour)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.users[id] = u
	return u, nil
}
