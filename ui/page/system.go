package page

import (
	"bytes"
	"context"
	"errors"
	"os/exec"
	"strings"
	"time"

	"tallycloth/stash"
)

// System is what the computer does with a file: its own programs, not ours.
type System interface {
	// Open shows a file in the program that the person uses for its kind.
	Open(ctx context.Context, path string) error
	// Print sends a PDF to the printer in full size, under a title.
	Print(ctx context.Context, path, title string) error
}

// Computer is the System of a desktop: xdg-open and lp.
type Computer struct{}

// patience is how long a program that opens a file is waited for: what is still there then is
// the viewer itself.
const patience = 3 * time.Second

// Open shows a file by xdg-open.
func (Computer) Open(_ context.Context, path string) error {
	cmd := exec.Command("xdg-open", path)
	if err := cmd.Start(); err != nil {
		return cannotOpen(path, err)
	}
	done := make(chan error, 1)
	go func() { done <- cmd.Wait() }()
	select {
	case err := <-done:
		if err != nil {
			return cannotOpen(path, err)
		}
	case <-time.After(patience):
	}
	return nil
}

func cannotOpen(path string, err error) error {
	return &stash.Error{Kind: stash.Conflict, What: "This computer has no program that shows " + path, Do: "The file is there: open it yourself, or install a program for it", Err: err}
}

// Print sends a file to the printer by lp (CUPS), unscaled.
func (Computer) Print(ctx context.Context, path, title string) error {
	// “print-scaling” is an attribute of printing over the network, PWG 5100.13.
	out, err := exec.CommandContext(ctx, "lp", "-t", printable(title), "-o", "print-scaling=none", "--", path).CombinedOutput()
	if err == nil {
		return nil
	}
	no := &stash.Error{Kind: stash.Conflict, What: "The printer did not take it", Do: "Save the PDF and print it from the program that shows it", Err: err}
	switch text := strings.ToLower(string(bytes.TrimSpace(out))); {
	case errors.Is(err, exec.ErrNotFound):
		no.What = "This computer cannot print: it has no printing system"
	case strings.Contains(text, "no default") || strings.Contains(text, "no such") || strings.Contains(text, "not found") || strings.Contains(text, "does not exist"):
		no.What, no.Do = "No printer is set up on this computer", "Set one up in the system's settings, or save the PDF and print it elsewhere"
	}
	return no
}

// printable is a title that a print queue shows: short, without what is no letter.
func printable(title string) string {
	rs := []rune(strings.Join(strings.Fields(title), " "))
	return string(rs[:min(len(rs), 80)])
}
