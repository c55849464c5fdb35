package cli_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"strapline/cmd/cli"
	"strapline/store"
)

// grammar is a command that returns the error named by its argument.
type grammar struct {
	With string `arg:""`
}

type refused struct{ error }

func (refused) ExitCode() int { return 3 }

func (g *grammar) Run(s *cli.Streams) error {
	return map[string]error{
		"fault": errors.New("no such thing"),
		"code":  errors.Join(nil, fmt.Errorf("over: %w", refused{errors.New("not let in")})),
		"store": fmt.Errorf("x.job: %w", store.ErrInUse),
	}[g.With]
}

func TestRun(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"well"}, 0, ""},
		{[]string{"--help"}, 0, ""},
		{[]string{"fault"}, 1, "prog: no such thing"},
		{[]string{"code"}, 3, "prog: over: not let in"},
		{[]string{"store"}, 1, "another strapline has this job open (x.job)"},
		{nil, 2, "try `prog --help`"},
		{[]string{"well", "--much"}, 2, "unknown flag --much"},
	} {
		var out, errw bytes.Buffer
		code := cli.Run("prog", "A program.", new(grammar), c.args, &cli.Streams{Out: &out, Err: &errw})
		if code != c.code || !strings.Contains(errw.String(), c.says) || (c.says == "") != (errw.Len() == 0) {
			t.Errorf("%q: code %d, want %d: %s", c.args, code, c.code, errw.String())
		}
	}
}

func TestAddress(t *testing.T) {
	for flag, want := range map[string]string{
		"7717": "127.0.0.1:7717", ":7717": "127.0.0.1:7717", "127.0.0.2:0": "127.0.0.2:0", "localhost:7717": "127.0.0.1:7717", "0.0.0.0:1": "0.0.0.0:1",
		"[::1]:7717": "[::1]:7717", "a:b:c": "", "127.0.0.1:none": "", "none": "", "1:2:3": "", "127.0.0.1:70000": "",
	} {
		got := ""
		addr, err := cli.Address(flag)
		if err == nil {
			got = addr.String()
		} else if !strings.Contains(err.Error(), fmt.Sprintf("%q is no address like 127.0.0.1:7717", flag)) {
			t.Error(err)
		}
		if got != want {
			t.Errorf("%q: %q, want %q (%v)", flag, got, want, err)
		}
	}
}
