package verb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"tallycloth/planner"
	"tallycloth/stash/list"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// listWords are what was typed about a list to bring in.
type listWords struct {
	file, sheet    string
	columns, every []string
	headings       int
	skip           []int
	write          bool
	leaveOut       bool
}

// importList is the verb that brings a person's own list in.
func (s *session) importList() *cobra.Command {
	var w listWords
	cmd := &cobra.Command{
		Use:   "import FILE",
		Short: "Bring in a list of fabrics that you keep already",
		Long: `Reads a list of fabrics, a workbook (.xlsx) or a text file (.csv), and says what its
columns are taken for and what each row would become. Nothing is written before you
add --write; then all rows come in at once, and one undo takes all of them back.

Rows that cannot come in are refused one by one, with what is wrong. Mend them in the
list, or add --leave-out to bring in the others.

Say what a column is with --column, by its heading or number, and after it, where it
matters, its unit, point or comma, day first or month first:
  --column "Breite=full width, cm"   --column "4=price, EUR, comma"
  --column "seen on=bought on, month first"   --column "rating=leave out"
--every says what holds for all rows that do not say it: --every "full width=150 cm".

A column can be: ` + fieldNames() + `.

With --json an object: columns (list of column, heading, read_as, unit,
unit_is_assumed, decimals, days), questions (list of column, what, do, choices), rows
(list of line, outcome, says, why, remarks), warnings, cloths, new_fabrics,
changed_fabrics, refused (counts), written (true once it is in the library).`,
		Example: `  tallycloth import stash.xlsx
  tallycloth import stash.csv --column "Breite=full width, cm" --every "construction=jersey"
  tallycloth import stash.csv --leave-out --write`,
		Args: exactly("the name of a list"),
		RunE: func(cmd *cobra.Command, args []string) error {
			w.file = args[0]
			do := func(ctx context.Context, l *library) error { return s.bringList(ctx, l, w) }
			if w.write {
				return s.adding(cmd, do)
			}
			return s.trying(cmd, do)
		},
	}
	f := cmd.Flags()
	f.StringVar(&w.sheet, "sheet", "", "the sheet of a workbook (default: the first with anything in it)")
	f.StringArrayVar(&w.columns, "column", nil, `what a column is: "HEADING=FIELD", or "NUMBER=FIELD, UNIT, point"`)
	f.StringArrayVar(&w.every, "every", nil, `what holds for every row: "FIELD=VALUE"`)
	f.IntVar(&w.headings, "headings", -1, "the line of the headings, 0 for none (default: found by itself)")
	f.Lookup("headings").DefValue = "0" // which is not shown: it is found
	f.IntSliceVar(&w.skip, "skip", nil, "lines to leave out, such as 3,17")
	f.BoolVar(&w.leaveOut, "leave-out", false, "leave out the rows that are refused")
	f.BoolVar(&w.write, "write", false, "bring the list in (default: a dry run)")
	return cmd
}

// fieldNames lists what a column can be.
func fieldNames() string {
	out, width := "", 25
	for i, f := range list.Fields() {
		part := string(f)
		if i > 0 {
			out, width = out+",", width+1
		}
		if width += len(part) + 1; width > 86 {
			out, width = out+"\n", len(part)
		} else if i > 0 {
			out += " "
		}
		out += part
	}
	return out
}

// trying is reading that needs no library: where there is none, an empty one is looked
// at and thrown away.
func (s *session) trying(cmd *cobra.Command, f func(context.Context, *library) error) (err error) {
	folder, err := s.libraryFolder()
	if err != nil {
		return err
	}
	if _, e := os.Stat(filepath.Join(folder, "library.db")); !errors.Is(e, fs.ErrNotExist) {
		return s.reading(cmd, f)
	}
	empty, err := os.MkdirTemp("", "tallycloth-dry-run-")
	if err != nil {
		return fmt.Errorf("making room for a dry run: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(empty)) }()
	s.folder = empty
	return s.adding(cmd, f)
}

func (s *session) bringList(ctx context.Context, l *library, w listWords) error {
	d, err := w.read(ctx, l)
	if err != nil {
		return err
	}
	r, err := l.PlanList(ctx, d)
	if err != nil {
		return err
	}
	if w.write {
		if _, err := l.ImportList(ctx, d, r, w.leaveOut); err != nil {
			return err
		}
	}
	out := fieldsOfList(d, r)
	out.Written = w.write
	return s.answer(out, func(o io.Writer) { tellList(o, out, w) })
}

// mostList is the largest list that is read, in bytes.
const mostList = 64 << 20

// read reads the list and understands it as the options say.
func (w listWords) read(ctx context.Context, l *library) (planner.ListDraft, error) {
	data, err := readFile(w.file)
	if err != nil {
		return planner.ListDraft{}, err
	}
	d, err := l.ReadList(ctx, filepath.Base(w.file), data, w.sheet)
	if err != nil {
		return d, err
	}
	return d, w.correct(&d)
}

// tellList says what a list becomes, row by row.
func tellList(o io.Writer, out importFields, w listWords) {
	for _, x := range out.Warnings {
		fmt.Fprintln(o, "!", x)
	}
	var rows [][]string
	for _, c := range out.Columns {
		unit := c.Unit
		if c.Assumed {
			unit += "?"
		}
		rows = append(rows, []string{fmt.Sprint(c.Column), c.Heading, c.ReadAs, unit, c.Decimals + c.Days})
	}
	table(o, "COLUMN|HEADING|READ AS|UNIT|WRITTEN WITH", rows)
	fmt.Fprintln(o)
	for _, r := range out.Rows {
		fmt.Fprintf(o, "%s %s\n", pad(fmt.Sprintf("line %d:", r.Line), 11), r.Says)
		for _, x := range append(r.Why, r.Remarks...) {
			fmt.Fprintf(o, "%s %s\n", pad("", 11), x)
		}
	}
	for _, q := range out.Questions {
		fmt.Fprintln(o, "?", say.Sentence(q.What), say.Sentence(q.Do))
	}
	fmt.Fprintln(o, summary(out, w))
}

// summary says in one line what was done, or what would be.
func summary(out importFields, w listWords) string {
	rows := say.Count(len(out.Rows)-out.Refused, "row", "rows")
	if out.Written {
		s := "Brought in " + rows + "."
		if out.Refused > 0 {
			s += " Left out " + say.Count(out.Refused, "row", "rows") + "."
		}
		return s + " undo takes all of it back."
	}
	s := "A dry run: nothing was written. " + rows + " would come in"
	switch {
	case out.Refused == 0 && out.Cloths+out.NewFabrics+out.ChangedFabrics > 0:
		return s + "; add --write to bring in the list."
	case out.Refused == len(out.Rows):
		return s + "."
	case w.leaveOut:
		return s + ", " + say.Count(out.Refused, "row", "rows") + " would be left out; add --write to bring in the others."
	}
	return s + ", " + fmt.Sprint(out.Refused) + " refused; add --leave-out --write to bring in the others."
}
