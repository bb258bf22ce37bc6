package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"

	_ "tallycloth/cmd/tallycloth/locale" // before the toolkit looks for a language
	"tallycloth/cmd/tallycloth/verb"
	"tallycloth/stash"

	"github.com/google/uuid"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := program().Run(ctx, os.Args[1:])
	stop()
	os.Exit(code)
}

// program is the program in front of the real world.
func program() verb.Program {
	return verb.Program{Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv, Now: time.Now, NewID: newID, Window: openWindow}
}

// newID returns a UUIDv7, so that records sort by their birth.
func newID() stash.ID { return uuid.Must(uuid.NewV7()) }
