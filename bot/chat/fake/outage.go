package fake

import (
	"net/http"
	"strings"
	"time"
)

// outage is a time without the database. The server goes on: sockets stay open,
// posts are refused as if their threads were gone, and later every token is
// refused; a real server was seen to do that. What it answers to other requests
// was not recorded. Here that is the worst for a client: what it would also say
// for good.
type outage struct {
	forgets time.Time // when the sessions in its memory have run out
	met     int       // requests it spoiled
}

var (
	refParam = &refusal{http.StatusBadRequest, "api.context.invalid_param.app_error", "Invalid or missing channel_id in request body."}
	refList  = &refusal{http.StatusInternalServerError, "app.channel.get_channels.get.app_error", "Unable to get the channels."}
)

// LoseDatabase takes the database away. So much later the sessions that the
// server holds in memory have run out, and it refuses every token.
func (s *Server) LoseDatabase(sessions time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.outage = &outage{forgets: time.Now().Add(sessions)}
}

// FindDatabase brings the database back, and returns how many requests met the
// server without it.
func (s *Server) FindDatabase() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	met := s.outage.met
	s.outage = nil
	return met
}

// Met is how many requests met the server without its database so far.
func (s *Server) Met() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.outage.met
}

// session is whose token it is: nil when the server does not know, or does not
// take it.
func (s *Server) session(token string) *User {
	if s.outage != nil && !time.Now().Before(s.outage.forgets) {
		return nil
	}
	if u := s.tokens[token]; u != nil && !u.Disabled {
		return u
	}
	return nil
}

// post is what a post is refused with.
func (*outage) post(in post) *refusal {
	if in.RootID != "" {
		return refRoot
	}
	return refParam
}

// spoil is what a request is refused with while the database is away; nil: what
// it asks for is in memory, or it is a post.
func (s *Server) spoil(path string) *refusal {
	if s.outage == nil || path == "/system/ping" {
		return nil
	}
	s.outage.met++
	switch parts := strings.Split(path, "/"); {
	case path == "/posts":
		return nil
	case parts[1] == "posts":
		return refGone
	case parts[1] == "channels" && len(parts) > 3:
		return refForbidden
	case parts[1] == "users" && len(parts) > 3:
		return refList
	case parts[1] == "users" && parts[2] != "me":
		return refNoUser
	}
	return nil
}

// ping is how the server is.
func (s *Server) ping() (int, any) {
	says := map[string]string{
		"AndroidLatestVersion": "", "AndroidMinVersion": "", "DesktopLatestVersion": "", "DesktopMinVersion": "",
		"IosLatestVersion": "", "IosMinVersion": "", "database_status": "OK", "filestore_status": "OK", "status": "OK",
	}
	if s.outage == nil {
		return http.StatusOK, says
	}
	says["database_status"], says["status"] = "UNHEALTHY", "UNHEALTHY"
	return http.StatusInternalServerError, says
}
