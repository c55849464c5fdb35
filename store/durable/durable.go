// Package durable makes files and folders whose content and names survive a power cut, provided that the system
// and the disk honour fsync.
package durable

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
)

// Sync makes the content of a file or a folder durable. Tests replace it to see what is synced.
var Sync = (*os.File).Sync

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
		if err := SyncDir(d); err != nil {
			return err
		}
	}
	return nil
}

// File makes the file at path, which must not exist, either whole or not at all: fill writes it under
// another name in the same folder, then it is synced and named, and the folder is synced. A process that
// dies on the way leaves a ".NAME.part" file, which is safe to delete.
func File(path string, fill func(tmp string) error) error {
	if _, err := os.Lstat(path); err == nil {
		return fs.ErrExist
	}
	dir, name := filepath.Split(path)
	f, err := os.CreateTemp(filepath.Clean(dir), "."+name+".part*")
	if err != nil {
		return err
	}
	tmp := f.Name()
	defer os.Remove(tmp)
	if err = fill(tmp); err == nil {
		err = Sync(f)
	}
	if err = cmp.Or(err, f.Close()); err == nil {
		err = Publish(tmp, path)
	}
	if err == nil {
		err = SyncDir(filepath.Dir(path))
	}
	return err
}

// Publish renames the file at tmp to path, and never replaces another file.
func Publish(tmp, path string) error {
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

// SyncDir makes the names in a folder durable.
func SyncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil // folders cannot be synced here
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return Sync(d)
}
