// Package nesttest answers one question: which layouts should the engine be tried
// on? It makes questions at random from a seed, always the same ones for the
// same seed, and questions whose answer is known because the pattern pieces were
// cut from the fabric.
//
// It is for tests only, knows the contract of planner/nest and nothing of how it
// searches. Open random.go first.
package nesttest
