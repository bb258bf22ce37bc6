package verb

import (
	"context"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// making is the verb for what is made: its record, and what is noted of it.
func (s *session) making() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "garment want|show|change|step|fitting|seam|mark|copy",
		Short: "Keep the record of a garment from the wish to the last stitch",
		Long: `Wants a garment, shows its record, and notes what is done: steps of the order of work with
what the stops ask for, fittings with photos, seams with their stitch. The thread of each seam
follows from the outlines of the size, where the pattern shows them, by the stitch class of
ISO 4915. Fibre content is by mass of each fabric used: guidance, not a label that any law asks
for. Cautions are the usual ones; local rules decide.

With --json the record: name, pattern, size, variant, for, purpose, wanted, state, notes, copy_of,
days (list of state, on), fabrics (used_for, fabric, code, area_m2, reserved), notions (notion,
quantity, unit), work (number, text, stop, asks, done, on, value_mm, note), strap_mm (as set at
the try-on), strips_to_length (the first stop is noted), seams (seam, stitch, stitch_name,
length_mm, drawn, rows, ratio, thread_m, need_not_stretch), thread_m, thread_least_m,
thread_most_m, length_unknown (seams), lockstitch_on (seams that stretch), blend (fibre,
percent), blend_unknown_percent, grams, cost (as the verb costs says it, total and rates in
joined; null without cloth and notions), fit (as the verb person says a size; null where nobody
of that name is measured), fittings (number, on, text, photos), cautions.`,
		Example: `  tallycloth garment want "Fennel tank" --size 4 --name "Tank for June" --for Ida
  tallycloth garment step "Tank for June" 3 --value "1.2 cm" --note "both sides"
  tallycloth garment seam "Tank for June" hems --stitch 406
  tallycloth garment copy "Tank for June" --size 5`,
		Args: func(_ *cobra.Command, args []string) error {
			return mistyped("garment does one of eight things", "Say which: want, show, change, step, fitting, seam, mark or copy")
		},
		RunE: func(*cobra.Command, []string) error { return nil },
	}
	cmd.AddCommand(s.garmentWant(), s.garmentShow(), s.garmentChange(), s.garmentStep(), s.garmentFitting(), s.garmentSeam(), s.garmentMark(), s.garmentCopy())
	for _, c := range cmd.Commands() {
		c.DisableFlagsInUseLine = true
	}
	return cmd
}

// onGarment does something with the garment that the first word names, and answers with its record.
func (s *session) onGarment(cmd *cobra.Command, name string, f func(context.Context, *library, garment.Garment) (stash.ID, error)) error {
	return s.changing(cmd, func(ctx context.Context, l *library) error {
		g, err := l.pickGarment(ctx, name)
		if err != nil {
			return err
		}
		id, err := f(ctx, l, g)
		if err != nil {
			return err
		}
		return s.tellRecord(ctx, l, id)
	})
}

func (s *session) tellRecord(ctx context.Context, l *library, id stash.ID) error {
	r, err := l.GarmentRecord(ctx, id)
	if err != nil {
		return err
	}
	return s.answer(l.fieldsOfRecord(r), func(w io.Writer) { l.tellGarment(w, r) })
}

func (s *session) garmentWant() *cobra.Command {
	var size, name, who string
	cmd := &cobra.Command{
		Use: "want PATTERN", Short: "Want a garment of a pattern", Args: exactly("the name of a pattern"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				p, err := l.pickPattern(ctx, args[0])
				if err != nil {
					return err
				}
				if size, err = pickSize(p, size); err != nil {
					return err
				}
				g, err := l.NewGarment(ctx, p.ID, size, name, who)
				if err != nil {
					return err
				}
				return s.tellRecord(ctx, l, g.ID)
			})
		},
	}
	cmd.Flags().StringVar(&size, "size", "", "the size")
	cmd.Flags().StringVar(&name, "name", "", "what it is called")
	cmd.Flags().StringVar(&who, "for", "", "who it is for")
	return cmd
}

func (s *session) garmentShow() *cobra.Command {
	return &cobra.Command{
		Use: "show GARMENT", Short: "Show the record of a garment", Args: exactly("the name of a garment"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				g, err := l.pickGarment(ctx, args[0])
				if err != nil {
					return err
				}
				return s.tellRecord(ctx, l, g.ID)
			})
		},
	}
}

func (s *session) garmentChange() *cobra.Command {
	var f planner.GarmentForm
	var wanted string
	lines := []struct {
		name, says string
		to         func(*planner.GarmentForm) *string
	}{
		{"name", "what it is called", func(f *planner.GarmentForm) *string { return &f.Name }},
		{"for", "who it is for", func(f *planner.GarmentForm) *string { return &f.For }},
		{"purpose", "what it is for, such as dancing", func(f *planner.GarmentForm) *string { return &f.Purpose }},
		{"variant", "which variant, such as cropped", func(f *planner.GarmentForm) *string { return &f.Variant }},
		{"size", "its size, while it is wanted", func(f *planner.GarmentForm) *string { return &f.Size }},
		{"notes", "what else to remember", func(f *planner.GarmentForm) *string { return &f.Notes }},
	}
	cmd := &cobra.Command{
		Use: "change GARMENT", Short: "Change what is said of it", Args: exactly("the name of a garment"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.onGarment(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (stash.ID, error) {
				now := planner.FormOf(g)
				for _, line := range lines {
					if cmd.Flags().Changed(line.name) {
						*line.to(&now) = *line.to(&f)
					}
				}
				if cmd.Flags().Changed("wanted") {
					on, err := l.day("--wanted", wanted)
					if err != nil {
						return g.ID, err
					}
					now.Wanted = on
				}
				_, err := l.ChangeGarment(ctx, g.ID, now)
				return g.ID, err
			})
		},
	}
	for _, line := range lines {
		cmd.Flags().StringVar(line.to(&f), line.name, "", line.says)
	}
	cmd.Flags().StringVar(&wanted, "wanted", "", "the day it is wanted for, such as 2026-06-01")
	return cmd
}

// numbered reads a number that counts from 1.
func numbered(text, what string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 {
		return 0, mistyped(fmt.Sprintf("%q is no number of %s", text, what), "garment show shows the numbers")
	}
	return n, nil
}

func (s *session) garmentStep() *cobra.Command {
	var value, note, day string
	var not bool
	cmd := &cobra.Command{
		Use: "step GARMENT NUMBER", Short: "Note a step of the order of work, and what its stop asks for",
		Args:    exactly("the name of a garment", "the number of a step"),
		Example: `  tallycloth garment step "Tank for June" 6 --value "31 cm"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.onGarment(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (stash.ID, error) {
				n, err := numbered(args[1], "a step")
				if err != nil {
					return g.ID, err
				}
				if not {
					_, err := l.StepNotDone(ctx, g.ID, n)
					return g.ID, err
				}
				d := garment.Done{Note: note}
				if d.On, err = l.day("--day", day); err != nil {
					return g.ID, err
				}
				if value != "" {
					if d.Value, err = measure.ParseLength(value, l.fieldUnit()); err != nil {
						return g.ID, said("--value", err)
					}
				}
				_, err = l.NoteStep(ctx, g.ID, n, d)
				return g.ID, err
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&value, "value", "", "what the stop asks for: the take-in at each side seam, or the length of the strap")
	f.StringVar(&note, "note", "", "what else to remember")
	f.StringVar(&day, "day", "", "the day, such as 2026-03-02 (default: today)")
	f.BoolVar(&not, "not-done", false, "it is not done after all")
	return cmd
}

func (s *session) garmentFitting() *cobra.Command {
	var f planner.FittingForm
	var day, photo string
	var remove int
	cmd := &cobra.Command{
		Use: "fitting GARMENT", Short: "Note what was seen when it was tried on, with a photo", Args: exactly("the name of a garment"),
		Example: `  tallycloth garment fitting "Tank for June" --note "gapes at the back neck" --photo back.jpg`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.onGarment(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (_ stash.ID, err error) {
				if cmd.Flags().Changed("remove") {
					return g.ID, l.DropFitting(ctx, g.ID, remove)
				}
				if f.On, err = l.day("--day", day); err != nil {
					return g.ID, err
				}
				if photo != "" {
					if f.Photo, err = photoFile(photo); err != nil {
						return g.ID, err
					}
				}
				_, err = l.NoteFitting(ctx, g.ID, f)
				return g.ID, err
			})
		},
	}
	cmd.Flags().StringVar(&f.Text, "note", "", "what was seen")
	cmd.Flags().StringVar(&photo, "photo", "", "a photo, a JPEG, PNG or WebP file")
	cmd.Flags().StringVar(&day, "day", "", "the day, such as 2026-03-02 (default: today)")
	cmd.Flags().IntVar(&remove, "remove", 0, "take the note of this number away")
	return cmd
}

func (s *session) garmentSeam() *cobra.Command {
	var seam garment.Seam
	var length string
	var ratio float64
	var drawn bool
	cmd := &cobra.Command{
		Use: "seam GARMENT SEAM", Short: "Note the stitch of a seam, its length and rows",
		Long:    "Notes a seam by its name: one that the outlines show, or another. Stitches, by ISO 4915:\n\n" + stitchHelp(),
		Args:    exactly("the name of a garment", "the name of a seam"),
		Example: `  tallycloth garment seam "Tank for June" "side seams" --stitch 504`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.onGarment(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (_ stash.ID, err error) {
				if drawn {
					return g.ID, l.DropSeam(ctx, g.ID, args[1])
				}
				seam.Name, seam.Ratio = args[1], int(math.Round(ratio*100))
				if length != "" {
					if seam.Length, err = measure.ParsePositiveLength(length, l.fieldUnit()); err != nil {
						return g.ID, said("--length", err)
					}
				}
				return g.ID, l.KeepSeam(ctx, g.ID, seam)
			})
		},
	}
	f := cmd.Flags()
	f.IntVar(&seam.Class, "stitch", 0, "its stitch by ISO 4915, such as 504")
	f.StringVar(&length, "length", "", "of one row of stitching, where the outlines do not show it")
	f.IntVar(&seam.Rows, "rows", 0, "rows of stitching")
	f.Float64Var(&ratio, "ratio", 0, "thread per length of seam as you measured it, such as 5.5")
	f.BoolVar(&seam.Still, "still", false, "the seam need not stretch, such as a shoulder over tape")
	f.BoolVar(&seam.Out, "leave-out", false, "it is not sewn")
	f.BoolVar(&drawn, "as-drawn", false, "forget what was noted: as the outlines show it")
	return cmd
}

func stitchHelp() string {
	out := ""
	for _, c := range garment.StitchClasses() {
		out += fmt.Sprintf("  %d  %s\n", c.Class, c.Name)
	}
	return out
}

func (s *session) garmentMark() *cobra.Command {
	return &cobra.Command{
		Use: "mark GARMENT STATE", Short: "Mark it sewing, fitted, finished, given up, or wanted again",
		Args: exactly("the name of a garment", "its state"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.onGarment(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (stash.ID, error) {
				g.State = garment.State(strings.ToLower(strings.TrimSpace(args[1])))
				if !g.State.Known() {
					return g.ID, mistyped(fmt.Sprintf("%q is no state of a garment", args[1]), "Say sewing, fitted, finished, given up or wanted; reserve and cut have verbs of their own")
				}
				return g.ID, l.SaveGarment(ctx, g)
			})
		},
	}
}

func (s *session) garmentCopy() *cobra.Command {
	var size, name string
	cmd := &cobra.Command{
		Use: "copy GARMENT", Short: "Want it again, in another fabric or size", Args: exactly("the name of a garment"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.onGarment(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (stash.ID, error) {
				made, err := l.CopyGarment(ctx, g.ID, strings.TrimSpace(size), name)
				return made.ID, err
			})
		},
	}
	cmd.Flags().StringVar(&size, "size", "", "another size (default: the same)")
	cmd.Flags().StringVar(&name, "name", "", "what it is called")
	return cmd
}
