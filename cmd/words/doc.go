// Command words prints every text that a person may come to read: labels, hints, verdicts, errors
// and the words of verbs, each once, with where it stands, so that they can be read in one go. Its test
// keeps programmer's terms and second spellings out. Open words.go first.
package main
