package pattern_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// drawn is the half front as an editor leaves it: anywhere, its fold edge off by a few
// µm, with a neck to finish.
func drawn(mirror bool) pattern.Outline {
	place := shape.Placement{Mirror: mirror, At: shape.Point{X: 5_000, Y: 30_000}}
	cut := place.Apply(half())
	for i, p := range cut {
		if p.Y == 30_000 && p.X > 100_000 {
			if cut[i].Y += 40; mirror {
				cut[i].Y -= 80
			}
		}
	}
	path := []shape.Point{place.ApplyPoint(shape.Point{X: 0, Y: 50_000}), place.ApplyPoint(shape.Point{X: 30_000, Y: 10_000}), place.ApplyPoint(shape.Point{X: 60_000, Y: 0})}
	if mirror {
		path[0], path[2] = path[2], path[0]
	}
	return pattern.Outline{
		Cut: cut, Notches: []pattern.Notch{{At: place.ApplyPoint(shape.Point{X: 200_000, Y: 150_000})}},
		Dots: []shape.Point{place.ApplyPoint(shape.Point{X: 9, Y: 7})}, Inner: [][]shape.Point{{place.ApplyPoint(shape.Point{X: 8, Y: 6})}},
		GrainTop: place.ApplyPoint(shape.Point{X: 1000, Y: 70_000}), GrainFoot: place.ApplyPoint(shape.Point{X: 9000, Y: 70_000}),
		Edges: []pattern.EdgePath{{Name: "neck", Points: path, Turn: pattern.Turning(path)}},
	}
}

// TestPutOnFold: drawn with the fold at the left or at the right, the piece is the same.
func TestPutOnFold(t *testing.T) {
	p := vest()
	for _, mirror := range []bool{false, true} {
		q, side := p.Pieces[0], pattern.LeftSide
		if mirror {
			side = pattern.RightSide
		}
		q.OnFold = false
		q.Outlines = map[string]pattern.Outline{"1": drawn(mirror), "2": drawn(mirror)}
		if err := q.PutOnFold(side); err != nil || !q.OnFold {
			t.Fatal(err)
		}
		if a, b := q.Whole("1"), vest().Pieces[0].Whole("1").Move(shape.Point{X: 5_000}); !sameSet(a, b) {
			t.Errorf("%v, want %v", a, b)
		}
		for _, o := range q.Outlines {
			e := o.Edges[0]
			if e.Points[0].Y != 50_000 || math.Abs(pattern.Turning(e.Points)-e.Turn) > 1e-9 {
				t.Errorf("mirrored %v: the neck runs %v, turning %.3f of %.3f", mirror, e.Points, pattern.Turning(e.Points), e.Turn)
			}
			if o.Notches[0].At.Y != 150_000 || o.Dots[0].Y != 7 || o.Inner[0][0].Y != 6 || o.GrainTop.Y != 70_000 {
				t.Errorf("mirrored %v: %+v", mirror, o)
			}
		}
		p.Pieces[0] = q
		if err := p.Validate(); err != nil {
			t.Error(err)
		}
	}
}

// TestNoFold: a piece without a straight edge along the grain is refused and left alone.
func TestNoFold(t *testing.T) {
	q := pattern.Piece{Code: "A", Name: "Gusset", Outlines: map[string]pattern.Outline{
		"1": {Cut: shape.Ring{{X: 0, Y: 50_000}, {X: 50_000, Y: 0}, {X: 100_000, Y: 50_000}, {X: 50_000, Y: 100_000}}}}}
	err := q.PutOnFold(pattern.EitherSide)
	var e *stash.Error
	if !errors.As(err, &e) || !strings.Contains(e.What, "Gusset") || q.OnFold || q.Outlines["1"].Cut[0].Y != 50_000 {
		t.Errorf("%v %+v", err, q)
	}
}

// TestWhichSide: with one straight side that is the fold, with two it asks.
func TestWhichSide(t *testing.T) {
	one := shape.Ring{{X: 0, Y: 0}, {X: 50_000, Y: 9_000}, {X: 90_000, Y: 40_000}, {X: 0, Y: 40_000}}
	two := shape.Ring{{X: 0, Y: 0}, {X: 50_000, Y: 0}, {X: 90_000, Y: 40_000}, {X: 0, Y: 40_000}}
	piece := func(r shape.Ring) *pattern.Piece {
		return &pattern.Piece{Code: "A", Outlines: map[string]pattern.Outline{"1": {Cut: r}}}
	}
	if q := piece(one); q.PutOnFold(pattern.EitherSide) != nil || q.Outlines["1"].Cut.Locate(shape.Point{X: 80_000, Y: 0}) != shape.OnEdge {
		t.Errorf("%v", q.Outlines["1"].Cut)
	}
	if err := piece(two).PutOnFold(pattern.EitherSide); err == nil || !strings.Contains(err.Error(), "straight on both sides") {
		t.Errorf("%v", err)
	}
	if q := piece(two); q.PutOnFold(pattern.LeftSide) != nil || q.Outlines["1"].Cut.Bounds().Max.Y != 40_000 {
		t.Errorf("%v", q.Outlines["1"].Cut)
	}
	if err := piece(one).PutOnFold(pattern.LeftSide); err == nil {
		t.Error("the left side is not straight")
	}
}
