//go:build unix

package main

import (
	"os"
	"os/signal"
	"syscall"
)

// notifyCopy asks for the signal that means: copy every job.
func notifyCopy(c chan<- os.Signal) { signal.Notify(c, syscall.SIGUSR1) }
