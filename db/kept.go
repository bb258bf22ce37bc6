package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"time"

	"tallycloth/planner"
	"tallycloth/stash"
)

// stampForm is how the moment of a back-up stands in its name, in UTC.
const stampForm = "20060102-150405.000000"

// backupName reads the name of a back-up: why it was made, the form it was brought to, when.
var backupName = regexp.MustCompile(`^(day|before-form|before-list|before-return)(-\d+)?-(\d{8}-\d{6}\.\d{6})\.db$`)

// KeepBackup writes a checked copy of the library into its folder of back-ups.
func (l *Library) KeepBackup(ctx context.Context, why planner.BackupWhy) (planner.Backup, error) {
	b, err := l.keepBackup(ctx, l.pool, why, "")
	if err != nil {
		return planner.Backup{}, fmt.Errorf("keeping a back-up: %w", err)
	}
	return b, nil
}

func (l *Library) keepBackup(ctx context.Context, d *sql.DB, why planner.BackupWhy, form string) (planner.Backup, error) {
	folder := filepath.Join(l.folder, backups)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return planner.Backup{}, explainTarget(err)
	}
	at := stash.Stamp(l.now())
	path := filepath.Join(folder, fmt.Sprintf("%s%s-%s.db", why, form, at.Format(stampForm)))
	if err := backup(ctx, d, path); err != nil {
		return planner.Backup{}, err
	}
	info, err := os.Stat(path)
	if err != nil {
		return planner.Backup{}, err
	}
	return planner.Backup{Path: path, Why: why, At: at, Bytes: info.Size()}, nil
}

// Backups lists the back-ups in the library's folder, newest first.
func (l *Library) Backups(ctx context.Context) ([]planner.Backup, error) { return BackupsIn(l.folder) }

// BackupsIn lists the back-ups of the library in a folder, newest first, whether the library
// itself can be opened or not.
func BackupsIn(folder string) ([]planner.Backup, error) {
	folder, err := filepath.Abs(filepath.Join(folder, backups))
	if err != nil {
		return nil, err
	}
	entries, err := os.ReadDir(folder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, explainFolder(err)
	}
	var all []planner.Backup
	for _, e := range entries {
		if b, ok := backupAt(filepath.Join(folder, e.Name())); ok {
			all = append(all, b)
		}
	}
	slices.SortStableFunc(all, func(a, b planner.Backup) int { return b.At.Compare(a.At) })
	return all, nil
}

// backupAt reads what the name of a back-up says.
func backupAt(path string) (planner.Backup, bool) {
	m := backupName.FindStringSubmatch(filepath.Base(path))
	if m == nil {
		return planner.Backup{}, false
	}
	at, err := time.Parse(stampForm, m[3])
	if err != nil {
		return planner.Backup{}, false
	}
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() {
		return planner.Backup{}, false
	}
	return planner.Backup{Path: path, Why: planner.BackupWhy(m[1]), At: at, Bytes: info.Size()}, true
}

// DropBackups removes back-ups from the library's folder; nothing else can be removed by it.
func (l *Library) DropBackups(_ context.Context, spare []planner.Backup) error {
	for _, b := range spare {
		known, ok := backupAt(filepath.Join(l.folder, backups, filepath.Base(b.Path)))
		if !ok {
			continue
		}
		if err := removeIfThere(known.Path); err != nil {
			return fmt.Errorf("removing a back-up that is not kept any longer: %w", explainFolder(err))
		}
	}
	return nil
}
