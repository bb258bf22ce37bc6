package nest

import (
	"time"

	"tallycloth/stash/shape"
)

// Instance is one question to the engine: how do these items lie on these
// fabrics? It is never changed by Solve. Lengths are µm, the frame is that of
// package shape: x lengthwise from the cut end, y crosswise from a selvedge.
type Instance struct {
	Fabrics []Fabric
	Items   []Item
	Groups  []Group
	// Clearance is the least distance between two items, and between an item
	// and an obstacle, a hole or an edge of an Outline. Items may touch the
	// edges of a strip or a rectangle: the usable size already left its margin.
	Clearance int64
	Ask       Ask
}

// Ask says what is wanted of a solution.
type Ask int

const (
	// LeastLength lays every item on the single fabric, a strip, in as little length as possible.
	LeastLength Ask = iota
	// FitsAll asks for any layout of every item on the fabrics given.
	FitsAll
	// BestSubset asks for the items of greatest total Value that can be laid.
	// Items of one Group are taken together or not at all.
	BestSubset
)

// Fabric is a strip, a rectangle or a free outline.
//   - strip: Width set, Length zero, Outline empty (only for LeastLength);
//   - rectangle: Width and Length set, Outline empty;
//   - outline: Outline set; its own bounds are the limits.
type Fabric struct {
	Width, Length int64
	Outline       shape.Polygon
	// Obstacles are flaws and reserved areas: one thing to the engine.
	Obstacles []shape.Polygon
	// Bands split the width of folded cloth, from low y to high y. Empty means
	// one single-layer band over everything. An item lies within one band.
	Bands []Band
}

// Band is a range of y in which the cloth lies in so many layers.
type Band struct {
	From, To int64
	Layers   int  // 1 or 2
	FoldLow  bool // the line y = From is a fold
	FoldHigh bool // the line y = To is a fold
}

// Item is an outline and how it may be laid.
type Item struct {
	Outline shape.Ring // counter-clockwise, simple, includes its seam allowance
	Count   int        // how many; 0 means 1
	// Angles are the turns allowed relative to the group's angle; empty means {0}.
	Angles []shape.Angle
	// Tilt is how far each angle may be off, to either side; the engine tries a few steps of it.
	Tilt shape.Angle
	// Mirror says whether the outline may, or must, be laid mirrored about its grain line.
	Mirror Mirror
	// Group is an index into Instance.Groups, or NoGroup.
	Group int
	// Layers is how many layers the item must lie in: 1, 2, or 0 for any.
	Layers int
	// OnFold asks that the item's straight edge on its own line y = 0 lies on a
	// fold line; the outline lies in y ≥ 0. At a FoldHigh line it is laid mirrored.
	OnFold bool
	// Repeat, if > 0, asks that x of the item's origin ≡ Phase modulo Repeat (matched pattern pieces).
	Repeat, Phase int64
	// Value counts for BestSubset.
	Value int64
	// Pinned holds fixed places for the first len(Pinned) copies.
	Pinned []Pin
}

// Mirror says how an item may be laid.
type Mirror int

// The ways an item may lie.
const (
	AsDrawn    Mirror = iota // never mirrored
	Mirrored                 // always mirrored
	EitherFace               // either, as the engine likes
)

// NoGroup is the Group of an item that is on its own.
const NoGroup = -1

// Group is a set of items that share one turn, chosen by the engine from Angles
// (a garment's pattern pieces, all one way or all turned).
type Group struct{ Angles []shape.Angle }

// Pin is a fixed place on a fabric.
type Pin struct {
	Fabric int
	Place  shape.Placement
}

// Laid is one copy of an item in its place. Place.Angle is the full turn, group
// angle included.
type Laid struct {
	Item, Copy, Fabric int
	Place              shape.Placement
}

// Solution is a layout. Everything in it passed Check.
type Solution struct {
	Laid []Laid
	// Used is the length used on each fabric: greatest x of what is laid on it minus the fabric's start.
	Used []int64
	// Left lists the items and copies that found no place.
	Left []Copy
	// Value is the total Value laid.
	Value int64
}

// Copy names one copy of an item.
type Copy struct{ Item, Copy int }

// StopReason says why Solve returned.
type StopReason int

// The reasons.
const (
	Found       StopReason = iota // FitsAll or BestSubset: everything is laid
	Proved                        // LeastLength: no shorter layout exists
	Impossible                    // FitsAll, LeastLength: a bound proves that no layout exists; see Why
	BudgetSpent                   // steps or time ran out with what is in the solution
	Cancelled                     // the context ended
)

// Options govern a search. With Workers 1 and a Budget in Steps the same seed
// gives the same answer on any machine.
type Options struct {
	Seed uint64
	// Steps is a budget in steps of the search (deterministic); 0 means none. A step
	// is one fill of the cloth or 200 moves of single copies: some milliseconds.
	Steps   int64
	Time    time.Duration // budget in time; needs Clock
	Clock   func() time.Time
	Workers int // 0 means one
	// FirstOnly stops at the first layout that answers the question: all items for
	// LeastLength, any subset for BestSubset. FitsAll always stops at the first layout of
	// all items: where filling the cloth in a few orders leaves something over, it is
	// searched until the budget is spent. Without FirstOnly a share of the budget then
	// draws the layout together, for FitsAll and BestSubset, so that what is left of the
	// fabrics is one clean piece at the far end.
	FirstOnly bool
	// FillOnly gives up after filling the cloth in a few orders, without a search, for
	// callers that ask about many fabrics. It never refuses more than a search, only sooner.
	FillOnly bool
	// Start is a layout to continue from (hand-edited); pinned items stay.
	Start *Solution
	// Report, if not nil, is called from one goroutine at each improvement.
	Report func(Progress)
}

// Progress is what the search has so far.
type Progress struct {
	Best  Solution
	Steps int64
}

// Answer is what Solve returns.
type Answer struct {
	Solution Solution
	Reason   StopReason
	// Why says in plain words which bound proved Impossible, and by how much.
	Why Bound
}

// Bound is a proof that items cannot lie on the fabrics.
type Bound struct {
	Kind  BoundKind
	Item  int   // the item that is too long or too wide, or −1
	Other int   // of BoundPair: the second item, which may be the same; else −1
	Need  int64 // µm, or mm² for BoundArea
	Have  int64 // of BoundPair, lengths: what the two need at least; both 0 with several rooms
}

// BoundKind names a proof.
type BoundKind int

// The proofs.
const (
	NoBound     BoundKind = iota
	BoundArea             // the items' areas sum to more than the cloth's, or than that of the parts that serve them
	BoundWidth            // an item is wider than every part of the cloth that serves it, in every allowed angle
	BoundLength           // an item is longer than the cloth in every allowed angle
	BoundPair             // two items fit neither beside nor behind nor into each other
	BoundBand             // no band has the layers or the fold an item asks for
)
