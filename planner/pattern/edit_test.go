package pattern_test

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// star is a ring around the origin with its corners at random distances, which never crosses itself.
func star(t *rapid.T, least, most float64) shape.Ring {
	n := rapid.IntRange(5, 12).Draw(t, "corners")
	var r shape.Ring
	for i := range n {
		d := rapid.Float64Range(least, most).Draw(t, "distance")
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r = append(r, shape.Point{X: int64(d * c), Y: int64(d * s)})
	}
	return r
}

func apron(cut shape.Ring) pattern.Pattern {
	o := pattern.Outline{Cut: cut, GrainTop: shape.Point{X: -9_000}, GrainFoot: shape.Point{X: 9_000}}
	return pattern.Pattern{Name: "Apron", Sizes: []pattern.Size{{Name: "S"}, {Name: "L"}}, Roles: []pattern.Role{{Name: pattern.Main}},
		Pieces: []pattern.Piece{{Code: "A", Name: "Bib", Role: pattern.Main, Cut: 1, Outlines: map[string]pattern.Outline{"S": o, "L": o}}}}
}

// TestOffsetArea: around a convex outline of area A and perimeter P a seam allowance d adds
// P·d + d²·Σtan(θ/2), by the trapezia and kites it consists of; taken off again it is the outline.
func TestOffsetArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 12).Draw(t, "corners")
		d := rapid.Int64Range(1_000, 30_000).Draw(t, "allowance")
		a, b := rapid.Float64Range(200_000, 400_000).Draw(t, "a"), rapid.Float64Range(200_000, 400_000).Draw(t, "b")
		var r shape.Ring
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r = append(r, shape.Point{X: int64(a * c), Y: int64(b * s)})
		}
		want := float64(r.Area()) + r.Perimeter()*float64(d)
		for i := range r {
			p, q, s := r[i], r[(i+1)%n], r[(i+2)%n]
			u, v := q.Sub(p), s.Sub(q)
			turn := math.Atan2(float64(u.X*v.Y-u.Y*v.X), float64(u.X*v.X+u.Y*v.Y))
			want += float64(d) * float64(d) * math.Tan(turn/2)
		}
		out := pattern.Offset(r, d, nil)
		if out == nil || math.Abs(float64(out.Area())-want) > 3*out.Perimeter() {
			t.Fatalf("%d, want %.0f", out.Area(), want)
		}
		back := pattern.Offset(out, -d, nil)
		for i := range r {
			if off := back[i].Sub(r[i]); len(back) != n || max(off.X, -off.X, off.Y, -off.Y) > 8 {
				t.Fatalf("%v, was %v", back, r)
			}
		}
	})
}

// TestEditsNeverCross: whatever is moved, added, taken away, turned or let out, the answer is a
// pattern that holds with the other size as it was, or a reason and the pattern untouched.
func TestEditsNeverCross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := apron(star(t, 40_000, 200_000))
		before := apron(p.Pieces[0].Outlines["S"].Cut)
		at := shape.Point{X: rapid.Int64Range(-200_000, 200_000).Draw(t, "x"), Y: rapid.Int64Range(-200_000, 200_000).Draw(t, "y")}
		by := shape.Point{X: rapid.Int64Range(-300_000, 300_000).Draw(t, "dx"), Y: rapid.Int64Range(-300_000, 300_000).Draw(t, "dy")}
		d := measure.Length(rapid.Int64Range(-60_000, 60_000).Draw(t, "allowance"))
		changes := []pattern.Change{pattern.MoveCorners(len(p.Pieces[0].Outlines["L"].Cut), []int{0}, []shape.Point{by}), pattern.AddPoint(at), pattern.RemovePoint(at), pattern.AddNotch(at, "single"),
			pattern.RemoveNotch(at), pattern.TurnGrain(shape.Angle(by.X)), pattern.SetGrain(at, at.Add(by)), pattern.Mirror, pattern.OffsetBy(d, false)}
		for i, c := range changes {
			got, err := p.Edited("A", []string{"L"}, c)
			if !reflect.DeepEqual(p, before) {
				t.Fatalf("change %d changed the pattern it was given", i)
			}
			var e *stash.Error
			if err != nil && (!errors.As(err, &e) || e.Do == "") {
				t.Fatalf("change %d: %v", i, err)
			}
			if err == nil {
				if err := got.Validate(); err != nil {
					t.Fatalf("change %d: %v", i, err)
				}
				if !reflect.DeepEqual(got.Pieces[0].Outlines["S"], p.Pieces[0].Outlines["S"]) {
					t.Fatalf("change %d touched the other size", i)
				}
			}
		}
	})
}

// TestMirrorAndGrain: two mirrorings are none, a turn there and back is none, and the area stays.
func TestMirrorAndGrain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := apron(star(t, 100_000, 200_000))
		once, err := p.Edited("A", nil, pattern.Mirror)
		if err != nil {
			t.Fatal(err)
		}
		twice, err := once.Edited("A", nil, pattern.Mirror)
		if err != nil {
			t.Fatal(err)
		}
		r, o := p.Pieces[0].Outlines["S"].Cut, twice.Pieces[0].Outlines["S"]
		if b := r.Bounds(); !sameSet(o.Cut, r.Move(shape.Point{X: -b.Min.X, Y: -b.Min.Y})) || o.GrainTop.X >= o.GrainFoot.X {
			t.Fatalf("%v, was %v", o.Cut, r)
		}
		turned, err := p.Edited("A", []string{"S"}, pattern.TurnGrain(shape.Angle(rapid.Int64Range(-179_000, 179_000).Draw(t, "turn"))))
		if err != nil {
			t.Fatal(err)
		}
		got := turned.Pieces[0].Outlines["S"]
		if math.Abs(float64(got.Cut.Area()-r.Area())) > 2*r.Perimeter() || got.GrainTop.X >= got.GrainFoot.X || max(got.GrainTop.Y-got.GrainFoot.Y, got.GrainFoot.Y-got.GrainTop.Y) > 50 {
			t.Fatalf("%+v", got)
		}
	})
}

// TestEdits: each does what it says, on the half front of the vest where it matters.
func TestEdits(t *testing.T) {
	square := shape.Ring{{X: 0, Y: 0}, {X: 90_000, Y: 0}, {X: 90_000, Y: 90_000}, {X: 0, Y: 90_000}}
	p := apron(square)
	cut := func(c pattern.Change) pattern.Outline {
		t.Helper()
		got, err := p.Edited("A", nil, c)
		if err != nil {
			t.Fatal(err)
		}
		return got.Pieces[0].Outlines["L"]
	}
	if o := cut(pattern.MoveCorners(4, []int{0, 1, 2, 3}, []shape.Point{{}, {X: 5_000, Y: -2_000}, {}, {}})); o.Cut[1] != (shape.Point{X: 95_000, Y: -2_000}) {
		t.Errorf("%v", o.Cut)
	}
	if o := cut(pattern.AddPoint(shape.Point{X: 40_000, Y: 99_000})); len(o.Cut) != 5 || o.Cut[3] != (shape.Point{X: 40_000, Y: 90_000}) {
		t.Errorf("%v", o.Cut)
	}
	if o := cut(pattern.AddNotch(shape.Point{X: 40_000, Y: 95_000}, "double")); len(o.Notches) != 1 || o.Notches[0] != (pattern.Notch{At: shape.Point{X: 40_000, Y: 90_000}, Kind: "double"}) {
		t.Errorf("%v", o.Notches)
	}
	for name, c := range map[string]pattern.Change{
		"cross itself":     pattern.MoveCorners(4, []int{0, 1, 2, 3}, []shape.Point{{X: 200_000, Y: 30_000}, {}, {}, {}}),
		"2 cm off":         pattern.AddNotch(shape.Point{X: 40_000, Y: 45_000}, ""),
		"no notch":         pattern.RemoveNotch(shape.Point{}),
		"no length":        pattern.SetGrain(shape.Point{X: 1}, shape.Point{X: 1}),
		"vanish":           pattern.OffsetBy(-50*measure.Millimetre, false),
		"a corner already": pattern.AddPoint(shape.Point{}),
	} {
		if _, err := p.Edited("A", nil, c); err == nil || !strings.Contains(err.Error(), name) && !errors.Is(err, shape.ErrCrossing) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := p.Edited("Z", nil, pattern.Mirror); err == nil {
		t.Error("there is no piece Z")
	}
	fold := vest()
	got, err := fold.Edited("A", []string{"1"}, pattern.OffsetBy(10*measure.Millimetre, true))
	if err != nil || !pattern.HasFoldEdge(got.Pieces[0].Outlines["1"].Cut) {
		t.Errorf("the fold edge stays: %v", err)
	}
	if _, err := fold.EditedPiece("A", func(q *pattern.Piece) error { q.Cut = 0; return nil }); err == nil || fold.Pieces[0].Cut == 0 {
		t.Error("a piece is cut at least once")
	}
	if got, err := fold.EditedPiece("B", func(q *pattern.Piece) error { q.Cut, q.Pairs, q.Role = 2, false, pattern.Lining; return nil }); err == nil && got.Pieces[1].Role != pattern.Lining {
		t.Errorf("%+v", got.Pieces[1])
	}
}

// TestSharpCornerCutOff: a corner of 10° reaches out no farther than about three times the allowance.
func TestSharpCornerCutOff(t *testing.T) {
	r := shape.Ring{{X: 0, Y: 0}, {X: 200_000, Y: 17_500}, {X: 0, Y: 35_000}}
	out := pattern.Offset(r, 10_000, nil)
	if out == nil || out.Bounds().Max.X > 232_000 || out.Bounds().Max.X < 205_000 {
		t.Errorf("%v", out)
	}
}
