package chat_test

import (
	"os/exec"
	"strings"
	"testing"
)

// The client of the chat server is large: nothing but this door links it, and
// the stand-in for the server is made without it.
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
