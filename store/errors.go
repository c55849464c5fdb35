package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"

	"strapline/store/pages"
)

// What can be wrong with a job's file. Errors of this package wrap one of these, or [fs.ErrExist],
// [fs.ErrNotExist] or [os.ErrClosed], if one fits.
var (
	// ErrInUse: another process, or another Log of this one, has the job open.
	ErrInUse = errors.New("another strapline is using this file")
	// What the walk over the pages finds.
	ErrCutOff, ErrDamaged, ErrNewer = pages.ErrCutOff, pages.ErrDamaged, pages.ErrNewer
	// ErrTorn: one of the two head pages is spoiled, as by a power cut, and everything else is sound.
	// [Recover] goes on from the other one. It is also an ErrDamaged.
	ErrTorn = fmt.Errorf("%w: a head page is torn", ErrDamaged)
	// ErrFull: the disk, the quota or the allowed file size is used up.
	ErrFull = errors.New("no space left to write the file")
	// ErrReadOnly: the file, the folder or the disk is not writable.
	ErrReadOnly = errors.New("the file or its folder cannot be written")
	// ErrDuplicate: there is already a receipt for this message id.
	ErrDuplicate = errors.New("this message id was answered before")
)

// classify wraps err with the path and the sentinel that fits it. bbolt passes some system errors on as
// text only, so it matches texts too.
func classify(path string, err error) error {
	is := func(errnos ...syscall.Errno) bool {
		return slices.ContainsFunc(errnos, func(no syscall.Errno) bool {
			return errors.Is(err, no) || strings.HasSuffix(err.Error(), ": "+no.Error())
		})
	}
	cause := err
	if p, ok := err.(*fs.PathError); ok {
		cause = p.Err // the path comes first anyway
	}
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("%s: %w", path, fs.ErrExist)
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: %w", path, fs.ErrNotExist)
	case is(syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG):
		return fmt.Errorf("%s: %w (%w)", path, ErrFull, cause)
	case is(syscall.EROFS), errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: %w (%w)", path, ErrReadOnly, cause)
	case errors.Is(err, berrors.ErrTimeout):
		return fmt.Errorf("%s: %w", path, ErrInUse)
	case errors.Is(err, berrors.ErrDatabaseNotOpen):
		return fmt.Errorf("%s: %w", path, os.ErrClosed)
	}
	return fmt.Errorf("%s: %w", path, cause)
}

// guard runs fn, which calls into bbolt, and turns a panic or a fault on a mapped page into ErrDamaged.
// The walk before opening leaves nothing for bbolt to trip over, so this is for a file that changes under
// an open log.
func guard(fn func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%w: %v", ErrDamaged, p)
		}
	}()
	return fn()
}

// view runs fn in a read transaction.
func (l *Log) view(fn func(*bolt.Tx) error) error {
	err := l.usable()
	if db := l.db.Load(); err == nil && db != nil {
		err = guard(func() error { return db.View(fn) })
	}
	return classify(l.path, err)
}
