package fake

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"
)

// version is the version that the server reports.
const version = "5.37.0"

// routes handles the requests that the door and the recordings make.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /api/v4/websocket", s.websocket)
	handle := func(pattern string, do func(c *call) (int, any)) {
		method, path, _ := strings.Cut(pattern, " ")
		mux.HandleFunc(method+" /api/v4"+path, func(w http.ResponseWriter, r *http.Request) { s.serve(w, r, do) })
	}
	handle("GET /system/ping", func(c *call) (int, any) { return c.s.ping() })
	handle("GET /users/{id}", func(c *call) (int, any) {
		u := c.s.users[c.id]
		if c.id == "me" {
			u = c.user
		}
		if u == nil {
			return 0, refNoUser
		}
		return http.StatusOK, userJSON(u)
	})
	handle("GET /users/{id}/teams", func(c *call) (int, any) {
		var all []any
		for _, t := range c.s.teams {
			all = append(all, map[string]any{"id": t.id, "name": t.name, "display_name": "Crew", "type": "O", "delete_at": 0})
		}
		return http.StatusOK, all
	})
	handle("GET /users/{id}/teams/{team}/channels", func(c *call) (int, any) {
		all := []any{}
		for _, ch := range c.s.chans {
			if slices.Contains(ch.members, c.user.ID) && ch.archived == 0 {
				all = append(all, c.s.channelJSON(ch))
			}
		}
		return http.StatusOK, all
	})
	handle("GET /channels/{id}", func(c *call) (int, any) {
		ch := c.s.chans[c.id]
		if ch == nil {
			return 0, refNoChannel
		}
		return http.StatusOK, c.s.channelJSON(ch)
	})
	handle("GET /channels/{id}/members/{user}", func(c *call) (int, any) {
		user := c.r.PathValue("user")
		if ch := c.s.chans[c.id]; ch == nil || !slices.Contains(ch.members, user) {
			return 0, refForbidden
		}
		return http.StatusOK, map[string]any{"channel_id": c.id, "user_id": user, "roles": "channel_user"}
	})
	handle("GET /channels/{id}/posts", func(c *call) (int, any) {
		ch := c.s.chans[c.id]
		if ch == nil || !slices.Contains(ch.members, c.user.ID) {
			return 0, refForbidden
		}
		q := c.r.URL.Query()
		if since, _ := strconv.ParseInt(q.Get("since"), 10, 64); since > 0 {
			return http.StatusOK, c.s.since(ch, since)
		}
		page, _ := strconv.Atoi(q.Get("page"))
		size, _ := strconv.Atoi(q.Get("per_page"))
		return http.StatusOK, c.s.page(ch, page, size)
	})
	handle("POST /posts", func(c *call) (int, any) {
		var in post
		if json.NewDecoder(c.r.Body).Decode(&in) != nil {
			return 0, refBody
		}
		if c.s.outage != nil {
			return 0, c.s.outage.post(in)
		}
		in.Metadata = nil
		return answer(http.StatusCreated)(c.s.create(c.user, in))
	})
	handle("POST /files", func(c *call) (int, any) { return c.s.upload(c.user, c.r) })
	handle("GET /files/{id}", func(c *call) (int, any) {
		if f := c.s.files[c.id]; f != nil {
			return http.StatusOK, f.data
		}
		return 0, refGone
	})
	handle("GET /posts/{id}", func(c *call) (int, any) {
		p := c.s.byID[c.id]
		if p == nil || p.DeleteAt > 0 {
			return 0, refGone
		}
		out := c.s.shown(p, true)
		return http.StatusOK, &out
	})
	handle("GET /posts/{id}/thread", func(c *call) (int, any) {
		l, ref := c.s.thread(c.id)
		if ref != nil {
			return 0, ref
		}
		return http.StatusOK, l
	})
	handle("PUT /posts/{id}/patch", func(c *call) (int, any) {
		var in struct{ Message string }
		if json.NewDecoder(c.r.Body).Decode(&in) != nil {
			return 0, refBody
		}
		return answer(http.StatusOK)(c.s.edit(c.user, c.id, in.Message))
	})
	handle("DELETE /posts/{id}", func(c *call) (int, any) { return done(c.s.remove(c.user, c.id)) })
	handle("POST /posts/{id}/pin", func(c *call) (int, any) { return done(c.s.pin(c.id)) })
	return mux
}

// call is a request with its sender.
type call struct {
	s    *Server
	r    *http.Request
	user *User
	id   string
}

func answer(status int) func(*post, *refusal) (int, any) {
	return func(p *post, ref *refusal) (int, any) {
		if ref != nil {
			return 0, ref
		}
		return status, p
	}
}

func done(ref *refusal) (int, any) {
	if ref != nil {
		return 0, ref
	}
	return http.StatusOK, map[string]string{"status": "OK"}
}

func (s *Server) serve(w http.ResponseWriter, r *http.Request, do func(*call) (int, any)) {
	s.thawed()
	w.Header().Set("X-Version-Id", version)
	s.mu.Lock()
	fault := s.fault(r)
	s.mu.Unlock()
	switch fault {
	case Slow:
		time.Sleep(SlowTime)
	case Stuck:
		time.Sleep(s.StuckTime)
	}
	status, body := s.run(r, do, fault)
	switch fault {
	case Lost, Unheard:
		panic(http.ErrAbortHandler)
	case TooMany:
		tooMany(w)
		return
	case Elsewhere:
		http.Error(w, "<html>Not Found</html>", http.StatusNotFound)
		return
	case Echo:
		http.Error(w, fmt.Sprint("bad gateway: ", r.Header), http.StatusBadGateway)
		return
	}
	if ref, ok := body.(*refusal); ok {
		status = ref.status
		body = map[string]any{
			"id": ref.id, "message": ref.text, "detailed_error": "", "request_id": letters[:26], "status_code": status,
		}
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(body)
}

func tooMany(w http.ResponseWriter) {
	w.Header().Set("Retry-After", "1")
	http.Error(w, "limit exceeded", http.StatusTooManyRequests)
}

func (s *Server) run(r *http.Request, do func(*call) (int, any), fault Fault) (int, any) {
	switch fault {
	case TooMany, Unheard, Elsewhere, Echo:
		return 0, nil
	case Broken:
		return 0, refBroken
	case Refused:
		return 0, refForbidden
	case Unknown:
		return 0, refSession
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	path := strings.TrimPrefix(r.URL.Path, "/api/v4")
	u := s.session(strings.TrimPrefix(r.Header.Get("Authorization"), "BEARER "))
	switch ref := s.spoil(path); {
	case u == nil && path != "/system/ping":
		return 0, refSession
	case ref != nil:
		return 0, ref
	}
	return do(&call{s, r, u, r.PathValue("id")})
}

func (s *Server) fault(r *http.Request) Fault {
	if s.faults.Request == nil {
		return Fine
	}
	return s.faults.Request(r.Method, strings.TrimPrefix(r.URL.Path, "/api/v4"))
}

func userJSON(u *User) map[string]any {
	m := map[string]any{
		"id": u.ID, "username": u.Name, "create_at": 1, "update_at": 1, "delete_at": 0, "roles": "system_user", "locale": "en",
		"auth_data": "", "auth_service": "", "email": u.Name + "@localhost", "first_name": "", "last_name": "", "nickname": "", "position": "",
	}
	if u.Bot {
		m["is_bot"], m["bot_description"] = true, ""
	}
	return m
}

func (s *Server) channelJSON(ch *Channel) map[string]any {
	m := map[string]any{
		"id": ch.ID, "name": ch.Name, "display_name": ch.Name, "type": "O", "team_id": s.teams[0].id,
		"create_at": ch.made, "update_at": ch.made, "delete_at": ch.archived, "header": "", "purpose": "",
	}
	if ch.Direct {
		m["type"], m["team_id"], m["display_name"] = "D", "", ""
	}
	return m
}
