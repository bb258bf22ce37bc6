package verb

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// session is one call of the program: its flags and the library once it is open.
type session struct {
	Program
	folder string // of --library
	json   bool
}

// libraryFolder returns the folder of --library, or the one opened last from the window, or
// the usual one.
func (s *session) libraryFolder() (string, error) {
	if s.folder != "" {
		return filepath.Clean(s.folder), nil
	}
	if folder := cmp.Or(Remembered(s.Getenv), usualFolder(s.Getenv)); folder != "" {
		return folder, nil
	}
	return "", closed{error: &stash.Error{Kind: stash.NotFound, What: "There is no home folder to keep the library in", Do: "Name a folder with --library"}}
}

// library is an open library with the services over it.
type library struct {
	*planner.Studio
	settings planner.Settings
	voice    say.Voice // in the person's units
}

// reading opens the library that is there without writing to it, so that it works
// beside an open window, and does f with it.
func (s *session) reading(cmd *cobra.Command, f func(context.Context, *library) error) error {
	return s.with(cmd, db.Options{ReadOnly: true}, false, f)
}

// changing opens the library that is there for writing and does f with it.
func (s *session) changing(cmd *cobra.Command, f func(context.Context, *library) error) error {
	return s.with(cmd, db.Options{}, false, f)
}

// adding is changing that makes the library where there is none.
func (s *session) adding(cmd *cobra.Command, f func(context.Context, *library) error) error {
	return s.with(cmd, db.Options{}, true, f)
}

func (s *session) with(cmd *cobra.Command, o db.Options, create bool, f func(context.Context, *library) error) (err error) {
	ctx := cmd.Context()
	folder, err := s.libraryFolder()
	if err != nil {
		return err
	}
	if _, e := os.Stat(filepath.Join(folder, "library.db")); errors.Is(e, fs.ErrNotExist) && !create {
		return closed{error: &stash.Error{
			Kind: stash.NotFound, What: "There is no library in " + folder,
			Do: "Make one with the verb demo, or log a purchase; --library names another folder",
		}}
	}
	o.Now, o.NewID = s.Now, s.NewID
	store, err := db.Open(ctx, folder, o)
	if err != nil {
		return closed{err, folder}
	}
	defer func() {
		if e := store.Close(); err == nil && e != nil {
			err = e
		}
	}()
	settings, err := store.Settings(ctx)
	if err != nil {
		return closed{err, folder}
	}
	studio := planner.NewStudio(planner.Config{Store: store, Now: s.Now, NewID: s.NewID, Workers: runtime.NumCPU()})
	return f(ctx, &library{Studio: studio, settings: settings, voice: say.Voice{Units: settings.Units, Classes: settings.Classes}})
}

// day reads the day that an option says as the window's fields do, "" where it says none.
func (l *library) day(option, text string) (stash.Date, error) {
	if text == "" {
		return "", nil
	}
	d, err := stash.ParseDay(text, l.Today())
	if err != nil {
		return "", said(option, err)
	}
	return d, nil
}

// fieldUnit is the unit of a bare number: centimetres, or inches.
func (l *library) fieldUnit() measure.Unit {
	if l.settings.Units == measure.Imperial {
		return measure.Inch
	}
	return measure.Centimetre
}

// clothUnit is the unit of a bare number for a length bought: metres, or yards.
func (l *library) clothUnit() measure.Unit {
	if l.settings.Units == measure.Imperial {
		return measure.Yard
	}
	return measure.Metre
}

// answer writes v as one JSON document, or tells it in words.
func (s *session) answer(v any, words func(io.Writer)) error {
	if !s.json {
		words(s.Out)
		return nil
	}
	e := json.NewEncoder(s.Out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("writing the answer: %w", err)
	}
	return nil
}
