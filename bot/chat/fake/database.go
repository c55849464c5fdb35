package fake

import (
	"encoding/json"
	"net/http"
	"strings"
	"time"
)

// sessionTime is how long the server knows who is who without its database.
const sessionTime = time.Minute

// Database takes the database away from the server, or gives it back. Without it the
// open sockets stay; posts are refused as if they or what they name were not there;
// and once the cache of sessions has run out every token is.
func (s *Server) Database(there bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.away = 0; !there {
		s.away = s.ms()
	}
}

func (s *Server) sessionsGone() bool { return s.away > 0 && s.ms()-s.away > sessionTime.Milliseconds() }

// without answers a request that needs the database.
func (s *Server) without(r *http.Request) (int, any) {
	switch {
	case r.Method == http.MethodPost && s.random.IntN(2) == 0:
		return 0, refRoot
	case r.Method == http.MethodPost:
		return 0, refParam
	case strings.Contains(r.URL.Path, "/posts/"), strings.HasPrefix(r.URL.Path, "/api/v4/users/"):
		return 0, refGone
	}
	return 0, refBroken
}

// ping says how the server is; everybody may ask.
func (s *Server) ping(w http.ResponseWriter, r *http.Request) {
	s.thawed()
	s.mu.Lock()
	fault := s.fault(r)
	status, away := "OK", s.away > 0 || fault == NoDatabase
	s.mu.Unlock()
	switch fault {
	case Unheard, Lost:
		panic(http.ErrAbortHandler)
	case TooMany:
		tooMany(w)
		return
	case Echo, Broken:
		http.Error(w, "no", http.StatusBadGateway)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	if away {
		status = "UNHEALTHY"
		w.WriteHeader(http.StatusInternalServerError)
	}
	_ = json.NewEncoder(w).Encode(map[string]string{"status": status, "database_status": status, "filestore_status": "OK"})
}
