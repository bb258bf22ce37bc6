package planner

import (
	"time"

	"tallycloth/planner/binding"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Studio is what the window and the verbs work with: every action of a person
// is one method, which is one act in the library.
type Studio struct {
	Store
	now     func() time.Time
	newID   func() stash.ID
	workers int
}

// Config is what a Studio needs from outside.
type Config struct {
	Store   Store
	Now     func() time.Time
	NewID   func() stash.ID
	Workers int // for long searches; 0 means one
}

// NewStudio returns a Studio over a store.
func NewStudio(c Config) *Studio {
	if c.Workers < 1 {
		c.Workers = 1
	}
	return &Studio{Store: c.Store, now: c.Now, newID: c.NewID, workers: c.Workers}
}

// PurchaseForm is a purchase of one length, as a person logs it.
type PurchaseForm struct {
	FabricID stash.ID     // a known fabric, or NoID and Fabric below
	Fabric   stash.Fabric // a new fabric (ID ignored)
	Date     stash.Date
	Supplier string
	Length   measure.Length
	Price    measure.Money // for the length; zero value when not said
	Lot      string
	Place    string
	Washed   bool
	Trued    bool // both ends are straight already
}

// LeftoverForm is a leftover that was there before the library.
type LeftoverForm struct {
	FabricID      stash.ID
	Fabric        stash.Fabric   // a new one, where FabricID is none
	Outline       shape.Polygon  // or empty and the two below
	Length, Width measure.Length // rectangle
	Lot, Place    string
	Washed        bool
	SelvedgeLow   bool
	SelvedgeHigh  bool
	Notes         string
}

// StretchTest is one bench test along one grain; all lengths > 0. Width readings may be zero (not taken).
type StretchTest struct {
	Crosswise                   bool
	Before, Stretched, After    measure.Length
	WidthBefore, WidthStretched measure.Length
}

// Search is a question to the shelf.
type Search struct {
	PatternID stash.ID
	Size      string
	Role      string // "" is main
	// For is the garment it is for, whose adjustments count; NoID: the pattern as it is drawn.
	For stash.ID
	// Strips: also cut the garment's strips that this role or a missing binding role asks for.
	Strips bool
}

// Finding is the answer for one cloth.
type Finding struct {
	Cloth   stash.ClothState
	Verdict match.Verdict
}

// Making is the answer for one pattern, size and role on a cloth.
type Making struct {
	Pattern pattern.Pattern
	Size    string
	Role    string
	Verdict match.Verdict
}

// BindingAsk is what strips are wanted.
type BindingAsk struct {
	Jobs     []binding.Job
	FabricID stash.ID   // for its stretch; NoID: not known
	ClothIDs []stash.ID // cloth to cut from, in order of preference; may be empty
}

// BindingAnswer is the strips and, where cloth was named, how they are cut.
type BindingAnswer struct {
	Strips []binding.Strip
	Plan   binding.CutPlan
	Cloths []stash.ClothState // by source index of the plan
	// Where lists, by source, the pieces of the plan in the cloth's frame, in the plan's order.
	Where [][]shape.Ring
	Short measure.Length // strip length that found no cloth, zero when all did
}

// NewID returns an ID for a new record.
func (s *Studio) NewID() stash.ID { return s.newID() }
