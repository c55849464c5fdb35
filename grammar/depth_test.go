package grammar_test

import (
	"testing"

	"strapline/grammar"
	"strapline/grammar/parse"
)

// TestArticleBeforeRoom: a room with an article is that room. Once such a line was its own hint, without end.
func TestArticleBeforeRoom(t *testing.T) {
	c := &grammar.Context{Rooms: map[string]string{"den": "den"}}
	for said, want := range map[string]string{"a den: hung r1": "den: hung r1", "the den: layout": "den: layout"} {
		if got, err := parse.Line(said, c); err != nil || got.String() != want {
			t.Errorf("%q: got %q, %v, want %q", said, got, err, want)
		}
	}
}

// TestDeepest: readings within readings come to an end, whatever leads to them.
func TestDeepest(t *testing.T) {
	said := "light 26 off west 41 off north"
	if _, err := parse.Line(said, &grammar.Context{Depth: 8}); err != nil {
		t.Errorf("eight deep: %v", err)
	}
	if _, err := parse.Line(said, &grammar.Context{Depth: 1000}); err == nil {
		t.Error("a thousand deep: read")
	}
}
