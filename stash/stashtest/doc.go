// Package stashtest answers one question: does a Store keep what package stash
// promises?
//
// Store is a complete stash.Store in memory, for tests of whatever needs one. Run
// is the suite that every Store must pass, Compare drives two of them through the
// same random acts. Core is what Store is made of, for in-memory stores that keep
// more kinds of record.
//
// The package must not know SQL nor garments; it is for tests and samples only.
//
// Open suite.go first for what is promised, core.go for the store.
package stashtest
