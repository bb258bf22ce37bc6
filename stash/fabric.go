package stash

import (
	"time"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"github.com/google/uuid"
)

// ID names a record for ever. It is a UUIDv7, so that order by ID is order by birth.
type ID = uuid.UUID

// NoID is the ID of nothing.
var NoID ID

// Construction is how a fabric is made; what was not measured is assumed from it.
type Construction string

// The constructions the tool knows assumptions for.
const (
	Jersey      Construction = "jersey"
	Rib         Construction = "rib"
	Interlock   Construction = "interlock"
	FrenchTerry Construction = "french terry"
	Sweatshirt  Construction = "sweatshirt fleece"
	Ponte       Construction = "ponte"
	SwimKnit    Construction = "swim knit"
	Mesh        Construction = "mesh"
	PowerNet    Construction = "power net"
	Velour      Construction = "velour"
	WovenPlain  Construction = "woven plain"
	WovenTwill  Construction = "woven twill"
	OtherKnit   Construction = "other knit"
	OtherWoven  Construction = "other woven"
)

// Direction says which ways the top of a pattern piece may point.
type Direction int

// The three values of direction.
const (
	SameWayInGarment Direction = iota // the default for knits: they shade
	EitherWay
	SameWayForAll // pile, one-way print
)

// Reading is a percent that may not have been measured yet.
type Reading struct {
	Value measure.Percent
	Known bool // false: not measured, Value is meaningless and Assumed fills in
}

// Measured returns a known reading.
func Measured(p measure.Percent) Reading { return Reading{Value: p, Known: true} }

// Grain is how a fabric behaves along one grain.
type Grain struct {
	Stretch   Reading // (Ls − L0)/L0
	Growth    Reading // (Lr − L0)/L0, "stays longer"
	Recovery  Reading // (Ls − Lr)/(Ls − L0), share of the extension
	Narrowing Reading // (w0 − ws)/w0 while stretched
	Shrinkage Reading // dimensional change in washing, negative when it shrinks
}

// Fabric is a material, whatever cloth of it is left.
type Fabric struct {
	ID           ID
	Name         string
	Construction Construction
	Fibres       Fibres
	Weight       measure.Weight // zero: not known
	FullWidth    measure.Length // selvedge to selvedge as it lies; for tubular the flat width
	Tubular      bool
	SelvedgeLoss measure.Length // at each selvedge
	Lengthwise   Grain
	Crosswise    Grain
	Direction    Direction
	RepeatAlong  measure.Length // print repeat lengthwise, zero when none
	RepeatAcross measure.Length
	SameBothFace bool // true: no distinct face, a mirrored piece may be one turned over
	Thickness    measure.Length
	Colour       string // "#rrggbb"
	ColourName   string
	Care         string
	Supplier     string
	Notes        string
	Stitches     []StitchNote
	Tags         []string
}

// StitchNote is a setting that worked on this fabric.
type StitchNote struct {
	Seam, Stitch         string
	Width, Length        string // as the machine's dial says
	Feed, Needle, Thread string
	Note                 string
}

// Cloth is one physical length or leftover of a fabric.
type Cloth struct {
	ID       ID
	FabricID ID
	Code     string // short, for its label, unique in the library
	Lot      string
	Place    string // where it is kept
	// Length × Width is the cloth when Outline is empty; else they are its bounds.
	Length, Width measure.Length
	// Outline is a leftover's true outline with its flaws and cut-outs as holes,
	// in the cloth's own frame; empty for a plain length.
	Outline shape.Polygon
	// RawStart and RawEnd: the end is not trued yet and loses 2 cm. Plain lengths only.
	RawStart, RawEnd bool
	// Selvedges says whether the edges at y = 0 and y = Width are selvedges (leftovers may have lost them).
	SelvedgeLow, SelvedgeHigh bool
	Washed                    bool
	CutFrom                   ID   // the cloth it was cut from, or NoID
	PurchaseID                ID   // or NoID
	Gone                      bool // used up, given away or discarded; kept for history
	Notes                     string
}

// Purchase is what was bought in one go, at one shop.
type Purchase struct {
	ID       ID
	Date     Date
	Supplier string
	Lines    []PurchaseLine
	Postage  measure.Money // shared over the lines by value
	Tax      measure.Money
	Notes    string
}

// PurchaseLine is one fabric length of a purchase.
type PurchaseLine struct {
	FabricID ID
	ClothID  ID
	Quantity measure.Length
	Price    measure.Money // for the whole line
}

// Date is a calendar day, "2006-01-02".
type Date string

// On returns the day of t in t's own zone.
func On(t time.Time) Date { return Date(t.Format("2006-01-02")) }

// MovementKind is what happened to a cloth.
type MovementKind string

// The kinds of movement.
const (
	Bought        MovementKind = "bought"
	Added         MovementKind = "added" // a leftover that was there before the library
	MeasuredAgain MovementKind = "measured again"
	Trued         MovementKind = "trued"
	Washed        MovementKind = "washed"
	Reserved      MovementKind = "reserved"
	Released      MovementKind = "released"
	Cut           MovementKind = "cut"
	LeftOver      MovementKind = "returned as leftover"
	GivenAway     MovementKind = "given away"
	Discarded     MovementKind = "discarded"
	Reversed      MovementKind = "reversed"
)

// Movement is one line of history: never edited, only reversed by another line.
type Movement struct {
	ID      ID
	ActID   ID
	Seq     int64 // order in the ledger, given by the store
	At      time.Time
	Kind    MovementKind
	ClothID ID
	// Area is the signed change of the cloth's area; Length of its length. Zero
	// for reserving and releasing, which change what is free, not what is there.
	Area   measure.Area
	Length measure.Length
	// GarmentID and ReservationID say what for, or NoID.
	GarmentID, ReservationID ID
	Reverses                 ID // the movement that this one takes back, or NoID
	Note                     string
}

// Reservation is cloth kept for one garment: outlines as they are laid on it.
type Reservation struct {
	ID        ID
	ClothID   ID
	GarmentID ID
	UsedFor   string // main, contrast, binding, lining
	Pieces    []ReservedPiece
	Live      bool // false once released or cut
	At        time.Time
}

// ReservedPiece is one placed outline in the cloth's frame.
type ReservedPiece struct {
	Name    string
	Outline shape.Ring
	GrainTo shape.Point // where the top of its grain arrow points: a unit-ish vector, µm
}

// Notion is thread, elastic, needles, hardware.
type Notion struct {
	ID       ID
	Name     string
	Kind     string
	Quantity float64
	Unit     string
	Reorder  float64
}

// Act is one thing the person did: a time and a sentence to which ledger lines
// and changed records belong. Undo writes a reversing act.
type Act struct {
	ID       ID
	Seq      int64
	At       time.Time
	Sentence string
	Undoes   ID // the act taken back by this one, or NoID
	Undone   bool
}
