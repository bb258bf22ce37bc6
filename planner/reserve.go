package planner

import (
	"context"

	"tallycloth/stash"
)

// Reserve keeps the cloth of a finding for a garment, as its layout lies.
func (s *Studio) Reserve(ctx context.Context, garmentID stash.ID, f Finding, usedFor string) ([]stash.Reservation, error) {
	return nil, notReady
}

// Release gives all cloth reserved for a garment back, and says how many reservations that were.
func (s *Studio) Release(ctx context.Context, garmentID stash.ID) (int, error) {
	return 0, notReady
}
