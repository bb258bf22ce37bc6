package verb

import (
	"context"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// blendFields is a blend of sizes in JSON.
type blendFields struct {
	Pattern string   `json:"pattern"`
	Size    string   `json:"size"`
	Kept    []string `json:"not_blended"`
	Whole   []string `json:"not_followed"`
}

// blend is the verb for a size between sizes.
func (s *session) blend() *cobra.Command {
	var values []string
	cmd := &cobra.Command{
		Use:   "blend PATTERN",
		Short: "Add a size that is another of the pattern's sizes at each level",
		Long: `Adds a size to a pattern that is one size at the bust or waist and others below: their outlines
run over smoothly where they correspond; where they do not, it says so. Levels are bust, waist,
hip and thigh, and upper arm for a sleeve below its underarm, where the armhole does not hold it.
One that is not said goes with the one above.

With --json: pattern, size (of the new one), not_blended (pattern pieces that keep the first
size), not_followed (levels that no pattern piece has).`,
		Example: `  tallycloth blend "Fennel tank" --at bust=3 --at hip=5`,
		Args:    exactly("the name of a pattern"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				p, err := l.pickPattern(ctx, args[0])
				if err != nil {
					return err
				}
				at, err := named("--at", values)
				if err != nil {
					return err
				}
				for level := range at {
					at[level] = strings.TrimSpace(at[level])
				}
				b, err := l.BlendSizes(ctx, p.ID, at)
				if err != nil {
					return err
				}
				return s.answer(blendFields{p.Name, b.Size, some(b.Kept), some(b.Whole)}, func(w io.Writer) { fmt.Fprintln(w, say.Blended(b)) })
			})
		},
	}
	cmd.Flags().StringArrayVar(&values, "at", nil, `a level with its size, such as "hip=5"`)
	return cmd
}

// chartFields are the sizes of a pattern with their bodies in JSON.
type chartFields struct {
	Pattern string       `json:"pattern"`
	Sizes   []chartField `json:"sizes"`
}

type chartField struct {
	Size  string       `json:"size"`
	Front string       `json:"front"`
	Body  []chartLevel `json:"body"`
	Sewn  []chartLevel `json:"sewn"`
}

type chartLevel struct {
	Level string `json:"level"`
	Value mm     `json:"mm"`
}

// chart is the verb for body charts.
func (s *session) chart() *cobra.Command {
	var table, from, size string
	var values []string
	cmd := &cobra.Command{
		Use:   "chart PATTERN",
		Short: "Show and set which body each size of a pattern is for",
		Long: `Shows the body chart of a pattern with what each size measures when it is sewn. With --table and
--first its sizes take the bodies of a published table, in order; with --size and --at one size
takes what is said. Tables:

` + tablesHelp() + `
With --json: pattern, sizes (size, front, body and sewn: lists of level, mm).`,
		Example: `  tallycloth chart "Fennel tank"
  tallycloth chart "Mill skirt" --table "EN 13402" --first "S 84"
  tallycloth chart "Mill skirt" --size M --at "waist=76" --at "hip=100"`,
		Args: exactly("the name of a pattern"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if table == "" && size == "" {
				return s.reading(cmd, func(ctx context.Context, l *library) error {
					p, err := l.pickPattern(ctx, args[0])
					if err != nil {
						return err
					}
					return s.tellChart(l, p)
				})
			}
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				p, err := l.pickPattern(ctx, args[0])
				if err != nil {
					return err
				}
				if p.Sizes, err = l.chartOf(p, table, from, size, values); err != nil {
					return err
				}
				if p, err = l.SavePattern(ctx, p); err != nil {
					return err
				}
				return s.tellChart(l, p)
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&table, "table", "", "a published table, by its name or the beginning of it")
	f.StringVar(&from, "first", "", "the size of the table that the pattern's first size is")
	f.StringVar(&size, "size", "", "the size that --at is for")
	f.StringArrayVar(&values, "at", nil, `a measurement of its body, such as "hip=100"`)
	return cmd
}

func tablesHelp() string {
	out := ""
	for _, t := range sizing.Tables() {
		var sizes []string
		for _, r := range t.Rows {
			sizes = append(sizes, r.Size)
		}
		out += "  " + t.Name + "\n    sizes " + strings.Join(sizes, ", ") + "\n"
	}
	return out
}

// chartOf are the sizes with what was said of them.
func (l *library) chartOf(p pattern.Pattern, table, from, size string, values []string) ([]pattern.Size, error) {
	sizes := slices.Clone(p.Sizes)
	if table != "" {
		t, err := pick("table", table, sizing.Tables(), func(t sizing.Table) string { return t.Name })
		if err != nil {
			return nil, err
		}
		if sizes, err = sizing.Started(sizes, t, from); err != nil {
			return nil, err
		}
	}
	if size == "" {
		return sizes, nil
	}
	name, err := pickSize(p, size)
	if err != nil {
		return nil, err
	}
	typed, err := named("--at", values)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(sizes, func(s pattern.Size) bool { return s.Name == name })
	body := map[string]measure.Length{}
	for level, v := range sizes[at].Body {
		body[level] = v
	}
	for level, text := range typed {
		if body[level], err = measure.ParsePositiveLength(text, l.fieldUnit()); err != nil {
			return nil, said("--at "+level, err)
		}
		if err := sizing.CheckBody(level, body[level]); err != nil {
			return nil, err
		}
	}
	sizes[at].Body = body
	return sizes, nil
}

func (s *session) tellChart(l *library, p pattern.Pattern) error {
	out := chartFields{p.Name, []chartField{}}
	var rows [][]string
	for _, z := range p.Sizes {
		out.Sizes = append(out.Sizes, chartField{z.Name, z.Front, inOrder(z.Body), inOrder(z.Finished)})
		rows = append(rows, []string{z.Name, l.levelsOf(z.Body), l.levelsOf(z.Finished)})
	}
	return s.answer(out, func(w io.Writer) { table(w, "SIZE|BODY|SEWN", rows) })
}

// inOrder lists measurements in the order of the body, other ones after them by name.
func inOrder(all map[string]measure.Length) []chartLevel {
	out := []chartLevel{}
	left := maps.Clone(all)
	for _, at := range sizing.Places() {
		if v, ok := all[at.Name]; ok {
			out = append(out, chartLevel{at.Name, mm(v)})
			delete(left, at.Name)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(left)) {
		out = append(out, chartLevel{name, mm(left[name])})
	}
	return out
}

// levelsOf writes them in words.
func (l *library) levelsOf(all map[string]measure.Length) string {
	var out []string
	for _, x := range inOrder(all) {
		out = append(out, x.Level+" "+l.voice.Width(measure.Length(x.Value)))
	}
	return strings.Join(out, ", ")
}
