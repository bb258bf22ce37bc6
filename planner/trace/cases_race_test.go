//go:build race

package trace_test

// Under the race detector a few photos show what it can show; the share that holds is
// asked for without it (make figures).
const cases, mustHold = 3, false
