package match_test

import (
	"testing"

	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// TestKeepEachOtherOut: two panels of 60 × 50 cm keep each other out of a leftover of
// 100 × 80 cm, which has area enough; on 125 cm they lie one behind the other.
func TestKeepEachOtherOut(t *testing.T) {
	p := slab()
	p.Pieces = p.Pieces[:1]
	p.Pieces[0].Cut = 2
	at := func(x, y int64) shape.Point { return shape.Point{X: x * 1000, Y: y * 1000} }
	f := with(jersey(150*cm), func(f *stash.Fabric) { f.Direction = stash.SameWayForAll })
	bent := func(l int64) shape.Polygon {
		return shape.Polygon{Outer: shape.Ring{at(0, 0), at(l, 0), at(l, 780), at(l-20, 800), at(0, 800)}}
	}
	if v := verdict(t, askFor(p, "M"), leftoverOf(f, bent(1000))); v.Grade != match.NotEnough || v.Proof != match.ByBound {
		t.Errorf("100 cm: graded %d by proof %d", v.Grade, v.Proof)
	}
	if v := verdict(t, askFor(p, "M"), leftoverOf(f, bent(1250))); v.Layout == nil {
		t.Errorf("125 cm: %+v", v)
	}
}
