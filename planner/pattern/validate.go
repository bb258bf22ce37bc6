package pattern

import (
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// onLine is how far a notch may lie off the cutting line, in µm (½ mm).
const onLine = 500

// Validate refuses a pattern that cannot be worked with, naming what is wrong and
// what to do. An empty yardage table or no outlines is not an error: the pattern
// then answers less.
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
	for _, check := range []func() error{p.validateSizes, p.validatePieces, p.validateEdges, p.validateYards} {
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
	}
	return nil
}

func (p Pattern) validatePieces() error {
	seen := map[string]bool{}
	for _, q := range p.Pieces {
		if q.Code == "" || seen[q.Code] {
			return invalid(fmt.Sprintf("the pattern piece %q has no letter of its own", q.Name), "Give each pattern piece another letter or number.")
		}
		seen[q.Code] = true
		if q.Cut < 1 || q.Pairs && q.Cut%2 != 0 {
			return invalid(fmt.Sprintf("pattern piece %s %s is cut %d times", q.Code, q.Name, q.Cut), "Say how many are cut; pairs need an even number.")
		}
		if _, ok := p.Role(q.Role); !ok {
			return invalid(fmt.Sprintf("pattern piece %s %s is cut from %q, which the pattern does not list", q.Code, q.Name, q.Role), "Choose one of the pattern's uses of fabric.")
		}
		for size, o := range q.Outlines {
			if _, ok := p.Size(size); !ok {
				return invalid(fmt.Sprintf("pattern piece %s %s has an outline for the unknown size %s", q.Code, q.Name, size), "Add the size or drop the outline.")
			}
			if err := q.validateOutline(o); err != nil {
				return fmt.Errorf("pattern piece %s %s in size %s: %w", q.Code, q.Name, size, err)
			}
		}
	}
	return nil
}

func (q Piece) validateOutline(o Outline) error {
	if err := o.Cut.Validate(); err != nil {
		return &stash.Error{Kind: stash.Invalid, What: "its outline cannot be cut", Do: "Mend the outline and bring it in again.", Err: err}
	}
	if q.OnFold && !hasFoldEdge(o.Cut) {
		return invalid("it is cut on the fold but has no straight edge on the fold line", "Move its fold edge onto the fold line, or cut it whole.")
	}
	for _, n := range o.Notches {
		if nearest(o.Cut, n.At) > onLine {
			return invalid("a notch lies off the cutting line", "Move the notch onto the line.")
		}
	}
	return nil
}

// hasFoldEdge says whether a ring lies in y ≥ 0 with an edge on y = 0.
func hasFoldEdge(r shape.Ring) bool {
	edge := false
	for i, p := range r {
		if p.Y < 0 {
			return false
		}
		edge = edge || p.Y == 0 && r[(i+1)%len(r)].Y == 0
	}
	return edge
}

// nearest is the distance in µm from a point to the boundary of a ring.
func nearest(r shape.Ring, p shape.Point) float64 {
	tiny := shape.Ring{p, {X: p.X + 1, Y: p.Y}, {X: p.X, Y: p.Y + 1}}
	return shape.Distance(tiny, r)
}

func (p Pattern) validateEdges() error {
	for _, e := range p.Edges {
		for _, s := range e.Segments {
			if s.Piece == "" {
				continue
			}
			q, ok := p.Piece(s.Piece)
			if !ok {
				return invalid(fmt.Sprintf("the edge %s runs along pattern piece %s, which is not there", e.Name, s.Piece), "Choose a pattern piece for it.")
			}
			for size := range q.Outlines {
				if _, ok := p.path(s.Piece, s.Path, size); !ok {
					return invalid(fmt.Sprintf("pattern piece %s has no edge %q in size %s, which %s needs", s.Piece, s.Path, size, e.Name), "Mark the edge on the pattern piece.")
				}
			}
		}
	}
	return nil
}

func (p Pattern) validateYards() error {
	for _, y := range p.Yards {
		if y.Width <= 0 || y.Length <= 0 {
			return invalid("a row of the yardage table has no width or no length", "Fill in both, or drop the row.")
		}
		if _, ok := p.Role(y.Role); !ok {
			return invalid(fmt.Sprintf("a row of the yardage table is for %q, which the pattern does not list", y.Role), "Choose one of the pattern's uses of fabric.")
		}
	}
	return nil
}
