// Command crossfall tells a grower with a sloping plot where raised beds can
// go and how they must be held, from a handful of spot heights.
package main

import (
	"context"
	"os"
	"os/signal"

	"crossfall/cmd/crossfall/internal/cli"
)

func main() { os.Exit(run()) }

// run cancels on the first interrupt; the second one ends the program as the
// system does.
func run() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	context.AfterFunc(ctx, stop)
	return cli.Run(ctx, os.Args[1:], cli.Streams{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv,
	})
}
