//go:build !race

package batch_test

// glpkCases is how many random cases are compared with GLPK.
const glpkCases = 300
