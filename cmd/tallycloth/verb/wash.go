package verb

import (
	"context"
	"errors"
	"fmt"
	"io"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// resizedFields is a cloth at its new size, in JSON: lengths in mm, changes in percent.
type resizedFields struct {
	Code       string   `json:"code"`
	Length     float64  `json:"length_mm"`
	Width      float64  `json:"width_mm"`
	Lengthwise *float64 `json:"lengthwise_percent,omitempty"`
	Crosswise  *float64 `json:"crosswise_percent,omitempty"`
	Holds      []string `json:"holds"`
	LaidAgain  []string `json:"laid_again"`
	Released   []string `json:"released"`
}

// wash is the verb that notes what a cloth measures after washing.
func (s *session) wash() *cobra.Command {
	return s.sizing(&cobra.Command{
		Use:   "wash CODE LENGTH WIDTH",
		Short: "Note what a cloth measures after washing",
		Long: `Notes that a cloth was washed, and its length and width since. The fabric learns how it
changes, and other cloth of it that is not washed yet counts with that. What is reserved on
the cloth and no longer lies whole is laid out again; what finds no room is released.

With --json an object: code, length_mm, width_mm, lengthwise_percent, crosswise_percent,
holds, laid_again, released (the names of garments).`,
		Example: `  tallycloth wash A17 "1.94 m" "148 cm"`,
	}, func(ctx context.Context, l *library, z planner.Sizing) (planner.Resized, error) {
		return l.Wash(ctx, z)
	}, true)
}

// measureAgain is the verb that corrects a cloth's size.
func (s *session) measureAgain() *cobra.Command {
	return s.sizing(&cobra.Command{
		Use:   "measure CODE LENGTH WIDTH",
		Short: "Correct the size of a cloth",
		Long: `Notes that a length measures something else than the library says. What is reserved on it
is treated as by wash.

With --json an object: code, length_mm, width_mm, holds, laid_again, released.`,
		Example: `  tallycloth measure A17 "2.04 m" "150 cm" --note "on the big table"`,
	}, func(ctx context.Context, l *library, z planner.Sizing) (planner.Resized, error) {
		return l.MeasureAgain(ctx, z)
	}, false)
}

// sizing completes a verb that gives a cloth a new size.
func (s *session) sizing(cmd *cobra.Command, do func(context.Context, *library, planner.Sizing) (planner.Resized, error), washing bool) *cobra.Command {
	var z planner.Sizing
	cmd.Args = exactly("the code of a cloth", "its length", "its width")
	cmd.Flags().StringVar(&z.Note, "note", "", "what else to remember")
	cmd.Flags().BoolVar(&z.Sure, "sure", false, "the size is right though it changes by more than a quarter")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		return s.changing(cmd, func(ctx context.Context, l *library) error {
			c, err := l.pickCloth(ctx, args[0])
			if err != nil {
				return err
			}
			z.ClothID = c.Cloth.ID
			if z.Length, err = measure.ParsePositiveLength(args[1], l.fieldUnit()); err != nil {
				return said("length", err)
			}
			if z.Width, err = measure.ParsePositiveLength(args[2], l.fieldUnit()); err != nil {
				return said("width", err)
			}
			r, err := do(ctx, l, z)
			var odd *planner.Odd
			if errors.As(err, &odd) {
				return &stash.Error{Kind: stash.Conflict, What: "That looks like a slip: " + l.voice.Odd(odd), Do: "Measure it again, or add --sure."}
			}
			if err != nil {
				return err
			}
			return s.answer(resizedOf(r, washing), func(w io.Writer) {
				fmt.Fprintf(w, "%s: %s × %s now.\n", r.Cloth.Cloth.Code, l.voice.Length(r.Cloth.Cloth.Length), l.voice.Width(r.Cloth.Cloth.Width))
				if washing {
					fmt.Fprintf(w, "%s %s.\n", r.Cloth.Fabric.Name, say.Changed(r.Lengthwise, r.Crosswise))
				}
				if words := r.Words(); words != "" {
					fmt.Fprintln(w, words)
				}
			})
		})
	}
	return cmd
}

func resizedOf(r planner.Resized, washing bool) resizedFields {
	mm := func(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) }
	out := resizedFields{Code: r.Cloth.Cloth.Code, Length: mm(r.Cloth.Cloth.Length), Width: mm(r.Cloth.Cloth.Width),
		Holds: garmentNames(r.Held), LaidAgain: garmentNames(r.Again), Released: garmentNames(r.Lost)}
	if washing {
		along, across := float64(r.Lengthwise)/float64(measure.OnePercent), float64(r.Crosswise)/float64(measure.OnePercent)
		out.Lengthwise, out.Crosswise = &along, &across
	}
	return out
}

func garmentNames(of []planner.Share) []string {
	out := []string{}
	for _, s := range of {
		out = append(out, s.Garment.Name)
	}
	return out
}
