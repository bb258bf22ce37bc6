package verb

import (
	"context"
	"fmt"
	"io"

	lists "tallycloth/planner/exchange/table"

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
	files, err := lists.Save(to, tables, o)
	if err != nil {
		return err
	}
	return s.answer(map[string][]string{"files": files}, func(w io.Writer) {
		for _, f := range files {
			fmt.Fprintln(w, "Wrote", f)
		}
	})
}
