// Package plannertest answers one question: how is a service tested without a
// database? Store is a complete planner.Store in memory, built on the one for the
// stash. It is for tests and samples only.
package plannertest
