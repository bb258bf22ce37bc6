package verb

import (
	"context"

	"tallycloth/planner"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// leftover is the verb that enters a leftover that was there before the library.
func (s *session) leftover() *cobra.Command {
	var form planner.LeftoverForm
	var selvedges int
	var traced photoTrace
	var drawn drawnOutline
	cmd := &cobra.Command{
		Use:   "leftover FABRIC LENGTH WIDTH",
		Short: "Add a leftover that is on the shelf already",
		Long: `Adds a straight leftover of a fabric that the library knows: length along the grain,
width across it.

An odd one can be said corner by corner: --outline "0,0 60,0 45,40 0,40", along the grain
and across it, in centimetres (inches where the library is in inches), all round; --hole
likewise, as often as there are holes or flaws. --selvedges then are sides along the grain:
one at the lowest corners, two there and at the highest.` + photoTraceHelp + `

With --json the new cloth, as list cloth shows it.`,
		Example: `  tallycloth leftover "Heather rib" "62 cm" "48 cm" --place "scrap drawer" --washed
  tallycloth leftover "Heather rib" --photo rib.jpg --corners "212,160 640,171 655,770 190,752" --sheet a4`,
		Args: func(cmd *cobra.Command, args []string) error {
			if drawn.outline != "" && traced.photo == "" {
				return exactly("the name of a fabric")(cmd, args)
			}
			return traced.arguments(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.adding(cmd, func(ctx context.Context, l *library) error {
				f, err := l.pickFabric(ctx, args[0])
				if err != nil {
					return err
				}
				form.FabricID, form.SelvedgeLow, form.SelvedgeHigh = f.ID, selvedges > 0, selvedges > 1
				if traced.photo != "" {
					return s.leftoverFromPhoto(ctx, l, form, traced)
				}
				if drawn.outline != "" {
					if form.Outline, err = drawn.read(l.fieldUnit()); err != nil {
						return err
					}
					c, err := l.AddLeftover(ctx, form)
					if err != nil {
						return err
					}
					return s.newCloth(ctx, l, c)
				}
				if form.Length, err = measure.ParsePositiveLength(args[1], l.fieldUnit()); err != nil {
					return said("length", err)
				}
				if form.Width, err = measure.ParsePositiveLength(args[2], l.fieldUnit()); err != nil {
					return said("width", err)
				}
				c, err := l.AddLeftover(ctx, form)
				if err != nil {
					return err
				}
				return s.newCloth(ctx, l, c)
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&form.Lot, "lot", "", "dye lot")
	f.StringVar(&form.Place, "place", "", "where it is kept")
	f.StringVar(&form.Notes, "notes", "", "what else to know about it")
	f.BoolVar(&form.Washed, "washed", false, "it is washed already")
	traced.flags(cmd)
	drawn.flags(cmd)
	f.IntVar(&selvedges, "selvedges", 0, "how many selvedges it still has: 0, 1 or 2")
	return cmd
}

// leftoverFromPhoto adds a leftover with the outline in a photo.
func (s *session) leftoverFromPhoto(ctx context.Context, l *library, form planner.LeftoverForm, traced photoTrace) (err error) {
	if form.Outline, err = traced.outline(ctx, l); err != nil {
		return err
	}
	c, err := l.AddLeftover(ctx, form)
	if err != nil {
		return err
	}
	return s.newCloth(ctx, l, c)
}
