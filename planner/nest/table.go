package nest

import (
	"sync/atomic"

	"tallycloth/planner/geometry"
	"tallycloth/stash/shape"
)

// table holds the no-fit regions of pairs of poses, each drawn when first asked
// for. Several workers may ask at once: a region drawn twice is the same twice.
//
// One drawing serves up to four pairs: a pair in each other's part and a pair turned
// by half are the same region turned by half. Of a pair the smaller outline is the
// one that is grown by the clearance, as hollows of the grown one may close.
type table struct {
	bodies   []shape.Ring // of each pose, as the search sees it
	grown    []shape.Ring // the body and the clearance about it
	same     []int        // of each pose, the first that has its body
	opposite []int        // the pose that is the same turned by half, or −1
	pairs    []atomic.Pointer[geometry.Region]
	ended    func() bool // whether nothing more is wanted
}

// notDrawn stands for regions once a search has ended: no place lies in it. What then
// seems parted need not be; whatever is handed out passes Check on the outlines.
var notDrawn = new(geometry.Region)

func newTable(bodies, grown []shape.Ring, same []int, ended func() bool) *table {
	t := &table{bodies, grown, same, make([]int, len(bodies)), make([]atomic.Pointer[geometry.Region], len(bodies)*len(bodies)), ended}
	for i := range bodies {
		t.opposite[i] = -1
	}
	for i := range bodies {
		for j := range bodies {
			if oppose(bodies[i], bodies[j]) {
				t.opposite[i] = j
				break
			}
		}
	}
	return t
}

// oppose says whether two rings are each other turned by half about the origin,
// corner by corner.
func oppose(a, b shape.Ring) bool {
	if len(a) != len(b) {
		return false
	}
	for k, p := range a {
		if b[k] != (shape.Point{X: -p.X, Y: -p.Y}) {
			return false
		}
	}
	return true
}

// row is one worker's own view of the regions of one moving pose.
type row []*geometry.Region

// get returns where a moving pose collides with a fixed one at the origin.
func (t *table) get(fixed, moving int) *geometry.Region {
	at := &t.pairs[moving*len(t.bodies)+fixed]
	if r := at.Load(); r != nil {
		return r
	}
	if t.ended() {
		return notDrawn
	}
	if a, b := t.same[fixed], t.same[moving]; a != fixed || b != moving {
		r := t.get(a, b)
		at.Store(r)
		return r
	}
	f, m, turned := t.drawn(fixed, moving)
	var r *geometry.Region
	switch {
	case f == fixed && m == moving:
		r = geometry.NoFit(t.bodies[fixed], t.grown[moving])
	case turned:
		r = t.get(f, m).Turned()
	default:
		r = t.get(f, m)
	}
	at.Store(r)
	return r
}

// drawn names the pair whose region is drawn for a pair, and says whether that is turned
// by half: of the pairs that one region serves, and that grow the smaller outline, the
// first.
func (t *table) drawn(fixed, moving int) (f, m int, turned bool) {
	f, m = -1, -1
	take := func(a, b int, half bool) {
		if a >= 0 && b >= 0 && t.bodies[b].Area2() <= t.bodies[a].Area2() && (f < 0 || a < f || a == f && b < m) {
			f, m, turned = a, b, half
		}
	}
	take(fixed, moving, false)
	take(moving, fixed, true)
	take(t.opposite[fixed], t.opposite[moving], true)
	take(t.opposite[moving], t.opposite[fixed], false)
	return f, m, turned
}
