package store

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"unicode/utf8"

	bolt "go.etcd.io/bbolt"
)

// Create makes an empty job at path, which must not exist, and opens it. It makes missing folders,
// accessible to their owner only.
func Create(path string) (*Log, error) {
	if err := MakeDir(filepath.Dir(path)); err != nil {
		return nil, classify(path, err)
	}
	if err := newFile(path, makeJob); err != nil {
		return nil, err
	}
	return Open(path)
}

// fsync makes the content of a file or a folder durable. Tests replace it to see what is synced.
var fsync = (*os.File).Sync

// MakeDir makes a folder and missing parents, accessible to their owner only, and makes their names
// durable.
func MakeDir(dir string) error {
	var grown []string // folders that get a new name
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Stat(d); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		grown = append(grown, filepath.Dir(d))
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	for _, d := range slices.Backward(grown) {
		if err := syncDir(d); err != nil {
			return err
		}
	}
	return nil
}

// makeJob writes an empty job into the empty file at path.
func makeJob(path string) error {
	return guard(func() error {
		db, err := bolt.Open(path, 0o600, nil)
		if err != nil {
			return err
		}
		defer db.Close()
		return db.Update(func(tx *bolt.Tx) error {
			for _, name := range buckets {
				if _, err := tx.CreateBucket([]byte(name)); err != nil {
					return err
				}
			}
			about := tx.Bucket([]byte(aboutBucket))
			if err := put(about, aboutBucket, formatKey, fileFormat); err != nil {
				return err
			}
			return put(about, aboutBucket, totalsKey, totals{})
		})
	})
}

// BackupTo writes the job as it is now to w, as a file that Open reads. Commits go on meanwhile, except
// that one that has to grow the file waits. So w should be as fast as a local file.
func (l *Log) BackupTo(w io.Writer) error {
	return classify(l.path, l.backupTo(w))
}

func (l *Log) backupTo(w io.Writer) error {
	if err := l.usable(); err != nil {
		return err
	}
	db := l.db.Load()
	if db == nil {
		return fs.ErrNotExist
	}
	return guard(func() error {
		return db.View(func(tx *bolt.Tx) error {
			_, err := tx.WriteTo(w)
			return err
		})
	})
}

// Backup copies the job as it is now to dst, which must not exist.
func (l *Log) Backup(dst string) error {
	return newFile(dst, func(tmp string) error {
		f, err := os.OpenFile(tmp, os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		return cmp.Or(l.backupTo(f), f.Close())
	})
}

// Backup copies the job at src, which nobody has open, to dst, which must not exist.
func Backup(src, dst string) error {
	l, err := open(src, true)
	if err != nil {
		return err
	}
	return cmp.Or(l.Backup(dst), l.Close())
}

// newFile makes the file at path, which must not exist, either whole or not at all: fill writes it under
// another name in the same folder, then it is synced and named, and the folder is synced. A process that
// dies on the way leaves a ".NAME.part" file, which is safe to delete.
func newFile(path string, fill func(tmp string) error) error {
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s: %w", path, fs.ErrExist)
	}
	dir, name := filepath.Split(path)
	f, err := os.CreateTemp(filepath.Clean(dir), "."+name+".part*")
	if err != nil {
		return classify(path, err)
	}
	tmp := f.Name()
	defer os.Remove(tmp)
	if err = fill(tmp); err == nil {
		err = fsync(f)
	}
	if err = cmp.Or(err, f.Close()); err == nil {
		err = publish(tmp, path)
	}
	if err == nil {
		err = syncDir(filepath.Dir(path))
	}
	return classify(path, err)
}

// publish renames the file at tmp to path, and never replaces another file.
func publish(tmp, path string) error {
	err := os.Link(tmp, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	// The file system has no hard links.
	if _, err := os.Lstat(path); err == nil {
		return fs.ErrExist
	}
	return os.Rename(tmp, path)
}

// syncDir makes the names in a folder durable.
func syncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil // folders cannot be synced here
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return fsync(d)
}

// lockedFile opens an existing job's file and locks it, shared if readOnly.
func lockedFile(path string, readOnly bool) (*os.File, error) {
	flag := os.O_RDWR
	if readOnly {
		flag = os.O_RDONLY
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: %w: it is not a plain file", path, ErrDamaged)
	}
	f, err := os.OpenFile(path, flag, 0)
	if readOnly && errors.Is(err, fs.ErrPermission) {
		return nil, err // it was only to be read
	}
	if err != nil {
		return nil, classify(path, err)
	}
	if err := lock(f, !readOnly); err != nil {
		f.Close()
		return nil, classify(path, err)
	}
	return f, nil
}

// validText refuses text that JSON cannot store unchanged, that is, text that is not UTF-8. The first
// string is a key or a name and must not be empty.
func validText(name string, rest ...string) error {
	if name == "" {
		return errors.New("a name is empty")
	}
	for _, s := range append(rest, name) {
		if !utf8.ValidString(s) {
			return errors.New("text is not valid UTF-8")
		}
	}
	return nil
}
