package main

import (
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// A token that the chat server refuses ends the server, with a code of its own;
// what is missing is said before anything is opened.
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
		{[]string{"STRAPLINE_CHAT_URL=" + refusing.URL, "STRAPLINE_CHAT_TOKEN=" + token}, exitToken, "refuses the token"},
		{[]string{"STRAPLINE_CHAT_URL=" + refusing.URL, "STRAPLINE_CHAT_TOKEN_FILE=" + file}, exitToken, "refuses the token"},
		{[]string{"STRAPLINE_CHAT_URL=" + refusing.URL}, 1, "STRAPLINE_CHAT_TOKEN"},
		{[]string{"STRAPLINE_CHAT_TOKEN=" + token}, 1, "STRAPLINE_CHAT_URL"},
		{[]string{"STRAPLINE_CHAT_URL=ftp://127.0.0.1", "STRAPLINE_CHAT_TOKEN=" + token}, 1, "must be like"},
	} {
		cmd := exec.CommandContext(t.Context(), "strapline", "serve", "--chat", "--data", filepath.Join(t.TempDir(), "data"))
		cmd.Env = append(os.Environ(), c.env...)
		out, err := cmd.CombinedOutput()
		if cmd.ProcessState.ExitCode() != c.code || !strings.Contains(string(out), c.want) {
			t.Errorf("serve --chat with %v ended with %v, want %d and %q:\n%s", c.env, err, c.code, c.want, out)
		}
		if strings.Contains(string(out), token) {
			t.Errorf("the token is in what it says:\n%s", out)
		}
	}
}
