package main

import (
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"strapline/cmd/cli"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"straplined": main})
}

// The command line of straplined is completed like that of strapline.
func TestCompletion(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"", "complete -C straplined straplined\n"},
		{"straplined --wi", "--wire\n"},
		{"straplined --completion z", "zsh\n"},
	} {
		t.Setenv("COMP_LINE", c.line)
		var out strings.Builder
		if code := run([]string{"--completion", "bash"}, &cli.Streams{Ctx: t.Context(), Out: &out, Err: &out}); code != 0 || out.String() != c.want {
			t.Errorf("%q: %d %q", c.line, code, out.String())
		}
	}
}
