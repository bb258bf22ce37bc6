package match

import (
	"tallycloth/planner/nest"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Grade is the verdict in one word.
type Grade int

// The verdicts, best first; lists sort by them.
const (
	Enough Grade = iota
	Tight
	EnoughIf
	CannotTell
	NotEnough
	Unsuitable
)

// Proof says what a verdict rests on.
type Proof int

// The proofs.
const (
	NoProof      Proof = iota
	ByLayout           // a checked layout
	ByYardage          // the yardage table, an estimate
	ByBound            // no layout can exist
	ByProperties       // the fabric itself
	BySearch           // looked for and not found in the steps given
)

// Condition is what "enough if" rests on.
type Condition int

// The conditions.
const (
	CutCrosswise Condition = iota
	OneLayer
	StripsJoined
	StretchAssumed
	RecoveryAssumed
	WeightAssumed
	WashFirst
	AddAllowance // the pattern's outlines lack their seam allowance and it is not known
)

// What a Reason is about.
const (
	Stretch   = "stretch"   // Asked, Has: 1/100 %
	Recovery  = "recovery"  // Asked, Has: 1/100 %
	Weight    = "weight"    // Asked, Has: mg/m²; Asked is the limit that is nearer
	Knit      = "knit"      // only knits serve
	Direction = "direction" // the fabric has a direction, so it cannot be cut crosswise
	Length    = "length"    // Asked, Has: µm of usable length
	Width     = "width"     // Asked, Has: µm of usable width; Asked is what the layout takes of it, or the widest pattern piece where none lies
	Area      = "area"      // Asked, Has: mm²
	Strips    = "strips"    // Asked: µm of the longest strip; Has: µm across
	Outline   = "outline"   // no place was found for all on this outline; Asked, Has: mm²
	Yardage   = "yardage"   // Asked, Has: µm of length by the yardage table
	Repeat    = "repeat"    // Asked: µm of print repeat, which is not matched from piece to piece
)

// Reason is one ground of a verdict, with its numbers; package ui/say makes the sentence.
type Reason struct {
	What  string // one of the constants above
	Grain string // crosswise, lengthwise or ""
	// Asked and Has are numbers in the unit that What says.
	Asked, Has int64
	Assumed    bool
	Bad        bool // it speaks against the cloth
	Missing    bool // it is not known: for "can't tell"
	// Of says, for a length or width, how Has comes from the cloth as it lies; zero where Has is a
	// part of it, or of a leftover.
	Of Counted
}

// Counted is how a length or width that counts comes from the cloth as it lies: less what raw ends
// or selvedges lose, less what washing takes.
type Counted struct {
	Whole, Lost measure.Length
	Washing     measure.Percent // negative
}

// If is a condition with its number.
type If struct {
	Condition Condition
	// Percent is the stretch or recovery asked, or the change in washing lengthwise.
	Percent measure.Percent
	Assumed bool // WashFirst: the change is assumed by the construction
}

// Verdict is the answer for one cloth.
type Verdict struct {
	ClothID stash.ID
	Grade   Grade
	Proof   Proof
	Reasons []Reason
	Ifs     []If
	// SpareLength is what stays free of the length beyond the layout, SpareWidth the widest lane
	// along all of it on which nothing lies.
	SpareLength, SpareWidth measure.Length
	Short                   measure.Length // how short, for NotEnough
	Layout                  *Layout        // when ByLayout
	// Keep is the length to keep when ByYardage, over the whole usable width, in the
	// cloth's frame; empty otherwise.
	Keep shape.Ring
}

// Layout is a checked layout on one cloth, as it is laid and as it lies on the open cloth.
type Layout struct {
	Instance nest.Instance
	Solution nest.Solution
	Frame    Frame
	// Pieces are the outlines as they will be cut, unfolded, in the cloth's frame.
	Pieces []PlacedPiece
	// StripParts is into how many parts strips laid among the pattern pieces are cut; 0: they
	// lie row by row next to the pattern pieces, or there are none.
	StripParts int
}

// Frame says how the cloth lay for the layout. The laid frame has x lengthwise
// from the usable start and y from the first fold, or from the usable low edge
// when there is none.
type Frame struct {
	Length, Width measure.Length // usable, as laid
	Origin        shape.Point    // of the laid frame in the cloth's frame
	// Folds are the depths of the folds: the first counted from the low usable
	// edge, a second from the high one; none: one layer.
	Folds     []measure.Length
	Crosswise bool
}

// PlacedPiece is a pattern piece in its place on the open cloth.
type PlacedPiece struct {
	Piece   string // code
	Name    string
	Role    string
	Copy    int
	Outline shape.Ring
	Place   shape.Placement
	Layer   int // 0 upper, 1 under
	// Part counts the parts of a joined strip from 0; 0 for pattern pieces and whole strips.
	Part int
}

// Ask is what cloth is compared with.
type Ask struct {
	Pattern pattern.Pattern
	Size    string
	Role    string
	// Strips to be cut from the same cloth, as rectangles length × cut width.
	Strips []StripAsk
	// StripsOf says, if not nil, how these strips are cut from a fabric, one for one; Strips are then
	// as they are where no fabric is known.
	StripsOf func(stash.Fabric) []StripAsk
	// ClearancePieces is the least distance between pattern pieces, default 3 mm.
	Clearance measure.Length
	// Fold: try folded first (true) or only in one layer.
	Fold bool
	// Tight are the limits below which a verdict is "tight".
	Tight TightLimits
	// EndLoss is what a raw end loses, default 2 cm (common practice).
	EndLoss measure.Length
	// Tilt is how far a pattern piece may lie off its grain, at most 2°. One that is fixed, lies on the fold or meets
	// a repeat never does, nor does a strip.
	Tilt shape.Angle
	// Steps bounds the search for a layout where the first one does not fit; zero takes the usual.
	Steps int64
}

// StripAsk is a binding strip to be cut on the crosswise grain.
type StripAsk struct {
	Name          string
	Length, Width measure.Length
	Count         int
	MayJoin       bool
	JoinLoss      measure.Length
}

// TightLimits say below what spare a verdict is tight.
type TightLimits struct{ Length, Width measure.Length }
