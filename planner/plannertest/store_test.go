package plannertest_test

import (
	"errors"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"
	"tallycloth/stash/stashtest"
)

func TestStore(t *testing.T) {
	plannertest.Run(t, func(t *testing.T) (planner.Store, func() stash.ID) {
		ids := stashtest.IDs()
		return plannertest.New(stashtest.Clock(), ids), ids
	})
}

func TestReadOnly(t *testing.T) {
	ids := stashtest.IDs()
	s := plannertest.New(stashtest.Clock(), ids)
	s.Refuse = "another window has it"
	_, errW := s.Write(t.Context(), "Try", func(planner.Tx) error { return nil })
	_, errU := s.Undo(t.Context())
	_, errR := s.Redo(t.Context())
	for _, err := range []error{errW, errU, errR} {
		if !errors.Is(err, stash.ErrConflict) {
			t.Errorf("writing read-only: %v", err)
		}
	}
	if s.ReadOnly() != s.Refuse {
		t.Errorf("read-only: %q", s.ReadOnly())
	}
	if err := s.Backup(t.Context(), "nowhere"); !errors.Is(err, stash.ErrUnsupported) {
		t.Errorf("back-up: %v", err)
	}
}
