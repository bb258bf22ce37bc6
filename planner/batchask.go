package planner

import (
	"cmp"
	"fmt"
	"slices"

	"tallycloth/planner/adjust"
	"tallycloth/planner/batch"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// Batch is a number of garments wanted from a shelf: what, from which cloth, by which rules,
// and the plan for it once there is one. Several may be kept side by side.
type Batch struct {
	ID      stash.ID
	Name    string
	Rows    []Wanted
	May     MayUse
	Order   []batch.Criterion // empty: the usual order
	Pins    []BatchPin        `json:",omitempty"`
	Changed stash.Date
	Plan    *BatchPlan `json:",omitempty"`
	Dropped bool       `json:",omitempty"` // not shown any more
}

// Wanted is a row: garments wanted alike.
type Wanted struct {
	PatternID stash.ID
	Size      string
	Variant   string     `json:",omitempty"`
	For       string     `json:",omitempty"` // whom, or what
	PersonID  stash.ID   `json:",omitzero"`  // whose size it is, if it was proposed for somebody
	Count     int        // 0 means 1
	Priority  int        // 1 first; 0 means 1
	Date      stash.Date `json:",omitempty"`
	// Colours are wished for the main fabric, as "#rrggbb": any of them, within Near.
	Colours []string `json:",omitempty"`
	Near    float64  `json:",omitempty"` // as stash.ColourDifference; 0 means ColourNear
	// Uses say what each use of fabric may be cut from; those left out take AnyFabric for
	// main and SameFabric for all else.
	Uses []UseRule `json:",omitempty"`
	// Adjustments change the pattern for the garments of this row, before their cloth is cut.
	Adjustments []adjust.Step `json:",omitempty"`
}

// From says what a use of fabric may be cut from.
type From string

// The rules.
const (
	AnyFabric   From = "any"       // any that suits
	SameFabric  From = "same"      // of the fabric and lot of the main use
	NamedFabric From = "named"     // of the fabrics named
	GoesWith    From = "goes with" // whose colour is within Within of the main fabric's
	Skipped     From = "none"      // this use is not planned here
)

// How far a colour may lie from another, as CIEDE2000 (ours): ColourNear where nothing is
// said, clearly of one family; ColourClose for hardly another; ColourLoose for related.
const (
	ColourClose = 10.0
	ColourNear  = 20.0
	ColourLoose = 35.0
)

// UseRule says what one use of fabric may be cut from.
type UseRule struct {
	Role    string
	From    From
	Fabrics []stash.ID `json:",omitempty"` // NamedFabric
	Within  float64    `json:",omitempty"` // GoesWith; 0 means ColourNear
}

// MayUse says which cloth of the shelf may be used.
type MayUse struct {
	Only         []stash.ID `json:",omitempty"` // these cloths alone; empty: all
	Never        []stash.ID `json:",omitempty"` // not these
	WholeLengths bool       // whole lengths may be cut into
	First        []stash.ID `json:",omitempty"` // to be used up first
}

// BatchPin keeps uses of fabric of a row on a cloth.
type BatchPin struct {
	Row   int
	Role  string
	Cloth stash.ID
	Count int
}

// count is how many garments a row wants.
func (w Wanted) count() int { return max(w.Count, 1) }

func (w Wanted) priority() int { return max(w.Priority, 1) }

// rule is what a use of fabric may be cut from.
func (w Wanted) rule(role string) UseRule {
	r := UseRule{Role: role, From: SameFabric}
	if role == pattern.Main {
		r.From = AnyFabric
	}
	if i := slices.IndexFunc(w.Uses, func(u UseRule) bool { return u.Role == role }); i >= 0 {
		r = w.Uses[i]
	}
	if r.From == SameFabric && role == pattern.Main {
		r.From = AnyFabric
	}
	if r.Within <= 0 {
		r.Within = ColourNear
	}
	return r
}

// near is how far a colour may lie from one wished for.
func (w Wanted) near() float64 {
	if w.Near > 0 {
		return w.Near
	}
	return ColourNear
}

// wishes says whether a fabric has a colour wished for, or none is.
func (w Wanted) wishes(f stash.Fabric) bool {
	return len(w.Colours) == 0 || slices.ContainsFunc(w.Colours, func(c string) bool {
		d, ok := stash.ColourDifference(c, f.Colour)
		return ok && d <= w.near()
	})
}

// goesWith says whether a fabric may be used by a rule beside a main fabric.
func (r UseRule) goesWith(f, main stash.Fabric, sameLot bool) bool {
	switch r.From {
	case SameFabric:
		return sameLot
	case GoesWith:
		d, ok := stash.ColourDifference(f.Colour, main.Colour)
		return f.ID == main.ID || ok && d <= r.Within
	}
	return true
}

// validate refuses a row that cannot be meant.
func (w Wanted) validate(row string, p pattern.Pattern) error {
	row = fmt.Sprintf("%s (%s)", row, p.Name)
	if _, ok := p.Size(w.Size); !ok {
		return invalid("Choose one of its sizes", "%s has no size %q", p.Name, w.Size)
	}
	switch {
	case w.Count < 0 || w.Count > mostWanted:
		return invalid(fmt.Sprintf("Ask for 1 to %d", mostWanted), "%s asks for %d garments", row, w.Count)
	case w.Priority < 0 || w.Priority > 99:
		return invalid("1 comes first, up to 99", "%s has the priority %d", row, w.Priority)
	}
	for _, c := range w.Colours {
		if _, ok := stash.ColourDifference(c, c); !ok {
			return invalid("Write it such as #3b6ea5", "%s wishes for the colour %q", row, c)
		}
	}
	for _, u := range w.Uses {
		switch {
		case !slices.Contains([]From{AnyFabric, SameFabric, NamedFabric, GoesWith, Skipped}, u.From):
			return invalid("Say any, same, named, goes with or none", "%s cuts its %s from %q", row, u.Role, u.From)
		case u.From == NamedFabric && len(u.Fabrics) == 0:
			return invalid("Name at least one fabric", "%s cuts its %s from fabrics named, and none is", row, u.Role)
		case u.From == Skipped && u.Role == pattern.Main:
			return invalid("Leave the row out instead", "%s leaves its main fabric out", row)
		}
	}
	return nil
}

// mostWanted bounds the garments of a row: more is taken for a slip.
const mostWanted = 200

// usesOf lists the uses of fabric that are planned for a row, main first, each with whether
// the garment's strips are cut with it.
func usesOf(p pattern.Pattern, w Wanted) []use {
	out := []use{{role: pattern.Main, rule: w.rule(pattern.Main)}}
	_, binds := p.Role(pattern.Binding)
	for _, r := range p.Roles {
		u := use{role: r.Name, rule: w.rule(r.Name)}
		if r.Name == pattern.Main || r.Optional && !w.says(r.Name) || u.rule.From == Skipped || !asksFor(p, r.Name, w.Size) {
			continue
		}
		out = append(out, u)
	}
	out[0].strips = !binds && len(p.Edges) > 0
	return out
}

// says tells whether the row has a rule of its own for a use.
func (w Wanted) says(role string) bool {
	return slices.ContainsFunc(w.Uses, func(u UseRule) bool { return u.Role == role })
}

// use is one use of fabric of the garments of a row.
type use struct {
	role   string
	rule   UseRule
	strips bool // the strips of the edges are cut with it
}

// search is the question to the shelf that the use asks.
func (u use) search(w Wanted) Search {
	return Search{PatternID: w.PatternID, Size: w.Size, Role: u.role, Strips: u.strips}
}

// order is how plans that make the same garments are compared.
func (b Batch) order() []batch.Criterion {
	if len(b.Order) > 0 {
		return b.Order
	}
	return []batch.Criterion{batch.UseFirst, batch.FewestWhole, batch.LeastWaste, batch.FewestCloths}
}

// title is the batch's name, or what it is about.
func (b Batch) title() string { return cmp.Or(b.Name, "the batch") }
