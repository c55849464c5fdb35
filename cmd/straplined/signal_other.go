//go:build !unix

package main

import "os"

// Where there is no signal to spare, a copy is asked for over the wire.
func notifyCopy(chan<- os.Signal) {}
