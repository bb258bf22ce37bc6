package planner

import (
	"context"

	"tallycloth/planner/binding"
	"tallycloth/stash"
)

// EdgeJobs lists the strips of every edge to finish of a pattern in a size.
func (s *Studio) EdgeJobs(ctx context.Context, patternID stash.ID, size string) ([]binding.Job, error) {
	return nil, notReady
}

// Strips works strips out, and how they are cut from the cloth named. It writes nothing.
func (s *Studio) Strips(ctx context.Context, ask BindingAsk) (BindingAnswer, error) {
	return BindingAnswer{}, notReady
}

// ReserveStrips keeps the cloth of worked-out strips for a garment.
func (s *Studio) ReserveStrips(ctx context.Context, garmentID stash.ID, a BindingAnswer) ([]stash.Reservation, error) {
	return nil, notReady
}
