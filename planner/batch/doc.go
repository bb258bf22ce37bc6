// Package batch answers one question: which garments of a batch can be made, each of
// their uses of fabric from which cloth?
//
// A Problem names rows of garments wanted alike, the uses of fabric (roles) of each, and
// the cloths. What fits on a cloth is not known here: a Layer is asked about loads, that
// is multisets of roles to be laid on one cloth together. Solve makes a first plan
// quickly (greedy.go), then tries further loads in rounds (candidate.go) and each time
// chooses anew among those that fit (choice.go). A bound from prices (bound.go) says
// how many garments any layouts could make.
//
// The package must not know fabrics, outlines, layouts or the window; clock and budget
// come from outside, and with a budget in rounds the answer is the same with any number of
// workers. It imports nothing of ours.
//
// Open problem.go first (the question), then plan.go (the answer), solve.go and round.go.
package batch
