package planner

import (
	"context"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// LogPurchase adds a length that was bought: its purchase, the cloth and, where the
// form names none that is known, its fabric.
func (s *Studio) LogPurchase(ctx context.Context, f PurchaseForm) (stash.ClothState, error) {
	return stash.ClothState{}, notReady
}

// AddLeftover adds a leftover that was there before the library.
func (s *Studio) AddLeftover(ctx context.Context, f LeftoverForm) (stash.ClothState, error) {
	return stash.ClothState{}, notReady
}

// TrueEnds notes that both ends of a plain length were straightened, and what is left of it.
func (s *Studio) TrueEnds(ctx context.Context, clothID stash.ID, newLength measure.Length) error {
	return notReady
}

// GiveAway notes that a cloth was given away whole.
func (s *Studio) GiveAway(ctx context.Context, clothID stash.ID, note string) error { return notReady }

// Discard notes that a cloth was thrown away whole.
func (s *Studio) Discard(ctx context.Context, clothID stash.ID, note string) error { return notReady }
