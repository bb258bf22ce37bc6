// Package texts answers: which texts may a person come to read, and in which place? It reads
// them out of the source (labels, hints, verdicts, refusals, words of verbs, paper and guide), so that
// the list cannot fall behind the program. What stays inside the program (names of
// widgets, questions to the library file, what is only compared) is left out. Open texts.go first, which
// names the places; source.go tells a text that is said from one that is not.
package texts
