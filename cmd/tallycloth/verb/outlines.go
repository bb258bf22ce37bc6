package verb

import (
	"context"
	"fmt"
	"io"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/planner/pattern"

	"github.com/spf13/cobra"
)

// outlines is the verb that writes the outlines of a pattern.
func (s *session) outlines() *cobra.Command {
	var sizes, pieces []string
	cmd := &cobra.Command{
		Use:   "outlines PATTERN FILE",
		Short: "Write the outlines of a pattern as a DXF or SVG file",
		Long: `Writes the pattern pieces at full size, in all sizes or those asked for. The end of the
name says how: .dxf is a file for sewn products (ASTM D6673, also called AAMA), which
holds grain, notches, fold, how often each piece is cut and from what; .svg is a drawing for a
vector editor, with a group for each size and a square of 10 cm. A file that is there
already is not replaced. bring-in reads both.

With --json an object: files (list of paths).`,
		Example: "  tallycloth outlines \"Fennel tank\" tank.dxf\n  tallycloth outlines \"Fennel tank\" front.svg --size 4 --piece Front",
		Args:    exactly("the name of a pattern", "the name of a file to write"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				p, err := l.pickPattern(ctx, args[0])
				if err != nil {
					return err
				}
				part := drawn.Part{Sizes: sizes}
				for _, name := range pieces {
					q, err := pick("pattern piece", name, p.Pieces, func(q pattern.Piece) string { return q.Name })
					if err != nil {
						return err
					}
					part.Pieces = append(part.Pieces, q.Code)
				}
				if err := outlines.Save(args[1], p, part); err != nil {
					return err
				}
				return s.answer(map[string][]string{"files": {args[1]}}, func(w io.Writer) { fmt.Fprintln(w, "Wrote", args[1]) })
			})
		},
	}
	cmd.Flags().StringSliceVar(&sizes, "size", nil, "sizes to write (default: all)")
	cmd.Flags().StringSliceVar(&pieces, "piece", nil, "pattern pieces to write, by name (default: all)")
	return cmd
}
