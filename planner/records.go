package planner

import (
	"context"
	"errors"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

var notReady = errors.New("this part of the studio is not ready")

// MeasureStretch keeps bench tests with their fabric.
func (s *Studio) MeasureStretch(ctx context.Context, fabricID stash.ID, tests ...StretchTest) (stash.Fabric, error) {
	return stash.Fabric{}, notReady
}

// SaveFabric keeps a fabric as it is given; one without an ID is new.
func (s *Studio) SaveFabric(ctx context.Context, f stash.Fabric) error { return notReady }

// SavePattern keeps a pattern as it is given; one without an ID is new.
func (s *Studio) SavePattern(ctx context.Context, p pattern.Pattern) (pattern.Pattern, error) {
	return pattern.Pattern{}, notReady
}

// SaveSettings keeps the person's choices.
func (s *Studio) SaveSettings(ctx context.Context, set Settings) error { return notReady }

// NewGarment adds a garment that is wanted. An empty name takes the pattern's.
func (s *Studio) NewGarment(ctx context.Context, patternID stash.ID, size, name, who string) (garment.Garment, error) {
	return garment.Garment{}, notReady
}

// SaveGarment keeps a garment as it is given.
func (s *Studio) SaveGarment(ctx context.Context, g garment.Garment) error { return notReady }
