// Package drawntest answers one question: what do independent programs make of a drawing, and how
// far is one outline from another? It serves the tests of the readers alone. Open inkscape.go,
// off.go and large.go.
package drawntest
