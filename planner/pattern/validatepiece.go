package pattern

import (
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// onLine is how far a notch may lie off the cutting line, in µm (½ mm).
const onLine = 500

func (p Pattern) validatePieces() error {
	seen := map[string]bool{}
	for _, q := range p.Pieces {
		if q.Code == "" || seen[q.Code] {
			return invalid(fmt.Sprintf("the pattern piece %q has no letter of its own", q.Name), "Give each pattern piece another letter or number.")
		}
		seen[q.Code] = true
		if q.Cut < 1 || q.Pairs && q.Cut%2 != 0 {
			return invalid(fmt.Sprintf("%s is cut %d times", q.called(), q.Cut), "Say how many are cut; pairs need an even number.")
		}
		if q.Pairs && q.OnFold {
			return invalid(fmt.Sprintf("%s is cut on the fold and in mirrored pairs", q.called()), "Choose one: a pattern piece on the fold is its own mirror image.")
		}
		if _, ok := p.Role(q.Role); !ok {
			return invalid(fmt.Sprintf("%s is cut from %q, which the pattern does not list", q.called(), q.Role), "Choose one of the pattern's uses of fabric.")
		}
		if err := p.validateOutlines(q); err != nil {
			return err
		}
	}
	return p.validateComplete()
}

// called names a piece in a message.
func (q Piece) called() string { return fmt.Sprintf("pattern piece %s %s", q.Code, q.Name) }

func (p Pattern) validateOutlines(q Piece) error {
	for _, s := range p.Sizes {
		if o, ok := q.Outlines[s.Name]; ok {
			if err := q.validateOutline(o); err != nil {
				return fmt.Errorf("%s in size %s: %w", q.called(), s.Name, err)
			}
		}
	}
	for size := range q.Outlines {
		if _, ok := p.Size(size); !ok {
			return invalid(fmt.Sprintf("%s has an outline for the unknown size %s", q.called(), size), "Add the size or drop the outline.")
		}
	}
	return nil
}

// validateComplete refuses a size in which some pieces of a role have an outline and
// others do not: a layout would leave pieces out and call the cloth enough. A pattern
// may well have outlines in one of its sizes only.
func (p Pattern) validateComplete() error {
	for _, s := range p.Sizes {
		with := map[string]Piece{}
		for _, q := range p.Pieces {
			if _, ok := q.Outlines[s.Name]; ok {
				with[q.Role] = q
			}
		}
		for _, q := range p.Pieces {
			other, some := with[q.Role]
			if _, ok := q.Outlines[s.Name]; some && !ok {
				return invalid(fmt.Sprintf("%s has no outline in size %s, but %s has one", q.called(), s.Name, other.called()),
					"Bring in the missing outline, or take the others of that size out.")
			}
		}
	}
	return nil
}

func (q Piece) validateOutline(o Outline) error {
	if err := o.Cut.Validate(); err != nil {
		return &stash.Error{Kind: stash.Invalid, What: "its outline cannot be cut", Do: "Mend the outline and bring it in again.", Err: err}
	}
	if q.OnFold && !HasFoldEdge(o.Cut) {
		return invalid("it is cut on the fold but does not lie on one side of the fold line with one straight edge on it", "Move its fold edge onto the fold line, or cut it whole.")
	}
	for _, n := range o.Notches {
		if nearest(o.Cut, n.At) > onLine {
			return invalid("a notch lies off the cutting line", "Move the notch onto the line.")
		}
	}
	if o.GrainTop != o.GrainFoot && o.GrainTop.X >= o.GrainFoot.X {
		return invalid("its grain line runs the wrong way", "Turn the pattern piece so that the top end of its grain line comes first.")
	}
	for _, e := range o.Edges {
		if e.Name == "" || len(e.Points) < 2 || e.Length() == 0 {
			return invalid(fmt.Sprintf("its edge %q has no name or no length", e.Name), "Mark the edge again.")
		}
	}
	return nil
}

// HasFoldEdge says whether a ring lies in y ≥ 0 and touches y = 0 in one straight
// stretch: with two, the opened piece would have a hole where it is not cut.
func HasFoldEdge(r shape.Ring) bool {
	edges, points := 0, 0
	for i, p := range r {
		if p.Y < 0 {
			return false
		}
		if p.Y == 0 {
			points++
			if r[(i+1)%len(r)].Y == 0 {
				edges++
			}
		}
	}
	return edges > 0 && points == edges+1
}
