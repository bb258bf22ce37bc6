package stash

import (
	"tallycloth/stash/measure"

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
	Value measure.Percent `json:",omitzero"`
	Known bool            `json:",omitzero"` // false: not measured, Value is meaningless and Assumed fills in
}

// Measured returns a known reading.
func Measured(p measure.Percent) Reading { return Reading{Value: p, Known: true} }

// Grain is how a fabric behaves along one grain.
type Grain struct {
	Stretch   Reading `json:",omitzero"` // (Ls − L0)/L0
	Growth    Reading `json:",omitzero"` // (Lr − L0)/L0, "stays longer"
	Recovery  Reading `json:",omitzero"` // (Ls − Lr)/(Ls − L0), share of the extension
	Narrowing Reading `json:",omitzero"` // (w0 − ws)/w0 while stretched
	Shrinkage Reading `json:",omitzero"` // dimensional change in washing, negative when it shrinks
}

// Fabric is a material, whatever cloth of it is left.
type Fabric struct {
	ID           ID             `json:",omitzero"`
	Name         string         `json:",omitzero"`
	Construction Construction   `json:",omitzero"`
	Fibres       Fibres         `json:",omitzero"`
	Weight       measure.Weight `json:",omitzero"` // zero: not known
	FullWidth    measure.Length `json:",omitzero"` // selvedge to selvedge as it lies; for tubular the flat width
	Tubular      bool           `json:",omitzero"`
	SelvedgeLoss measure.Length `json:",omitzero"` // at each selvedge
	Buy          measure.Length `json:",omitzero"` // so much is on the shopping list
	BuyFor       string         `json:",omitzero"` // what for
	Lengthwise   Grain          `json:",omitzero"`
	Crosswise    Grain          `json:",omitzero"`
	Direction    Direction      `json:",omitzero"`
	RepeatAlong  measure.Length `json:",omitzero"` // print repeat lengthwise, zero when none
	RepeatAcross measure.Length `json:",omitzero"`
	SameBothFace bool           `json:",omitzero"` // true: no distinct face, a mirrored piece may be one turned over
	Thickness    measure.Length `json:",omitzero"`
	Colour       string         `json:",omitzero"` // "#rrggbb"
	ColourName   string         `json:",omitzero"`
	Care         string         `json:",omitzero"`
	Supplier     string         `json:",omitzero"`
	Notes        string         `json:",omitzero"`
	Stitches     []StitchNote   `json:",omitzero"`
	Bench        []BenchReading `json:",omitzero"` // stretch tests, oldest first
	Strips       []StripNote    `json:",omitzero"` // binding strips that worked, oldest first
	Tags         []string       `json:",omitzero"`
}
