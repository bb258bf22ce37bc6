package sizing

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// WithAllowance returns a piece with the seam allowance that it lacks added to its outlines in all sizes,
// along some edges another one than along the others; those are told by places on the outline of one size,
// and carried over to the others. What was drawn stays as the line to stitch along. The error says which
// outline does not let itself be widened, or in which size the corners do not correspond.
func WithAllowance(q pattern.Piece, on shape.Ring, wide measure.Length, others []pattern.EdgeAllowance) (pattern.Piece, error) {
	alone := pattern.Piece{Code: q.Code, Name: q.Name, Role: pattern.Main, Cut: 1, OnFold: q.OnFold, Outlines: q.Outlines}
	p := pattern.Pattern{Name: q.Name, Roles: []pattern.Role{{Name: pattern.Main}}, Pieces: []pattern.Piece{alone}}
	for size := range q.Outlines {
		p.Sizes = append(p.Sizes, pattern.Size{Name: size})
	}
	p, err := p.Edited(q.Code, nil, Alike(on, func(to ToPlace) pattern.Change {
		return pattern.AddAllowance(wide, pattern.Elsewhere(others, to), q.OnFold)
	}))
	if err != nil {
		return q, err
	}
	q.Outlines, q.WithoutAllowance = p.Pieces[0].Outlines, false
	return q, nil
}
