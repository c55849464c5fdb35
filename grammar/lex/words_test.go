package lex

import (
	"slices"
	"strings"
	"testing"
)

// TestTables: no word has two meanings.
func TestTables(t *testing.T) {
	meaning := map[string]string{}
	says := func(word, what string) {
		if old := meaning[word]; old != "" && old != what {
			t.Errorf("%q is both %s and %s", word, old, what)
		}
		meaning[word] = what
	}
	for what, also := range things {
		for _, w := range append(listed(also), what) {
			says(w, what)
			says(Plural(w), what)
		}
	}
	for _, w := range services {
		says(w, "service")
		says(Plural(w), "service")
	}
	for _, f := range fixed {
		if f.own {
			says(f.value, f.value)
		}
		for _, w := range listed(f.also) {
			says(w, f.value)
		}
	}
	for w := range Filler {
		says(w, "filler")
	}
}

// TestLex: participle's own way into the lexer gives the same tokens.
func TestLex(t *testing.T) {
	const in = "light 26 off west, 41 off the north wall"
	l, err := Symbols{}.Lex("", strings.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	want := Read(in, Names{Units: "imperial"})
	want.Cut(0)
	if got := l.(*tokens).left; !slices.Equal(got, want.Tokens) {
		t.Errorf("got %v, want %v", got, want.Tokens)
	}
}
