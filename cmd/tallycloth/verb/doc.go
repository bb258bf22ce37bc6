// Package verb answers one question: how is the work done without a window?
//
// Each verb is one sentence of a person at the cutting table ("check this
// leftover against that pattern"), done by one method of planner.Studio and told
// in plain words or, with --json, in documented fields for scripts.
//
// The package must not know the window toolkit: the verbs start fast and work on
// machines without a display. Only package main brings in the window.
//
// Open program.go first, then check.go for a verb that is typical.
package verb
