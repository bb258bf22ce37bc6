package drawn

import (
	"fmt"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// Part says what of a pattern is written: sizes by name and pieces by code, all where
// none are named.
type Part struct{ Sizes, Pieces []string }

// Of cuts a pattern down to the part that has outlines. The error is a *stash.Error:
// there is no such size or piece, or no outline among them.
func (c Part) Of(p pattern.Pattern) (pattern.Pattern, error) {
	for _, z := range c.Sizes {
		if _, ok := p.Size(z); !ok {
			return p, missing(fmt.Sprintf("%s has no size %s", p.Name, z), "Choose one of its sizes.")
		}
	}
	for _, code := range c.Pieces {
		if _, ok := p.Piece(code); !ok {
			return p, missing(fmt.Sprintf("%s has no pattern piece %s", p.Name, code), "Choose one of its pattern pieces.")
		}
	}
	out := p
	out.Pieces, out.Sizes = nil, nil
	drawn := map[string]bool{}
	for _, q := range p.Pieces {
		if len(c.Pieces) > 0 && !slices.Contains(c.Pieces, q.Code) {
			continue
		}
		outlines := map[string]pattern.Outline{}
		for z, o := range q.Outlines {
			if len(o.Cut) > 2 && (len(c.Sizes) == 0 || slices.Contains(c.Sizes, z)) {
				outlines[z], drawn[z] = o, true
			}
		}
		if q.Outlines = outlines; len(outlines) > 0 {
			out.Pieces = append(out.Pieces, q)
		}
	}
	for _, z := range p.Sizes {
		if drawn[z.Name] {
			out.Sizes = append(out.Sizes, z)
		}
	}
	if len(out.Pieces) == 0 {
		return p, missing(fmt.Sprintf("%s has no outlines to write", p.Name), "Bring in outlines first, or choose another size.")
	}
	return out, nil
}

func missing(what, do string) error { return &stash.Error{Kind: stash.NotFound, What: what, Do: do} }
