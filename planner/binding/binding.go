package binding

import "tallycloth/stash/measure"

// Finish is how an edge is finished. Lengths are zero or more, Width and Seam more than zero.
type Finish struct {
	Technique Technique
	Width     measure.Length // finished width f
	Seam      measure.Length // s
	Turn      measure.Length // turn-of-cloth c
	Caught    measure.Length // x, for WrappedFlat
	// SecondRow is a second row of stitching this far from the fold, zero for none.
	SecondRow measure.Length
	// Own is the rule of a technique that a person added; it holds where Technique is its name.
	Own Recipe
}

// Segment is one part of an edge, measured on the stitching line.
type Segment struct {
	Name    string
	Length  measure.Length // L
	Turning float64        // θ in radians, positive where the garment lies outside the curve
	Free    bool           // a strap or tie: nothing is sewn to it
	Mark    string         // the mark at its end
	NoJoin  bool           // no join may fall on it
	// JoinHere wishes a join, if there is one, at the mark at its end.
	JoinHere bool
	// Typed ratio, or zero to work it out.
	Ratio float64
	// Share weighs how much of a rule of thumb falls to it; zero goes by the curve.
	Share float64
	// CrossStart and CrossEnd are what earlier finishes that it crosses at its
	// ends add to its length: see Finish.Lengthens.
	CrossStart, CrossEnd measure.Length
	// Catches names the earlier strip whose end is caught at its end, or "".
	Catches string
}

// Whole returns the segment's length with what earlier finishes add to it.
func (s Segment) Whole() measure.Length { return s.Length + s.CrossStart + s.CrossEnd }

// Grain is the direction a strip is cut in.
type Grain int

// The grains of strips.
const (
	Crosswise  Grain = iota // from selvedge to selvedge
	Lengthwise              // along the selvedges
	Bias                    // at 45°, for wovens
)

// Job is one kind of strip to make.
type Job struct {
	Name     string
	Segments []Segment
	Closed   bool
	Count    int // how many such strips; zero means one
	Finish   Finish
	Grain    Grain
	HoldIn   float64 // k, 0.92–0.98; zero takes 0.95
	// By says how the ratios of sewn parts are found: ByCurve, ByLimit, ByRule or ByLast;
	// "" is ByRule where Rule is given, else ByCurve.
	By       Basis
	Rule     float64        // a rule of thumb for the whole edge (0.85), zero for none: see Work
	Drawn    float64        // how far free parts are drawn out in sewing, see DrawnOut
	EndExtra measure.Length // per free end, trimmed after trying on, see FreeEndExtra
	Lap      measure.Length // per free end, what lies over or through a ring
	JoinSeam measure.Length // seam of a join; zero takes the finish's seam
	JoinAt45 bool           // joined on the slant: see JoinTake
	// ClearElastic asks for clear elastic in the free parts.
	ClearElastic bool
	// Passes is the girth a closed opening must pass, zero when it need not.
	Passes     measure.Length
	PassesName string
	// EdgeStretch is the bench stretch of the garment's own edge; zero takes the strip's fabric.
	EdgeStretch measure.Percent
	// Lockstitch says that the seam is a plain straight lockstitch, which does not stretch.
	Lockstitch bool
	// Units are what lengths in the sentences of its checks are written in.
	Units measure.System
}

// FabricFacts is what the strip's fabric brings, in the direction of the strip. All
// zero means that nothing is known.
type FabricFacts struct {
	Stretch, Recovery, Narrowing measure.Percent // on the bench
	Assumed                      bool
	Knit                         bool
	// Usable is the share of bench stretch that is used; zero takes UsableShare.
	Usable measure.Percent
	// Across is the usable length of a strip cut in one, zero where it is not known.
	Across measure.Length
	// OneWay says that the fabric has a nap or a print that runs one way, lengthwise;
	// Repeat is the lengthwise repeat of its print, zero for none.
	OneWay bool
	Repeat measure.Length
	// Edge is the bench stretch of the garment's own edge where the strip is of something else;
	// zero takes Stretch.
	Edge measure.Percent
}

// of is what is known of a job's strip: of elastic that is bought by its width nothing, the fabric
// then only being that of the edge.
func (f FabricFacts) of(j Job) FabricFacts {
	if !j.Finish.Technique.Bought() {
		return f
	}
	return FabricFacts{Knit: f.Knit, Usable: f.Usable, Edge: f.Stretch}
}

// Basis says where a ratio comes from.
type Basis string

// The bases of a ratio.
const (
	ByCurve  Basis = "by the curve"
	ByLimit  Basis = "fabric's limit"
	ByRule   Basis = "rule of thumb"
	ByLast   Basis = "worked last time"
	ByHand   Basis = "typed"
	DrawnFor Basis = "drawn out in sewing" // free parts
)

// StripPart is a segment on the strip.
type StripPart struct {
	Segment Segment
	Ratio   float64
	Basis   Basis
	Curve   float64        // the ratio by the curve, to show beside a typed one
	Least   float64        // the fabric's limit, zero when it is not known
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
	OnEdge     measure.Length // where it lies on the garment's edge, from its start, free parts included
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
	// ClearElastic is cut 1:1 with the free parts as fitted; zero when not asked for.
	ClearElastic measure.Length
}

// Source is cloth strips may be cut from: so many strips of so much usable length across.
type Source struct {
	Name   string
	Across measure.Length // usable length of a strip cut across it
	Along  measure.Length // usable length lengthwise
	// Rank is its place in the order of preference, from 1; sources of one cloth may share
	// it. Zero takes its place in the list.
	Rank int
}

// Piece is a length of strip cut from a source.
type Piece struct {
	Source   int
	Index    int            // which strip across the source
	From, To measure.Length // along that strip
	At       measure.Length // where that strip begins lengthwise, from the source's start
	Width    measure.Length // cut width of that strip
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
	// Proved says that no better plan exists; see Plan for when it is false.
	Proved bool
	// Fewest is how many joins no plan can do without: each strip needs those it needs where the cloth reaches
	// farthest. See JoinsProved.
	Fewest int
	// Missing are the numbers of the strips for which there is no cloth; Short is their length.
	Missing []int
	Short   measure.Length
}
