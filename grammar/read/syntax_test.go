package read_test

import (
	"flag"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/parse"
	"strapline/grammar/read"
	"strapline/grammar/things"
)

var update = flag.Bool("update", false, "rewrite the rules")

// ebnf is every production once, as participle prints it.
func ebnf() string {
	var all []string
	for _, rule := range read.Written {
		for p := range strings.Lines(rule() + "\n") {
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
	if *update {
		if err := os.WriteFile("../testdata/ebnf.golden", []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("../testdata/ebnf.golden")
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
		l := read.CutLine("window "+word+" y", &grammar.Context{Units: length.Imperial})
		if word == "is" || strings.Contains(word, " ") { // filler, but where it gives a name
			continue
		}
		if l.Tokens[1].Value != word && read.Words.Rows[grammar.Kind(word)] == nil {
			t.Errorf("%q lexes as %q", word, l.Tokens[1].Value)
		}
		if len(word) > 2 && !slices.Contains(read.Words.Vocab, word) && read.Words.Rows[grammar.Kind(word)] == nil {
			t.Errorf("%q is offered to nobody", word)
		}
	}
}

// TestHeads: no word begins two kinds of command.
func TestHeads(t *testing.T) {
	meaning := map[string]grammar.Kind{}
	for _, c := range read.Commands() {
		for _, w := range slices.Concat(c.Words, c.Talk) {
			if old := meaning[w]; old != "" {
				t.Errorf("%q begins both %s and %s", w, old, c.Kind)
			}
			meaning[w] = c.Kind
		}
	}
}

// TestThings: what a board hides is noted by each of its names, and help knows it.
func TestThings(t *testing.T) {
	for _, what := range lex.ThingOf {
		line, err := parse.Line(what+" 26 off west 41 off north", nil)
		if thing, ok := line.Entry.(things.Thing); err != nil || !ok || thing.What != what {
			t.Errorf("%s: %v, %v", what, line.Entry, err)
		}
		if len(read.Topic(what)) == 0 {
			t.Errorf("help knows nothing of %q", what)
		}
	}
}
