package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"strapline/store/durable"
)

// Recover repairs a job of which a power cut tore one head page: it makes the file anew from what the
// other head leads to, and keeps the torn file as kept. Nothing committed is lost, unless the torn page is
// the newer head and was spoiled after its commit; then that commit is missing. last is the newest record,
// empty if there is none.
func Recover(path string) (kept string, last Record, err error) {
	kept = path + ".torn"
	last, err = recoverTo(path, kept)
	return kept, last, classify(path, err)
}

func recoverTo(path, kept string) (last Record, err error) {
	f, err := lockedFile(path, false)
	if err != nil {
		return last, err
	}
	defer f.Close()
	switch s, err := examine(f, nil); {
	case err != nil:
		return last, err
	case len(s.faults) == 0:
		return last, errors.New("nothing is wrong with it")
	case !s.torn:
		return last, s.err()
	}
	if _, err := os.Lstat(kept); err == nil {
		return last, fmt.Errorf("%s is in the way, of an earlier time; move it elsewhere", kept)
	}
	var lines bytes.Buffer
	if err := export(f, path, &lines); !errors.Is(err, ErrTorn) {
		return last, err
	}
	fresh := path + ".fresh"
	if err := os.Remove(fresh); err != nil && !errors.Is(err, os.ErrNotExist) { // left by an interrupted attempt
		return last, err
	}
	err = Import(&lines, fresh, func(it Item) error {
		if it.Record != nil {
			last = *it.Record
		}
		return nil
	})
	if err != nil {
		return last, err
	}
	if err := durable.Publish(path, kept); err != nil {
		return last, err
	}
	if err := os.Rename(fresh, path); err != nil {
		return last, err
	}
	return last, durable.SyncDir(filepath.Dir(path))
}
