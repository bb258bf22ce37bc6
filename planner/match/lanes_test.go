package match

import (
	"context"
	"math"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

const cmU = int64(measure.Centimetre)

// oddCloth is a washed leftover of an outline, with what is reserved on it.
func oddCloth(outline shape.Ring, kept ...shape.Ring) stash.ClothState {
	b := outline.Bounds()
	c := stash.ClothState{Cloth: stash.Cloth{Outline: shape.Polygon{Outer: outline}, Length: measure.Length(b.Length()), Width: measure.Length(b.Width()), Washed: true}}
	c.Fabric.FullWidth = c.Cloth.Width
	if len(kept) > 0 {
		r := stash.Reservation{Live: true}
		for _, k := range kept {
			r.Pieces = append(r.Pieces, stash.ReservedPiece{Outline: k})
		}
		c.Reservations = []stash.Reservation{r}
	}
	return c
}

func rectangle(x, y, l, w int64) shape.Ring {
	return shape.Box{Min: shape.Point{X: x, Y: y}, Max: shape.Point{X: x + l, Y: y + w}}.Ring()
}

// stripOf is a strip of a length and width, joins anywhere.
func stripOf(length, width measure.Length, count int) binding.Strip {
	return binding.Strip{Job: binding.Job{Count: count, JoinSeam: measure.Centimetre}, CutWidth: width, CutLength: length, Length: length}
}

// planOn plans strips on one cloth and checks that they lie within it, clear of each other and of what is kept.
func planOn(t interface{ Fatalf(string, ...any) }, c stash.ClothState, grain binding.Grain, clearance measure.Length, strips ...binding.Strip) (binding.CutPlan, error) {
	g, ok := GroundOf(c, 0, clearance, grain)
	if !ok {
		t.Fatalf("there is no ground")
	}
	plan, err := binding.PlanOn(context.Background(), strips, []binding.Sheet{g.Sheet("it")})
	var laid []shape.Ring
	for _, p := range plan.Pieces {
		r := g.Outline(p)
		if !shape.Inside(r, c.Cloth.Polygon()) {
			t.Fatalf("%v is not within the cloth", r)
		}
		for _, q := range laid {
			if shape.Overlaps(r, q) && shape.Depth(r, q) > 2 { // strips on the bias touch within rounding
				t.Fatalf("%v lies over %v", r, q)
			}
		}
		for _, k := range c.Reservations {
			for _, q := range k.Pieces {
				if !shape.Clear(r, q.Outline, int64(clearance)) {
					t.Fatalf("%v comes too near to %v", r, q.Outline)
				}
			}
		}
		laid = append(laid, r)
	}
	return plan, err
}

// On a leftover that is an L the arm takes a strip that no one rectangle of it holds beside the
// others; worked by hand.
func TestStripsOnAnL(t *testing.T) {
	l := shape.Ring{{}, {X: 50 * cmU}, {X: 50 * cmU, Y: 20 * cmU}, {X: 10 * cmU, Y: 20 * cmU}, {X: 10 * cmU, Y: 60 * cmU}, {Y: 60 * cmU}}
	cm := measure.Centimetre
	// Two of 60 cm lie in the arm, eight of 20 cm beside it.
	plan, err := planOn(t, oddCloth(l), binding.Crosswise, 0, stripOf(60*cm, 5*cm, 2), stripOf(20*cm, 5*cm, 8))
	if err != nil || len(plan.Pieces) != 10 || len(plan.Joins) != 0 || plan.Strips[0] != 10 {
		t.Errorf("%+v, %v", plan, err)
	}
	// A ninth finds no place.
	if plan, err = planOn(t, oddCloth(l), binding.Crosswise, 0, stripOf(60*cm, 5*cm, 2), stripOf(20*cm, 5*cm, 9)); err == nil || plan.Short != 20*cm {
		t.Errorf("%+v, %v", plan, err)
	}
	// Lengthwise the foot takes four of 50 cm.
	if plan, err = planOn(t, oddCloth(l), binding.Lengthwise, 0, stripOf(50*cm, 5*cm, 4)); err != nil || len(plan.Joins) != 0 {
		t.Errorf("%+v, %v", plan, err)
	}
}

// In a triangle with legs of 60 cm a strip of width w and length l fits where w + l ≤ 60
// cm (plane geometry), and no longer one does.
func TestStripInATriangle(t *testing.T) {
	tri := shape.Ring{{}, {X: 60 * cmU}, {Y: 60 * cmU}}
	cm := measure.Centimetre
	for _, grain := range []binding.Grain{binding.Crosswise, binding.Lengthwise} {
		plan, err := planOn(t, oddCloth(tri), grain, 0, stripOf(56*cm, 4*cm, 1))
		if err != nil || len(plan.Joins) != 0 {
			t.Errorf("%v: %+v, %v", grain, plan, err)
		}
		plan, err = planOn(t, oddCloth(tri), grain, 0, stripOf(57*cm, 4*cm, 1))
		if err != nil || len(plan.Joins[0]) != 1 {
			t.Errorf("%v: 57 cm takes a join: %+v, %v", grain, plan, err)
		}
	}
	// On the bias, along the long side of 84.85 cm, a strip 4 cm wide is 84.85 − 2·4 = 76.85 cm long.
	plan, err := planOn(t, oddCloth(shape.Ring{{}, {X: 60 * cmU, Y: 60 * cmU}, {Y: 60 * cmU}}), binding.Bias, 0, stripOf(76*cm, 4*cm, 1))
	if err != nil || len(plan.Joins) != 0 {
		t.Errorf("%+v, %v", plan, err)
	}
	if plan, _ = planOn(t, oddCloth(shape.Ring{{}, {X: 60 * cmU, Y: 60 * cmU}, {Y: 60 * cmU}}), binding.Bias, 0, stripOf(77*cm, 4*cm, 1)); len(plan.Joins) != 1 {
		t.Errorf("%+v", plan)
	}
}

// Around what is reserved: beside a piece that lies in the middle of the width, strips lie above and
// below it, at the clearance.
func TestStripsAroundAReservedPiece(t *testing.T) {
	cm := measure.Centimetre
	c := oddCloth(rectangle(0, 0, 40*cmU, 100*cmU), rectangle(0, 40*cmU, 40*cmU, 20*cmU))
	plan, err := planOn(t, c, binding.Crosswise, 3*measure.Millimetre, stripOf(39*cm, 8*cm, 10))
	if err != nil || len(plan.Joins) != 0 || plan.Strips[0] != 5 {
		t.Errorf("%+v, %v", plan, err)
	}
	// With the clearance 39.7 cm are free.
	if plan, err = planOn(t, c, binding.Crosswise, 3*measure.Millimetre, stripOf(398*measure.Millimetre, 8*cm, 1)); err != nil || len(plan.Joins[0]) != 1 {
		t.Errorf("%+v, %v", plan, err)
	}
}

// Beyond a curved piece of many corners strips lie over the whole width, and short ones beside it.
func TestStripsBesideACurve(t *testing.T) {
	var round shape.Ring
	for i := range 300 {
		a := 2 * math.Pi * float64(i) / 300
		round = append(round, shape.Point{X: 40*cmU + int64(float64(30*cmU)*math.Cos(a)), Y: 50*cmU + int64(float64(30*cmU)*math.Sin(a))})
	}
	cm := measure.Centimetre
	c := oddCloth(rectangle(0, 0, 150*cmU, 100*cmU), round)
	plan, err := planOn(t, c, binding.Crosswise, 3*measure.Millimetre, stripOf(95*cm, 6*cm, 12), stripOf(19*cm, 6*cm, 4))
	if err != nil || len(plan.Joins) != 0 {
		t.Errorf("%+v, %v", plan, err)
	}
	// Seven of 150 cm, joined.
	if plan, err = planOn(t, c, binding.Crosswise, 3*measure.Millimetre, stripOf(150*cm, 6*cm, 7)); err != nil || len(plan.Joins) != 7 {
		t.Errorf("%+v, %v", plan, err)
	}
}

// starCloth draws a leftover whose outline any line from its middle meets once.
func starCloth(t *rapid.T) shape.Ring {
	n := rapid.IntRange(4, 12).Draw(t, "corners")
	var r shape.Ring
	for i := range n {
		a := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.8).Draw(t, "turn")) / float64(n)
		d := float64(rapid.Int64Range(10*cmU, 60*cmU).Draw(t, "far"))
		r = append(r, shape.Point{X: 60*cmU + int64(d*math.Cos(a)), Y: 60*cmU + int64(d*math.Sin(a))})
	}
	return r
}

// A strip that fits anywhere, tried at every few millimetres, is found: no lane that such a search comes upon is
// longer than the longest of the lanes named, and the plan lays it without a join.
func TestStripGoesWhereverItFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outline := starCloth(t)
		b := outline.Bounds()
		kept := rectangle(rapid.Int64Range(b.Min.X, b.Max.X).Draw(t, "x"), rapid.Int64Range(b.Min.Y, b.Max.Y).Draw(t, "y"), 8*cmU, 8*cmU)
		c := oddCloth(outline, kept)
		grain := rapid.SampledFrom([]binding.Grain{binding.Crosswise, binding.Lengthwise, binding.Bias}).Draw(t, "grain")
		g, _ := GroundOf(c, 0, 3000, grain)
		width := measure.Length(rapid.IntRange(2, 9).Draw(t, "width")) * measure.Centimetre
		longest := measure.Length(0)
		for u := g.u0; u+float64(width) <= g.u1; u += 2000 {
			for _, r := range g.free(math.Floor(u), float64(width)) {
				longest = max(longest, r.Long())
			}
		}
		if longest < measure.Centimetre {
			return
		}
		longest -= 20 // whole µm on the slant
		plan, err := planOn(t, c, grain, 3000, stripOf(longest, width, 1))
		if err != nil || len(plan.Joins) != 0 {
			t.Fatalf("a strip of %d × %d fits and was not laid in one: %+v, %v", longest, width, plan, err)
		}
		planOn(t, c, grain, 3000, stripOf(longest, width, 2), stripOf(longest*2/3, width, 2), stripOf(longest/3, width*2, 2))
	})
}

// BenchmarkStripsOnAnOddLeftover lays a tank's strips on a leftover of 40 corners with two pieces reserved.
func BenchmarkStripsOnAnOddLeftover(b *testing.B) {
	var r shape.Ring
	for i := range 40 {
		a := 2 * math.Pi * float64(i) / 40
		d := float64(45*cmU + int64(i%3)*4*cmU)
		r = append(r, shape.Point{X: 60*cmU + int64(d*math.Cos(a)), Y: 60*cmU + int64(d*math.Sin(a))})
	}
	c := oddCloth(r, rectangle(40*cmU, 40*cmU, 20*cmU, 15*cmU), rectangle(70*cmU, 60*cmU, 15*cmU, 20*cmU))
	cm := measure.Centimetre
	for b.Loop() {
		planOn(b, c, binding.Crosswise, 3000, stripOf(56*cm, 4*cm, 1), stripOf(50*cm, 4*cm, 2), stripOf(30*cm, 4*cm, 2))
	}
}
