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
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	return command.Main(ctx, os.Args[1:], command.System(), prompt.Start)
}
