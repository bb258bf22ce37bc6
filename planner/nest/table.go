package nest

import (
	"sync/atomic"

	"tallycloth/planner/geometry"
	"tallycloth/stash/shape"
)

// table holds the no-fit regions of pairs of poses, each drawn when first asked
// for. Several workers may ask at once: a region drawn twice is the same twice.
type table struct {
	bodies []shape.Ring // of each pose, as the search sees it
	grown  []shape.Ring // the body and the clearance about it
	pairs  []atomic.Pointer[geometry.Region]
}

func newTable(bodies, grown []shape.Ring) *table {
	return &table{bodies, grown, make([]atomic.Pointer[geometry.Region], len(bodies)*len(bodies))}
}

// row is one worker's own view of the regions of one moving pose.
type row []*geometry.Region

// get returns where a moving pose collides with a fixed one at the origin.
func (t *table) get(fixed, moving int) *geometry.Region {
	at := &t.pairs[moving*len(t.bodies)+fixed]
	if r := at.Load(); r != nil {
		return r
	}
	r := geometry.NoFit(t.bodies[fixed], t.grown[moving])
	at.Store(r)
	return r
}
