// Package records answers one question: how are the figures of a studio told, the same in
// the window, without it, on paper and in a file for a spreadsheet program?
//
// Figures are sentences, a chart and a table of words, with the tables of numbers that go into
// a file. It must not know the toolkit, nor where the figures come from. Open figures.go first.
package records
