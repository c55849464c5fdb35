package console_test

import (
	"strings"
	"testing"
	"time"

	"strapline/bot/console"
)

func TestReadChat(t *testing.T) {
	const file = `# a day
[2026-05-04 09:12] lead> room den 12' x 10'
| noted 1
|
hanger> gap 96 > 95

[2026-05-04 08:00] sparks> late
`
	steps, err := console.ReadChat(strings.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for _, s := range steps {
		out.WriteString(s.String() + "\n")
		for _, w := range s.Want {
			out.WriteString(strings.TrimRight("| "+w, " ") + "\n")
		}
	}
	if out.String() != file {
		t.Errorf("printed again it is\n%s", out.String())
	}
	at := time.Date(2026, 5, 4, 9, 13, 0, 0, time.UTC)
	if s := steps[2]; s.Who != "hanger" || s.Text != "gap 96 > 95" || !s.Sent.Equal(at) || len(s.Want) != 0 {
		t.Errorf("a message without a time is a minute after the one before: %+v", s)
	}
	if s := steps[4]; s.Sent.Hour() != 8 {
		t.Errorf("a late message keeps its own time: %+v", s)
	}
}

func TestReadChatRefuses(t *testing.T) {
	for file, want := range map[string]string{
		"| noted":                   "line 1: a reply with no message",
		"hello":                     "line 1: expected `who> text`",
		"lead> a\nsome body> b":     "line 2: expected `who> text`",
		"[9:12] lead> a":            "line 1:",
		"[2026-05-04 09:12 lead> a": "line 1:",
		"# only\n\n> nobody":        "line 3: expected",
	} {
		if _, err := console.ReadChat(strings.NewReader(file)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", file, err, want)
		}
	}
}

// A late note does not set the clock of a conversation back.
func TestClock(t *testing.T) {
	var c console.Clock
	c.Set(time.UnixMilli(2000))
	c.Set(time.UnixMilli(1000))
	if c.Now().UnixMilli() != 2000 {
		t.Error(c.Now())
	}
}
