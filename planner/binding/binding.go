package binding

import "tallycloth/stash/measure"

// Technique is a way to finish an edge with a strip.
type Technique string

// The techniques, by the trade's words. Formulas of the cut width in CutWidth.
const (
	WrappedTurned Technique = "wrapped, both edges turned"
	WrappedFlat   Technique = "wrapped, inner edge flat"
	DoubleWrap    Technique = "double-layer wrap"
	FoldedBand    Technique = "folded band"
	FoldedFacing  Technique = "folded facing turned in"
	Prefinished   Technique = "prefinished band"
)

// Finish is how an edge is finished.
type Finish struct {
	Technique Technique
	Width     measure.Length // finished width f
	Seam      measure.Length // s
	Turn      measure.Length // turn-of-cloth c
	Caught    measure.Length // x, for WrappedFlat
	// SecondRow is a second row of stitching this far from the fold, zero for none.
	SecondRow measure.Length
}

// Segment is one part of an edge, measured on the stitching line.
type Segment struct {
	Name    string
	Length  measure.Length // L
	Turning float64        // θ in radians, positive where the garment lies outside the curve
	Free    bool           // a strap or tie: nothing is sewn to it
	Mark    string         // the mark at its end
	NoJoin  bool
	// Typed ratio, or zero to work it out.
	Ratio float64
}

// Job is one kind of strip to make.
type Job struct {
	Name     string
	Segments []Segment
	Closed   bool
	Count    int // how many such strips
	Finish   Finish
	HoldIn   float64        // k, 0.92–0.98; zero takes 0.95
	Drawn    float64        // how far free parts are drawn out in sewing, 0.03
	EndExtra measure.Length // per free end, trimmed after trying on
	JoinSeam measure.Length // seam of a join
	JoinAt45 bool
	// Passes is the girth a closed opening must pass, zero when it need not.
	Passes     measure.Length
	PassesName string
}

// FabricFacts is what the strip's fabric brings.
type FabricFacts struct {
	Stretch, Recovery, Narrowing measure.Percent
	Assumed                      bool
	Knit                         bool
}

// StripPart is a segment on the strip.
type StripPart struct {
	Segment Segment
	Ratio   float64
	Length  measure.Length // on the strip
	From    measure.Length // from the strip's end, allowance included
	Sewn    float64        // how much the sewn edge stretches, fraction
	Fold    float64        // how much the free fold stretches, fraction
}

// Mark is a place on the strip.
type Mark struct {
	Name       string
	FromEnd    measure.Length
	FromCentre measure.Length // signed
	OnEdge     measure.Length // where it lies on the garment's edge
}

// Strip is what one Job comes to.
type Strip struct {
	Job       Job
	CutWidth  measure.Length
	Length    measure.Length // to cut, allowances and joins' seams excluded
	CutLength measure.Length // with end seams and extras
	Parts     []StripPart
	Marks     []Mark
	Checks    []Check
}

// Check is one check in words.
type Check struct {
	OK   bool
	Text string
	Do   string // what to change when it is not
}

// Source is cloth strips may be cut from: so many strips of so much usable length across.
type Source struct {
	Name   string
	Across measure.Length // usable length of a strip cut across it
	Along  measure.Length // usable length lengthwise
}

// Piece is a length of strip cut from a source.
type Piece struct {
	Source   int
	Index    int            // which strip across the source
	From, To measure.Length // along that strip
	StripNo  int            // which strip it belongs to, in order of jobs and counts
	Part     int            // 0, 1, … along the strip
}

// CutPlan says which lengths to cut and where the joins fall.
type CutPlan struct {
	Pieces []Piece
	// Joins are distances from each strip's start, by strip number.
	Joins map[int][]measure.Length
	// Taken is the fabric used lengthwise, by source.
	Taken  []measure.Length
	Strips []int // strips cut across, by source
}
