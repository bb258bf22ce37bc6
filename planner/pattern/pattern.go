package pattern

import (
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Pattern is everything a pattern says: sizes, what it asks of its fabrics, its
// pattern pieces, edges to finish and the order of work.
type Pattern struct {
	ID     stash.ID
	Name   string
	Maker  string // who drafted it, or ""
	Kind   string // tank, tee, shorts, …
	Notes  string
	Sizes  []Size // in grading order
	Levels []Level
	Roles  []Role
	Yards  []YardageRow
	Pieces []Piece
	Edges  []Edge
	// SeamAllowance is already inside the outlines unless a piece says otherwise.
	SeamAllowance, HemAllowance measure.Length
	Notions                     []NotionNeed
	Work                        []Step
	// Approximate says that the outlines were drafted from measurements alone, not taken
	// from a pattern. Each is then longer by Spare at either end than it would be
	// otherwise, so that layouts of them hold.
	Approximate bool           `json:",omitzero"`
	Spare       measure.Length `json:",omitzero"`
}

// Size is one size of a pattern. Body and Finished are girths and lengths by level name.
type Size struct {
	Name     string
	Front    string // the cup the front is drafted for, or ""
	Body     map[string]measure.Length
	Finished map[string]measure.Length
}

// Level is a place where body and garment are compared: bust, high bust, waist, hip, length.
type Level struct {
	Name  string
	Girth bool // a girth (ease is a share of it) rather than a length
}

// The usual level names.
const (
	HighBust = "high bust"
	Bust     = "bust"
	Waist    = "waist"
	Hip      = "hip"
	Thigh    = "thigh"
	BodyLen  = "length"
)

// Role is a use of fabric in a garment and what it asks.
type Role struct {
	Name string // main, contrast, binding, lining
	// StretchAround and StretchAlong are the least bench stretch around the body and up and down; zero asks nothing.
	StretchAround, StretchAlong measure.Percent
	Recovery                    measure.Percent // least recovery (share of the extension), zero asks nothing
	WeightMin, WeightMax        measure.Weight  // zero is no limit
	Knit                        bool            // only knits serve
	Optional                    bool
}

// The usual role names.
const (
	Main     = "main"
	Contrast = "contrast"
	Binding  = "binding"
	Lining   = "lining"
)

// YardageRow is one row of the yardage table.
type YardageRow struct {
	Role      string
	Sizes     []string // empty: all
	Width     measure.Length
	WithNap   bool
	Length    measure.Length
	Shrinkage bool // the row already allows for shrinkage
}

// GrainRule says how a pattern piece lies on the grain.
type GrainRule int

// The grain rules.
const (
	Lengthwise GrainRule = iota // grain line along the selvedge
	Crosswise                   // the grain line of the piece runs across the cloth
	Bias
)

// Piece is one pattern piece.
type Piece struct {
	Code string // "A", "1"
	Name string
	Role string
	// Cut is how many; Pairs says they are cut in mirrored pairs (Cut counts both).
	Cut   int
	Pairs bool
	// OnFold: the outline is half of the piece, its fold edge on y = 0, the piece in y ≥ 0.
	OnFold bool
	Grain  GrainRule
	Fixed  bool // no tilt
	// Outlines by size name, in the piece's own frame: the grain line runs along
	// x, its top end towards −x, so that unturned pieces point to the cloth's start.
	Outlines map[string]Outline
	// ApartFromSeam: outlines lack their seam allowance, so the tool must add it before a layout.
	WithoutAllowance bool
}

// Outline is a pattern piece in one size.
type Outline struct {
	Cut     shape.Ring // cutting line, counter-clockwise, µm
	Notches []Notch    // on the cutting line
	Dots    []shape.Point
	Inner   [][]shape.Point // fold lines, stitching hints, open paths
	// Grain is the grain line as drawn: its foot and its top.
	GrainFoot, GrainTop shape.Point
	MatchMarks          []MatchMark
	// Edges are stretches of the stitching line that edges to finish refer to by name.
	Edges []EdgePath
}

// Notch is a mark on the cutting line, pointing inwards.
type Notch struct {
	At   shape.Point
	Kind string // single, double
}

// MatchMark says where a stripe must meet on pattern pieces that share its name.
type MatchMark struct {
	Name string
	X    int64
}

// EdgePath is a stretch of a stitching line of one piece, as a polyline of
// µm points running in order, the garment on its left-hand side.
type EdgePath struct {
	Name   string // "neck front", "armhole front"
	Points []shape.Point
	// Turn is the signed total turning in radians, positive where the garment lies
	// outside the curve (neckline, armhole).
	Turn float64
	// Halved: the path is half of the segment because the piece is on the fold.
	Halved bool
}

// Edge is an edge to finish: an opening or a hem of the finished garment.
type Edge struct {
	Name     string // neck, armhole, leg
	Count    int    // how many of it (two armholes)
	Closed   bool   // a ring
	Passes   string // what the closed opening must pass: head, shoulders, bust, hip, or ""
	Segments []EdgeSegment
	Finish   string         // technique proposed, see package binding
	Width    measure.Length // finished width proposed
}

// EdgeSegment is one part of an edge to finish, in order.
type EdgeSegment struct {
	Name  string // front, back, strap
	Piece string // code of the pattern piece that has the path, or "" for a free length
	Path  string // EdgePath.Name
	Times int    // how often the path comes (both halves of a fold: 2)
	// Free is the length of a free part (strap, tie) by size name, when Piece is "".
	Free map[string]measure.Length
	// MarkEnd names the mark at the segment's end: shoulder, side seam, strap point.
	MarkEnd string
	NoJoin  bool // a join may not fall here
	// JoinHere wishes a join, if there is one, at the mark at the segment's end.
	JoinHere bool
	// Catches names an edge finished earlier whose end is caught at the segment's end, or "".
	Catches string
}

// NotionNeed is what a pattern asks besides fabric.
type NotionNeed struct {
	Name     string
	Kind     string
	Quantity map[string]float64 // by size; "" for all
	Unit     string
}

// Step is one step of the order of work.
type Step struct {
	Text  string
	TryOn bool   // a stop: try on, then go on
	Asks  string // what is noted at the stop: "take-in", "strap length"
}
