package garment

import (
	"tallycloth/planner/adjust"
	"tallycloth/planner/binding"
	"tallycloth/stash"
)

// State is where a garment is in its life.
type State string

// The states in order.
const (
	Wanted   State = "wanted"
	Reserved State = "reserved"
	Cut      State = "cut"
	Sewing   State = "sewing"
	Fitted   State = "fitted"
	Finished State = "finished"
	GivenUp  State = "given up"
)

// Garment is one garment to make or made.
type Garment struct {
	ID        stash.ID
	Name      string
	PatternID stash.ID
	Size      string
	Variant   string
	For       string
	State     State
	Wanted    stash.Date // when it is wanted for, or ""
	Changed   stash.Date
	Notes     string
	// Strips are the binding strips worked out for it.
	Strips []StripRecord
	// Stitches are the notes of its fabrics as they were when it was cut, and what was
	// noted since: later changes of a fabric leave them as they are.
	Stitches []StitchNote
	// Adjustments change the pattern for this garment, in their order.
	Adjustments []adjust.Step `json:",omitempty"`
	// Record is what else is noted of it, see Record.
	Record Record `json:",omitzero"`
}

// StitchNote is a setting that worked on the garment.
type StitchNote struct {
	stash.StitchNote
	FabricID stash.ID // that it is for, or NoID
}

// StripRecord is a strip as it was worked out, kept with the garment.
type StripRecord struct {
	Edge   string
	Strip  binding.Strip
	FromID stash.ID // the cloth its fabric is reserved on, or NoID
}
