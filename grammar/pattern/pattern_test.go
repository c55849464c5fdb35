package pattern_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	_ "strapline/grammar/parse" // all patterns of the language
	"strapline/grammar/pattern"
)

// TestPattern holds that a pattern passes over no text that its expression matches:
// each pattern is tried on whatever is said in the kept conversations.
func TestPattern(t *testing.T) {
	for _, said := range []string{`^a$|b$`, `(?i)^k.*`, `^a?$`, `^(?:\d|b?)c`, `^[^a]`, `b*`, `(?m)^a`, `\bx`, `^b*`} {
		pattern.Compile(said)
	}
	matched := 0
	for _, said := range everything(t) {
		for _, p := range pattern.Compiled() {
			if !p.Regexp().MatchString(said) {
				continue
			}
			matched++
			if !p.MatchString(said) || p.FindStringSubmatch(said) == nil || p.FindStringSubmatchIndex(said) == nil {
				t.Fatalf("%s passes over %q", p.Regexp(), said)
			}
		}
	}
	if matched < 1000 {
		t.Errorf("only %d matches", matched)
	}
	if p := pattern.Compile(`(?i)^(?:no|nope), `); p.May("light") || !p.May("No, ") || !p.May("no, ") {
		t.Error("a line that begins otherwise is tried")
	}
}

// everything is what is said in the kept files, as it stands and in lower case, and a few odd ones.
func everything(t *testing.T) []string {
	all := []string{"", "\u212Ax", "b", "c", "1c", "ab", "xa\na"}
	files, err := filepath.Glob("../../testdata/*.chat")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range append(files, "../testdata/heard.txt", "../testdata/chatter.txt") {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			if _, said, ok := strings.Cut(line, "> "); ok {
				line = said
			}
			line = strings.TrimSpace(line)
			all = append(all, line, strings.ToLower(line), strings.ToUpper(line))
		}
	}
	return all
}
