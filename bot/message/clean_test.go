package message_test

import (
	"testing"

	"strapline/bot/message"
)

func TestClean(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"gap 98 3/8\nnote a\tb", "gap 98 3/8\nnote a\tb"},
		{"116⅝ über 👷🏽\u200d♀️", "116⅝ über 👷🏽\u200d♀️"},
		{"a\r\nb\rc", "a\nb c"},
		{"esc\x1b[2J bel\a nul\x00 c1\u0085", "esc [2J bel  nul  c1 "},
		{"\u202e26\u202c off\u2066 west\ufeff", "26 off west"},
		{"26\u200boff\u2028west", "26 off west"},
		{"half \xc3", "half \uFFFD"},
	} {
		if got := message.Clean(tt.in); got != tt.want {
			t.Errorf("%q: got %q, want %q", tt.in, got, tt.want)
		}
	}
}
