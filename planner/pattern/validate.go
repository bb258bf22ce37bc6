package pattern

import (
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Validate refuses a pattern that cannot be worked with, naming what is wrong and
// what to do. An empty yardage table or no outlines is not an error: the pattern
// then answers less. It looks at sizes, uses of fabric, pattern pieces, edges,
// yardage table and order of work, in this order, and reports the first fault.
func (p Pattern) Validate() error {
	if p.Name == "" {
		return invalid("the pattern has no name", "Give it a name.")
	}
	if len(p.Sizes) == 0 {
		return invalid("the pattern has no size", "Add at least one size, even if there is only one.")
	}
	if len(p.Roles) == 0 {
		return invalid("the pattern does not say what its fabric is used for", "Add at least the use “main”.")
	}
	if p.SeamAllowance < 0 || p.HemAllowance < 0 || p.Spare < 0 {
		return invalid("an allowance is less than zero", "Type 0 where there is none.")
	}
	for _, check := range []func() error{p.validateSizes, p.validateRoles, p.validatePieces, p.validateEdges, p.validateYards, p.validateWork} {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

func invalid(what, do string) error { return &stash.Error{Kind: stash.Invalid, What: what, Do: do} }

func (p Pattern) validateSizes() error {
	seen := map[string]bool{}
	for _, s := range p.Sizes {
		if s.Name == "" {
			return invalid("a size has no name", "Name every size.")
		}
		if seen[s.Name] {
			return invalid(fmt.Sprintf("the size %s comes twice", s.Name), "Give each size a name of its own.")
		}
		seen[s.Name] = true
		for _, chart := range []map[string]measure.Length{s.Body, s.Finished} {
			for level, v := range chart {
				if v < 0 {
					return invalid(fmt.Sprintf("size %s has a %s of less than zero", s.Name, level), "Type the measure again, or leave it empty.")
				}
			}
		}
	}
	return nil
}

func (p Pattern) validateRoles() error {
	seen := map[string]bool{}
	for _, r := range p.Roles {
		switch {
		case r.Name == "" || seen[r.Name]:
			return invalid(fmt.Sprintf("the use of fabric %q has no name of its own", r.Name), "Give each use another name, such as main, binding or lining.")
		case r.StretchAround < 0 || r.StretchAlong < 0 || r.Recovery < 0 || r.Recovery > 100*measure.OnePercent:
			return invalid(fmt.Sprintf("what %s asks of its fabric cannot be", r.Name), "Stretch is 0 % or more, recovery 0 to 100 %; 0 asks nothing.")
		case r.WeightMin < 0 || r.WeightMax < 0 || r.WeightMax > 0 && r.WeightMin > r.WeightMax:
			return invalid(fmt.Sprintf("the weights for %s leave no fabric", r.Name), "Type the lighter weight first; 0 is no limit.")
		}
		seen[r.Name] = true
	}
	return nil
}

// Widths and lengths that a row of a yardage table can have: from narrow trimming to
// the widest sheeting, and far more than any garment takes.
const (
	leastWidth = 5 * measure.Centimetre
	mostWidth  = 5 * measure.Metre
	mostLength = 50 * measure.Metre
)

func (p Pattern) validateYards() error {
	type key struct {
		role, size string
		width      measure.Length
		nap        bool
	}
	seen := map[key]bool{}
	for _, y := range p.Yards {
		if y.Width <= 0 || y.Length <= 0 {
			return invalid("a row of the yardage table has no width or no length", "Fill in both, or drop the row.")
		}
		if y.Width < leastWidth || y.Width > mostWidth || y.Length > mostLength {
			return invalid("a row of the yardage table has a width or length that no cloth has", "Check its unit: widths are 5 cm to 5 m, lengths up to 50 m.")
		}
		if _, ok := p.Role(y.Role); !ok {
			return invalid(fmt.Sprintf("a row of the yardage table is for %q, which the pattern does not list", y.Role), "Choose one of the pattern's uses of fabric.")
		}
		for _, size := range p.sizesOf(y) {
			if _, ok := p.Size(size); !ok {
				return invalid(fmt.Sprintf("a row of the yardage table is for the unknown size %s", size), "Add the size or take it out of the row.")
			}
			k := key{y.Role, size, y.Width, y.WithNap}
			if seen[k] {
				return invalid(fmt.Sprintf("the yardage table answers twice for %s in size %s at the same width", y.Role, size), "Drop one of the two rows.")
			}
			seen[k] = true
		}
	}
	return nil
}

// sizesOf are the sizes a row of the yardage table is for.
func (p Pattern) sizesOf(y YardageRow) []string {
	if len(y.Sizes) > 0 {
		return y.Sizes
	}
	out := make([]string, len(p.Sizes))
	for i, s := range p.Sizes {
		out[i] = s.Name
	}
	return out
}

func (p Pattern) validateWork() error {
	for i, s := range p.Work {
		if s.Text == "" {
			return invalid(fmt.Sprintf("step %d of the order of work says nothing", i+1), "Write what is done, or drop the step.")
		}
	}
	for _, n := range p.Notions {
		for _, q := range n.Quantity {
			if n.Name == "" || !(q >= 0 && q < 1e6) {
				return invalid(fmt.Sprintf("the notion %q has no name or no sensible quantity", n.Name), "Name it and type how much is needed.")
			}
		}
	}
	return nil
}
