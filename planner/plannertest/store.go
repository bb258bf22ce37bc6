package plannertest

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/stashtest"
)

// Store is a planner.Store in memory. It cannot be backed up.
type Store struct {
	stash.Reader
	core *stashtest.Core
	now  func() time.Time
	kept []planner.Backup
	uses uses
	// Refuse, when not "", makes the Store read-only and says why.
	Refuse string
}

var _ planner.Store = (*Store)(nil)

// The kinds of record beside the stash's.
const (
	patternKind  = "pattern"
	garmentKind  = "garment"
	batchKind    = "batch"
	personKind   = "person"
	settingsKind = "settings"
)

// New returns an empty Store with a clock and a source of IDs.
func New(now func() time.Time, newID func() stash.ID) *Store {
	none := func([]byte) []stashtest.Ref { return nil }
	core := stashtest.NewCore(now, newID,
		stashtest.Kind{Name: patternKind, Refs: none},
		stashtest.Kind{Name: batchKind, Refs: none},
		stashtest.Kind{Name: personKind, Refs: none},
		stashtest.Kind{Name: settingsKind, Refs: none},
		stashtest.Kind{Name: garmentKind, Refs: func(doc []byte) []stashtest.Ref {
			var g garment.Garment
			if json.Unmarshal(doc, &g) != nil {
				return nil
			}
			return []stashtest.Ref{{Kind: patternKind, ID: g.PatternID}}
		}})
	return &Store{Reader: stashtest.Over(core), core: core, now: now}
}

// more reads what the planner keeps beside the stash.
type more struct{ view func() stashtest.View }

// Patterns returns all patterns by name.
func (m more) Patterns(ctx context.Context) ([]pattern.Pattern, error) {
	return stashtest.List(m.view(), patternKind, func(a, b pattern.Pattern) int { return stash.ByName(a.Name, b.Name, a.ID, b.ID) })
}

// Pattern returns one pattern.
func (m more) Pattern(ctx context.Context, id stash.ID) (pattern.Pattern, error) {
	return stashtest.Get[pattern.Pattern](m.view(), patternKind, id)
}

// Garments returns all garments, newest change first.
func (m more) Garments(ctx context.Context) ([]garment.Garment, error) {
	return stashtest.List(m.view(), garmentKind, func(a, b garment.Garment) int {
		return cmp.Or(cmp.Compare(b.Changed, a.Changed), bytes.Compare(b.ID[:], a.ID[:]))
	})
}

// Garment returns one garment.
func (m more) Garment(ctx context.Context, id stash.ID) (garment.Garment, error) {
	return stashtest.Get[garment.Garment](m.view(), garmentKind, id)
}

// Batches returns the batches that are kept, the newest change first.
func (m more) Batches(ctx context.Context) ([]planner.Batch, error) {
	all, err := stashtest.List(m.view(), batchKind, func(a, b planner.Batch) int {
		return cmp.Or(cmp.Compare(b.Changed, a.Changed), bytes.Compare(b.ID[:], a.ID[:]))
	})
	return slices.DeleteFunc(all, func(b planner.Batch) bool { return b.Dropped }), err
}

// People returns the people on the list, by name.
func (m more) People(ctx context.Context) ([]sizing.Person, error) {
	all, err := stashtest.List(m.view(), personKind, func(a, b sizing.Person) int { return stash.ByName(a.Name, b.Name, a.ID, b.ID) })
	return slices.DeleteFunc(all, func(p sizing.Person) bool { return p.Removed }), err
}

// Person returns one person.
func (m more) Person(ctx context.Context, id stash.ID) (sizing.Person, error) {
	return stashtest.Get[sizing.Person](m.view(), personKind, id)
}

// People returns the people on the list, by name.
func (s *Store) People(ctx context.Context) ([]sizing.Person, error) {
	return more{s.core.View}.People(ctx)
}

// Person returns one person.
func (s *Store) Person(ctx context.Context, id stash.ID) (sizing.Person, error) {
	return more{s.core.View}.Person(ctx, id)
}

// Batch returns one batch.
func (m more) Batch(ctx context.Context, id stash.ID) (planner.Batch, error) {
	return stashtest.Get[planner.Batch](m.view(), batchKind, id)
}

// Batches returns the batches that are kept, the newest change first.
func (s *Store) Batches(ctx context.Context) ([]planner.Batch, error) {
	return more{s.core.View}.Batches(ctx)
}

// Batch returns one batch.
func (s *Store) Batch(ctx context.Context, id stash.ID) (planner.Batch, error) {
	return more{s.core.View}.Batch(ctx, id)
}

// Patterns returns all patterns by name.
func (s *Store) Patterns(ctx context.Context) ([]pattern.Pattern, error) {
	return more{s.core.View}.Patterns(ctx)
}

// Pattern returns one pattern.
func (s *Store) Pattern(ctx context.Context, id stash.ID) (pattern.Pattern, error) {
	return more{s.core.View}.Pattern(ctx, id)
}

// Garments returns all garments, newest change first.
func (s *Store) Garments(ctx context.Context) ([]garment.Garment, error) {
	return more{s.core.View}.Garments(ctx)
}

// Garment returns one garment.
func (s *Store) Garment(ctx context.Context, id stash.ID) (garment.Garment, error) {
	return more{s.core.View}.Garment(ctx, id)
}

// Settings returns the settings, the defaults where none were chosen.
func (s *Store) Settings(ctx context.Context) (planner.Settings, error) {
	set, err := stashtest.Get[planner.Settings](s.core.View(), settingsKind, stash.NoID)
	if errors.Is(err, stash.ErrNotFound) {
		return planner.DefaultSettings(), nil
	}
	return set, err
}

// Write runs f as one act.
func (s *Store) Write(ctx context.Context, sentence string, f func(planner.Tx) error) (stash.Act, error) {
	if err := errors.Join(ctx.Err(), s.refusal()); err != nil {
		return stash.Act{}, err
	}
	return s.core.Write(sentence, func(t *stashtest.Tx) error {
		return f(tx{t, more{func() stashtest.View { return t.View }}})
	})
}

func (s *Store) refusal() error {
	if s.Refuse == "" {
		return nil
	}
	return &stash.Error{Kind: stash.Conflict, What: "The library is open read-only: " + s.Refuse, Do: "Open it again for writing"}
}

// Undo takes back the last act that stands.
func (s *Store) Undo(ctx context.Context) (stash.Act, error) {
	if err := s.refusal(); err != nil {
		return stash.Act{}, err
	}
	return s.core.Undo()
}

// Redo does again what the last Undo took back.
func (s *Store) Redo(ctx context.Context) (stash.Act, error) {
	if err := s.refusal(); err != nil {
		return stash.Act{}, err
	}
	return s.core.Redo()
}

// OnChange calls f after every committed act.
func (s *Store) OnChange(f func(stash.Act)) (stop func()) { return s.core.OnChange(f) }

// Backup always fails: there is no file to copy.
func (s *Store) Backup(ctx context.Context, path string) error {
	return &stash.Error{Kind: stash.Unsupported, What: "A library in memory cannot be backed up", Do: "Open one in a folder"}
}

// KeepBackup notes that a back-up was asked for; there is no file.
func (s *Store) KeepBackup(_ context.Context, why planner.BackupWhy) (planner.Backup, error) {
	b := planner.Backup{Path: fmt.Sprint("in memory ", len(s.kept)), Why: why, At: s.now()}
	s.kept = append(s.kept, b)
	return b, nil
}

// Backups lists what was asked for and not dropped, newest first.
func (s *Store) Backups(context.Context) ([]planner.Backup, error) {
	all := slices.Clone(s.kept)
	slices.SortStableFunc(all, func(a, b planner.Backup) int { return b.At.Compare(a.At) })
	return all, nil
}

// DropBackups forgets some.
func (s *Store) DropBackups(_ context.Context, spare []planner.Backup) error {
	s.kept = slices.DeleteFunc(s.kept, func(b planner.Backup) bool { return slices.Contains(spare, b) })
	return nil
}

// Compare says that a back-up noted here has all that the library has.
func (s *Store) Compare(_ context.Context, path string) (planner.Returning, error) {
	for _, b := range s.kept {
		if b.Path == path {
			return planner.Returning{Backup: b, Then: b.At}, nil
		}
	}
	return planner.Returning{}, &stash.Error{Kind: stash.NotFound, What: "There is no such back-up", Do: "Choose one of the list"}
}

// ReadOnly returns Refuse.
func (s *Store) ReadOnly() string { return s.Refuse }

// Stash returns the same library as the stash alone.
func (s *Store) Stash() stash.Store { return stashtest.Over(s.core) }

// tx is one act while it is being written.
type tx struct {
	*stashtest.Tx
	more
}

// PutPattern inserts or replaces a pattern.
func (t tx) PutPattern(ctx context.Context, p pattern.Pattern) error {
	if p.ID == stash.NoID || strings.TrimSpace(p.Name) == "" {
		return &stash.Error{Kind: stash.Invalid, What: "The pattern has no ID or no name", Do: "Give it a name"}
	}
	return t.Put(patternKind, p.ID, p)
}

// PutGarment inserts or replaces a garment.
func (t tx) PutGarment(ctx context.Context, g garment.Garment) error {
	if g.ID == stash.NoID || strings.TrimSpace(g.Name) == "" {
		return &stash.Error{Kind: stash.Invalid, What: "The garment has no ID or no name", Do: "Give it a name"}
	}
	return t.Put(garmentKind, g.ID, g)
}

// PutPerson inserts or replaces a person.
func (t tx) PutPerson(ctx context.Context, p sizing.Person) error {
	if p.ID == stash.NoID {
		return &stash.Error{Kind: stash.Invalid, What: "The person has no number of its own"}
	}
	return t.Put(personKind, p.ID, p)
}

// PutBatch inserts or replaces a batch.
func (t tx) PutBatch(ctx context.Context, b planner.Batch) error {
	if b.ID == stash.NoID {
		return &stash.Error{Kind: stash.Invalid, What: "The batch has no number of its own"}
	}
	return t.Put(batchKind, b.ID, b)
}

// PutSettings replaces the settings.
func (t tx) PutSettings(ctx context.Context, s planner.Settings) error {
	return t.Put(settingsKind, stash.NoID, s)
}
