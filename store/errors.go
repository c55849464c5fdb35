package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime/debug"
	"strings"
	"syscall"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"
)

// What can be wrong with a job's file. Errors of this package wrap one of these,
// or [fs.ErrExist], [fs.ErrNotExist] or [os.ErrClosed], where one fits.
var (
	// ErrInUse: another process, or another Log of this one, has the job open.
	ErrInUse = errors.New("another strapline is using this file")
	// ErrCutOff: the file is shorter than its own head page says.
	ErrCutOff = errors.New("the file is cut off")
	// ErrDamaged: something in the file is not what was written, or it is no job at all.
	ErrDamaged = errors.New("the file is damaged")
	// ErrNewer: a later version wrote the file or a value in it.
	ErrNewer = errors.New("a newer strapline wrote this file")
	// ErrFull: the disk, the quota or the allowed file size is used up.
	ErrFull = errors.New("no space left to write the file")
	// ErrReadOnly: the file, the folder or the disk may not be written.
	ErrReadOnly = errors.New("the file or its folder cannot be written")
	// ErrDuplicate: a receipt for this message id is stored already.
	ErrDuplicate = errors.New("this message id was answered before")
)

// classify wraps err with the sentinel that fits it, and the path.
// bbolt passes some system errors on as text only, so the text is looked at too.
func classify(path string, err error) error {
	is := func(errnos ...syscall.Errno) bool {
		for _, no := range errnos {
			if errors.Is(err, no) || strings.HasSuffix(err.Error(), ": "+no.Error()) {
				return true
			}
		}
		return false
	}
	var kind error
	switch {
	case err == nil:
		return nil
	case is(syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG):
		kind = ErrFull
	case is(syscall.EROFS), errors.Is(err, fs.ErrPermission):
		kind = ErrReadOnly
	case errors.Is(err, berrors.ErrTimeout):
		kind = ErrInUse
	case errors.Is(err, berrors.ErrDatabaseNotOpen):
		kind = os.ErrClosed
	default:
		return fmt.Errorf("%s: %w", path, err)
	}
	return fmt.Errorf("%s: %w (%w)", path, kind, err)
}

// guard runs fn, which calls into bbolt, and turns a panic or a fault on a mapped
// page into ErrDamaged. The walk before opening leaves bbolt nothing to trip
// over; this is for a file that changes under an open log.
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
	if err := l.usable(); err != nil {
		return err
	}
	return l.wrap(guard(func() error { return l.db.View(fn) }))
}

// wrap names the file in an error that does not name it yet.
func (l *Log) wrap(err error) error { return classify(l.path, err) }
