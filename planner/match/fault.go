package match

import (
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// FaultKind says which rule of cutting a placed pattern piece breaks.
type FaultKind int

// The rules, the gravest first: where a piece breaks several, the first of them is told.
const (
	Missing      FaultKind = iota // a pattern piece is laid less often than it is cut
	TooMany                       // or more often
	OtherOutline                  // the outline is not the pattern piece's in this size
	OffCloth                      // it reaches beyond what can be cut
	OverFlaw                      // it lies over a flaw
	OverPiece                     // it lies over another piece
	OverReserved                  // it lies over what is reserved
	OffGrain                      // its grain line does not lie as the piece asks
	WrongWay                      // it points against the direction of the fabric
	OffFold                       // its fold edge does not lie on a fold
	NotDouble                     // it is cut double, and does not lie wholly on the double cloth
	NotPaired                     // the two layers of a pair do not lie on each other
	NotMirrored                   // a pair needs the other face
	OffRepeat                     // its match mark does not meet the print repeat as the others do
	TooNear                       // it keeps less than the clearance
	Unproved                      // the last check of the whole layout did not pass
)

// Fault is one rule that a layout breaks.
type Fault struct {
	Kind FaultKind
	// Piece and Other are places in Layout.Pieces; −1 for a pattern piece that is
	// missing, and where there is no other.
	Piece, Other int
	Name, With   string // names of the two pattern pieces; With is "" where it is no piece
	// Over is the outline it lies over or too near to; nil where there is none.
	Over shape.Ring
	// By is how deep it lies over, or the clearance it should keep; zero for other rules.
	By measure.Length
	// Asked and Has are how often a pattern piece is cut and laid, for Missing and TooMany.
	Asked, Has int
}

// Gravest keeps of each pattern piece the gravest fault, in the order of the pieces;
// what is missing comes first. Of two pieces that lie over each other both are told.
func Gravest(all []Fault) []Fault {
	var out []Fault
	at := map[int]int{}
	for _, f := range all {
		k, ok := at[f.Piece]
		switch {
		case f.Piece < 0 || !ok:
			at[f.Piece] = len(out)
			out = append(out, f)
		case f.Kind < out[k].Kind || f.Kind == out[k].Kind && f.By > out[k].By && f.Kind != TooNear:
			out[k] = f
		}
	}
	return out
}
