package verb

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"tallycloth/stash"
)

// memory is the file that names the library opened when none is said, "" where there is no
// place for it: tallycloth/library in $XDG_CONFIG_HOME, else in ~/.config (XDG Base Directory
// Specification 0.8).
func memory(getenv func(string) string) string {
	if config := getenv("XDG_CONFIG_HOME"); filepath.IsAbs(config) {
		return filepath.Join(config, "tallycloth", "library")
	}
	if home := getenv("HOME"); home != "" {
		return filepath.Join(home, ".config", "tallycloth", "library")
	}
	return ""
}

// usualFolder is where a library lies that was never moved, "" where there is no place for one:
// tallycloth in $XDG_DATA_HOME, else in ~/.local/share.
func usualFolder(getenv func(string) string) string {
	if data := getenv("XDG_DATA_HOME"); filepath.IsAbs(data) { // the specification says to ignore relative ones
		return filepath.Join(data, "tallycloth")
	}
	if home := getenv("HOME"); home != "" {
		return filepath.Join(home, ".local", "share", "tallycloth")
	}
	return ""
}

// Remembered is the folder that Remember kept, "" when there is none.
func Remembered(getenv func(string) string) string {
	b, err := os.ReadFile(memory(getenv))
	if folder := strings.TrimSpace(string(b)); err == nil && filepath.IsAbs(folder) {
		return filepath.Clean(folder)
	}
	return ""
}

// Remember has the library in a folder opened from now on where no other is named.
func Remember(getenv func(string) string, folder string) error {
	file := memory(getenv)
	if file == "" {
		return &stash.Error{Kind: stash.NotFound, What: "There is no home folder to remember the library in", Do: "Name it with --library each time"}
	}
	if filepath.Clean(folder) == usualFolder(getenv) {
		if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("remembering the library: %w", err)
		}
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return fmt.Errorf("remembering the library: %w", err)
	}
	draft := file + ".new"
	if err := os.WriteFile(draft, []byte(filepath.Clean(folder)+"\n"), 0o644); err != nil {
		return fmt.Errorf("remembering the library: %w", err)
	}
	if err := os.Rename(draft, file); err != nil {
		return fmt.Errorf("remembering the library: %w", err)
	}
	return nil
}
