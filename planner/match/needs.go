package match

import (
	"context"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Needs is how much of a fabric a pattern takes, laid in one way or another.
type Needs struct {
	// Folded is the length on cloth folded in the best of its ways, Open that in one
	// layer; zero when there is no layout. Open is never more than Folded, unless
	// pieces lie on the bias or across the grain, or touch along the fold where one
	// layer has no room to keep them apart. Both are lengths after washing, without
	// raw ends and without strips.
	Folded, Open measure.Length
}

// Needs lays the pattern pieces out on a fabric of its usable width and any length,
// searching as long as the question allows. What a stricter fabric, one with a
// direction, needs is never less than what a freer one does.
func (q *Question) Needs(ctx context.Context, f stash.Fabric) (Needs, error) {
	b := bedOf(usable{width: int64(f.UsableWidth()), tube: f.Tubular}, f)
	var out Needs
	folded := int64(far)
	for _, bed := range q.folded(b) {
		n, _, err := q.least(ctx, bed, true)
		if err != nil {
			return Needs{}, err
		}
		folded = min(folded, n)
	}
	open, _, err := q.least(ctx, b, true)
	if err != nil {
		return Needs{}, err
	}
	if folded < far {
		out.Folded = measure.Length(folded)
	}
	if open < far {
		out.Open = measure.Length(open)
	}
	return out, nil
}
