package fake_test

import (
	"bytes"
	stdcmp "cmp"
	"encoding/json"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/textproto"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/gorilla/websocket"

	"strapline/bot/chat/fake"
)

// recording is a file in testdata, which its README describes.
type recording struct {
	Scenario string
	Actors   map[string]string
	Steps    []step
}

type step struct {
	Kind, Actor, Conn, Dir string
	Request                struct {
		Method, Path string
		Body         json.RawMessage
		NoToken      bool `json:"no_authorization_header"`
	}
	Response struct {
		Status  int
		Body    json.RawMessage
		Headers map[string]string
	}
	Frame json.RawMessage
}

// IDs in the recordings that are in no file's list of actors.
const (
	admin, alice = "3638c9pdn7d8urpudkthn3ukba", "sx1zjpmdyff19jndxeenkrjozr"
	bob, robot   = "t1q4ibfnjtrhjgyu7ougozbpfr", "hq6cjsad17ddigxkw7ynfubohe"
)

// The stand-in gives the same responses as the real server.
func TestRecordings(t *testing.T) {
	files, err := filepath.Glob("testdata/*.json")
	if err != nil || len(files) == 0 {
		t.Fatal("no recordings", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".json"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			r := &replay{t: t, ids: map[string]string{}, times: map[int64]int64{}}
			if err := json.Unmarshal(data, &r.recording); err != nil {
				t.Fatal(err)
			}
			r.run()
			if r.compared < 3 {
				t.Errorf("only %d answers and events were compared", r.compared)
			}
		})
	}
}

// replay plays a recording to a stand-in. IDs and times differ, but IDs must be equal where
// the recorded ones are, and times in the same order.
type replay struct {
	recording
	t        *testing.T
	s        *fake.Server
	clock    int64
	users    map[string]*fake.User
	channels map[string]*fake.Channel
	tokens   map[string]string // by actor
	sock     *websocket.Conn
	ids      map[string]string // recorded -> here
	times    map[int64]int64
	fault    fake.Fault
	compared int
}

var (
	anID   = regexp.MustCompile(`\b[a-z0-9]{26}\b`)
	inPath = regexp.MustCompile(`/channels/([a-z0-9]{26})`)
	aChan  = regexp.MustCompile(`"channel_id":"([a-z0-9]{26})"`)
)

func (r *replay) run() {
	r.s = fake.New()
	defer r.s.Close()
	r.clock = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).UnixMilli()
	r.s.Now = func() time.Time { return time.UnixMilli(r.clock) }
	r.users = map[string]*fake.User{}
	r.tokens = map[string]string{}
	r.channels = map[string]*fake.Channel{}
	for name, id := range map[string]string{"admin": admin, "alice": alice, "bob": bob, "bot": robot} {
		r.users[id] = r.s.AddUser(id, map[string]string{"bot": "opsbot"}[name]+strings.TrimPrefix(name, "bot"), id == robot)
		r.tokens[name], r.ids[id] = r.s.Token(r.users[id]), id
	}
	r.tokens["bot2"] = r.s.AddToken(r.users[robot])
	posted := map[string]bool{} // by a recorded request
	for _, st := range r.Steps {
		for _, m := range append(inPath.FindAllSubmatch([]byte(st.Request.Path), -1), aChan.FindAllSubmatch(st.Request.Body, -1)...) {
			r.channel(string(m[1]))
		}
		var made struct{ ID string }
		if st.Request.Method == "POST" && st.Request.Path == "/api/v4/posts" && json.Unmarshal(st.Response.Body, &made) == nil {
			posted[made.ID] = true
		}
	}
	r.listen()
	defer r.sock.Close()
	r.s.SetFaults(fake.Faults{Request: func(string, string) fake.Fault { return r.fault }})
	var told []json.RawMessage
	for i, st := range r.Steps {
		r.clock += 5
		switch {
		case st.Kind == "http" && st.Response.Status > 0:
			r.http(i, st)
		case st.Kind == "ws" && st.Dir == "recv" && r.told(st.Frame):
			r.unrecorded(st.Frame, posted)
			told = append(told, st.Frame)
		}
	}
	r.events(told)
	var recorded []int64
	for at := range r.times {
		recorded = append(recorded, at)
	}
	slices.Sort(recorded)
	for i := 1; i < len(recorded); i++ {
		// A request takes no time here; on the real server it took a millisecond or two.
		if a, b := r.times[recorded[i-1]], r.times[recorded[i]]; a > b || a == b && recorded[i]-recorded[i-1] > 2 {
			r.t.Errorf("times %d and %d are %d and %d here", recorded[i-1], recorded[i], a, b)
		}
	}
}

// channel makes a channel as it was before the recording.
func (r *replay) channel(id string) {
	if r.channels[id] != nil || id == "abcdefghijklmnopqrstuvwxyz" {
		return
	}
	r.ids[id] = id
	members := []*fake.User{r.users[admin], r.users[alice], r.users[bob]}
	if !strings.HasPrefix(r.Scenario, "09") || id == "ugxos4yambb47qm7qjy6suk1uh" {
		members = append(members, r.users[robot])
	}
	r.channels[id] = r.s.AddChannel(id, "c"+id[:5], members...)
}

func (r *replay) listen() {
	conn, _, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(r.s.URL, "http")+"/api/v4/websocket", nil)
	if err != nil {
		r.t.Fatal(err)
	}
	r.sock = conn
	if err := conn.WriteJSON(map[string]any{"seq": 1, "action": "authentication_challenge", "data": map[string]string{"token": r.tokens["bot"]}}); err != nil {
		r.t.Fatal(err)
	}
	var hello struct{ Event string }
	if err := conn.ReadJSON(&hello); err != nil || hello.Event != "hello" {
		r.t.Fatal(hello, err)
	}
}

// here replaces the recorded IDs by ours.
func (r *replay) here(s string) string {
	return anID.ReplaceAllStringFunc(s, func(id string) string {
		if ours, ok := r.ids[id]; ok {
			return ours
		}
		return id
	})
}

var since = regexp.MustCompile(`since=(\d{13})`)

func (r *replay) http(i int, st step) {
	body, form := uploaded(st.Request.Body)
	if bytes.Contains(body, []byte(`"$`)) {
		return
	}
	path := r.here(st.Request.Path)
	if m := since.FindStringSubmatch(path); m != nil {
		var at int64
		fmt.Sscan(m[1], &at)
		ours, ok := r.times[at]
		if !ok { // just before a recorded time
			ours = r.times[at+1] - 1
		}
		path = strings.Replace(path, m[1], fmt.Sprint(ours), 1)
	}
	parts := strings.Split(strings.TrimPrefix(path, "/api/v4/"), "/")
	by := r.users[r.Actors[st.Actor]]
	switch what := st.Request.Method + " " + parts[0]; {
	case what == "POST reactions":
		var on struct {
			PostID string `json:"post_id"`
		}
		_ = json.Unmarshal([]byte(r.here(string(st.Request.Body))), &on)
		r.s.React(on.PostID)
		return
	case strings.HasSuffix(path, "/tokens/revoke"):
		r.s.Revoke(r.tokens["bot2"])
		return
	case parts[0] == "bots":
		r.s.Disable(r.users[robot], parts[2] == "disable")
		return
	case what == "POST channels":
		r.s.Join(r.channels[parts[1]], by, by)
		return
	case what == "DELETE channels" && len(parts) == 4:
		r.s.Remove(r.channels[parts[1]], r.users[parts[3]], by)
		return
	case what == "DELETE channels":
		r.s.Archive(r.channels[parts[1]], by, true)
		return
	case parts[len(parts)-1] == "tokens", strings.Contains(path, "after="), strings.Contains(path, "collapsedThreads=true"):
		return // the stand-in does not support this request
	}
	if r.fault = fake.Fine; st.Response.Status == http.StatusTooManyRequests {
		r.fault = fake.TooMany
	}
	if len(body) > 0 && body[0] == '"' { // no JSON was sent
		var s string
		_ = json.Unmarshal(body, &s)
		body = []byte(s)
	}
	req, err := http.NewRequestWithContext(r.t.Context(), st.Request.Method, r.s.URL+path, strings.NewReader(r.here(string(body))))
	if err != nil {
		r.t.Fatal(err)
	}
	if form != "" {
		req.Header.Set("Content-Type", form)
	}
	if !st.Request.NoToken {
		req.Header.Set("Authorization", "BEARER "+r.tokens[st.Actor])
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		r.t.Fatal(err)
	}
	defer resp.Body.Close()
	got, err := io.ReadAll(resp.Body)
	if err != nil {
		r.t.Fatal(err)
	}
	if resp.StatusCode != st.Response.Status {
		r.t.Errorf("step %d: %s %s: status %d, recorded %d: %s", i, st.Request.Method, st.Request.Path, resp.StatusCode, st.Response.Status, got)
		return
	}
	if want := st.Response.Headers["Retry-After"]; resp.Header.Get("Retry-After") != want {
		r.t.Errorf("step %d: Retry-After %q, recorded %q", i, resp.Header.Get("Retry-After"), want)
	}
	r.compare(fmt.Sprintf("step %d: %s %s", i, st.Request.Method, st.Request.Path), st.Response.Body, got)
}

// uploaded restores the body of an upload, and its content type if it is a form. Any other
// body is returned as recorded.
func uploaded(recorded json.RawMessage) (body []byte, form string) {
	type raw struct {
		Base64 []byte `json:"$base64"`
	}
	var up struct {
		raw
		Parts []struct {
			Body    json.RawMessage
			Headers map[string]string
		} `json:"$multipart"`
	}
	if json.Unmarshal(recorded, &up) != nil || up.Base64 == nil && up.Parts == nil {
		return recorded, ""
	}
	if up.Parts == nil {
		return up.Base64, ""
	}
	var buf bytes.Buffer
	w := multipart.NewWriter(&buf)
	for _, p := range up.Parts {
		head := textproto.MIMEHeader{}
		for k, v := range p.Headers {
			head.Set(k, v)
		}
		part, _ := w.CreatePart(head)
		var text string
		var data raw
		if json.Unmarshal(p.Body, &text) == nil {
			data.Base64 = []byte(text)
		} else {
			_ = json.Unmarshal(p.Body, &data)
		}
		_, _ = part.Write(data.Base64)
	}
	_ = w.Close()
	return buf.Bytes(), w.FormDataContentType()
}

type event struct {
	Event string
	Data  struct{ Post string }
}

type post struct {
	ID, Message string
	User        string `json:"user_id"`
	Channel     string `json:"channel_id"`
	Root        string `json:"root_id"`
	At          int64  `json:"create_at"`
}

// told reports whether a frame is an event to compare: a post, edit or deletion by people or
// the bot.
func (r *replay) told(frame []byte) bool {
	var e event
	return json.Unmarshal(frame, &e) == nil && slices.Contains([]string{"posted", "post_edited", "post_deleted"}, e.Event) &&
		!strings.Contains(e.Data.Post, `"type":"system_`)
}

// unrecorded makes a post for which the recording has no request.
func (r *replay) unrecorded(frame []byte, posted map[string]bool) {
	_, p := r.open(frame)
	if r.ids[p.ID] == "" && !posted[p.ID] {
		r.channel(p.Channel)
		r.ids[p.ID] = r.s.Post(r.users[p.User], r.channels[p.Channel], r.here(p.Root), p.Message)
		r.times[p.At] = r.clock
	}
}

func (r *replay) open(frame []byte) (e event, p post) {
	if err := json.Unmarshal(frame, &e); err != nil {
		r.t.Fatal(err)
	}
	if err := json.Unmarshal([]byte(e.Data.Post), &p); err != nil {
		r.t.Fatal(err)
	}
	return e, p
}

// events compares the events on the bot's socket.
func (r *replay) events(told []json.RawMessage) {
	_ = r.sock.SetReadDeadline(time.Now().Add(10 * time.Second))
	for n, frame := range told {
		want, _ := r.open(frame)
		var got json.RawMessage
		for got == nil || !r.told(got) {
			if err := r.sock.ReadJSON(&got); err != nil {
				r.t.Errorf("event %d, %s: %v", n, want.Event, err)
				return
			}
		}
		have, _ := r.open(got)
		if have.Event != want.Event {
			r.t.Errorf("event %d is %s, recorded %s", n, have.Event, want.Event)
		}
		r.compare(fmt.Sprintf("event %d, %s", n, want.Event), []byte(want.Data.Post), []byte(have.Data.Post))
	}
}

func (r *replay) compare(what string, want, got []byte) {
	if bytes.Contains(want, []byte(`"$`)) {
		return
	}
	var a, b any
	if err := json.Unmarshal(want, &a); err != nil {
		r.t.Fatal(err)
	}
	if json.Unmarshal(got, &b) != nil {
		b = string(got) // plain text was recorded as a JSON string
	}
	r.compared++
	r.same(what, a, b)
}

// same compares two responses, part by part.
func (r *replay) same(what string, want, got any) {
	switch w := want.(type) {
	case map[string]any:
		g, ok := got.(map[string]any)
		if !ok {
			break
		}
		r.sameMap(what, w, g)
		return
	case []any:
		g, ok := got.([]any)
		if !ok || len(g) != len(w) {
			break
		}
		for i := range w {
			r.same(fmt.Sprintf("%s[%d]", what, i), w[i], g[i])
		}
		return
	case string:
		g, ok := got.(string)
		if !ok || w == "" || !anID.MatchString(w) || len(w) != 26 || len(g) != 26 {
			break
		}
		if r.ids[w] == "" {
			r.ids[w] = g
		}
		if r.ids[w] != g {
			r.t.Errorf("%s is %s, recorded %s, which was %s before", what, g, w, r.ids[w])
		}
		return
	case float64:
		g, ok := got.(float64)
		if !ok || w < 1.7e12 {
			break
		}
		if ours, known := r.times[int64(w)]; known && ours != int64(g) {
			r.t.Errorf("%s is at %d, recorded at %.0f, which was %d before", what, int64(g), w, ours)
		}
		r.times[int64(w)] = int64(g)
		return
	}
	if diff := cmp.Diff(want, got); diff != "" {
		r.t.Errorf("%s (-recorded +got):\n%s", what, diff)
	}
}

func (r *replay) sameMap(what string, want, got map[string]any) {
	delete(want, "request_id")
	delete(got, "request_id")
	delete(want, "mini_preview") // of a picture, which the stand-in does not make
	if want["username"] != nil { // an account: compare only what the door needs
		for _, key := range []string{"id", "username", "is_bot"} {
			r.same(what+" "+key, want[key], got[key])
		}
		return
	}
	if want["order"] != nil { // a list of posts; here channels are made in a different way
		r.settle(want)
		r.settle(got)
		r.same(what+" order", want["order"], got["order"])
		ours, theirs := got["posts"].(map[string]any), want["posts"].(map[string]any)
		if len(theirs) != len(ours) {
			r.t.Errorf("%s: %d posts, recorded %d", what, len(ours), len(theirs))
		}
		for id, p := range theirs {
			r.same(what+" "+id, p, ours[r.ids[id]])
		}
		return
	}
	if m, ok := want["metadata"].(map[string]any); ok && m["reactions"] != nil {
		delete(want, "metadata")
		delete(got, "metadata")
	}
	for key, w := range want {
		g, ok := got[key]
		if !ok {
			r.t.Errorf("%s has no %s", what, key)
			continue
		}
		r.same(what+" "+key, w, g)
	}
	for key := range got {
		if _, ok := want[key]; !ok {
			r.t.Errorf("%s has a %s, which was not recorded", what, key)
		}
	}
}

// settle removes system posts from a list, and sorts posts of the same time, whose order is
// arbitrary, by their last change.
func (r *replay) settle(list map[string]any) {
	posts, order := list["posts"].(map[string]any), list["order"].([]any)
	field := func(id any, key string) any { return posts[id.(string)].(map[string]any)[key] }
	for id := range posts {
		if strings.HasPrefix(field(id, "type").(string), "system_") {
			delete(posts, id)
		}
	}
	order = slices.DeleteFunc(order, func(id any) bool { return posts[id.(string)] == nil })
	slices.SortStableFunc(order, func(a, b any) int {
		return stdcmp.Or(
			stdcmp.Compare(field(b, "create_at").(float64), field(a, "create_at").(float64)),
			stdcmp.Compare(len(field(a, "original_id").(string)), len(field(b, "original_id").(string))),
			stdcmp.Compare(field(a, "update_at").(float64), field(b, "update_at").(float64)),
		)
	})
	list["order"] = order
}
