//go:build unix

package main

import (
	"errors"
	"os"
	"os/signal"
	"syscall"
)

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
