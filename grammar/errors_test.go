package grammar_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/record"
)

// TestErrors reads testdata/errors/*.txt: a wrong line, ###, and the error
// it gets. -update rewrites what stands behind the ###.
func TestErrors(t *testing.T) {
	files, err := filepath.Glob("testdata/errors/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no files", err)
	}
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var out strings.Builder
		for line := range strings.Lines(string(b)) {
			line = strings.TrimSuffix(line, "\n")
			if line == "" || strings.HasPrefix(line, "##") {
				out.WriteString(line + "\n")
				continue
			}
			in, want, _ := strings.Cut(line, " ### ")
			in = strings.TrimRight(in, " ")
			got := refusal(t, in)
			out.WriteString(in + " ### " + got + "\n")
			if got != want && !*update {
				t.Errorf("%s: %q\n got %s\nwant %s", file, in, got, want)
			}
		}
		if *update {
			if err := os.WriteFile(file, []byte(out.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// refusal is the error of a wrong line as text. It checks what every refusal
// must have: its word stands at its column, and its hint parses.
func refusal(t *testing.T, in string) string {
	t.Helper()
	c := onSite(length.Imperial)
	line, err := parse.Line(in, c)
	if note, ok := line.Entry.(record.Note); ok && err == nil {
		return "kept: " + note.Hint
	}
	if q, ok := line.Entry.(record.Notes); ok && err == nil {
		return q.String()
	}
	if err == nil {
		t.Errorf("%q was read as %s", in, line)
		return "accepted"
	}
	if r, ok := errors.AsType[*grammar.Refusal](err); ok {
		runes := []rune(in)
		switch {
		case r.Word == "" && r.Col != len(runes)+1:
			t.Errorf("%q: column %d, want the end %d", in, r.Col, len(runes)+1)
		case r.Word != "" && (r.Col < 1 || r.Col > len(runes) || !strings.HasPrefix(string(runes[r.Col-1:]), r.Word)):
			t.Errorf("%q: %q does not stand at column %d", in, r.Word, r.Col)
		}
		if _, err := parse.Line(r.Hint, c); r.Want == "" || r.Hint == "" || err != nil {
			t.Errorf("%q: want %q, hint %q: %v", in, r.Want, r.Hint, err)
		}
	}
	return strings.ReplaceAll(err.Error(), "\n", " / ")
}
