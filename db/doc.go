// Package db answers one question: how is a library kept in a file so that nothing
// is lost?
//
// A library is a folder: library.db (SQLite, photos in it), back-ups, and a lock
// that one program holds. Library is a planner.Store, and through Stash a stash.Store; the
// contracts are written there.
//
// # What holds where
//
// Every act is one immediate transaction on the one writing connection: its row,
// what it changed of records, and its lines of history are saved together
// or not at all. Readers have their own pool and see the last committed act.
//
// By the database itself, whatever a program does to it:
//
//   - lines of history, acts and changes are never edited or deleted, records never
//     deleted (triggers; recursive triggers are on, so that INSERT OR REPLACE cannot
//     pass them by);
//   - the history explains every quantity: a cloth row carries the sum of its lines,
//     kept and guarded by triggers, and a generated column that is NULL only when the
//     sum is what is there; it refers, deferred, to an empty table, so an act with an
//     unexplained quantity cannot be committed;
//   - no more is reserved on a cloth than its area, in the same way;
//   - fibres reach 100 %, codes are unique, values are in range, names refer to
//     records that exist (CHECK, foreign keys with RESTRICT, STRICT tables).
//
// By this package in the same transaction, before it commits (check.go): live
// reservations on a cloth lie within it and do not overlap, as exact outlines; what
// reservations became, and where leftovers came from, is in the lines; nothing
// refers to what was taken back. All writing passes through here, one act at a time.
//
// # Undo
//
// What changed is kept short (delta.go), or the history of a large library would be most
// of it. A record that an undone act made stays as a row with present = 0. Undo gives every
// changed record the document it had before and reverses every line by a new one,
// in a new act; Redo does the same to the undo. Both refuse when a record is no
// longer as the act left it, and name the act that came after.
//
// # Large libraries
//
// A library is looked through for damage before it opens, a large one while it is open
// (watch.go): then nothing more is written once damage is found. Lists are read in one go
// and held in memory; nothing is asked row by row.
//
// # Versions
//
// migrations holds numbered files that only go forward. An older library is backed
// up into its folder before it is brought up to date; a newer one is refused. A
// migration that rebuilds a table must switch foreign keys off before its transaction
// (-- +goose NO TRANSACTION) and run foreign_key_check before it commits.
//
// The package must not know rules of the trade beyond what stash tells it, nor
// windows. Open library.go first, then tx.go and undo.go; open.go for files.
package db
