package db_test

import (
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"
)

func TestPlannerStore(t *testing.T) {
	plannertest.Run(t, func(t *testing.T) (planner.Store, func() stash.ID) { return open(t) })
}
