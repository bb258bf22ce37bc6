package ui

import (
	"cmp"
	"context"
	"time"
)

// quietBefore is how long nothing was changed in the library before leftovers are looked at.
const quietBefore = 3 * time.Second

// lookAtLeftovers has what leftovers are good for worked out while nobody waits, one cloth and
// pattern at a time, so that it is there when one is looked at. It ends when all is known, and
// begins anew after a change.
func (s *Shell) lookAtLeftovers() {
	if s.deps.Studio.ReadOnly() != "" {
		return // nothing could be kept
	}
	s.deps.Tasks.Idle("leftovers", cmp.Or(s.deps.Quiet, quietBefore), func(ctx context.Context, turn func() bool, _ func(func())) error {
		if !turn() {
			return ctx.Err()
		}
		cloths, err := s.deps.Studio.UnworkedCloth(ctx)
		for _, c := range cloths {
			if err != nil {
				break
			}
			_, err = s.deps.Studio.WorkOutUses(ctx, c, turn)
		}
		return err
	}, s.host.Trouble)
}
