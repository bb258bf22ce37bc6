// Package table answers one question: how do the rows of a CSV file or a workbook come
// in, and how do they go out so that other programs read the same?
//
// Read tells text from workbooks by what is in them, decides encoding and delimiter, and
// returns rows of cells with the lines they stand in. WriteCSV and WriteXLSX write
// tables so that no text becomes a formula: in CSV an apostrophe stands before such
// text, and Read takes it off again.
//
// Files that are cut off, too large, or unpack to too much are refused with a sentence.
// The package must not know what columns mean: that is package list.
//
// Open read.go first, then text.go, csv.go, workbook.go, write.go and save.go.
package table
