package db

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"

	"tallycloth/stash"
)

// applicationID marks a library's file; it stands in the header of every SQLite
// file at byte 68 (sqlite.org, Database File Format, section 1.3).
const applicationID = 1414285635 // "TLYC" in ASCII

// inspect says whether a file is a library that this program reads, and which
// version its form has. It changes nothing.
func inspect(ctx context.Context, path, dsn string) (version int64, err error) {
	if err := inspectHeader(path); err != nil {
		return 0, err
	}
	d, err := sql.Open("sqlite3", dsn)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, d.Close()) }()
	d.SetMaxOpenConns(1)
	if !isLarge(path) {
		if err := soundness(ctx, d, "quick_check"); err != nil {
			return 0, err
		}
	}
	err = d.QueryRowContext(ctx, `SELECT coalesce(max(version_id), 0) FROM goose_db_version WHERE is_applied = 1`).Scan(&version)
	if cannotOpen(err) || ctx.Err() != nil {
		return 0, err
	}
	if err != nil {
		return 0, damaged(err)
	}
	if version > latestVersion() {
		return 0, &stash.Error{
			Kind: stash.Unsupported, What: fmt.Sprintf("The library is from a newer version of the program (form %d, this one reads up to %d)", version, latestVersion()),
			Do: "Install the newer version; the library was not changed",
		}
	}
	return version, nil
}

// inspectHeader looks at the first bytes of the file.
func inspectHeader(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return explainFolder(err)
	}
	defer f.Close()
	header := make([]byte, 100)
	n, err := io.ReadFull(f, header)
	switch {
	case n == 0:
		return damaged(errors.New("the file is empty"))
	case err != nil:
		return damaged(fmt.Errorf("reading its first bytes: %w", err))
	case !bytes.HasPrefix(header, []byte("SQLite format 3\x00")):
		return damaged(errors.New("the file does not begin as a library does"))
	case binary.BigEndian.Uint32(header[68:]) != applicationID:
		return &stash.Error{Kind: stash.Unsupported, What: "The file is a database, but not a library of this program", Do: "Choose the library's own folder"}
	}
	return nil
}

// soundness runs a check of SQLite's own, quick_check or integrity_check, and
// foreign_key_check.
func soundness(ctx context.Context, d *sql.DB, check string) error {
	said, err := all(ctx, d, `PRAGMA `+check, nil, scanText)
	if cannotOpen(err) || ctx.Err() != nil {
		return err
	}
	if err != nil {
		return damaged(err)
	}
	if len(said) != 1 || said[0] != "ok" {
		return damaged(fmt.Errorf("%s says %q", check, said))
	}
	broken, err := all(ctx, d, `SELECT "table" FROM pragma_foreign_key_check LIMIT 5`, nil, scanText)
	if err != nil {
		return damaged(err)
	}
	if len(broken) > 0 {
		return damaged(fmt.Errorf("records that are named are missing, in %q", broken))
	}
	return nil
}
