// Package leftover answers one question: what is left of a cloth once parts are cut from
// it, and what of that is worth keeping?
//
// Of takes the true outline that remains, parts it where it hangs together by less than
// a usable width, and judges slivers by direction: a narrow rest across the width can
// still be a binding strip, a narrow one along the length is waste. Each leftover comes
// with its own outline, selvedges and largest straight rectangle.
//
// Nothing is written here: package planner turns what is kept into cloths and lines of
// history, and what is neither cut nor kept is discarded, to the last square micrometre.
package leftover
