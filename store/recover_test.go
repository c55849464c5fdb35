package store_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"strapline/store"
)

// A power cut tears the head page that was being written: the commit it belongs to was not answered, and
// nothing else is lost. A command repairs the file and keeps the torn one.
func TestRecover(t *testing.T) {
	path := filepath.Join(t.TempDir(), "larkspur.job")
	l, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	page := os.Getpagesize()
	read := func() []byte {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	tried := 0
	for n := uint64(1); n <= 12; n++ {
		before := read()
		mustCommit(t, l, notes(n, n))
		mustClose(t, l)
		after, whole := read(), contents(t, path)
		for head := range 2 {
			at := head * page
			written := !bytes.Equal(before[at:at+page], after[at:at+page])
			for _, bytesOfIt := range []int{0, 24, 40, 56, 70} { // so much of the new head page arrived
				torn := bytes.Clone(after)
				if written {
					copy(torn[at+bytesOfIt:at+page], before[at+bytesOfIt:at+page])
				} else {
					torn[at+bytesOfIt] ^= 0xff // the other one is spoiled
				}
				if err := os.WriteFile(path, torn, 0o600); err != nil {
					t.Fatal(err)
				}
				opened, err := store.Open(path)
				if bytes.Equal(torn[at:at+page], before[at:at+page]) {
					if err != nil || opened.LastSeq() != n-1 { // as it was before
						t.Fatalf("commit %d that never arrived: %v", n, err)
					}
					mustClose(t, opened)
					continue
				}
				if err == nil { // what did not arrive is as it was before
					mustHold(t, opened, n)
					mustClose(t, opened)
					continue
				}
				tried++
				if !errors.Is(err, store.ErrTorn) || !errors.Is(err, store.ErrDamaged) {
					t.Fatalf("commit %d, head %d, %d bytes: %v", n, head, bytesOfIt, err)
				}
				kept, last, err := store.Recover(path)
				if err != nil {
					t.Fatalf("commit %d, head %d, %d bytes: recover: %v", n, head, bytesOfIt, err)
				}
				mustCheck(t, path)
				want := n
				if written {
					want--
				} else if got := contents(t, path); got != whole {
					t.Errorf("got\n%s\nwant\n%s", got, whole)
				}
				if last.Seq != want {
					t.Errorf("the last entry is %d, want %d", last.Seq, want)
				}
				again := mustOpen(t, path)
				mustHold(t, again, want)
				mustCommit(t, again, notes(want+1, want+1))
				mustClose(t, again)
				if was, err := os.ReadFile(kept); err != nil || !bytes.Equal(was, torn) {
					t.Errorf("the torn file is not kept: %v", err)
				}
				if err := os.Remove(kept); err != nil {
					t.Fatal(err)
				}
			}
		}
		if err := os.WriteFile(path, after, 0o600); err != nil {
			t.Fatal(err)
		}
		l = mustOpen(t, path)
	}
	if tried < 50 {
		t.Errorf("only %d torn files", tried)
	}
}

// What is sound, or more than torn, is left as it is.
func TestRecoverRefused(t *testing.T) {
	path, data := sample(t)
	try := func(name string, data []byte, want string) {
		t.Helper()
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if _, _, err := store.Recover(path); err == nil || !strings.Contains(err.Error(), want) || errors.Is(err, store.ErrTorn) {
			t.Errorf("%s: %v", name, err)
		}
		if after, err := os.ReadFile(path); err != nil || !bytes.Equal(after, data) {
			t.Errorf("%s: the file was changed", name)
		}
		if left, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*")); err != nil || len(left) != 1 {
			t.Errorf("%s: left over: %v", name, left)
		}
	}
	try("sound", data, "nothing is wrong with it")
	worse := bytes.Clone(data)
	worse[20] ^= 1
	worse = bytes.ReplaceAll(worse, []byte("& 7 off west"), []byte("& 6 off west"))
	try("an entry too", worse, "entry 7 does not match its checksum")
	try("no job", []byte("lead> light"), "it is not a strapline job")

	torn := bytes.Clone(data)
	torn[20] ^= 1
	if err := os.WriteFile(path, torn, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path+".torn", []byte("older"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := store.Recover(path); err == nil || !strings.Contains(err.Error(), path+".torn is in the way") {
		t.Errorf("with one kept before: %v", err)
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(after, torn) {
		t.Error("the file was changed")
	}
}
