package verb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// backupFields is a back-up in JSON.
type backupFields struct {
	File  string    `json:"file"`
	Why   string    `json:"why"`
	At    time.Time `json:"at"`
	Bytes int64     `json:"bytes"`
}

// restoreFields is what going back changes, in JSON.
type restoreFields struct {
	File   string               `json:"file"`
	Gone   int                  `json:"gone"`
	Acts   []string             `json:"gone_acts"`
	Back   int                  `json:"back"`
	Counts []restoreCountFields `json:"counts"`
	Known  bool                 `json:"compared"`
	Saved  bool                 `json:"saved"`
	Before string               `json:"before,omitempty"`
}

type restoreCountFields struct {
	Of   string `json:"of"`
	Now  int    `json:"now"`
	Then int    `json:"then"`
}

// restore is the verb that lists back-ups and goes back to one.
func (s *session) restore() *cobra.Command {
	var dry bool
	cmd := &cobra.Command{
		Use:   "restore [FILE]",
		Short: "List the back-ups, or go back to one of them",
		Long: `Without a word it lists the back-ups in the library's folder: one is made each day that the
window is opened after something was done, and one before a list is brought in, before a newer
version changes the library, and before going back. How many stay is in the settings.

With a file, or with the word newest, it goes back to that back-up: it is looked through
whole, what would change is said, the library as it is becomes a back-up itself, and then the
chosen one takes its place. Close the window first. With --dry nothing is changed.

With --json a list of back-ups has file, why (day, before-form, before-list,
before-return), at (RFC 3339) and bytes; going back gives an object: file, gone (how many
things done since go), gone_acts (their sentences, newest first), back, counts (of, now, then), compared
(false when the library cannot be opened), saved, before (the back-up of what was there).`,
		Example: "  tallycloth restore\n  tallycloth restore newest --dry\n  tallycloth restore ~/tallycloth-spring.db",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return exactly("the file of a back-up")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			folder, err := s.libraryFolder()
			if err != nil {
				return err
			}
			all, err := db.BackupsIn(folder)
			if err != nil {
				return closed{err, folder}
			}
			if len(args) == 0 {
				return s.listBackups(folder, all)
			}
			path, err := chosenBackup(args[0], all)
			if err != nil {
				return err
			}
			return s.goBack(cmd.Context(), folder, path, dry)
		},
	}
	cmd.Flags().BoolVar(&dry, "dry", false, "only say what would change")
	return cmd
}

func (s *session) listBackups(folder string, all []planner.Backup) error {
	out := []backupFields{}
	for _, b := range all {
		out = append(out, backupFields{b.Path, string(b.Why), b.At, b.Bytes})
	}
	return s.answer(out, func(w io.Writer) {
		if len(all) == 0 {
			fmt.Fprintln(w, "There is no back-up of the library in "+folder+" yet.")
		}
		for _, b := range all {
			fmt.Fprintf(w, "%s  %s, %s\n  %s\n", pad(say.Moment(b.At), 19), say.BackupWhy(b.Why), say.Bytes(b.Bytes), b.Path)
		}
	})
}

func chosenBackup(word string, all []planner.Backup) (string, error) {
	if word == "newest" {
		if len(all) == 0 {
			return "", &stash.Error{Kind: stash.NotFound, What: "There is no back-up yet", Do: "Name the file of one that you made yourself"}
		}
		return all[0].Path, nil
	}
	path, err := filepath.Abs(word)
	if err != nil {
		return "", fmt.Errorf("finding %s: %w", word, err)
	}
	if i := slices.IndexFunc(all, func(b planner.Backup) bool { return filepath.Base(b.Path) == word }); i >= 0 {
		path = all[i].Path
	}
	return path, nil
}

func (s *session) goBack(ctx context.Context, folder, path string, dry bool) error {
	r, known, err := s.compare(ctx, folder, path)
	if err != nil {
		return err
	}
	out := restoreFields{File: path, Gone: r.GoneAll, Acts: []string{}, Back: r.Back, Counts: []restoreCountFields{}, Known: known, Saved: !dry}
	for _, a := range r.Gone {
		out.Acts = append(out.Acts, a.Sentence)
	}
	for _, c := range r.Counts {
		out.Counts = append(out.Counts, restoreCountFields{c.Many, c.Now, c.Then})
	}
	if !dry {
		if out.Before, err = db.Return(ctx, folder, path, s.Now()); err != nil {
			return closed{err, folder}
		}
	}
	return s.answer(out, func(w io.Writer) { tellReturn(w, r, out) })
}

// compare says what would change, unless the library cannot be opened at all.
func (s *session) compare(ctx context.Context, folder, path string) (r planner.Returning, known bool, err error) {
	l, err := db.Open(ctx, folder, db.Options{ReadOnly: true, Now: s.Now, NewID: s.NewID})
	if errors.Is(err, stash.ErrUnsupported) || errors.Is(err, stash.ErrNotFound) {
		return r, false, nil
	}
	if err != nil {
		return r, false, closed{err, folder}
	}
	r, err = l.Compare(ctx, path)
	return r, true, errors.Join(err, l.Close())
}

func tellReturn(w io.Writer, r planner.Returning, out restoreFields) {
	if !out.Known {
		fmt.Fprintln(w, "The library as it is cannot be opened, so that it is not known what changes.")
	} else {
		fmt.Fprintln(w, strings.Join(say.Returning(r), "\n"))
	}
	for i, a := range out.Acts {
		if i == 10 && len(out.Acts) > 11 {
			fmt.Fprintf(w, "  … and %d before\n", out.Gone-i)
			break
		}
		fmt.Fprintln(w, "  "+a)
	}
	if !out.Saved {
		fmt.Fprintln(w, "Nothing was changed.")
		return
	}
	fmt.Fprintln(w, "Went back to "+out.File+".")
	if out.Before != "" {
		fmt.Fprintln(w, "What was there before is kept as "+out.Before+".")
	}
}
