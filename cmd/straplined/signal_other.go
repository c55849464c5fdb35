//go:build !unix

package main

import "os"

// notifyCopy does nothing where there is no SIGUSR1; use `backup` on the wire instead.
func notifyCopy(chan<- os.Signal) {}
