//go:build unix

package main

import (
	"os"
	"os/signal"
	"syscall"
)

// notifyCopy subscribes c to SIGUSR1, which asks for a backup of every job.
func notifyCopy(c chan<- os.Signal) { signal.Notify(c, syscall.SIGUSR1) }
