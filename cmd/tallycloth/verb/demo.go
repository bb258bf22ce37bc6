package verb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/planner/demo"
	"tallycloth/stash"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// demoFields is what the demo studio holds, in JSON.
type demoFields struct {
	Library  string `json:"library"`
	Fabrics  int    `json:"fabrics"`
	Cloth    int    `json:"lengths_and_leftovers"`
	Patterns int    `json:"patterns"`
	Garments int    `json:"garments"`
}

// demo is the verb that makes the demo studio.
func (s *session) demo() *cobra.Command {
	return &cobra.Command{
		Use:   "demo",
		Short: "Make the invented demo studio in a new library",
		Long: `Makes a new library with an invented studio in it: fabrics of many kinds, lengths and odd
leftovers, patterns in all sizes, garments in every state. A folder that has a library
already is left as it is.

With --json an object: library (its folder), fabrics, lengths_and_leftovers, patterns,
garments (how many there are).`,
		Example: "  tallycloth demo --library ~/demo-studio",
		Args:    noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			folder, err := s.libraryFolder()
			if err != nil {
				return err
			}
			if err := s.MakeDemo(cmd.Context(), folder); err != nil {
				return err
			}
			return s.reading(cmd, func(ctx context.Context, l *library) error { return s.tellDemo(ctx, l, folder) })
		},
	}
}

// MakeDemo makes a library with the demo studio in a folder that has none. It is made
// beside its place and moved there whole, so that there is never half a studio.
func (p Program) MakeDemo(ctx context.Context, folder string) error {
	if _, err := os.Stat(filepath.Join(folder, "library.db")); !errors.Is(err, fs.ErrNotExist) {
		return closed{error: &stash.Error{Kind: stash.Conflict, What: "There is a library in " + folder + " already", Do: "Name another folder with --library"}}
	}
	part := filepath.Clean(folder) + ".part"
	if err := os.RemoveAll(part); err != nil {
		return closed{cannotWrite(err), folder}
	}
	if err := p.fillDemo(ctx, part); err != nil {
		return errors.Join(err, os.RemoveAll(part))
	}
	if err := os.Rename(part, folder); err != nil {
		return closed{errors.Join(cannotWrite(err), os.RemoveAll(part)), folder}
	}
	return nil
}

func cannotWrite(err error) error {
	return &stash.Error{Kind: stash.Conflict, What: "The demo studio cannot be written there", Do: "Name an empty folder that you may write to with --library", Err: err}
}

func (p Program) fillDemo(ctx context.Context, folder string) (err error) {
	store, err := db.Open(ctx, folder, db.Options{Now: p.Now, NewID: p.NewID})
	if err != nil {
		return closed{err, folder}
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	return demo.Fill(ctx, planner.NewStudio(planner.Config{Store: store, Now: p.Now, NewID: p.NewID}))
}

func (s *session) tellDemo(ctx context.Context, l *library, folder string) error {
	out := demoFields{Library: folder}
	for _, count := range []func() error{
		func() error { all, err := l.Fabrics(ctx); out.Fabrics = len(all); return err },
		func() error { all, err := l.Cloths(ctx); out.Cloth = len(all); return err },
		func() error { all, err := l.Patterns(ctx); out.Patterns = len(all); return err },
		func() error { all, err := l.Garments(ctx); out.Garments = len(all); return err },
	} {
		if err := count(); err != nil {
			return err
		}
	}
	return s.answer(out, func(w io.Writer) {
		fmt.Fprintf(w, "The demo studio is in %s: %s, %s, %s, %s.\n", folder, say.Count(out.Fabrics, "fabric", "fabrics"),
			say.Count(out.Cloth, "length or leftover", "lengths and leftovers"), say.Count(out.Patterns, "pattern", "patterns"), say.Count(out.Garments, "garment", "garments"))
	})
}
