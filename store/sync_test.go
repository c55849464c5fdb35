package store

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"strapline/store/durable"
)

// synced is one fsync: of what, and how many names ended in .job then.
type synced struct {
	name string
	jobs int
}

// syncs lists what is synced until the test ends. Files under a name of the moment
// are "part". fail, if set, is what every sync of that name comes to.
func syncs(t *testing.T, root, fail string) *[]synced {
	t.Helper()
	var all []synced
	real := durable.Sync
	t.Cleanup(func() { durable.Sync = real })
	durable.Sync = func(f *os.File) error {
		name, err := filepath.Rel(root, f.Name())
		if err != nil {
			t.Error(err)
		}
		if strings.Contains(name, ".part") {
			name = filepath.Join(filepath.Dir(name), "part")
		}
		s := synced{name: name}
		err = filepath.WalkDir(root, func(path string, _ fs.DirEntry, err error) error {
			if strings.HasSuffix(path, ".job") {
				s.jobs++
			}
			return err
		})
		if all = append(all, s); fail == name {
			err = errors.New("the disk is gone")
		}
		return errors.Join(err, real(f))
	}
	return &all
}

// What has to be on disk for a new job to survive a power cut: the folders above it, the whole file before
// it has its name, and then its name. They are synced in that order, and if one sync fails no job is made.
func TestSynced(t *testing.T) {
	export := `{"strapline":{"export":1}}` + "\n" + `{"record":{"seq":1,"kind":"note","v":1,"who":"lead","sent":1,"got":1,"text":"note x","body":{}}}` + "\n" +
		`{"end":{"last":1,"receipts":0,"pending":0,"outbox":0,"marks":0}}` + "\n"
	from := filepath.Join(t.TempDir(), "from")
	if err := Import(strings.NewReader(export), from, nil); err != nil {
		t.Fatal(err)
	}
	for name, make := range map[string]func(path string) error{
		"create": func(path string) error {
			l, err := Create(path)
			if err != nil {
				return err
			}
			return l.Close()
		},
		"import": func(path string) error { return Import(strings.NewReader(export), path, nil) },
		"backup": func(path string) error {
			if err := durable.MakeDir(filepath.Dir(path)); err != nil {
				return err
			}
			return Backup(from, path)
		},
	} {
		want := []synced{{".", 0}, {"a", 0}, {"a/b/part", 0}, {"a/b", 1}}
		for _, fail := range []string{"", "a/b/part", "a/b", "a"} {
			t.Run(name+" "+fail, func(t *testing.T) {
				root := t.TempDir()
				path := filepath.Join(root, "a", "b", "new.job")
				all := syncs(t, root, fail)
				err := make(path)
				if (err != nil) != (fail != "") {
					t.Fatalf("it came to %v", err)
				}
				got := *all
				for i := range got {
					if i >= len(want) || got[i] != want[i] {
						t.Fatalf("synced %v, want %v", got, want)
					}
				}
				if fail == "" && len(got) != len(want) {
					t.Errorf("synced %v, want %v", got, want)
				}
				if _, err := os.Stat(path); fail == "a/b/part" && err == nil {
					t.Error("a file that was not synced has its name")
				}
			})
		}
	}
}

// Commits are synced by bbolt, unless it is told not to.
func TestCommitsAreSynced(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new.job")
	l, err := Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	if db := l.db.Load(); db.NoSync || db.NoGrowSync || db.NoFreelistSync {
		t.Error("bbolt is told not to sync")
	}
}

// A commit that fails with the disk, whether the batch arrived or not, leaves a log that does not
// show the batch. Reopening it shows what the file holds.
func TestCommitThatFails(t *testing.T) {
	gone := errors.New("input/output error")
	for _, arrived := range []bool{false, true} {
		path := filepath.Join(t.TempDir(), "new.job")
		l, err := Create(path)
		if err != nil {
			t.Fatal(err)
		}
		real := update
		t.Cleanup(func() { update = real })
		b := Batch{Records: []Record{{Seq: 1, Kind: "note", V: 1, Who: "lead", Text: "x", Body: json.RawMessage(`{}`)}}}
		update = func(l *Log, b *Batch, next *totals) error {
			if arrived {
				if err := real(l, b, next); err != nil {
					return err
				}
			}
			return gone
		}
		if err := l.Commit(b); !errors.Is(err, gone) {
			t.Fatalf("commit: %v", err)
		}
		update = real
		if l.LastSeq() != 0 {
			t.Error("the last entry is one that was not committed")
		}
		if err := l.Commit(b); !errors.Is(err, gone) || !strings.Contains(err.Error(), "must be opened again") {
			t.Errorf("another commit: %v", err)
		}
		for _, err := range l.Records(1) {
			t.Errorf("a record, or %v", err)
		}
		if _, _, err := l.Receipt("x"); !errors.Is(err, gone) {
			t.Errorf("a read: %v", err)
		}
		if err := l.Close(); err != nil {
			t.Fatal(err)
		}
		if l, err = Open(path); err != nil {
			t.Fatal(err)
		}
		if want := map[bool]uint64{true: 1}[arrived]; l.LastSeq() != want {
			t.Errorf("opened again it has %d entries, want %d", l.LastSeq(), want)
		}
		if err := l.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
