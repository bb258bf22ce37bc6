package verb

import (
	"context"
	"fmt"
	"io"

	"tallycloth/planner"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// move is the verb that notes where a cloth is kept.
func (s *session) move() *cobra.Command {
	return &cobra.Command{
		Use:   "move CODE PLACE",
		Short: "Note where a cloth is kept now",
		Long: `Notes that a cloth is kept elsewhere now, as a line of its history.

With --json the cloth, as list cloth shows it.`,
		Example: `  tallycloth move A17 "hall cupboard"`,
		Args:    exactly("the code of a cloth", "a place"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				c, err := l.pickCloth(ctx, args[0])
				if err != nil {
					return err
				}
				if err := l.MoveCloth(ctx, c.Cloth.ID, args[1]); err != nil {
					return err
				}
				if c, err = l.Cloth(ctx, c.Cloth.ID); err != nil {
					return err
				}
				return s.newCloth(ctx, l, c)
			})
		},
	}
}

// flaw is the verb that notes a hole or a stain.
func (s *session) flaw() *cobra.Command {
	var f planner.Flaw
	var sizes [4]string
	cmd := &cobra.Command{
		Use:   "flaw CODE",
		Short: "Note a flaw that nothing may be cut over",
		Long: `Notes a hole or a stain: the distance of its middle from the end where measuring starts
(--along) and from the low edge (--across), and its size. What is reserved over it is laid
out again; what finds no room is released.

With --json an object: code, length_mm, width_mm, holds, laid_again, released.`,
		Example: `  tallycloth flaw A17 --along "62 cm" --across "41 cm" --length "3 cm" --width "2 cm" --note "moth hole"`,
		Args:    exactly("the code of a cloth"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				c, err := l.pickCloth(ctx, args[0])
				if err != nil {
					return err
				}
				f.ClothID = c.Cloth.ID
				for i, to := range []struct {
					name string
					l    *measure.Length
				}{{"along", &f.Along}, {"across", &f.Across}, {"length", &f.Length}, {"width", &f.Width}} {
					if *to.l, err = measure.ParsePositiveLength(sizes[i], l.fieldUnit()); err != nil {
						return said("--"+to.name, err)
					}
				}
				r, err := l.FlawFound(ctx, f)
				if err != nil {
					return err
				}
				return s.answer(resizedOf(r, false), func(w io.Writer) {
					fmt.Fprintf(w, "%s has a flaw now.\n", r.Cloth.Cloth.Code)
					if words := r.Words(); words != "" {
						fmt.Fprintln(w, words)
					}
				})
			})
		},
	}
	for i, name := range []string{"along", "across", "length", "width"} {
		words := []string{"from the end where measuring starts to its middle", "from the low edge to its middle", "its size along the grain", "its size across the grain"}
		cmd.Flags().StringVar(&sizes[i], name, "", words[i])
		if err := cmd.MarkFlagRequired(name); err != nil {
			panic(err)
		}
	}
	cmd.Flags().StringVar(&f.Note, "note", "", "what it is")
	return cmd
}
