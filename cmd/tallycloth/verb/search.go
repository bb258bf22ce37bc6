package verb

import (
	"context"

	"tallycloth/planner"
	"tallycloth/planner/pattern"

	"github.com/spf13/cobra"
)

// question is what was typed about a pattern, a size and a use of fabric.
type question struct {
	pattern, size, role string
	of                  string // a garment, whose pattern and size are meant as it is adjusted
	strips              bool
}

// patternFlags adds the options that say which pattern and size are meant.
func (q *question) patternFlags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&q.pattern, "pattern", "", "the pattern, by name")
	cmd.Flags().StringVar(&q.size, "size", "", "the size")
}

// flags adds the options of a whole question to the shelf.
func (q *question) flags(cmd *cobra.Command) {
	q.patternFlags(cmd)
	f := cmd.Flags()
	f.StringVar(&q.role, "for", "", "what the fabric is used for: main, contrast, binding, lining (default: main)")
	f.BoolVar(&q.strips, "with-strips", false, "cut the binding strips from the same cloth too")
}

// garmentFlag adds the option to name a garment instead of a pattern and a size.
func (q *question) garmentFlag(cmd *cobra.Command) {
	cmd.Flags().StringVar(&q.of, "garment", "", "a garment, instead of pattern and size: its adjustments count")
}

// ofGarment finds what is meant by a garment: its pattern as it is cut.
func (q question) ofGarment(ctx context.Context, l *library) (planner.Search, pattern.Pattern, error) {
	g, err := l.pickGarment(ctx, q.of)
	if err != nil {
		return planner.Search{}, pattern.Pattern{}, err
	}
	a, err := l.AdjustedGarment(ctx, g.ID)
	if err != nil {
		return planner.Search{}, a.Cut, err
	}
	role, err := pickRole(a.Cut, q.role)
	return planner.Search{PatternID: g.PatternID, Size: g.Size, Role: role, For: g.ID, Strips: q.strips}, a.Cut, err
}

// search finds what is meant in the library.
func (q question) search(ctx context.Context, l *library) (planner.Search, pattern.Pattern, error) {
	if q.of != "" && q.pattern == "" {
		return q.ofGarment(ctx, l)
	}
	if q.pattern == "" {
		return planner.Search{}, pattern.Pattern{}, mistyped("The pattern is missing", `Say which with --pattern "NAME"`)
	}
	p, err := l.pickPattern(ctx, q.pattern)
	if err != nil {
		return planner.Search{}, p, err
	}
	size, err := pickSize(p, q.size)
	if err != nil {
		return planner.Search{}, p, err
	}
	role, err := pickRole(p, q.role)
	return planner.Search{PatternID: p.ID, Size: size, Role: role, Strips: q.strips}, p, err
}
