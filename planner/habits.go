package planner

import (
	"context"
	"encoding/json"
	"fmt"
)

// Habits are what was last chosen when something went onto paper, and the batch that was in hand when the
// window closed. They are a memory and no record: keeping them is no act, and there is nothing to undo.
type Habits struct {
	Folder string `json:",omitempty"` // where it was saved
	// Paper was chosen although the settings said Over; settings that were changed since count.
	Paper, Over string `json:",omitempty"`
	FullPaper   string `json:",omitempty"` // in full size
	InHand      string `json:",omitempty"` // a Batch as JSON, or ""
}

// HabitsKeeper remembers habits.
type HabitsKeeper interface {
	Habits(ctx context.Context) (Habits, error)
	// KeepHabits keeps them. A library that is read-only keeps nothing, which is no error.
	KeepHabits(ctx context.Context, h Habits) error
}

// PaperFor is the paper to offer.
func (h Habits) PaperFor(set Settings) string {
	if h.Paper != "" && h.Over == set.Paper {
		return h.Paper
	}
	return set.Paper
}

// KeepInHand remembers the batch that is in hand when the window closes, with its plan if it has one, in
// place of the one before; nil when none is.
func (s *Studio) KeepInHand(ctx context.Context, b *Batch) error {
	h, err := s.Habits(ctx)
	if err != nil {
		return fmt.Errorf("keeping the batch in hand: %w", err)
	}
	was := h.InHand
	h.InHand = ""
	if b != nil {
		doc, err := json.Marshal(b)
		if err != nil {
			return fmt.Errorf("keeping the batch in hand: %w", err)
		}
		h.InHand = string(doc)
	}
	if h.InHand == was {
		return nil
	}
	if err := s.KeepHabits(ctx, h); err != nil {
		return fmt.Errorf("keeping the batch in hand: %w", err)
	}
	return nil
}

// InHand is the batch that was in hand when the window closed last, nil when none was.
func (s *Studio) InHand(ctx context.Context) (*Batch, error) {
	h, err := s.Habits(ctx)
	if err != nil || h.InHand == "" {
		return nil, err
	}
	var b Batch
	if err := json.Unmarshal([]byte(h.InHand), &b); err != nil {
		return nil, fmt.Errorf("reading the batch in hand: %w", err)
	}
	return &b, nil
}
