package verb

import (
	"context"
	"fmt"
	"io"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/draft"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// quick is the verb that drafts approximate outlines from finished measurements.
func (s *session) quick() *cobra.Command {
	var w planner.QuickWords
	var values, steps []string
	var dry bool
	cmd := &cobra.Command{
		Use:   "quick KIND",
		Short: "Draft approximate outlines from finished measurements",
		Long: `Drafts a pattern from what a finished garment measures, lying flat and not stretched. Its
outlines are approximate and marked so; they are a little longer than they need be, so
that a layout of them holds. Girths are measured all the way round.

` + quickAsks() + `
--at gives the value of the size measured, and --step how much it grows from size to
size; or --at one value for each size, parted by semicolons. What stands in brackets
may be left out and follows by rule.

With --json the pattern, as list patterns shows it.`,
		Example: `  tallycloth quick skirt --name "Millrace skirt" --at "waist=72" --at "hip=98" --at "length=60"
  tallycloth quick tee --name "Pond tee" --sizes "S,M,L" --measured M --at "bust=94" --step "bust=5" \
    --at "hip=98; 104; 110" --at "length=62" --at "sleeve length=21"`,
		Args: exactly("the kind of garment"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.adding(cmd, func(ctx context.Context, l *library) (err error) {
				kind, err := pick("kind of garment", args[0], draft.Kinds(), draft.Kind.String)
				if err != nil {
					return err
				}
				w.Kind, w.Unit = kind, l.fieldUnit()
				if w.Values, err = named("--at", values); err != nil {
					return err
				}
				if w.Steps, err = named("--step", steps); err != nil {
					return err
				}
				f, err := w.Form()
				if err != nil {
					return err
				}
				p, err := draft.Quick(l.settings.Allow(f))
				if err != nil {
					return err
				}
				if !dry {
					if p, err = l.SavePattern(ctx, p); err != nil {
						return err
					}
				}
				return s.answer(fieldsOfPattern(p), func(o io.Writer) {
					l.tellSizes(o, p)
					fmt.Fprintln(o, say.Approximate(l.voice, p))
				})
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&w.Name, "name", "", "the pattern's name")
	f.StringVar(&w.Sizes, "sizes", "", "names of the sizes, smallest first, parted by commas (default: one size)")
	f.StringVar(&w.Measured, "measured", "", "the size the values are of (default: the middle one)")
	f.StringArrayVar(&values, "at", nil, `a measurement: "bust=94", or one value for each size: "bust=88; 94; 100"`)
	f.StringArrayVar(&steps, "step", nil, `how much it grows from size to size: "bust=5"`)
	f.StringVar(&w.Seam, "seam", "", "the seam allowance (default: that of the settings, at first 7 mm)")
	f.StringVar(&w.Hem, "hem", "", "the hem allowance (default: that of the settings, at first 2.2 cm)")
	f.BoolVar(&dry, "dry", false, "show it and keep nothing")
	return cmd
}

// quickAsks lists for each kind what it asks for.
func quickAsks() string {
	out := ""
	for _, k := range draft.Kinds() {
		var words []string
		for _, a := range k.Asks() {
			if a.Needed {
				words = append(words, a.Name)
			} else {
				words = append(words, "["+a.Name+"]")
			}
		}
		out += "  " + pad(string(k), 12) + wrapped(words, 14, 88, ",") + "\n"
	}
	return out
}

// wrapped joins words by a mark and a space, in lines that begin so far in.
func wrapped(words []string, in, wide int, by string) string {
	out, at := "", in
	for i, w := range words {
		if i < len(words)-1 {
			w += by
		}
		if at+len(w) > wide {
			out += "\n" + strings.Repeat(" ", in)
			at = in
		}
		out += w + " "
		at += len(w) + 1
	}
	return strings.TrimRight(out, " ")
}

// named reads options of the form "name=value".
func named(flag string, all []string) (map[string]string, error) {
	out := map[string]string{}
	for _, text := range all {
		name, value, ok := strings.Cut(text, "=")
		name = strings.ToLower(strings.TrimSpace(name))
		if !ok || name == "" || strings.TrimSpace(value) == "" {
			return nil, mistyped(fmt.Sprintf("%s %q is not understood", flag, text), `Write the name of a measurement and its value, such as "bust=94"`)
		}
		if _, twice := out[name]; twice {
			return nil, mistyped(fmt.Sprintf("%s says the %s twice", flag, name), "Say it once")
		}
		out[name] = value
	}
	return out, nil
}
