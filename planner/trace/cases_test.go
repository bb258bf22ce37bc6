//go:build !race

package trace_test

// cases is how many photos are traced; mustHold that the share that holds is asked for.
const cases, mustHold = 200, true
