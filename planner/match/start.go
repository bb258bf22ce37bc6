package match

import (
	"context"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Start is a layout as it lies in hand at one moment, for a search to go on from while the
// hand may go on too. It is never changed.
type Start struct {
	q    *Question
	c    stash.ClothState
	from held
	step int
}

// Start is the layout as it lies now.
func (h *Hand) Start() Start {
	from := h.now
	from.layout.Pieces, from.keep = slices.Clone(from.layout.Pieces), slices.Clone(from.keep)
	return Start{h.q, h.c, from, len(h.past)}
}

// Step is how many steps were done in hand before.
func (s Start) Step() int { return s.step }

// Length is the length that the layout takes.
func (s Start) Length() measure.Length { return s.q.LengthOf(s.c, s.from.layout) }

// KeepTrying goes on searching from there, what is kept in place staying; see
// Question.KeepTrying.
func (s Start) KeepTrying(ctx context.Context, t Trying) (Tried, error) {
	t.Keep = s.from.keep
	return s.q.KeepTrying(ctx, s.c, s.from.layout, t)
}
