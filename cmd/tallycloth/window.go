package main

import (
	"context"
	"os"

	"tallycloth/stash"
)

// openWindow opens the window on the library in a folder and returns when it is closed.
func openWindow(context.Context, string) error {
	if os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		return &stash.Error{Kind: stash.Unsupported, What: "There is no display to open the window on", Do: "Use a verb instead, see tallycloth --help"}
	}
	return nil
}
