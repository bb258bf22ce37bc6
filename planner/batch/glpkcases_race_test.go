//go:build race

package batch_test

// glpkCases: the race detector needs a few only; all are compared without it (make figures).
const glpkCases = 30
