package batch

import (
	"context"
	"errors"
	"fmt"
	"slices"
)

// Row is a number of garments wanted alike.
type Row struct {
	// Count is how many are wanted, at least 1.
	Count int
	// Priority 1 is first; garments of a lower number count before any of a higher.
	Priority int
	// Roles are the uses of fabric of one garment, at least one; role 0 is the main one.
	Roles []Role
}

// Role is one use of fabric of a garment of a row.
type Role struct {
	// Area is the least area it covers, in µm²: for bounds.
	Area int64
	// Follows says that the role's lot depends on the lot of role 0: Problem.Goes tells.
	Follows bool
}

// Cloth is one piece of fabric that loads can be laid on.
type Cloth struct {
	// Lot is one number for the cloths of one fabric and lot.
	Lot int
	// Area is the free usable area in µm²: for bounds.
	Area int64
	// Whole says that it is a whole length that nothing is cut from yet; else a leftover.
	Whole bool
	// First says that it is to be used up first.
	First bool
}

// Gauge is a quantity like area: what a cloth has of it, and what one copy of each task takes
// at least, however they are laid. Takes has a number for every role of every row, in order.
type Gauge struct {
	Have  int64
	Takes []int64
}

// Task is one use of fabric of the garments of a row, by their indices.
type Task struct{ Row, Role int }

// Pin wants at least N copies of a task on a cloth, if they can lie there in garments that
// are made. Keeping pins comes before everything else: a pin is what a person has decided.
type Pin struct {
	Task
	Cloth int
	N     int
}

// Criterion is what plans that make the same garments are compared by.
type Criterion int

// The criteria, in the default order.
const (
	// UseFirst wants most of the cloths marked First cut into.
	UseFirst Criterion = iota
	// FewestWhole wants the fewest whole lengths cut into.
	FewestWhole
	// LeastWaste wants the smallest sum of waste.
	LeastWaste
	// FewestCloths wants the fewest cloths handled.
	FewestCloths
)

// defaultOrder is used where a problem gives none.
var defaultOrder = []Criterion{UseFirst, FewestWhole, LeastWaste, FewestCloths}

// Problem is what is wanted and what it may be made from.
type Problem struct {
	Rows   []Row
	Cloths []Cloth
	// Goes says whether a role that follows may be cut from a lot where role 0 is cut from
	// another (or the same); nil: only from the same lot.
	Goes func(row, role, lot, mainLot int) bool
	// Gauges lists quantities of a cloth beside its area, for bounds; nil: there are none.
	Gauges func(cloth int) []Gauge
	// Order is how plans that make the same garments are compared: a permutation of all
	// criteria; nil is the default order.
	Order []Criterion
	// Pins are tasks that must be cut from given cloths if the garment is made.
	Pins []Pin
}

// Verdict is the answer about a load on a cloth.
type Verdict int

// The verdicts.
const (
	// Unknown: not found with this effort.
	Unknown Verdict = iota
	// Fits: a layout was found and checked.
	Fits
	// Impossible: proved that there is none.
	Impossible
)

// Layer lays loads on cloths. It is called from several goroutines. Answers are kept by the
// solver by cloth, load and effort. What fits must be closed downwards: a load without some of
// its tasks fits where the load fits.
type Layer interface {
	// Lay tries with an effort: 0 bounds and quick filling, 1, 2 … longer searches, up to
	// Options.MostEffort. The waste is in µm² and not negative when it Fits. ref names the
	// layout for the caller and is kept with the answer.
	Lay(ctx context.Context, cloth int, load Load, effort int) (v Verdict, waste int64, ref int, err error)
}

// ErrProblem marks a problem that makes no sense.
var ErrProblem = errors.New("the batch cannot be planned")

// Validate says what makes no sense, as an ErrProblem.
func (p Problem) Validate() error {
	fault := func(format string, a ...any) error {
		return fmt.Errorf("%w: %s", ErrProblem, fmt.Sprintf(format, a...))
	}
	for i, r := range p.Rows {
		if r.Count < 1 || r.Count > mostCount {
			return fault("row %d wants %d garments", i, r.Count)
		}
		if len(r.Roles) == 0 || r.Roles[0].Follows {
			return fault("row %d has no main role, or one that follows itself", i)
		}
		for j, role := range r.Roles {
			if role.Area < 0 {
				return fault("role %d of row %d has a negative area", j, i)
			}
		}
	}
	for i, c := range p.Cloths {
		if c.Area < 0 {
			return fault("cloth %d has a negative area", i)
		}
	}
	if o := slices.Clone(p.Order); p.Order != nil {
		if slices.Sort(o); !slices.Equal(o, defaultOrder) {
			return fault("the order %v does not name each criterion once", p.Order)
		}
	}
	for _, pin := range p.Pins {
		if !p.has(pin.Task) || pin.Cloth < 0 || pin.Cloth >= len(p.Cloths) || pin.N < 1 {
			return fault("the pin %+v is about nothing there is", pin)
		}
	}
	return nil
}

// mostCount keeps counts inside 16 bits.
const mostCount = 10_000

func (p Problem) has(t Task) bool {
	return t.Row >= 0 && t.Row < len(p.Rows) && t.Role >= 0 && t.Role < len(p.Rows[t.Row].Roles)
}

func (p Problem) order() []Criterion {
	if p.Order == nil {
		return defaultOrder
	}
	return p.Order
}

func (p Problem) area(t Task) int64 { return p.Rows[t.Row].Roles[t.Role].Area }

// goes answers for roles that follow and for those that do not.
func (p Problem) goes(t Task, lot, mainLot int) bool {
	switch {
	case !p.Rows[t.Row].Roles[t.Role].Follows:
		return true
	case p.Goes == nil:
		return lot == mainLot
	}
	return p.Goes(t.Row, t.Role, lot, mainLot)
}
