package fake

import (
	"encoding/json"
	"net/http"
	"slices"
	"time"

	"github.com/gorilla/websocket"
)

const (
	authTime = 5 * time.Second  // for a socket to authenticate
	pingTime = 60 * time.Second // between pings
	backlog  = 256              // events a slow reader may be behind
	lateTime = 40 * time.Millisecond
	overdue  = 2 * time.Second
)

// socket is a websocket connection.
type socket struct {
	user *User
	conn *websocket.Conn
	out  chan []byte // closed when the server hangs up
	seq  int64
	held []told // events to send late
	gone bool
}

var upgrader = websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}

// websocket serves a socket. It upgrades any request, but sends hello only after a valid
// token.
func (s *Server) websocket(w http.ResponseWriter, r *http.Request) {
	s.thawed()
	s.mu.Lock()
	fault := s.fault(r)
	s.mu.Unlock()
	if fault != Fine {
		tooMany(w)
		return
	}
	conn, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	defer conn.Close()
	_ = conn.SetReadDeadline(time.Now().Add(authTime))
	var hi struct {
		Seq    int64
		Action string
		Data   struct{ Token string }
	}
	if conn.ReadJSON(&hi) != nil {
		return
	}
	_ = conn.SetReadDeadline(time.Time{})
	s.mu.Lock()
	u := s.session(hi.Data.Token)
	if hi.Action != "authentication_challenge" || u == nil {
		s.mu.Unlock()
		return
	}
	sock := &socket{user: u, conn: conn, out: make(chan []byte, backlog)}
	sock.event("hello", "", u.ID, map[string]any{"connection_id": s.id(), "server_version": version})
	sock.put(map[string]any{"seq_reply": hi.Seq, "status": "OK"})
	sock.event("status_change", "", u.ID, map[string]any{"status": "online", "user_id": u.ID})
	s.socks[sock] = true
	s.mu.Unlock()

	written := make(chan struct{})
	go func() {
		defer close(written)
		s.write(sock)
	}()
	for { // requests over the socket are not answered; the door makes none
		if _, _, err := conn.ReadMessage(); err != nil {
			break
		}
	}
	s.mu.Lock()
	sock.hangUp()
	delete(s.socks, sock)
	s.mu.Unlock()
	<-written
}

// write sends the queued frames, and pings.
func (s *Server) write(sock *socket) {
	defer sock.conn.Close()
	ping := time.NewTicker(pingTime)
	defer ping.Stop()
	for {
		select {
		case frame, ok := <-sock.out:
			s.thawed()
			if !ok || sock.conn.WriteMessage(websocket.TextMessage, frame) != nil {
				return
			}
		case <-ping.C:
			s.thawed()
			if sock.conn.WriteMessage(websocket.PingMessage, nil) != nil {
				return
			}
		}
	}
}

// hangUp closes the socket once the queued frames are written.
func (sock *socket) hangUp() {
	if !sock.gone {
		sock.gone = true
		close(sock.out)
	}
}

// put queues a frame. It hangs up on a reader that is too far behind.
func (sock *socket) put(v any) {
	if sock.gone {
		return
	}
	frame, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	select {
	case sock.out <- frame:
	default:
		sock.hangUp()
	}
}

func (sock *socket) event(kind, channel, to string, data map[string]any) {
	sock.put(map[string]any{
		"event": kind, "data": data, "seq": sock.seq,
		"broadcast": map[string]any{"channel_id": channel, "user_id": to, "team_id": "", "omit_users": nil},
	})
	sock.seq++
}

// send sends an event to the members of a channel.
func (s *Server) send(ch *Channel, kind string, data map[string]any) {
	for sock := range s.socks {
		if slices.Contains(ch.members, sock.user.ID) && !sock.user.Disabled {
			s.deliver(sock, kind, ch.ID, data)
		}
	}
}

// told is an event to be sent late.
type told struct {
	kind, channel string
	data          map[string]any
}

func (s *Server) deliver(sock *socket, kind, channel string, data map[string]any) {
	how := Once
	if s.faults.Event != nil {
		how = s.faults.Event()
	}
	switch how {
	case Late:
		sock.held = append(sock.held, told{kind, channel, data})
		time.AfterFunc(lateTime, func() {
			s.mu.Lock()
			defer s.mu.Unlock()
			sock.release()
		})
		return
	case Overdue:
		time.AfterFunc(overdue, func() {
			s.mu.Lock()
			defer s.mu.Unlock()
			sock.event(kind, channel, "", data)
		})
		return
	case Skip:
		sock.seq++
		return
	case Cut:
		sock.hangUp()
		return
	}
	sock.event(kind, channel, "", data)
	if how == Twice {
		sock.event(kind, channel, "", data)
	}
	sock.release()
	if how == HangUp {
		sock.hangUp()
	}
}

// release sends the events that were held back.
func (sock *socket) release() {
	for _, t := range sock.held {
		sock.event(t.kind, t.channel, "", t.data)
	}
	sock.held = nil
}

// sendTo sends an event to an account.
func (s *Server) sendTo(user, kind string, data map[string]any) {
	for sock := range s.socks {
		if sock.user.ID == user {
			sock.event(kind, "", user, data)
		}
	}
}

// sendTeam sends an event to everybody.
func (s *Server) sendTeam(kind string, data map[string]any) {
	for sock := range s.socks {
		sock.event(kind, "", "", data)
	}
}

// posted sends the event of a new post.
func (s *Server) posted(ch *Channel, p *post, sender string) {
	kind := "O"
	if ch.Direct {
		kind = "D"
	}
	s.send(ch, "posted", map[string]any{
		"channel_display_name": ch.Name, "channel_name": ch.Name, "channel_type": kind, "post": text(p),
		"sender_name": sender, "set_online": true, "team_id": s.teams[0].id,
	})
}

// changed sends the event of an edit or a deletion. The event of a deletion has the text.
func (s *Server) changed(kind string, p *post) {
	out := s.shown(p, kind == "post_edited")
	s.send(s.chans[p.ChannelID], kind, map[string]any{"post": text(&out)})
}

func text(p *post) string {
	b, err := json.Marshal(p)
	if err != nil {
		panic(err)
	}
	return string(b)
}
