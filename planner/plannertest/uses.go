package plannertest

import (
	"context"
	"maps"
	"slices"
	"sync"

	"tallycloth/planner"
)

// uses remembers what cloth is good for.
type uses struct {
	mu sync.Mutex
	by map[planner.Key]map[planner.Key][]planner.Use
	// habits are no uses, and kept the same way.
	habits planner.Habits
}

// KnownUses returns what was kept for a cloth.
func (s *Store) KnownUses(_ context.Context, cloth planner.Key) (map[planner.Key][]planner.Use, error) {
	s.uses.mu.Lock()
	defer s.uses.mu.Unlock()
	return maps.Clone(s.uses.by[cloth]), nil
}

// KeepUses keeps what was found out.
func (s *Store) KeepUses(_ context.Context, cloth planner.Key, found map[planner.Key][]planner.Use) error {
	s.uses.mu.Lock()
	defer s.uses.mu.Unlock()
	if s.Refuse != "" {
		return nil
	}
	if s.uses.by == nil {
		s.uses.by = map[planner.Key]map[planner.Key][]planner.Use{}
	}
	if s.uses.by[cloth] == nil {
		s.uses.by[cloth] = map[planner.Key][]planner.Use{}
	}
	maps.Copy(s.uses.by[cloth], found)
	return nil
}

// UsesKept lists for which cloth and patterns something is kept.
func (s *Store) UsesKept(context.Context) (map[planner.Key][]planner.Key, error) {
	s.uses.mu.Lock()
	defer s.uses.mu.Unlock()
	out := map[planner.Key][]planner.Key{}
	for c, by := range s.uses.by {
		out[c] = slices.Collect(maps.Keys(by))
	}
	return out, nil
}

// ForgetUses drops what nobody wants.
func (s *Store) ForgetUses(_ context.Context, cloths, patterns map[planner.Key]bool) error {
	s.uses.mu.Lock()
	defer s.uses.mu.Unlock()
	maps.DeleteFunc(s.uses.by, func(c planner.Key, by map[planner.Key][]planner.Use) bool {
		maps.DeleteFunc(by, func(p planner.Key, _ []planner.Use) bool { return !patterns[p] })
		return !cloths[c]
	})
	return nil
}

// Habits are what was last chosen for paper.
func (s *Store) Habits(context.Context) (planner.Habits, error) {
	s.uses.mu.Lock()
	defer s.uses.mu.Unlock()
	return s.uses.habits, nil
}

// KeepHabits keeps what was chosen for paper.
func (s *Store) KeepHabits(_ context.Context, h planner.Habits) error {
	s.uses.mu.Lock()
	defer s.uses.mu.Unlock()
	if s.Refuse == "" {
		s.uses.habits = h
	}
	return nil
}
