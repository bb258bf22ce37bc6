//go:build race

package demo_test

// shelves: under the race detector two show what it can show; without it there are fifty.
const shelves = 2
