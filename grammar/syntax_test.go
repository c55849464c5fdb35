package grammar

import (
	"flag"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"strapline/calc/length"
)

// TestEBNF keeps the language as participle sees it in a file for people.
func TestEBNF(t *testing.T) {
	got := whole.String() + "\n"
	if flag.Lookup("update").Value.String() == "true" {
		if err := os.WriteFile("testdata/ebnf.golden", []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("testdata/ebnf.golden")
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the language changed: look at it, then run with -update\n%s", got)
	}
}

// TestLiterals: every word of the rules is a token that the lexer makes, and
// can be offered for a misspelt one.
func TestLiterals(t *testing.T) {
	for _, m := range regexp.MustCompile(`"([^"]+)"`).FindAllStringSubmatch(whole.String(), -1) {
		word := m[1]
		l := lexLine("window "+word+" y", &Context{Units: length.Imperial})
		if word == "is" || strings.Contains(word, " ") { // filler, but where it gives a name
			continue
		}
		if l.tokens[1].Value != word && words.rows[Kind(word)] == nil {
			t.Errorf("%q lexes as %q", word, l.tokens[1].Value)
		}
		if len(word) > 2 && !slices.Contains(words.vocab, word) && words.rows[Kind(word)] == nil {
			t.Errorf("%q is offered to nobody", word)
		}
	}
}

// TestTables: no word has two meanings, and none is talk and a name at once.
func TestTables(t *testing.T) {
	meaning := map[string]string{}
	says := func(word, what string) {
		if old := meaning[word]; old != "" && old != what {
			t.Errorf("%q is both %s and %s", word, old, what)
		}
		meaning[word] = what
	}
	for what, also := range english.things {
		for _, w := range append([]string{what}, also...) {
			says(w, what)
			says(plural(w), what)
		}
	}
	for _, w := range english.services {
		says(w, "service")
		says(plural(w), "service")
	}
	for w, s := range english.fixed {
		says(w, s.value)
	}
	for _, w := range english.filler {
		says(w, "filler")
	}
	for _, c := range english.commands {
		for _, w := range slices.Concat(c.Words, c.Talk) {
			if row := words.rows[words.headOf(w)]; !strings.Contains(w, " ") && row.Kind != c.Kind {
				t.Errorf("%q begins both %s and %s", w, row.Kind, c.Kind)
			}
		}
	}
}

// TestLex: participle's own way into the lexer gives the same tokens.
func TestLex(t *testing.T) {
	const in = "light 26 off west, 41 off the north wall"
	got, err := whole.Lex("", strings.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	want := lexLine(in, &Context{Units: length.Imperial}).tokens
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
