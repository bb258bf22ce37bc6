//go:build race

package main

// every is how many screens on the one is looked at whose texts are looked up: drawing all of them is
// slow with the race detector.
const every = 12
