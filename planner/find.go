package planner

import (
	"context"

	"tallycloth/planner/match"
	"tallycloth/stash"
)

// FindFabric compares every cloth on the shelf with what a pattern asks. Results
// are reported as they come (report may be nil; it is called from one goroutine at
// a time), the most promising cloth first; the list returned is sorted, best first.
func (s *Studio) FindFabric(ctx context.Context, q Search, report func(Finding)) ([]Finding, error) {
	return nil, notReady
}

// CheckCloth compares one cloth with what a pattern asks.
func (s *Studio) CheckCloth(ctx context.Context, clothID stash.ID, q Search) (Finding, error) {
	return Finding{}, notReady
}

// WhatCanItMake compares one cloth with every pattern, size and role.
func (s *Studio) WhatCanItMake(ctx context.Context, clothID stash.ID, report func(Making)) ([]Making, error) {
	return nil, notReady
}

// Layout returns the checked layout of a pattern on a cloth. The error says why there is none.
func (s *Studio) Layout(ctx context.Context, clothID stash.ID, q Search) (match.Layout, error) {
	return match.Layout{}, notReady
}
