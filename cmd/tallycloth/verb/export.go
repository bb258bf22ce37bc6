package verb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	lists "tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/stash/list"

	"github.com/spf13/cobra"
)

// export is the verb that writes the library out as lists.
func (s *session) export() *cobra.Command {
	var o lists.CSV
	cmd := &cobra.Command{
		Use:   "export FILE|FOLDER",
		Short: "Write everything out for a spreadsheet program",
		Long: `Writes the library as lists: the stash, cloth that is gone, purchases, the history line
by line, what is reserved, notions, patterns and garments. The ending says how: .xlsx is
a workbook with a sheet for each, .zip holds a CSV file for each, .csv is the stash
alone, and a folder gets a CSV file for each. A file that is there already is not
replaced.

The stash can be brought in again with the verb import. What could be taken for a
formula is written so that it stays a text. Outlines of pattern pieces and layouts are
not in the lists; backup keeps everything.

With --json an object: files (list of paths).`,
		Example: "  tallycloth export stash.xlsx\n  tallycloth export lists/ --comma",
		Args:    exactly("the name of a file or folder to write"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error { return s.writeOut(ctx, l, args[0], o) })
		},
	}
	cmd.Flags().BoolVar(&o.Comma, "comma", false, "CSV with decimal commas and semicolons between cells")
	return cmd
}

func (s *session) writeOut(ctx context.Context, l *library, to string, o lists.CSV) error {
	tables, err := l.ExportAll(ctx)
	if err != nil {
		return err
	}
	to, err = filepath.Abs(to)
	if err != nil {
		return fmt.Errorf("finding %s: %w", to, err)
	}
	var files []string
	if info, e := os.Stat(to); e == nil && info.IsDir() || filepath.Ext(to) == "" {
		files, err = writeFolder(to, tables, o)
	} else {
		files = []string{to}
		err = writeNew(to, func(w io.Writer) error { return lists.WriteAs(w, filepath.Ext(to), tables, o) })
	}
	if err != nil {
		return err
	}
	return s.answer(map[string][]string{"files": files}, func(w io.Writer) {
		for _, f := range files {
			fmt.Fprintln(w, "Wrote", f)
		}
	})
}

// writeFolder writes a CSV file for each table into a folder, or none of them.
func writeFolder(folder string, tables []list.Table, o lists.CSV) (files []string, err error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, noRoom(folder, err)
	}
	for _, t := range tables {
		path := filepath.Join(folder, lists.FileName(t)+".csv")
		if err := writeNew(path, func(w io.Writer) error { return lists.WriteCSV(w, t, o) }); err != nil {
			for _, f := range files {
				err = errors.Join(err, os.Remove(f))
			}
			return nil, err
		}
		files = append(files, path)
	}
	return files, nil
}

// writeNew writes a file that is not there yet, whole or not at all.
func writeNew(path string, write func(io.Writer) error) (err error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return mistyped(path+" is there already", "Choose another name, or move that file away")
	}
	if err != nil {
		return noRoom(path, err)
	}
	err = write(f)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		return nil
	}
	var own *stash.Error
	if !errors.As(err, &own) {
		err = noRoom(path, err)
	}
	return errors.Join(err, os.Remove(path))
}

func noRoom(path string, err error) error {
	return &stash.Error{Kind: stash.Conflict, What: path + " cannot be written", Do: "Choose another place, or look at its permissions and room", Err: err}
}
