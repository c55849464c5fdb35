// Straplined serves the jobs of a data folder to a crew, over the team chat and the
// text line, until it is told to stop.
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
