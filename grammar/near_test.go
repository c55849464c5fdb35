package grammar_test

import (
	"testing"

	"pgregory.net/rapid"

	"strapline/grammar"
)

func TestNearest(t *testing.T) {
	known := []string{"light", "duct", "strap", "straps", "hung", "north", "west", "boarded", "board"}
	for _, tt := range []struct{ word, want string }{
		{"light", "light"},
		{"lihgt", "light"}, // a swap is one slip
		{"ligt", "light"},
		{"lightt", "light"},
		{"hugn", "hung"},
		{"wset", "west"},
		{"strps", "straps"},
		{"stra", "strap"},
		{"boradde", "boarded"},
		{"lamp", ""},
		{"hnug", "hung"},
		{"gnuh", ""},
		{"", ""},
		{"ⅷ", ""},
	} {
		if got := grammar.Nearest(tt.word, known); got != tt.want {
			t.Errorf("Nearest(%q) = %q, want %q", tt.word, got, tt.want)
		}
	}
}

// TestNearestBothWays: being near does not depend on which word is known, and
// one slip is always found.
func TestNearestBothWays(t *testing.T) {
	word := rapid.StringMatching(`[a-e]{6,9}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		if (grammar.Nearest(a, []string{b}) == "") != (grammar.Nearest(b, []string{a}) == "") {
			t.Fatalf("%q and %q are near one way only", a, b)
		}
		i := rapid.IntRange(0, len(a)-2).Draw(t, "i")
		swapped := a[:i] + a[i+1:i+2] + a[i:i+1] + a[i+2:]
		for _, slip := range []string{swapped, a[:i] + a[i+1:], a[:i] + "z" + a[i:], a[:i] + "z" + a[i+1:]} {
			if len(slip) >= 6 && grammar.Nearest(slip, []string{"zzzzzz", a}) != a {
				t.Fatalf("%q is one slip from %q", slip, a)
			}
		}
	})
}
