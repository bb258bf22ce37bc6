//go:build !race

package demo_test

// shelves is how many random shelves are compared with a person's way.
const shelves = 50
