package db

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"

	"tallycloth/planner"

	"github.com/pressly/goose/v3"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

// latestVersion is the number of the newest migration, which is the version of
// the library's form that this program writes.
func latestVersion() int64 {
	names, err := fs.Glob(migrationFiles, "migrations/*.sql")
	if err != nil || len(names) == 0 {
		panic("no migrations are embedded")
	}
	number, _, _ := strings.Cut(filepath.Base(names[len(names)-1]), "_")
	v, err := strconv.ParseInt(number, 10, 64)
	if err != nil {
		panic(fmt.Sprintf("migration %s has no number", names[len(names)-1]))
	}
	return v
}

// migrate runs the migrations that are not applied yet, each in a transaction.
func migrate(ctx context.Context, d *sql.DB) error {
	files, err := fs.Sub(migrationFiles, "migrations")
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, d, files, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return fmt.Errorf("preparing to bring the library up to date: %w", err)
	}
	if _, err := p.Up(ctx); err != nil {
		return fmt.Errorf("bringing the library up to date: %w", err)
	}
	return nil
}

// upgrade brings an older library up to date, after a back-up into its folder.
func (l *Library) upgrade(ctx context.Context, version int64) error {
	if version == latestVersion() {
		return nil
	}
	if _, err := l.keepBackup(ctx, l.writer, planner.BeforeForm, fmt.Sprintf("-%d", latestVersion())); err != nil {
		return fmt.Errorf("backing up before the library is brought up to date: %w", err)
	}
	if err := migrate(ctx, l.writer); err != nil {
		return err
	}
	return soundness(ctx, l.writer, "integrity_check")
}
