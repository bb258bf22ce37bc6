package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"tallycloth/stash"

	"github.com/google/uuid"
	"github.com/mattn/go-sqlite3"
)

// The names in a library's folder.
const (
	fileName    = "library.db"
	lockName    = "library.lock"
	photoFolder = "photos" // made by earlier versions; always empty
	backups     = "backups"
)

// Options say how a library is opened. The zero value opens it for writing with
// the system's clock and random IDs.
type Options struct {
	ReadOnly bool
	Now      func() time.Time // time.Now when nil
	NewID    func() stash.ID  // UUIDv7 when nil
}

// Open opens the library in a folder, for writing unless o says otherwise. A folder
// that is not there or empty gets a new library; one with other files does not.
//
// Errors are *stash.Error and say what to do:
//
//   - Conflict: another program has the library open (named), or the folder cannot
//     be written; both can be opened read-only.
//   - Unsupported: not a library, damaged, from a newer version of the program, or
//     from an older one and opened read-only, so that it cannot be brought up to date.
//   - NotFound: nothing to open read-only.
//
// A library that is refused was not changed.
func Open(ctx context.Context, folder string, o Options) (*Library, error) {
	l, err := open(ctx, folder, o)
	if err != nil {
		return nil, fmt.Errorf("opening the library in %s: %w", folder, err)
	}
	return l, nil
}

func open(ctx context.Context, folder string, o Options) (*Library, error) {
	folder, err := filepath.Abs(folder)
	if err != nil {
		return nil, err
	}
	l := &Library{folder: folder, now: o.Now, newID: o.NewID, listeners: map[int]func(stash.Act){}}
	if l.now == nil {
		l.now = time.Now
	}
	if l.newID == nil {
		l.newID = func() stash.ID { return uuid.Must(uuid.NewV7()) }
	}
	path := filepath.Join(folder, fileName)
	if o.ReadOnly {
		return l, l.openReadOnly(ctx, path)
	}
	if err := l.openForWriting(ctx, path); err != nil {
		return nil, errors.Join(err, l.lock.release())
	}
	return l, nil
}

// openForWriting locks the folder, makes the library if there is none, checks it,
// brings it up to date and opens both pools.
func (l *Library) openForWriting(ctx context.Context, path string) error {
	err := prepareFolder(l.folder)
	if err == nil {
		l.lock, err = takeLock(filepath.Join(l.folder, lockName))
	}
	if err != nil {
		return explainFolder(err)
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		if err := create(ctx, path); err != nil {
			return explainFolder(err)
		}
	}
	version, err := inspect(ctx, path, readDSN(path))
	if err != nil {
		return err
	}
	if l.writer, err = sql.Open("sqlite3", writeDSN(path)); err != nil {
		return err
	}
	l.writer.SetMaxOpenConns(1)
	if err := l.upgrade(ctx, version); err != nil {
		return errors.Join(explain(err), l.writer.Close())
	}
	return l.openPool(path, readDSN(path))
}

// openPool opens the readers, and has a large library looked through meanwhile.
func (l *Library) openPool(path, dsn string) (err error) {
	if l.place, err = placeOf(path); err != nil {
		return explainFolder(err)
	}
	l.still = l.place.still
	if l.pool, err = sql.Open("sqlite3", dsn); err == nil && isLarge(path) {
		l.watch = begin(dsn)
	}
	return err
}

// openReadOnly opens what is there without touching it. A folder that cannot be
// written has no place for the files SQLite reads a library in use with; with no
// writer there it is read as it lies.
func (l *Library) openReadOnly(ctx context.Context, path string) error {
	if _, err := os.Stat(path); err != nil {
		return &stash.Error{Kind: stash.NotFound, What: "There is no library", Do: "Choose the folder that has the file " + fileName, Err: err}
	}
	dsn := readDSN(path)
	version, err := inspect(ctx, path, dsn)
	if cannotOpen(err) && !hasWAL(path) {
		dsn += "&immutable=1"
		version, err = inspect(ctx, path, dsn)
	}
	if cannotOpen(err) {
		return &stash.Error{
			Kind: stash.Conflict, What: "The library was not closed, and its folder cannot be written, so that it cannot be read either",
			Do: "Copy the whole folder to a place you may write to, and open it there", Err: err,
		}
	}
	if err != nil {
		return err
	}
	if version < latestVersion() {
		return &stash.Error{
			Kind: stash.Unsupported, What: "The library is from an older version of the program",
			Do: "Open it once for writing, which brings it up to date and keeps a back-up",
		}
	}
	l.readOnly = "it was opened read-only"
	return l.openPool(path, dsn)
}

// cannotOpen says whether SQLite could not make the files beside the library that it
// needs for reading.
func cannotOpen(err error) bool {
	var e sqlite3.Error
	return errors.As(err, &e) && (e.Code == sqlite3.ErrCantOpen || e.Code == sqlite3.ErrReadonly)
}

// hasWAL says whether saved acts may be waiting beside the library's file.
func hasWAL(path string) bool {
	_, err := os.Stat(path + "-wal")
	return !errors.Is(err, fs.ErrNotExist)
}

// prepareFolder makes the folder and refuses one with other files and no library.
func prepareFolder(folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	return onlyOurs(entries)
}

// onlyOurs refuses a folder with a file of others in it and no library.
func onlyOurs(entries []os.DirEntry) error {
	other := ""
	for _, e := range entries {
		switch name := e.Name(); {
		case name == fileName:
			return nil
		case name == lockName, name == photoFolder, name == backups, strings.HasPrefix(name, fileName), strings.HasPrefix(name, "."):
		default:
			other = name
		}
	}
	if other != "" {
		return &stash.Error{
			Kind: stash.Unsupported, What: fmt.Sprintf("The folder holds other files (%s) and no library", other),
			Do: "Choose the library's folder, or an empty one for a new library",
		}
	}
	return nil
}

// explainFolder says what to do about a folder that cannot be written.
func explainFolder(err error) error {
	var own *stash.Error
	if errors.As(err, &own) {
		return err
	}
	return &stash.Error{Kind: stash.Conflict, What: "The folder cannot be written", Do: "Check its permissions and the disk, or open the library read-only", Err: err}
}

// create makes a new library beside its place and moves it there whole.
func create(ctx context.Context, path string) error {
	draft := path + ".new"
	for _, end := range []string{"", "-wal", "-shm", "-journal"} {
		if err := os.Remove(draft + end); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	d, err := sql.Open("sqlite3", writeDSN(draft))
	if err != nil {
		return err
	}
	d.SetMaxOpenConns(1)
	if err := errors.Join(migrate(ctx, d), d.Close()); err != nil {
		return fmt.Errorf("making a new library: %w", err)
	}
	if err := os.Rename(draft, path); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(path))
}

// writeDSN and readDSN name the library with the options that each connection
// needs; a PRAGMA sent later would reach one connection of the pool only. The writer may
// hold 32 MB of an act before it spills into the file.
func writeDSN(path string) string {
	return uri(path) + "?_foreign_keys=on&_journal_mode=WAL&_busy_timeout=5000&_txlock=immediate&_synchronous=FULL&_recursive_triggers=on&_cache_size=-32000"
}

func readDSN(path string) string { return uri(path) + "?mode=ro&_busy_timeout=5000&_foreign_keys=on" }

func uri(path string) string {
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}).String()
}

// syncFolder makes names in a folder survive a power cut.
func syncFolder(folder string) error {
	d, err := os.Open(folder)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
