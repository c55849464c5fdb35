//go:build unix

package main

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"
)

// private refuses a data folder that others on this machine can look into.
func private(dir string) error {
	info, err := os.Stat(dir)
	if err != nil {
		return fmt.Errorf("cannot look at the data folder: %w", err)
	}
	if mode := info.Mode().Perm(); mode&0o077 != 0 {
		return fmt.Errorf("others can look into the data folder (mode %o); try `chmod 700 %s`", mode, dir)
	}
	return nil
}

// syncDir makes a new name in a folder last through a power cut.
func syncDir(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// notifyCopy asks for the signal that means: copy every job.
func notifyCopy(c chan<- os.Signal) { signal.Notify(c, syscall.SIGUSR1) }
