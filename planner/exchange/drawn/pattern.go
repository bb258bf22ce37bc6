package drawn

import (
	"slices"

	"tallycloth/planner/pattern"
)

// OneSize is the name of the size of a drawing that names none.
const OneSize = "one size"

// Layers lists the outermost layers that something is drawn in, in their order.
func (d Drawing) Layers() (out []string) {
	for _, f := range d.Shapes {
		if len(f.Group) > 0 && !slices.Contains(out, f.Group[0]) {
			out = append(out, f.Group[0])
		}
	}
	return out
}

// Pattern makes a pattern of the drawing: its sizes, its uses of fabric and its pieces,
// test squares left out. Where the file itself describes a pattern it is that one, and
// of the choice nothing is needed.
func (d Drawing) Pattern(c Choice) (pattern.Pattern, []Warning) {
	p, _, warnings := d.MarkedPattern(c)
	return p, warnings
}

// MarkedPattern is Pattern with the marks that were, or could be, recognised on the pieces of a drawing
// that is not itself a pattern.
func (d Drawing) MarkedPattern(c Choice) (pattern.Pattern, []Mark, []Warning) {
	if d.Stated != nil {
		p := *d.Stated
		p.Pieces, p.Sizes, p.Roles = slices.Clone(p.Pieces), slices.Clone(p.Sizes), slices.Clone(p.Roles)
		return p, nil, nil
	}
	if c.Size == "" {
		c.Size = OneSize
	}
	if c.Role == "" {
		c.Role = pattern.Main
	}
	for _, q := range d.Squares {
		c.Leave = append(c.Leave, q.Shape)
	}
	sizes := []string{c.Size}
	if layers := d.Layers(); c.Layers && len(layers) > 0 {
		c.Sizes, sizes = map[string]string{}, layers
		for _, l := range layers {
			c.Sizes[l] = l
		}
	}
	p := pattern.Pattern{Roles: []pattern.Role{{Name: c.Role}}}
	for _, z := range sizes {
		p.Sizes = append(p.Sizes, pattern.Size{Name: z})
	}
	b := d.pieces(c)
	p.Pieces = b.pieces
	return p, b.marks, b.warnings
}
