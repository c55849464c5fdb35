package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"strapline/store"
)

var update = flag.Bool("update", false, "rewrite the expected output in testdata/cli")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"strapline": main,
	})
}

// TestScripts runs the command line as people use it, one script for each use.
func TestScripts(t *testing.T) {
	chat, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/cli", UpdateScripts: *update, RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("CHATS", chat)
			env.Setenv("XDG_DATA_HOME", filepath.Join(env.WorkDir, "data"))
			env.Setenv("TMPDIR", env.WorkDir)
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"hold": hold, "cut": cutOff, "flip": flip, "tear": tear, "newer": newer},
	})
}

// hold opens a job and keeps it open until the script ends: `hold data/x.job`.
func hold(ts *testscript.TestScript, _ bool, args []string) {
	log, err := store.Open(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Defer(func() { log.Close() })
}

// cutOff truncates a file by one page of 4,096 bytes: `cut data/x.job`.
func cutOff(ts *testscript.TestScript, _ bool, args []string) {
	path := ts.MkAbs(args[0])
	info, err := os.Stat(path)
	ts.Check(err)
	ts.Check(os.Truncate(path, info.Size()-4096))
}

// newer makes a job with an entry of an unknown kind: `newer data/x.job`.
func newer(ts *testscript.TestScript, _ bool, args []string) {
	log, err := store.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Check(log.Commit(store.Batch{Records: []store.Record{{Seq: 1, Kind: "lasers", V: 1, Who: "lead", Text: "lasers on", Body: []byte(`{}`)}}}))
	ts.Check(log.Close())
}

// tear corrupts a meta page of a file, as a power cut may: `tear data/x.job`.
func tear(ts *testscript.TestScript, _ bool, args []string) {
	path := ts.MkAbs(args[0])
	data, err := os.ReadFile(path)
	ts.Check(err)
	data[60] ^= 0xff
	ts.Check(os.WriteFile(path, data, 0o600))
}

// flip inverts the first byte of a word wherever it occurs in a file: `flip data/x.job word`.
func flip(ts *testscript.TestScript, _ bool, args []string) {
	path := ts.MkAbs(args[0])
	data, err := os.ReadFile(path)
	ts.Check(err)
	n := 0
	for i := 0; i+len(args[1]) <= len(data); i++ {
		if string(data[i:i+len(args[1])]) == args[1] {
			data[i] ^= 0xff
			n++
		}
	}
	if n == 0 {
		ts.Fatalf("no %q in %s", args[1], path)
	}
	ts.Check(os.WriteFile(path, data, 0o600))
}
