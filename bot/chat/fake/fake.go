// Package fake is a stand-in for the team chat server, for tests only. It behaves like the
// real server in the recordings of its testdata, including the pitfalls, and a test compares
// it with them. It is independent of the client.
package fake

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"slices"
	"sync"
	"time"
)

// Server is a chat server. Its zero value is not usable: see New and Pipe.
type Server struct {
	URL  string
	Dial func(ctx context.Context, network, addr string) (net.Conn, error) // connects to it, like net.Dialer.DialContext

	Now      func() time.Time // the clock; default time.Now
	MaxRunes int              // of a post; default 16,383
	Unsaid   bool             // there are no posts about who joins and leaves

	StuckTime time.Duration // how long a stuck request hangs

	http   http.Server
	mu     sync.Mutex
	random *rand.Rand
	faults Faults
	users  map[string]*User
	tokens map[string]*User
	teams  []*team
	chans  map[string]*Channel
	posts  []*post // in the order they were stored
	byID   map[string]*post
	keys   map[string]*pending // by pending_post_id
	files  map[string]*file
	newest map[string]int64 // by channel: the cached time of the last change, used by since
	socks  map[*socket]bool
	outage *outage       // nil while the database is up
	frozen chan struct{} // closed when the server thaws; nil while it runs
}

// Faults decide what goes wrong; a nil function means nothing. They are called with the
// server locked.
type Faults struct {
	Request func(method, path string) Fault
	Event   func() Delivery
}

// SlowTime is how long a slow request takes.
const SlowTime = time.Second

// Fault is what happens to a request.
type Fault int

// The faults of a request.
const (
	Fine      Fault = iota
	TooMany         // 429, not carried out
	Broken          // 500, not carried out
	Refused         // 403 without a reason, not carried out
	Unknown         // 401 without a reason, not carried out
	Lost            // carried out, but without a response
	Unheard         // not carried out, and no response
	Slow            // carried out after SlowTime
	Stuck           // carried out after the server's StuckTime
	Elsewhere       // 404 as a web page, from something that is not a chat server
	Echo            // 502 from something in between, which contains the request's headers
)

// Delivery is what happens to an event on a socket.
type Delivery int

// The deliveries of an event.
const (
	Once    Delivery = iota
	Twice            // sent twice
	Late             // sent after the next one
	Overdue          // sent long after everything else
	Skip             // not sent, which the sequence number of the next one shows
	Cut              // not sent, and the socket breaks
	HangUp           // sent, and then the socket breaks
)

// User is an account.
type User struct {
	ID, Name string
	Bot      bool
	Disabled bool
	token    string
	posts    int
}

type team struct{ id, name string }

// Channel is a channel of the only team, or a direct message.
type Channel struct {
	ID, Name string
	Direct   bool
	made     int64
	archived int64
	members  []string
}

// New starts a server on a loopback port.
func New() *Server {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		panic(err)
	}
	s := newServer(l)
	s.URL, s.Dial = "http://"+l.Addr().String(), new(net.Dialer).DialContext
	return s
}

// Pipe starts a server that can be reached only through its Dial, over in-memory pipes, so
// that it works in a bubble of testing/synctest.
func Pipe() *Server {
	l := &pipes{conns: make(chan net.Conn), closed: make(chan struct{})}
	s := newServer(l)
	s.URL, s.Dial = "http://chat.test", l.dial
	return s
}

func newServer(l net.Listener) *Server {
	s := &Server{
		Now: time.Now, MaxRunes: 16383, StuckTime: 25 * time.Second, random: rand.New(rand.NewPCG(rand.Uint64(), rand.Uint64())),
		users: map[string]*User{}, tokens: map[string]*User{}, chans: map[string]*Channel{},
		byID: map[string]*post{}, files: map[string]*file{}, keys: map[string]*pending{}, newest: map[string]int64{}, socks: map[*socket]bool{},
	}
	s.teams = []*team{{id: s.id(), name: "crew"}}
	s.http.Handler = s.routes()
	go func() { _ = s.http.Serve(l) }()
	return s
}

// Close stops the server and closes all connections.
func (s *Server) Close() {
	s.Freeze(false)
	s.Drop()
	_ = s.http.Close()
}

// SetFaults sets what goes wrong from now on.
func (s *Server) SetFaults(f Faults) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults = f
}

const letters = "ybndrfg8ejkmcpqxot1uwisza345h769"

// id makes an ID like the real server's: 26 letters and digits.
func (s *Server) id() string {
	b := make([]byte, 26)
	for i := range b {
		b[i] = letters[s.random.IntN(len(letters))]
	}
	return string(b)
}

func (s *Server) ms() int64 { return s.Now().UnixMilli() }

// AddUser makes an account in the team. If id is "" it makes one.
func (s *Server) AddUser(id, name string, bot bool) *User {
	s.mu.Lock()
	defer s.mu.Unlock()
	if id == "" {
		id = s.id()
	}
	u := &User{ID: id, Name: name, Bot: bot, token: s.id()}
	s.users[id], s.tokens[u.token] = u, u
	return u
}

// Token is the account's token.
func (s *Server) Token(u *User) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return u.token
}

// AddToken gives the account one more token.
func (s *Server) AddToken(u *User) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	token := s.id()
	s.tokens[token] = u
	return token
}

// Revoke invalidates a token. An open socket is not affected.
func (s *Server) Revoke(token string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.tokens, token)
}

// Disable disables a bot account or enables it again. While it is disabled, its requests are
// refused and its open sockets get no events.
func (s *Server) Disable(u *User, off bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	u.Disabled = off
}

// AddChannel makes a channel with the given members, who are added by the first.
func (s *Server) AddChannel(id, name string, members ...*User) *Channel {
	s.mu.Lock()
	if id == "" {
		id = s.id()
	}
	ch := &Channel{ID: id, Name: name, made: s.ms()}
	s.chans[id] = ch
	s.mu.Unlock()
	for _, u := range members {
		s.Join(ch, u, members[0])
	}
	return ch
}

// AddDirect makes a direct message between two accounts.
func (s *Server) AddDirect(id string, a, b *User) *Channel {
	s.mu.Lock()
	defer s.mu.Unlock()
	if id == "" {
		id = s.id()
	}
	names := []string{a.ID, b.ID}
	slices.Sort(names)
	ch := &Channel{ID: id, Name: names[0] + "__" + names[1], Direct: true, made: s.ms(), members: []string{a.ID, b.ID}}
	s.chans[id] = ch
	s.send(ch, "direct_added", map[string]any{"creator_id": a.ID, "teammate_id": b.ID})
	return ch
}

// Join adds an account to a channel.
func (s *Server) Join(ch *Channel, u, by *User) {
	s.mu.Lock()
	defer s.mu.Unlock()
	ch.members = append(ch.members, u.ID)
	s.send(ch, "user_added", map[string]any{"team_id": s.teams[0].id, "user_id": u.ID})
	if u == by {
		s.system(ch, u, "system_join_channel", u.Name+" joined the channel.", map[string]any{"username": u.Name})
		return
	}
	s.system(ch, by, "system_add_to_channel", fmt.Sprintf("%s added to the channel by %s.", u.Name, by.Name),
		map[string]any{"addedUserId": u.ID, "addedUsername": u.Name, "userId": by.ID, "username": by.Name})
}

// Remove removes an account from a channel.
func (s *Server) Remove(ch *Channel, u, by *User) {
	s.mu.Lock()
	defer s.mu.Unlock()
	ch.members = slices.DeleteFunc(ch.members, func(id string) bool { return id == u.ID })
	s.sendTo(u.ID, "user_removed", map[string]any{"channel_id": ch.ID, "remover_id": by.ID})
	s.send(ch, "user_removed", map[string]any{"remover_id": by.ID, "user_id": u.ID})
	s.system(ch, by, "system_remove_from_channel", "@"+u.Name+" removed from the channel.",
		map[string]any{"removedUserId": u.ID, "removedUsername": u.Name})
}

// Archive archives or restores a channel.
func (s *Server) Archive(ch *Channel, by *User, on bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !on {
		ch.archived = 0
		s.sendTeam("channel_restored", map[string]any{"channel_id": ch.ID})
		return
	}
	s.system(ch, by, "system_channel_deleted", by.Name+" archived the channel.", map[string]any{"username": by.Name})
	ch.archived = s.ms()
	s.sendTeam("channel_deleted", map[string]any{"channel_id": ch.ID, "delete_at": ch.archived})
}

// Rename renames a channel.
func (s *Server) Rename(ch *Channel, name string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	ch.Name = name
}

// Drop breaks every socket without closing it properly.
func (s *Server) Drop() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for sock := range s.socks {
		sock.hangUp()
	}
}

// Restart acts like a restart of the server: sockets break, and everything in memory is lost.
func (s *Server) Restart() {
	s.Drop()
	s.mu.Lock()
	defer s.mu.Unlock()
	clear(s.keys)
	clear(s.newest)
}

// Freeze suspends or resumes the server. While frozen it responds to nothing, sends nothing
// and closes nothing; requests received meanwhile are carried out when it thaws.
func (s *Server) Freeze(on bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case on && s.frozen == nil:
		s.frozen = make(chan struct{})
	case !on && s.frozen != nil:
		close(s.frozen)
		s.frozen = nil
	}
}

// thawed waits while the server is frozen.
func (s *Server) thawed() {
	s.mu.Lock()
	frozen := s.frozen
	s.mu.Unlock()
	if frozen != nil {
		<-frozen
	}
}

// pipes is a listener of in-memory connections.
type pipes struct {
	conns  chan net.Conn
	closed chan struct{}
	once   sync.Once
}

func (p *pipes) dial(ctx context.Context, _, _ string) (net.Conn, error) {
	here, there := net.Pipe()
	select {
	case p.conns <- there:
		return here, nil
	case <-p.closed:
		return nil, errors.New("connection refused")
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

func (p *pipes) Accept() (net.Conn, error) {
	select {
	case c := <-p.conns:
		return c, nil
	case <-p.closed:
		return nil, net.ErrClosed
	}
}

func (p *pipes) Close() error   { p.once.Do(func() { close(p.closed) }); return nil }
func (p *pipes) Addr() net.Addr { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1)} }
