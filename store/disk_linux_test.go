package store_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"strapline/store"
)

func init() {
	children["limited"] = limitedChild
	children["forbidden"] = forbiddenChild
}

// tmpfs mounts a small disk, if this process may.
func tmpfs(t *testing.T, options string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, options); err != nil {
		t.Skipf("needs to mount a small disk, as root: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return dir
}

// fill commits notes until that fails, and returns the last seq and the error.
func fill(l *store.Log) (last uint64, err error) {
	for err == nil {
		last = l.LastSeq()
		err = l.Commit(notes(last+1, last+1))
	}
	return last, err
}

// TestDiskFull fills a small disk. No note is lost, none of the failed batch is
// there, and when there is room again the job goes on.
func TestDiskFull(t *testing.T) {
	dir := tmpfs(t, "size=512k")
	path, filler := filepath.Join(dir, "larkspur.job"), filepath.Join(dir, "filler")
	if err := os.WriteFile(filler, make([]byte, 100<<10), 0o600); err != nil {
		t.Fatal(err)
	}
	l, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	last, err := fill(l)
	if !errors.Is(err, store.ErrFull) || !strings.HasPrefix(err.Error(), path+": no space left to write the file (") {
		t.Errorf("commit: %v", err)
	}
	if again := l.Commit(notes(last+1, last+1)); !errors.Is(again, store.ErrFull) {
		t.Errorf("commit again: %v", again)
	}
	if _, _, err := l.Receipt("post-1"); !errors.Is(err, store.ErrFull) {
		t.Errorf("read after a failed commit: %v", err)
	}
	mustClose(t, l)
	mustCheck(t, path)
	l = mustOpen(t, path)
	mustHold(t, l, last)
	if _, err := fill(l); !errors.Is(err, store.ErrFull) {
		t.Errorf("commit to a disk still full: %v", err)
	}
	mustClose(t, l)

	for name, make := range map[string]func(string) error{
		"create": func(p string) error { _, err := store.Create(p); return err },
		"backup": func(p string) error { return store.Backup(path, p) },
		"import": func(p string) error { return store.Import(strings.NewReader(contents(t, path)), p, nil) },
	} {
		p := filepath.Join(dir, name)
		if err := make(p); !errors.Is(err, store.ErrFull) || !strings.HasPrefix(err.Error(), p+": no space left") {
			t.Errorf("%s on a full disk: %v", name, err)
		}
	}
	if err := os.Remove(filler); err != nil {
		t.Fatal(err)
	}
	if files, err := os.ReadDir(dir); len(files) != 1 || err != nil {
		t.Errorf("left over: %v, %v", files, err)
	}
	l = mustOpen(t, path)
	last = l.LastSeq()
	mustCommit(t, l, notes(last+1, last+10))
	mustHold(t, l, last+10)
	mustClose(t, l)
	mustCheck(t, path)
}

// TestFileTooLarge sets the limit of a process on the size of its files, which
// works without root, and makes bbolt fail in another place than a full disk.
func TestFileTooLarge(t *testing.T) {
	path := filepath.Join(t.TempDir(), "larkspur.job")
	out, err := child(t, "limited", path).Output()
	if err != nil {
		t.Fatal(err)
	}
	var last uint64
	if _, err := fmt.Sscan(string(out), &last); err != nil || last == 0 {
		t.Fatalf("the child said %q: %v", out, err)
	}
	mustCheck(t, path)
	l := mustOpen(t, path)
	mustHold(t, l, last)
	mustCommit(t, l, notes(last+1, last+1))
	mustClose(t, l)
	mustCheck(t, path)
}

func limitedChild(args []string) error {
	limit := syscall.Rlimit{Cur: 200 << 10, Max: 200 << 10}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		return err
	}
	l, err := store.Create(args[0])
	if err != nil {
		return err
	}
	last, err := fill(l)
	if !errors.Is(err, store.ErrFull) {
		return fmt.Errorf("commit: %w", err)
	}
	fmt.Println(last)
	return l.Close()
}

// TestReadOnlyDisk opens a job on a disk that may only be read.
func TestReadOnlyDisk(t *testing.T) {
	dir := tmpfs(t, "size=512k")
	path := filepath.Join(dir, "larkspur.job")
	l, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	mustCommit(t, l, notes(1, 3))
	mustClose(t, l)
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	if err := readOnly(path); err != nil {
		t.Error(err)
	}
}

// TestForbidden tries a file and a folder that the user may read but not write.
func TestForbidden(t *testing.T) {
	dir, err := os.MkdirTemp("", "strapline") // t.TempDir has a parent that only root enters
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	path := filepath.Join(dir, "larkspur.job")
	l, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	mustCommit(t, l, notes(1, 3))
	mustClose(t, l)
	for p, mode := range map[string]os.FileMode{path: 0o444, dir: 0o555} {
		if err := os.Chmod(p, mode); err != nil {
			t.Fatal(err)
		}
	}
	if out, err := child(t, "forbidden", path).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	if err := os.Chmod(dir, 0o700); err != nil {
		t.Fatal(err)
	}
}

// forbiddenChild becomes nobody, if it is root, whom no mode holds back.
func forbiddenChild(args []string) error {
	if os.Getuid() == 0 {
		if err := syscall.Setuid(65534); err != nil {
			return err
		}
	}
	return readOnly(args[0])
}

// readOnly tries all there is on a job of 3 notes that may only be read.
func readOnly(path string) error {
	if _, err := store.Open(path); !errors.Is(err, store.ErrReadOnly) ||
		!strings.HasPrefix(err.Error(), path+": the file or its folder cannot be written (") {
		return fmt.Errorf("open: %w", err)
	}
	for name, make := range map[string]func(string) error{
		"create": func(p string) error { _, err := store.Create(p); return err },
		"backup": func(p string) error { return store.Backup(path, p) },
		"import": func(p string) error { return store.Import(strings.NewReader(""), p, nil) },
	} {
		p := filepath.Join(filepath.Dir(path), name)
		if err := make(p); !errors.Is(err, store.ErrReadOnly) || !strings.HasPrefix(err.Error(), p+": the file or its folder cannot") {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	if report, err := store.Check(path, nil); err != nil || len(report.Faults) > 0 || report.LastSeq != 3 {
		return fmt.Errorf("check: %+v, %w", report, err)
	}
	var b bytes.Buffer
	if err := store.Export(path, &b); err != nil || strings.Count(b.String(), `{"record":`) != 3 {
		return fmt.Errorf("export: %w\n%s", err, b.String())
	}
	return nil
}
