// Package measure answers one question: how much is it, and how does a person
// read and write that?
//
// Lengths are whole micrometres, areas square micrometres, percents hundredths
// of a percent, weights mg/m², money minor units of an ISO 4217 currency. What a
// person types in either system of units is read exactly (in rational numbers)
// and rounded once to the whole unit inside; what the tool writes is rounded for
// reading by a Style, or written in full by Style.Exact, which reads back as the
// same length.
//
// A text that cannot be read gives a *TextError, which says what was wrong and
// what would be accepted.
//
// The package imports nothing of this program and must not know what is measured:
// fabrics, outlines and prices live elsewhere.
//
// Open measure.go first (the units), then parse.go and format.go.
package measure
