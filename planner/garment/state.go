package garment

import (
	"fmt"
	"slices"

	"tallycloth/stash"
)

// order is the life of a garment that is made.
var order = []State{Wanted, Reserved, Cut, Sewing, Fitted, Finished}

// States lists the states in the order of a garment's life, given up last.
func States() []State { return append(slices.Clone(order), GivenUp) }

// Known says whether s is one of the states.
func (s State) Known() bool { return slices.Contains(order, s) || s == GivenUp }

// Step counts states from 0 (wanted) to 5 (finished); −1 for given up and unknown ones.
func (s State) Step() int { return slices.Index(order, s) }

// Next returns the state that comes next; "" after finished and given up.
func (s State) Next() State {
	if i := s.Step(); i >= 0 && i+1 < len(order) {
		return order[i+1]
	}
	return ""
}

// Open says whether there is still something to do.
func (s State) Open() bool { return s != Finished && s != GivenUp && s.Known() }

// CanBecome says whether a garment may go from one state to another: one step on, from
// sewing straight to finished (not everything is tried on), back from reserved to
// wanted, back from fitted to sewing, given up while it is open, and wanted again
// after it was given up. The error says what to do instead.
func (s State) CanBecome(to State) error {
	switch {
	case !to.Known():
		return &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf("A garment cannot be %q", string(to)), Do: "Choose one of its states"}
	case to == s, to == s.Next() && to != "":
		return nil
	case to == GivenUp && s.Open(), s == GivenUp && to == Wanted:
		return nil
	case s == Reserved && to == Wanted, s == Fitted && to == Sewing, s == Sewing && to == Finished:
		return nil
	}
	do := "It is done"
	if next := s.Next(); next != "" {
		do = fmt.Sprintf("Its next step is %q", string(next))
	}
	return &stash.Error{Kind: stash.Conflict, What: fmt.Sprintf("A garment that is %s cannot become %s", string(s), string(to)), Do: do}
}
