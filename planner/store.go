package planner

import (
	"context"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Settings are the few choices of the person, kept in the library.
type Settings struct {
	Units         measure.System
	Clearance     measure.Length  // between pattern pieces, default 3 mm (common practice)
	EndLoss       measure.Length  // at a raw end, default 2 cm (common practice)
	Tilt          shape.Angle     `json:",omitzero"` // how far a pattern piece may lie off its grain, at most 2°
	TightLength   measure.Length  // below this spare length a verdict is "tight", default 2 cm
	TightWidth    measure.Length  // default 1 cm
	UsableStretch measure.Percent // share of bench stretch that is used, default 80 % (ours)
	ShopIncrement measure.Length  // lengths the shop sells in, default 10 cm
	Currency      string          // ISO 4217
	DarkTheme     string          // "light", "dark", "high contrast" or "" for the system's
	TextPercent   int             // 80–160
	// Paper is what reports are printed on, "A4" or "Letter"; "" is A4.
	Paper string `json:",omitempty"`
	// Rates join totals of several currencies, for as long as the person likes them.
	Rates stash.Rates `json:",omitzero"`
	// Classes are words for how far a fabric stretches, by limits.
	Classes stash.StretchClasses `json:",omitzero"`
	// Seam and Hem are the allowances of drafted outlines; zero is the usual of package draft.
	Seam, Hem measure.Length `json:",omitzero"`
	// KeepSquare is the side of a square that a leftover worth keeping holds, KeepStrip the width of
	// a strip across that makes a narrower one worth it; zero is the usual of package leftover.
	KeepSquare, KeepStrip measure.Length `json:",omitzero"`
	// Backups is how many back-ups stay; the zero value is UsualBackups.
	Backups BackupRule `json:",omitzero"`
	// Techniques are ways to finish an edge that the person added.
	Techniques OwnTechniques `json:",omitempty"`
}

// DefaultSettings are what a new library starts with.
func DefaultSettings() Settings {
	return Settings{
		Units: measure.Metric, Clearance: 3 * measure.Millimetre, EndLoss: 2 * measure.Centimetre,
		TightLength: 2 * measure.Centimetre, TightWidth: measure.Centimetre, UsableStretch: 80 * measure.OnePercent,
		ShopIncrement: 10 * measure.Centimetre, Currency: "EUR", TextPercent: 100,
	}
}

// Reader is everything that can be asked of a library.
type Reader interface {
	stash.Reader
	PeopleReader
	Patterns(ctx context.Context) ([]pattern.Pattern, error) // by name
	Pattern(ctx context.Context, id stash.ID) (pattern.Pattern, error)
	Garments(ctx context.Context) ([]garment.Garment, error) // newest change first
	Garment(ctx context.Context, id stash.ID) (garment.Garment, error)
	Batches(ctx context.Context) ([]Batch, error) // newest change first, without those dropped
	Batch(ctx context.Context, id stash.ID) (Batch, error)
	Settings(ctx context.Context) (Settings, error)
}

// Tx is what a rule may do inside one act.
type Tx interface {
	stash.Tx
	Patterns(ctx context.Context) ([]pattern.Pattern, error)
	Pattern(ctx context.Context, id stash.ID) (pattern.Pattern, error)
	Garments(ctx context.Context) ([]garment.Garment, error)
	Garment(ctx context.Context, id stash.ID) (garment.Garment, error)
	PutPattern(ctx context.Context, p pattern.Pattern) error
	PutGarment(ctx context.Context, g garment.Garment) error
	Batch(ctx context.Context, id stash.ID) (Batch, error)
	PutBatch(ctx context.Context, b Batch) error
	PutSettings(ctx context.Context, s Settings) error
	Person(ctx context.Context, id stash.ID) (sizing.Person, error)
	PutPerson(ctx context.Context, p sizing.Person) error
}

// Store keeps the whole library, stash included, so that one act is one transaction.
type Store interface {
	Reader
	PastReader
	UsesKeeper
	HabitsKeeper
	Write(ctx context.Context, sentence string, f func(Tx) error) (stash.Act, error)
	Undo(ctx context.Context) (stash.Act, error)
	Redo(ctx context.Context) (stash.Act, error)
	// OnChange calls f after every committed act, from any goroutine; stop ends it.
	OnChange(f func(stash.Act)) (stop func())
	// Backup writes a whole, verified copy of the library as a new file.
	Backup(ctx context.Context, path string) error
	// KeepBackup writes such a copy into the library's own folder of back-ups.
	KeepBackup(ctx context.Context, why BackupWhy) (Backup, error)
	// Backups lists those there are, newest first.
	Backups(ctx context.Context) ([]Backup, error)
	// DropBackups removes some of them.
	DropBackups(ctx context.Context, spare []Backup) error
	// Compare says what would change if a back-up took the library's place.
	Compare(ctx context.Context, path string) (Returning, error)
	// ReadOnly says why the library cannot be written, or "".
	ReadOnly() string
}
