package fake_test

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"strapline/bot/chat/fake"
)

// client makes requests as an account.
type client struct {
	t     *testing.T
	s     *fake.Server
	token string
	http  *http.Client
}

func (c client) do(method, path, body string, into any) int {
	c.t.Helper()
	req, err := http.NewRequestWithContext(c.t.Context(), method, c.s.URL+"/api/v4"+path, strings.NewReader(body))
	if err != nil {
		c.t.Fatal(err)
	}
	req.Header.Set("Authorization", "BEARER "+c.token)
	resp, err := c.http.Do(req)
	if err != nil {
		c.t.Fatal(err)
	}
	defer resp.Body.Close()
	data, err := io.ReadAll(resp.Body)
	if err != nil {
		c.t.Fatal(err)
	}
	if into != nil {
		if err := json.Unmarshal(data, into); err != nil {
			c.t.Fatalf("%s: %v", data, err)
		}
	}
	return resp.StatusCode
}

// inBubble runs do with a server on pipes and a client for a member of its only channel.
func inBubble(t *testing.T, do func(*fake.Server, *fake.User, *fake.Channel, client)) {
	synctest.Test(t, func(t *testing.T) {
		s := fake.Pipe()
		defer s.Close()
		u := s.AddUser("", "lead", false)
		ch := s.AddChannel("", "flat", u)
		tr := &http.Transport{DialContext: s.Dial}
		defer tr.CloseIdleConnections()
		do(s, u, ch, client{t, s, s.Token(u), &http.Client{Transport: tr}})
	})
}

// Recorded: with 1,300 posts after t, since=t returns 1,000, and since=(the newest of those)
// returns none; after one more post the same request returns 301. Pages of 200 miss none.
func TestSinceIsCutOff(t *testing.T) {
	inBubble(t, func(s *fake.Server, u *fake.User, ch *fake.Channel, c client) {
		time.Sleep(time.Millisecond)
		s.Post(u, ch, "", "flood start")
		t0 := time.Now().UnixMilli()
		for i := range 1300 {
			time.Sleep(time.Millisecond)
			s.Post(u, ch, "", fmt.Sprintf("flood %04d", i))
		}
		since := func(at int64) (n int, newest int64) {
			var l struct {
				Order []string
				Posts map[string]struct {
					UpdateAt int64 `json:"update_at"`
				}
			}
			c.do("GET", fmt.Sprintf("/channels/%s/posts?since=%d", ch.ID, at), "", &l)
			for _, p := range l.Posts {
				newest = max(newest, p.UpdateAt)
			}
			return len(l.Order), newest
		}
		n, newest := since(t0)
		if n != 1000 {
			t.Errorf("since names %d posts, recorded 1000", n)
		}
		if n, _ := since(newest); n != 0 {
			t.Errorf("since the newest of them names %d posts, recorded 0", n)
		}
		time.Sleep(time.Millisecond)
		s.Post(u, ch, "", "one more post invalidates the cache")
		if n, _ := since(newest); n != 301 {
			t.Errorf("after one more post it names %d, recorded 301", n)
		}
		seen := map[string]bool{}
		for page := range 8 {
			var l struct{ Order []string }
			c.do("GET", fmt.Sprintf("/channels/%s/posts?page=%d&per_page=1000", ch.ID, page), "", &l)
			if len(l.Order) > 200 {
				t.Errorf("a page has %d posts, recorded 200", len(l.Order))
			}
			for _, id := range l.Order {
				seen[id] = true
			}
		}
		if len(seen) != 1303 { // including the posts about who joined
			t.Errorf("all pages have %d posts, want 1303", len(seen))
		}
	})
}

// Recorded: 20 s after the first post, its pending ID returns the same post; 32 s after, or
// after a restart, it makes a second one.
func TestPendingIDIsForgotten(t *testing.T) {
	inBubble(t, func(s *fake.Server, u *fake.User, ch *fake.Channel, c client) {
		post := func() string {
			var p struct{ ID string }
			if status := c.do("POST", "/posts", fmt.Sprintf(`{"channel_id":%q,"message":"ttl test","pending_post_id":"ttl-key"}`, ch.ID), &p); status != 201 {
				t.Errorf("status %d", status)
			}
			return p.ID
		}
		first := post()
		time.Sleep(20 * time.Second)
		if post() != first {
			t.Error("another post after 20 s")
		}
		time.Sleep(12 * time.Second)
		second := post()
		if second == first {
			t.Error("the same post after 32 s")
		}
		s.Restart()
		if post() == second {
			t.Error("the same post after a restart")
		}
	})
}

// Recorded: 16,383 runes are accepted, whatever their size in bytes; one more is 400, a NUL
// is 500.
func TestLimits(t *testing.T) {
	inBubble(t, func(_ *fake.Server, _ *fake.User, ch *fake.Channel, c client) {
		for _, tc := range []struct {
			text   string
			status int
			id     string
		}{
			{strings.Repeat("a", 16383), 201, ""},
			{strings.Repeat("a", 16384), 400, "model.post.is_valid.msg.app_error"},
			{strings.Repeat("🔧", 16383), 201, ""},
			{"", 201, ""},
			{"a\x00b", 500, "app.post.save.app_error"},
		} {
			body, err := json.Marshal(map[string]string{"channel_id": ch.ID, "message": tc.text})
			if err != nil {
				t.Fatal(err)
			}
			var got struct {
				ID string
			}
			status := c.do("POST", "/posts", string(body), &got)
			if status != tc.status || tc.id != "" && got.ID != tc.id {
				t.Errorf("%d runes: %d %s, recorded %d %s", len([]rune(tc.text)), status, got.ID, tc.status, tc.id)
			}
		}
	})
}

// Seen on a real server: without its database it refuses posts as if their threads were
// deleted, and later every token; only its ping says why. Recorded: the ping of a healthy
// server.
func TestNoDatabase(t *testing.T) {
	inBubble(t, func(s *fake.Server, u *fake.User, ch *fake.Channel, c client) {
		root := s.Post(u, ch, "", "light l1")
		post := func(root string) (int, string) {
			var got struct{ ID string }
			status := c.do("POST", "/posts", fmt.Sprintf(`{"channel_id":%q,"root_id":%q,"message":"noted"}`, ch.ID, root), &got)
			return status, got.ID
		}
		refused := func(root, want string) {
			t.Helper()
			if status, id := post(root); fmt.Sprint(status, " ", id) != want {
				t.Errorf("a post gets %d %s, seen %s", status, id, want)
			}
		}
		ping := func(status int, database string) {
			t.Helper()
			var got map[string]string
			if n := c.do("GET", "/system/ping?get_server_status=true", "", &got); n != status || got["database_status"] != database || len(got) != 9 {
				t.Errorf("ping says %d %v", n, got)
			}
		}
		ping(200, "OK")
		s.LoseDatabase(time.Minute)
		ping(500, "UNHEALTHY")
		refused(root, "400 api.post.create_post.root_id.app_error")
		refused("", "400 api.context.invalid_param.app_error")
		if status := c.do("GET", "/users/me", "", nil); status != 200 {
			t.Errorf("a known session gets %d", status)
		}
		time.Sleep(time.Minute)
		refused(root, "401 api.context.session_expired.app_error")
		ping(500, "UNHEALTHY")
		if met := s.FindDatabase(); met != 4 {
			t.Errorf("%d requests met no database, want 4", met)
		}
		ping(200, "OK")
		if status, _ := post(root); status != 201 {
			t.Errorf("when it is back, a post gets %d", status)
		}
	})
}
