//go:build unix && !solaris && !aix

package store

import (
	"errors"
	"os"
	"syscall"
)

// lock takes the lock that bbolt takes on the same handle a moment later, so
// that the file is not looked at while another process writes it.
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
