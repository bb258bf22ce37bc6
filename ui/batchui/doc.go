// Package batchui answers one question: what does a person see and do at the place Batch?
// On one side what is wanted, row by row; on the other which cloth may be used, and once it
// is planned the layouts cloth by cloth, the garments, what cannot be made and what to buy,
// and kept plans side by side. The package must not know how a plan is found.
// Open batch.go first, then planning.go.
package batchui
