package store_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	bolt "go.etcd.io/bbolt"

	"strapline/store"
)

var long = flag.Bool("long", false, "run the long versions of the tests")

// childEnv names the part of a child process that this test binary plays.
const childEnv = "STRAPLINE_STORE_CHILD"

var children = map[string]func(args []string) error{"stream": streamChild}

func TestMain(m *testing.M) {
	if run, ok := children[os.Getenv(childEnv)]; ok {
		if err := run(os.Args[1:]); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// child prepares this test binary to run again as one of children.
func child(t *testing.T, name string, args ...string) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), exe, args...)
	cmd.Env = append(os.Environ(), childEnv+"="+name)
	return cmd
}

// newJob makes an empty job that is checked when the test ends.
func newJob(t *testing.T) *store.Log {
	t.Helper()
	l, err := store.Create(filepath.Join(t.TempDir(), "larkspur.job"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		l.Close()
		mustCheck(t, l.Path())
	})
	return l
}

func mustOpen(t *testing.T, path string) *store.Log {
	t.Helper()
	l, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	return l
}

func mustClose(t *testing.T, l *store.Log) {
	t.Helper()
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
}

func mustCommit(t *testing.T, l *store.Log, b store.Batch) {
	t.Helper()
	if err := l.Commit(b); err != nil {
		t.Fatal(err)
	}
}

// mustCheck fails the test unless the file at path, which nobody has open, is sound.
func mustCheck(t *testing.T, path string) {
	t.Helper()
	report, err := store.Check(path, nil)
	if err != nil {
		t.Errorf("check: %v", err)
	}
	for _, fault := range report.Faults {
		t.Errorf("check: %s", fault)
	}
	if err != nil || len(report.Faults) > 0 {
		return
	}
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.View(func(tx *bolt.Tx) error { // what we find sound bbolt must too
		for err := range tx.Check() {
			t.Errorf("bbolt's check: %v", err)
		}
		return nil
	})
}

// note is record seq of our tests: all of it follows from seq.
func note(seq uint64) store.Record {
	return store.Record{
		Seq: seq, Kind: "thing", V: 1, Who: "lead",
		Sent: 1_777_888_000_000 + int64(seq)*60_000, Got: 1_777_888_000_400 + int64(seq)*60_000,
		ID:   fmt.Sprintf("post-%d", seq),
		Text: fmt.Sprintf("light 6\" <over> sink & %d off west, 41⅝ off north", seq),
		Body: json.RawMessage(fmt.Sprintf(`{"name":"light %d","x":%d,"y":1057275000}`, seq, seq*396_875)),
	}
}

// receipt is the receipt of note seq.
func receipt(seq uint64) store.Receipt {
	return store.Receipt{
		ID: fmt.Sprintf("post-%d", seq), Hash: seq << 40, Seqs: []uint64{seq},
		Reply: json.RawMessage(fmt.Sprintf(`{"text":"noted %d"}`, seq)),
	}
}

// notes is a batch of notes from one seq to another, with receipts and an outbox row each.
func notes(from, to uint64) store.Batch {
	b := store.Batch{Outbox: map[string]json.RawMessage{}}
	for seq := from; seq <= to; seq++ {
		b.Records = append(b.Records, note(seq))
		b.Receipts = append(b.Receipts, receipt(seq))
		b.Outbox[fmt.Sprintf("%08d", seq)] = json.RawMessage(`{"to":"lead"}`)
	}
	return b
}

// mustHold fails the test unless the log holds notes 1 to last, with their receipts.
func mustHold(t *testing.T, l *store.Log, last uint64) {
	t.Helper()
	if l.LastSeq() != last {
		t.Fatalf("last seq is %d, want %d", l.LastSeq(), last)
	}
	var n uint64
	for got, err := range l.Records(1) {
		if err != nil {
			t.Fatal(err)
		}
		n++
		if want := note(n); !reflect.DeepEqual(got, want) { // cmp.Diff alone is slow
			t.Fatalf("entry %d (-got +want):\n%s", n, cmp.Diff(got, want))
		}
		r, ok, err := l.Receipt(got.ID)
		if err != nil || !ok {
			t.Fatalf("receipt of %s: %v, %v", got.ID, ok, err)
		}
		if want := receipt(n); !reflect.DeepEqual(r, want) {
			t.Fatalf("receipt %d (-got +want):\n%s", n, cmp.Diff(r, want))
		}
	}
	if n != last {
		t.Fatalf("got %d entries, want %d", n, last)
	}
}
