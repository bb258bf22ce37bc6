// Package match answers one question: is this cloth enough for that pattern, in
// this size and for this use?
//
// A Question is an Ask made ready; it looks at the fabric first (knit, stretch,
// recovery, weight), then at the quantity: proved by a layout that package nest
// found and checked where the pattern has outlines, estimated from the yardage
// table where it has none. The answer is a Verdict: a grade, what it rests on,
// reasons as numbers, conditions, what is to spare or short. Sentences are made
// elsewhere. Sweep answers for a whole shelf.
//
// A layout can be taken in hand (Hand), gone on from by a longer search (KeepTrying),
// and is then checked as a whole by the rules of cutting (Faults).
//
// Verdicts keep two promises, each tested: a longer plain length never gets a
// worse one, and reserving a part of a cloth never gets it a better one.
//
// The package must not know stores, garments' lives nor wording.
//
// Open match.go first (what is asked and answered), then question.go, plain.go
// and leftover.go; for layouts in hand: hand.go, recheck.go, trying.go.
package match
