// Package list answers one question: what would a list that a person already keeps
// become in the library, row by row?
//
// A Table is rows of cells, from whatever file. Guess proposes a Mapping: which column
// says what, by headings and contents. Settle decides for each column how its numbers,
// days and units are written, from what is impossible, and asks where nothing decides
// it. Plan is the dry run: for each row what will be made, what it joins, or why it is
// refused and what to do. Write is the way back: the stash as a Table that Plan reads
// into the same records.
//
// The package must not know files, SQL, windows or the clock: IDs and the day are passed
// in, and what the library holds is in Known.
//
// Open field.go first (what a column can say), then mapping.go, plan.go and write.go.
package list
