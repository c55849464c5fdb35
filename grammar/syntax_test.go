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

// ebnf is every production once, as participle prints it.
func ebnf() string {
	var all []string
	for _, rule := range written {
		for p := range strings.Lines(rule + "\n") {
			if !slices.Contains(all, p) {
				all = append(all, p)
			}
		}
	}
	slices.Sort(all)
	return strings.Join(all, "")
}

// TestEBNF keeps the language as participle sees it in a file for people.
func TestEBNF(t *testing.T) {
	got := ebnf()
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
	for _, m := range regexp.MustCompile(`"([^"]+)"`).FindAllStringSubmatch(ebnf(), -1) {
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
	for _, c := range Commands() {
		for _, w := range slices.Concat(c.Words, c.Talk) {
			if row := words.rows[words.headOf(w)]; !strings.Contains(w, " ") && row.Kind != c.Kind {
				t.Errorf("%q begins both %s and %s", w, row.Kind, c.Kind)
			}
		}
	}
}

// TestThings: what a board hides is noted by each of its names, and help knows it.
func TestThings(t *testing.T) {
	for what := range english.things {
		line, err := Parse(what+" 26 off west 41 off north", nil)
		if thing, ok := line.Entry.(Thing); err != nil || !ok || thing.What != what {
			t.Errorf("%s: %v, %v", what, line.Entry, err)
		}
		if len(Topic(what)) == 0 {
			t.Errorf("help knows nothing of %q", what)
		}
	}
}
