// Command hotroom says whether a motherboard's CPU power delivery will handle
// a chip in a given room.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"hotroom/cmd/internal/command"
	"hotroom/cmd/internal/prompt"
)

func main() { os.Exit(run()) }

func run() int {
	streams := command.System()
	streams.Interruptible = interruptible
	return command.Main(context.Background(), os.Args[1:], streams, prompt.Start)
}

// interruptible gives a context that ends with a signal. A second one ends the
// program at once.
func interruptible(ctx context.Context) (context.Context, context.CancelFunc) {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}
