package verb

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"tallycloth/assets"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// labelGrids are the sheets of labels at hand, by their names on the command line.
var labelGrids = map[string]sheet.Grid{"a4": sheet.LabelsA4, "letter": sheet.LabelsLetter}

// labels is the verb that writes labels for cloth.
func (s *session) labels() *cobra.Command {
	var paper string
	var skip int
	cmd := &cobra.Command{
		Use:   "labels FILE.pdf [CODE...]",
		Short: "Write labels with codes for cloth",
		Long: `Writes a PDF with a label for each cloth named, or for all on the shelf: its code in
letters and as a QR code, the fabric, its size, fibres and stretch. Sheets: a4 has 3 × 8
labels of 70 × 37 mm, letter 3 × 10 of 2 5/8 × 1 in. Print at full size, on plain paper
first, and hold it against a sheet of labels.

With --json an object: file, labels (how many), sheets.`,
		Example: "  tallycloth labels shelf.pdf\n  tallycloth labels two.pdf K7PD M3RX --paper letter --skip 4",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return mistyped("No file is named", "Say where to write, such as labels.pdf")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			grid, ok := labelGrids[strings.ToLower(paper)]
			if !ok {
				return mistyped(fmt.Sprintf("There is no sheet of labels %q", paper), "Take a4 or letter")
			}
			if strings.ToLower(filepath.Ext(args[0])) != ".pdf" {
				return mistyped(fmt.Sprintf("%q is no name for a PDF", args[0]), "End the name in .pdf")
			}
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				return s.writeLabels(ctx, l, args[0], args[1:], grid, skip)
			})
		},
	}
	cmd.Flags().StringVar(&paper, "paper", "a4", "the sheet: a4 or letter")
	cmd.Flags().IntVar(&skip, "skip", 0, "so many labels of the first sheet are used already")
	return cmd
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
	var labels []sheet.Label
	for _, c := range all {
		labels = append(labels, sheet.Label{Code: c.Cloth.Code, Lines: l.voice.Label(c)})
	}
	printer, err := sheet.New(assets.FontRegular, assets.FontWider)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := printer.Labels(&b, grid, labels, skip); err != nil {
		return mistyped("The labels cannot be laid out: "+err.Error(), "Take another number with --skip")
	}
	if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
		return fmt.Errorf("writing %s: %w", file, err)
	}
	out := struct {
		File   string `json:"file"`
		Labels int    `json:"labels"`
		Sheets int    `json:"sheets"`
	}{file, len(labels), grid.Sheets(len(labels), skip)}
	return s.answer(out, func(w io.Writer) {
		fmt.Fprintf(w, "%s on %s in %s\n", say.Count(out.Labels, "label", "labels"), say.Count(out.Sheets, "sheet", "sheets"), file)
	})
}
