package store

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	bolt "go.etcd.io/bbolt"

	"strapline/store/durable"
)

// Create makes an empty job at path, which must not exist, and opens it. It makes missing folders,
// accessible to their owner only.
func Create(path string) (*Log, error) {
	if err := durable.MakeDir(filepath.Dir(path)); err != nil {
		return nil, classify(path, err)
	}
	if err := durable.File(path, makeJob); err != nil {
		return nil, classify(path, err)
	}
	return Open(path)
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

// Backup copies the job as it is now to dst, which must not exist. Commits go on meanwhile, except that one that has
// to grow the file waits.
func (l *Log) Backup(dst string) error {
	return classify(dst, durable.File(dst, func(tmp string) error {
		db, err := l.db.Load(), l.usable()
		switch {
		case err != nil:
			return err
		case db == nil:
			return fs.ErrNotExist
		}
		f, err := os.OpenFile(tmp, os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		return cmp.Or(guard(func() error {
			return db.View(func(tx *bolt.Tx) error {
				_, err := tx.WriteTo(f) // CopyFile would open its copy with our OpenFile, and write over the job
				return err
			})
		}), f.Close())
	}))
}

// Backup copies the job at src, which nobody has open, to dst, which must not exist.
func Backup(src, dst string) error {
	l, err := open(src, true)
	if err != nil {
		return err
	}
	return cmp.Or(l.Backup(dst), l.Close())
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
	if !utf8.ValidString(strings.Join(append(rest, name), " ")) {
		return errors.New("text is not valid UTF-8")
	}
	return nil
}
