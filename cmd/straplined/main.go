// Straplined serves the jobs in a data folder to a crew, over the team chat, the text
// line and a read-only web page, until it is told to stop.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"strapline/cmd/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(os.Args[1:], &cli.Streams{Ctx: ctx, In: os.Stdin, Out: os.Stdout, Err: os.Stderr}))
}

func run(args []string, s *cli.Streams) int {
	return cli.Run("straplined", "Serves the log of a boarding job to the crew.", new(serve), args, s)
}
