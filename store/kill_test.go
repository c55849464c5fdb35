package store_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"strapline/store"
)

// TestKill kills a process that commits notes as fast as it can, at random
// moments, again and again on one job. Every note it reported as committed must be
// there, once, with its receipt, and the file must be sound.
func TestKill(t *testing.T) {
	kills := 20
	if *long {
		kills = 200
	}
	path := filepath.Join(t.TempDir(), "larkspur.job")
	l, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	mustClose(t, l)
	var total uint64
	for range kills {
		reported := killOne(t, path)
		mustCheck(t, path)
		l := mustOpen(t, path)
		last := l.LastSeq()
		// The batch in progress may have made it; no other one.
		if last < reported || last > max(reported, total)+maxBatch {
			t.Fatalf("last seq is %d, %d was reported", last, reported)
		}
		mustHold(t, l, last)
		mustClose(t, l)
		total = last
	}
	if total < uint64(kills) {
		t.Errorf("only %d notes in %d runs: the kills came too early to show anything", total, kills)
	}
	t.Logf("%d notes, %d kills", total, kills)
}

const maxBatch = 5 // notes in a batch of streamChild

// killOne runs the child, kills it at a random moment, and returns the last seq it reported.
func killOne(t *testing.T, path string) (reported uint64) {
	t.Helper()
	cmd := child(t, "stream", path)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	// A count of reports puts the kill anywhere in a run, the timer anywhere in a commit.
	after := 1 + rand.IntN(40)
	lines := bufio.NewScanner(out)
	for n := 1; lines.Scan(); n++ {
		if reported, err = strconv.ParseUint(lines.Text(), 10, 64); err != nil {
			t.Fatal(err)
		}
		if n == after {
			time.AfterFunc(time.Duration(rand.IntN(2000))*time.Microsecond, func() { cmd.Process.Kill() })
		}
	}
	if err := cmd.Wait(); err == nil {
		t.Fatal("the child ended by itself")
	}
	return reported
}

// streamChild commits batches of notes without end, and prints the last seq of each
// when Commit has returned.
func streamChild(args []string) error {
	l, err := store.Open(args[0])
	if err != nil {
		return err
	}
	for {
		from := l.LastSeq() + 1
		to := from + rand.Uint64N(maxBatch)
		if err := l.Commit(notes(from, to)); err != nil {
			return err
		}
		if _, err := fmt.Fprintln(os.Stdout, to); err != nil {
			return err
		}
	}
}
