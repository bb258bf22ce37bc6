package planner

import "context"

// Habits are what was last chosen when something went onto paper. They are a memory and no record:
// keeping them is no act, and there is nothing to undo.
type Habits struct {
	Folder string `json:",omitempty"` // where it was saved
	// Paper was chosen although the settings said Over; settings that were changed since count.
	Paper, Over string `json:",omitempty"`
	FullPaper   string `json:",omitempty"` // in full size
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
