package planner

import (
	"context"
	"strings"

	"tallycloth/stash"
)

// SaveBatch keeps a batch, with its plan if it has one; one without an ID is new.
func (s *Studio) SaveBatch(ctx context.Context, b Batch) (Batch, error) {
	if strings.TrimSpace(b.Name) == "" {
		return b, invalid("Give it one, such as “tanks for the spring class”", "The batch has no name")
	}
	verb := "Changed the batch "
	if b.ID == stash.NoID {
		b.ID, verb = s.newID(), "Kept the batch "
	}
	b.Changed = s.today()
	err := s.act(ctx, verb+b.Name, func(tx Tx) error { return tx.PutBatch(ctx, b) })
	return b, err
}

// DropBatch takes a batch off the list. Garments made of it and their cloth stay as they are.
func (s *Studio) DropBatch(ctx context.Context, id stash.ID) error {
	b, err := s.Batch(ctx, id)
	if err != nil {
		return err
	}
	b.Dropped = true
	return s.act(ctx, "Took the batch "+b.title()+" off the list", func(tx Tx) error { return tx.PutBatch(ctx, b) })
}
