package verb

import (
	"context"
	"fmt"
	"io"
	"strings"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// elasticFields is what elastic comes to, in JSON.
type elasticFields struct {
	Ring   mm            `json:"ring_mm"`
	Cut    mm            `json:"cut_mm"`
	Casing mm            `json:"casing_mm"`
	Checks []checkFields `json:"checks"`
}

// elasticWords are what was typed about elastic.
type elasticWords struct{ width, share, lap, stretch, passes, ease, under string }

// elastic is the verb for elastic at a waist or leg.
func (s *session) elastic() *cobra.Command {
	var w elasticWords
	cmd := &cobra.Command{
		Use:   "elastic GIRTH",
		Short: "Work out elastic for a waist or a leg",
		Long: `Works out how long to cut elastic for a waist or a leg from the girth of the body there, how
wide its casing is, and whether the stretched ring gets over the hip. Elastic may contain latex: ask who will wear it.

With --json an object: ring_mm, cut_mm, casing_mm (below its fold), checks (list of kind, ok, mind, text, do).`,
		Example: `  tallycloth elastic "74 cm" --width "2 cm" --stretch "90 %" --hip "102 cm"`,
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(_ context.Context, l *library) error { return s.workElastic(l, args[0], w) })
		},
	}
	f := cmd.Flags()
	f.StringVar(&w.width, "width", "2 cm", "of the elastic")
	f.StringVar(&w.share, "share", "90 %", "of the girth, 85 to 95 %: less for soft elastic, more for firm")
	f.StringVar(&w.lap, "lap", "1/2 in", "sewn one end over the other")
	f.StringVar(&w.stretch, "stretch", "", "how far the elastic stretches")
	f.StringVar(&w.passes, "hip", "", "the girth that the ring must pass")
	f.StringVar(&w.ease, "ease", "1/8 in", "how much wider than the elastic the casing is")
	f.StringVar(&w.under, "turn-under", "0", "edge of the casing that is turned under")
	return cmd
}

func (s *session) workElastic(l *library, girth string, w elasticWords) error {
	e := binding.Elastic{Units: l.settings.Units}
	for _, v := range []struct {
		flag, text string
		into       *measure.Length
	}{{"GIRTH", girth, &e.Girth}, {"--width", w.width, &e.Width}, {"--lap", w.lap, &e.Lap}, {"--hip", w.passes, &e.Passes},
		{"--ease", w.ease, &e.EaseIn}, {"--turn-under", w.under, &e.TurnUnder}} {
		if err := (stripHow{}).length(l, v.flag, v.text, v.into); err != nil {
			return err
		}
	}
	share, err := measure.ParsePercent(w.share)
	if err != nil {
		return said("--share", err)
	}
	e.Factor = share.Fraction()
	if w.stretch != "" {
		if e.Stretch, err = measure.ParsePercent(w.stretch); err != nil {
			return said("--stretch", err)
		}
	}
	cut, err := e.Work()
	if err != nil {
		return err
	}
	out := elasticFields{Ring: mm(cut.Ring), Cut: mm(cut.Cut), Casing: mm(cut.Casing), Checks: []checkFields{}}
	for _, c := range cut.Checks {
		out.Checks = append(out.Checks, fieldsOfCheck(c))
	}
	return s.answer(out, func(o io.Writer) {
		fmt.Fprintln(o, cut.Text(l.settings.Units))
		for _, c := range cut.Checks {
			fmt.Fprintln(o, strings.TrimSpace(c.Text+". "+c.Do))
		}
	})
}

// biasFields is what continuous bias comes to, in JSON.
type biasFields struct {
	Width    mm `json:"width_mm"`
	Length   mm `json:"length_mm"`
	CutWidth mm `json:"cut_width_mm"`
	Yield    mm `json:"bias_mm"`
	Most     mm `json:"most_mm"`
}

// bias is the verb for continuous bias, both ways.
func (s *session) bias() *cobra.Command {
	var width, length, cut, seam, wanted string
	cmd := &cobra.Command{
		Use:   "bias",
		Short: "Work out continuous bias from a rectangle, or the rectangle for a length",
		Long: `Works out how much continuous bias a rectangle gives: with --width and --length. Or the reverse:
with --wanted a square for that much bias, with --width too the length of a rectangle so wide.
Never more than area divided by width.

With --json an object: width_mm, length_mm (of the rectangle), cut_width_mm, bias_mm, most_mm.`,
		Example: `  tallycloth bias --width "20 in" --length "20 in" --cut "2 in"
  tallycloth bias --wanted "250 in" --cut "2 in" --seam "1/4 in"`,
		Args: noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(_ context.Context, l *library) error {
				var c binding.Continuous
				var want measure.Length
				for _, v := range []struct {
					flag, text string
					into       *measure.Length
				}{{"--width", width, &c.Width}, {"--length", length, &c.Length}, {"--cut", cut, &c.CutWidth}, {"--seam", seam, &c.Seam}, {"--wanted", wanted, &want}} {
					if err := (stripHow{}).length(l, v.flag, v.text, v.into); err != nil {
						return err
					}
				}
				return s.workBias(l, c, want)
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&width, "width", "", "of the rectangle")
	f.StringVar(&length, "length", "", "of the rectangle")
	f.StringVar(&cut, "cut", "4 cm", "cut width of the bias")
	f.StringVar(&seam, "seam", "1/4 in", "of the two seams of the tube")
	f.StringVar(&wanted, "wanted", "", "how much bias is wanted")
	return cmd
}

func (s *session) workBias(l *library, c binding.Continuous, want measure.Length) error {
	var err error
	switch {
	case want > 0 && c.Width > 0:
		c.Length, err = binding.RectangleFor(want, c.Width, c.CutWidth, c.Seam)
	case want > 0:
		c.Width, err = binding.SquareFor(want, c.CutWidth, c.Seam)
		c.Length = c.Width
	case c.Width <= 0 || c.Length <= 0:
		return mistyped("the rectangle has no size", "Give --width and --length, or --wanted")
	}
	if err != nil {
		return err
	}
	most, _ := binding.BiasYield(c.Width, c.Length, c.CutWidth)
	out := biasFields{mm(c.Width), mm(c.Length), mm(c.CutWidth), mm(c.Yield()), mm(most)}
	size := l.voice.Fine
	return s.answer(out, func(o io.Writer) {
		fmt.Fprintf(o, "A rectangle of %s by %s gives %s of bias %s wide; its area allows %s at most.\n", size(c.Width), size(c.Length), size(c.Yield()), size(c.CutWidth), size(most))
	})
}

// techniqueFields is a technique of the person's own, in JSON.
type techniqueFields struct {
	Name   string `json:"name"`
	Layers string `json:"layers"`
}

// technique is the verb for ways to finish edges that a person adds.
func (s *session) technique() *cobra.Command {
	remove := false
	cmd := &cobra.Command{
		Use:   "technique [NAME [LAYERS]]",
		Short: "Show, add or remove ways of your own to finish an edge",
		Long: `Shows the techniques that you added; adds one by the layers of its strip, in words: how many
finished widths, seams, turns of cloth and caught edges lie across it, and whether it wraps the edge,
stands above the edge or is turned in.

With --json a list: name, layers.`,
		Example: `  tallycloth technique
  tallycloth technique "Rolled rim" "three widths, one seam, one turn, wraps the edge"
  tallycloth technique "Rolled rim" --remove`,
		Args: cobra.MaximumNArgs(2),
		RunE: func(cmd *cobra.Command, args []string) error {
			do := s.adding
			if len(args) == 0 {
				do = s.reading
			}
			return do(cmd, func(ctx context.Context, l *library) (err error) {
				switch {
				case len(args) == 1 && remove:
					err = l.DropTechnique(ctx, args[0])
				case len(args) == 2 && !remove:
					err = l.AddTechnique(ctx, args[0], args[1])
				case len(args) > 0:
					err = mistyped("a technique needs its layers", `Write them after its name, such as "two widths, two seams, wraps the edge"`)
				}
				if err != nil {
					return err
				}
				set, err := l.Settings(ctx)
				if err != nil {
					return err
				}
				out := []techniqueFields{}
				for _, t := range set.Techniques.List() {
					out = append(out, techniqueFields{t.Name, t.Layers})
				}
				return s.answer(out, func(o io.Writer) {
					for _, t := range out {
						fmt.Fprintf(o, "%s: %s\n", t.Name, t.Layers)
					}
				})
			})
		},
	}
	cmd.Flags().BoolVar(&remove, "remove", false, "take it off the list")
	return cmd
}
