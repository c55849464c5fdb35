package chat_test

import (
	"os/exec"
	"strings"
	"testing"
)

// The client of the chat server is large, so only this door links it. The stand-in for the
// server does not use it either.
func TestOnlyTheDoorLinksTheClient(t *testing.T) {
	for pkg, want := range map[string]bool{"strapline/bot/chat": true, "strapline/bot/chat/fake": false, "strapline/bot": false} {
		out, err := exec.Command("go", "list", "-deps", pkg).CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		if got := strings.Contains(string(out), "github.com/mattermost/"); got != want {
			t.Errorf("%s links the client: %v, want %v", pkg, got, want)
		}
	}
}
