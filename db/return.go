package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"tallycloth/planner"
	"tallycloth/stash"
)

// counted are the tables whose records Compare counts.
var counted = []struct{ table, one, many string }{
	{"fabric", "fabric", "fabrics"},
	{"cloth", "length or leftover", "lengths and leftovers"},
	{"purchase", "purchase", "purchases"},
	{"pattern", "pattern", "patterns"},
	{"garment", "garment", "garments"},
	{"reservation", "reservation", "reservations"},
	{"notion", "notion", "notions"},
	{"photo", "photo", "photos"},
	{"person", "person", "people"},
	{"batch", "batch", "batches"},
}

// Compare says what would change if the back-up at path took the library's place. It is
// looked through whole first; nothing is changed.
func (l *Library) Compare(ctx context.Context, path string) (planner.Returning, error) {
	b, err := sound(ctx, path)
	if err != nil {
		return planner.Returning{}, err
	}
	d, err := sql.Open("sqlite3", readDSN(path)+"&immutable=1")
	if err != nil {
		return planner.Returning{}, err
	}
	defer d.Close() // nothing was written
	return read(ctx, l.reader, "comparing with a back-up", func(q queryer) (planner.Returning, error) {
		out := planner.Returning{Backup: b}
		err := compare(ctx, q, d, &out)
		return out, err
	})
}

// sound looks a back-up through.
func sound(ctx context.Context, path string) (planner.Backup, error) {
	info, err := os.Stat(path)
	if err != nil {
		return planner.Backup{}, &stash.Error{Kind: stash.NotFound, What: "There is no back-up at " + path, Do: "Choose another file", Err: err}
	}
	if err := verify(ctx, path); err != nil {
		if ctx.Err() != nil {
			return planner.Backup{}, err
		}
		return planner.Backup{}, &stash.Error{Kind: stash.Unsupported, What: "This file cannot be gone back to: it is no back-up, or it is damaged, or it is from a newer version", Do: "Choose another one", Err: err}
	}
	b, ok := backupAt(path)
	if !ok {
		b = planner.Backup{Path: path, At: info.ModTime(), Bytes: info.Size()}
	}
	return b, nil
}

func compare(ctx context.Context, now, then queryer, out *planner.Returning) error {
	has, err := acts(ctx, then)
	if err != nil {
		return err
	}
	here, err := all(ctx, now, selectAct+` ORDER BY seq DESC`, nil, scanAct)
	if err != nil {
		return err
	}
	common := 0
	for _, a := range here {
		if _, there := has[a.ID]; there {
			common++
			continue
		}
		if out.GoneAll++; len(out.Gone) < planner.GoneShown {
			out.Gone = append(out.Gone, a)
		}
	}
	out.Back = len(has) - common
	out.OtherOrigin = common == 0 && len(has) > 0 && len(here) > 0
	for _, at := range has {
		if at.After(out.Then) {
			out.Then = at
		}
	}
	for _, c := range counted {
		n := planner.ReturnCount{One: c.one, Many: c.many}
		if n.Now, err = count(ctx, now, c.table); err == nil {
			n.Then, err = count(ctx, then, c.table)
		}
		if err != nil {
			return err
		}
		out.Counts = append(out.Counts, n)
	}
	return nil
}

// acts are the acts of a library of any form, and when they were done.
func acts(ctx context.Context, q queryer) (map[stash.ID]time.Time, error) {
	out := map[stash.ID]time.Time{}
	_, err := all(ctx, q, `SELECT id, at FROM act`, nil, func(rows *sql.Rows) (none struct{}, err error) {
		var id []byte
		var at int64
		if err = rows.Scan(&id, &at); err == nil {
			out[stash.ID(id)] = time.UnixMicro(at).UTC()
		}
		return none, err
	})
	return out, err
}

// count is how many records of a table are there, 0 where a form has no such table.
func count(ctx context.Context, q queryer, table string) (n int, err error) {
	var there bool
	if err := q.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?)`, table).Scan(&there); err != nil || !there {
		return 0, explain(err)
	}
	var fades bool // records of this kind may be taken back
	if err := q.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM pragma_table_info(?) WHERE name = 'present')`, table).Scan(&fades); err != nil {
		return 0, explain(err)
	}
	query := `SELECT count(*) FROM ` + table
	if fades {
		query += ` WHERE present = 1`
	}
	return n, explain(q.QueryRowContext(ctx, query).Scan(&n))
}

// Return puts the back-up at path in the place of the library in a folder, which must be
// closed. The library as it was becomes a back-up first; one that is damaged is put aside
// as it lies, with its name said. Whenever the power fails, one of both is there.
func Return(ctx context.Context, folder, path string, now time.Time) (before string, err error) {
	lock, err := takeLock(filepath.Join(folder, lockName))
	if err != nil {
		return "", explainFolder(err)
	}
	defer func() { err = errors.Join(err, lock.release()) }()
	if _, err := sound(ctx, path); err != nil {
		return "", err
	}
	file := filepath.Join(folder, fileName)
	draft := file + ".new"
	if err := copyFile(path, draft); err != nil {
		return "", errors.Join(explainTarget(err), removeIfThere(draft))
	}
	if before, err = keepBeside(ctx, folder, now); err != nil {
		return "", errors.Join(err, removeIfThere(draft))
	}
	for _, end := range []string{"-wal", "-shm"} {
		if err := removeIfThere(file + end); err != nil {
			return "", explainFolder(err)
		}
	}
	if err := os.Rename(draft, file); err != nil {
		return "", explainFolder(err)
	}
	return before, syncFolder(folder)
}

// keepBeside makes a back-up of the library that is about to be replaced, and has nothing
// of it wait in the files beside it.
func keepBeside(ctx context.Context, folder string, now time.Time) (string, error) {
	file := filepath.Join(folder, fileName)
	if _, err := os.Stat(file); errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	l := &Library{folder: folder, now: func() time.Time { return now }}
	b, err := func() (planner.Backup, error) {
		d, err := sql.Open("sqlite3", writeDSN(file))
		if err != nil {
			return planner.Backup{}, err
		}
		d.SetMaxOpenConns(1)
		b, err := l.keepBackup(ctx, d, planner.BeforeReturn, "")
		if err == nil {
			_, err = d.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`)
		}
		return b, errors.Join(err, d.Close())
	}()
	var own *stash.Error
	if err == nil || !errors.As(err, &own) || own.Kind != stash.Unsupported && inspectHeader(file) == nil {
		return b.Path, err
	}
	return putAside(file, now)
}

// putAside keeps a damaged library as it lies, with what waits beside it.
func putAside(file string, now time.Time) (string, error) {
	aside := filepath.Join(filepath.Dir(file), backups, "damaged-"+now.UTC().Format(stampForm)+".db")
	if err := os.MkdirAll(filepath.Dir(aside), 0o755); err != nil {
		return "", explainTarget(err)
	}
	for _, end := range []string{"", "-wal"} {
		if err := copyFile(file+end, aside+end); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return "", explainTarget(err)
		}
	}
	return aside, nil
}

// copyFile copies a file into a new one and waits until the disk has it.
func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	if err == nil {
		err = out.Sync()
	}
	if err = errors.Join(err, out.Close()); err != nil {
		return fmt.Errorf("copying %s: %w", filepath.Base(from), err)
	}
	return nil
}
