package verb

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// labels is the verb that writes labels for cloth.
func (s *session) labels() *cobra.Command {
	var on string
	var skip int
	cmd := &cobra.Command{
		Use:   "labels FILE.pdf [CODE...]",
		Short: "Write labels with codes for cloth",
		Long: `Writes a PDF with a label for each cloth named, or for all on the shelf: its code in
letters and as a QR code, the fabric, its size, fibres and stretch. Sheets: a4 has 3 × 8
labels of 70 × 37 mm, letter 3 × 10 of 2 5/8 × 1 in. Print at full size, on plain paper
first, and hold it against a sheet of labels. A file that is there already is left alone.

With --json an object: file, labels (how many), sheets.`,
		Example: "  tallycloth labels shelf.pdf\n  tallycloth labels two.pdf K7PD M3RX --paper letter --skip 4",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return mistyped("No file is named", "Say where to write, such as labels.pdf")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			grid, err := labelGrid(on)
			if err != nil {
				return err
			}
			if strings.ToLower(filepath.Ext(args[0])) != ".pdf" {
				return mistyped(fmt.Sprintf("%q is no name for a PDF", args[0]), "End the name in .pdf")
			}
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				return s.writeLabels(ctx, l, args[0], args[1:], grid, skip)
			})
		},
	}
	cmd.Flags().StringVar(&on, "paper", "a4", "the sheet: a4 or letter")
	cmd.Flags().IntVar(&skip, "skip", 0, "so many labels of the first sheet are used already")
	return cmd
}

// labelGrid is the sheet of labels of a name on the command line.
func labelGrid(name string) (sheet.Grid, error) {
	for _, g := range paper.LabelSheets {
		if strings.EqualFold(g.Paper, name) {
			return g.Grid, nil
		}
	}
	return sheet.Grid{}, mistyped(fmt.Sprintf("There is no sheet of labels %q", name), "Take a4 or letter")
}

func (s *session) writeLabels(ctx context.Context, l *library, file string, codes []string, grid sheet.Grid, skip int) error {
	var all []stash.ClothState
	var err error
	if len(codes) == 0 {
		if all, err = l.Cloths(ctx); err != nil {
			return err
		}
	}
	for _, code := range codes {
		c, err := l.pickCloth(ctx, code)
		if err != nil {
			return err
		}
		all = append(all, c)
	}
	if len(all) == 0 {
		return mistyped("There is no cloth on the shelf", "Log a purchase or add a leftover first")
	}
	doc, err := paper.Labels(l.voice, all, grid, skip)
	if err != nil {
		return err
	}
	if err := paper.Save(file, paper.Tiled.Ending(), doc.PDF); err != nil {
		return err
	}
	out := struct {
		File   string `json:"file"`
		Labels int    `json:"labels"`
		Sheets int    `json:"sheets"`
	}{file, len(all), doc.Sheets()}
	return s.answer(out, func(w io.Writer) {
		fmt.Fprintf(w, "%s on %s in %s\n", say.Count(out.Labels, "label", "labels"), say.Count(out.Sheets, "sheet", "sheets"), file)
	})
}
