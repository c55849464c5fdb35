package lex_test

import (
	"slices"
	"testing"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// A room's short name is not another room's, and an opening is not the wall that is named by it.
func TestNotTheOther(t *testing.T) {
	names := lex.Names{Units: length.Imperial, Rooms: map[string]string{"bedroom": "front bedroom"}, Walls: map[string]place.Wall{"door": place.South, "window": place.North, "patio": place.East}}
	for _, c := range []struct {
		said string
		typ  lex.Type
		want bool
	}{
		{"outlets bedroom 16 up", lex.Room, true},
		{"outlets front bedroom 16 up", lex.Room, true},
		{"outlets back bedroom 16 up", lex.Room, false},
		{"light 26 off the door wall", lex.Wall, true},
		{"light 26 off the door", lex.Wall, false},
		{"light 26 off the patio", lex.Wall, true},
		{"light 26 off the window", lex.Wall, true},
		{"outlet 26 off the window, 16 up", lex.Wall, false},
		{"outlet 26 off the window side, 16 up", lex.Wall, true},
	} {
		r := lex.Read(c.said, names)
		r.Cut(0)
		if got := slices.ContainsFunc(r.Tokens, func(tok lexer.Token) bool { return tok.Type == c.typ }); got != c.want {
			t.Errorf("%q: %v, want %v", c.said, got, c.want)
		}
	}
}
