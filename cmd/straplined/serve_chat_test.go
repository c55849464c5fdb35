package main

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/alecthomas/kong"

	"strapline/bot"
	"strapline/bot/chat"
	"strapline/bot/chat/fake"
)

// When the chat server keeps refusing the token, all doors stop with an exit code of
// their own. While the server's database is down, nothing stops.
func TestChatTokenRefused(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := fake.Pipe()
		defer s.Close()
		me := s.AddUser("", "tape", true)
		b, err := bot.New(bot.Options{Dir: t.TempDir()})
		if err != nil {
			t.Fatal(err)
		}
		defer b.Close()
		srv := server{jobs: b, log: slog.New(slog.DiscardHandler)}
		cfg := chat.Config{URL: s.URL, Token: s.Token(me), Dial: s.Dial}
		ended := make(chan error, 1)
		other := func(ctx context.Context) error { <-ctx.Done(); return nil }
		s.LoseDatabase(0) // before the door opens, so the token is never accepted
		go func() { ended <- runAll(t.Context(), []door{other, srv.serveChat(cfg)}) }()
		time.Sleep(time.Hour)
		if len(ended) > 0 {
			t.Fatalf("it ended while the database was away: %v", <-ended)
		}
		s.Revoke(cfg.Token)
		s.FindDatabase()
		time.Sleep(3 * time.Minute) // a token never accepted is given a minute, which may start up to a minute late
		if len(ended) == 0 {
			t.Fatal("it goes on with a revoked token")
		}
		err = <-ended
		var code kong.ExitCoder
		if !errors.Is(err, chat.ErrToken) || !errors.As(err, &code) || code.ExitCode() != 3 {
			t.Errorf("it ends with %v, whose code is no 3", err)
		}
	})
}

// A missing setting is reported before anything is opened. With -long, which takes a
// minute, a refused token also ends the process with its own exit code.
func TestServeChat(t *testing.T) {
	const token = "kx81ufm3tbgn5y6wqp9zr7dhco"
	refusing := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.WriteHeader(http.StatusUnauthorized)
		_, _ = w.Write([]byte(`{"id":"api.context.session_expired.app_error","message":"Invalid or expired session, please login again.","status_code":401}`))
	}))
	defer refusing.Close()
	file := filepath.Join(t.TempDir(), "token")
	if err := os.WriteFile(file, []byte(token+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		env  []string
		code int
		want string
	}{
		{[]string{"STRAPLINE_CHAT_URL=" + refusing.URL, "STRAPLINE_CHAT_TOKEN_FILE=" + file}, exitToken, "refuses the token"},
		{[]string{"STRAPLINE_CHAT_URL=ftp://127.0.0.1", "STRAPLINE_CHAT_TOKEN_FILE=" + file}, 1, "must be like"},
		{[]string{"STRAPLINE_CHAT_URL=" + refusing.URL}, 1, "STRAPLINE_CHAT_TOKEN"},
		{[]string{"STRAPLINE_CHAT_TOKEN=" + token}, 1, "STRAPLINE_CHAT_URL"},
		{[]string{"STRAPLINE_CHAT_URL=ftp://127.0.0.1", "STRAPLINE_CHAT_TOKEN=" + token}, 1, "must be like"},
	} {
		if c.code == exitToken && !*long {
			continue
		}
		cmd := exec.CommandContext(t.Context(), "straplined", "--chat", "--data", filepath.Join(t.TempDir(), "data"))
		cmd.Env = append(os.Environ(), c.env...)
		out, err := cmd.CombinedOutput()
		if cmd.ProcessState.ExitCode() != c.code || !strings.Contains(string(out), c.want) {
			t.Errorf("straplined --chat with %v ended with %v, want %d and %q:\n%s", c.env, err, c.code, c.want, out)
		}
		if strings.Contains(string(out), token) {
			t.Errorf("the token is in what it says:\n%s", out)
		}
	}
}
