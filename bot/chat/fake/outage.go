package fake

import (
	"net/http"
	"strings"
	"time"
)

// outage is a time without the database. As seen on a real server, it keeps running: sockets
// stay open, posts are refused as if their threads were deleted, and later every token is
// refused. Its responses to other requests were not recorded. Here they are the worst for a
// client, the same as its permanent refusals.
type outage struct {
	forgets time.Time // when the sessions in memory expire
	met     int       // requests that failed because of it
}

var (
	refParam = &refusal{http.StatusBadRequest, "api.context.invalid_param.app_error", "Invalid or missing channel_id in request body."}
	refList  = &refusal{http.StatusInternalServerError, "app.channel.get_channels.get.app_error", "Unable to get the channels."}
)

// LoseDatabase takes the database down. After the given time the sessions in the server's
// memory expire, and it refuses every token.
func (s *Server) LoseDatabase(sessions time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.outage = &outage{forgets: time.Now().Add(sessions)}
}

// FindDatabase brings the database up again, and returns how many requests failed without
// it.
func (s *Server) FindDatabase() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	met := s.outage.met
	s.outage = nil
	return met
}

// Met returns how many requests have failed so far in this outage.
func (s *Server) Met() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.outage.met
}

// session returns the account of a token, or nil if the server refuses it.
func (s *Server) session(token string) *User {
	if s.outage != nil && !time.Now().Before(s.outage.forgets) {
		return nil
	}
	if u := s.tokens[token]; u != nil && !u.Disabled {
		return u
	}
	return nil
}

// post is the refusal of a new post.
func (*outage) post(in post) *refusal {
	if in.RootID != "" {
		return refRoot
	}
	return refParam
}

// spoil is the refusal of a request while the database is down, or nil if it can be answered
// from memory or creates a post.
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

// ping returns the server's status.
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
