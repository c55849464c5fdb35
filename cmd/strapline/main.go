// Strapline keeps the log of a boarding job and answers questions about it. It works on
// one job at a time, from a prompt or a file; straplined serves a whole crew.
package main

import (
	"context"
	"os"
	"os/signal"

	"strapline/cmd/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(os.Args[1:], &cli.Streams{Ctx: ctx, In: os.Stdin, Out: os.Stdout, Err: os.Stderr}))
}
