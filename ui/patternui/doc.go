// Package patternui answers one question: what patterns are there, and which cloth is
// enough for one of them? The place lists patterns by their silhouettes, shows for one
// its sizes, pattern pieces and what it asks, brings outlines in from drawings, and
// compares the shelf with a pattern. It must not know SQL, nor how cloth is compared.
// Open patterns.go first, then find.go and outlines.go.
package patternui
