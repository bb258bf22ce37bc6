package verb

import (
	"context"
	"fmt"
	"io"

	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// classFields is a word for stretch in JSON; up_to_percent is null for the last.
type classFields struct {
	Word string `json:"word"`
	UpTo share  `json:"up_to_percent"`
}

// classes is the verb for the words for how far fabrics stretch.
func (s *session) classes() *cobra.Command {
	return &cobra.Command{
		Use:   "classes [WORDS]",
		Short: "Show, or choose, the words for how far fabrics stretch",
		Long: `Shows the words for how far a fabric stretches, each up to its limit; or chooses others.
Published limits differ, so they are yours to choose. "usual" takes those of a new library.

With --json a list: word, up_to_percent (null for the last).`,
		Example: `  tallycloth classes
  tallycloth classes "firm up to 12.5 %, moderate up to 30 %, stretchy up to 60 %, very stretchy"`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return s.reading(cmd, func(_ context.Context, l *library) error { return s.tellClasses(l.settings.Classes) })
			}
			text := args[0]
			if text == "usual" {
				text = stash.UsualStretch
			}
			chosen, err := stash.ParseStretchClasses(text)
			if err != nil {
				return err
			}
			return s.adding(cmd, func(ctx context.Context, l *library) error {
				set := l.settings
				set.Classes = chosen
				if err := l.SaveSettings(ctx, set); err != nil {
					return err
				}
				return s.tellClasses(chosen)
			})
		},
	}
}

func (s *session) tellClasses(c stash.StretchClasses) error {
	out := []classFields{}
	list := c.List()
	for i, x := range list {
		out = append(out, classFields{x.Name, share{stash.Reading{Value: x.UpTo, Known: i < len(list)-1}}})
	}
	return s.answer(out, func(w io.Writer) {
		for i, x := range list {
			limit := "up to " + measure.FormatPercent(x.UpTo)
			if i == len(list)-1 {
				limit = "above that"
			}
			fmt.Fprintf(w, "%s, %s\n", x.Name, limit)
		}
	})
}
