//go:build unix && !solaris && !aix

package store

import (
	"errors"
	"os"
	"syscall"
)

// lock takes the lock that bbolt will take on the same handle a moment later, so that the file is not
// verified while another process writes it.
func lock(f *os.File, exclusive bool) error {
	how := syscall.LOCK_SH
	if exclusive {
		how = syscall.LOCK_EX
	}
	err := syscall.Flock(int(f.Fd()), how|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) {
		return ErrInUse
	}
	return err
}

// unlock lets others open the file even if this process still has it mapped: a lock outlives its handle
// until the last mapping is gone.
func unlock(f *os.File) error { return syscall.Flock(int(f.Fd()), syscall.LOCK_UN) }
