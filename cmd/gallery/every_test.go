//go:build !race

package main

// every is how many screens on the one is looked at whose texts are looked up: all of them.
const every = 1
