package sizing_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// gone is how far apart two points are, in µm.
func gone(p, q shape.Point) float64 { return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) }

// topOf is the point of a front where neck and strap meet: the one nearest to the top end.
func topOf(r shape.Ring) int {
	at := 0
	for i, p := range r {
		if p.X < r[at].X || p.X == r[at].X && p.Y > r[at].Y {
			at = i
		}
	}
	return at
}

// cornersOf are corners of a ring with that of its top among them, and a move of that one alone.
func cornersOf(r shape.Ring, by shape.Point) ([]int, []shape.Point) {
	corners := pattern.Corners(r, 40)
	if !slices.Contains(corners, topOf(r)) {
		corners = append(corners, topOf(r))
		slices.Sort(corners)
	}
	all := make([]shape.Point, len(corners))
	all[slices.Index(corners, topOf(r))] = by
	return corners, all
}

// edited says of one kind of edit how it is made on the front as drawn in a size, and what must be true
// of any size afterwards.
type edited struct {
	change func(on pattern.Outline) pattern.Change
	holds  func(was, now pattern.Outline) error
}

// sideways is by how much the strap point is moved out, in µm.
const sideways = 8_000

// edits are the kinds of edit of an outline that the window offers.
func edits() map[string]edited {
	out := shape.Point{Y: sideways}
	at := func(o pattern.Outline) shape.Point { return o.Notches[0].At.Add(shape.Point{X: 60_000}) } // on the side seam, 6 cm down
	alike := func(change func(shape.Point) pattern.Change) func(pattern.Outline) pattern.Change {
		return func(on pattern.Outline) pattern.Change {
			place := pattern.Onto(on.Cut, at(on))
			return sizing.Alike(on.Cut, func(to sizing.ToPlace) pattern.Change { return change(to(place)) })
		}
	}
	return map[string]edited{
		"move a point": {
			func(on pattern.Outline) pattern.Change {
				corners, by := cornersOf(on.Cut, out)
				return sizing.MoveAlike(on.Cut, corners, by)
			},
			func(was, now pattern.Outline) error {
				want := was.Cut[topOf(was.Cut)].Add(out)
				if _, _, gap := pattern.NearestSide(now.Cut, want); gap > 1_500 {
					return fmt.Errorf("the top lies %.0f µm off", gap)
				}
				return moved(was, now)
			}},
		"add a corner": {alike(pattern.AddPoint), func(was, now pattern.Outline) error {
			if len(now.Cut) != len(was.Cut)+1 || relative(now.Cut.Area(), was.Cut.Area()) > 1e-6 {
				return fmt.Errorf("%d corners, were %d", len(now.Cut), len(was.Cut))
			}
			return nil
		}},
		"remove a corner": {alike(pattern.RemovePoint), func(was, now pattern.Outline) error {
			if len(now.Cut) != len(was.Cut)-1 {
				return fmt.Errorf("%d corners, were %d", len(now.Cut), len(was.Cut))
			}
			return nil
		}},
		"set a notch": {alike(func(p shape.Point) pattern.Change { return pattern.AddNotch(p, "double") }), func(was, now pattern.Outline) error {
			if len(now.Notches) != len(was.Notches)+1 {
				return fmt.Errorf("%d notches, were %d", len(now.Notches), len(was.Notches))
			}
			n := now.Notches[len(now.Notches)-1]
			if d := gone(n.At, was.Notches[0].At); n.Kind != "double" || d < 45_000 || d > 75_000 {
				return fmt.Errorf("a %s notch %.0f µm from the other, not about 6 cm", n.Kind, d)
			}
			return nil
		}},
		"remove a notch": {
			func(on pattern.Outline) pattern.Change {
				place := on.Notches[0].At
				return sizing.Alike(on.Cut, func(to sizing.ToPlace) pattern.Change { return pattern.RemoveNotch(to(place)) })
			},
			func(was, now pattern.Outline) error {
				if len(now.Notches) != len(was.Notches)-1 || gone(now.Notches[0].At, was.Notches[1].At) > 3 {
					return fmt.Errorf("%v, were %v", now.Notches, was.Notches)
				}
				return nil
			}},
		"set the grain": {
			func(on pattern.Outline) pattern.Change { // a tenth to the right on the way up
				foot := on.Cut.Bounds().Max.Add(shape.Point{X: -50_000, Y: -50_000})
				return sizing.GrainAlike(on.Cut, foot, foot.Add(shape.Point{X: -100_000, Y: 10_000}))
			}, turnedBy(math.Atan(0.1))},
		"turn the grain": {func(pattern.Outline) pattern.Change { return pattern.TurnGrain(-5_711) }, turnedBy(math.Atan(0.1))},
		"mirror": {func(pattern.Outline) pattern.Change { return pattern.Mirror }, func(was, now pattern.Outline) error {
			if b := was.Cut.Bounds(); !slices.Contains(now.Cut, shape.Point{X: was.Cut[0].X - b.Min.X, Y: b.Max.Y - was.Cut[0].Y}) || now.Cut.Area() != was.Cut.Area() {
				return fmt.Errorf("it is no mirror image")
			}
			return nil
		}},
		"add seam allowance":  {func(pattern.Outline) pattern.Change { return pattern.OffsetBy(10*measure.Millimetre, false) }, offBy(10_000)},
		"take seam allowance": {func(pattern.Outline) pattern.Change { return pattern.OffsetBy(-5*measure.Millimetre, false) }, offBy(-5_000)},
	}
}

// moved: stitching lines go with the cutting line beside them, what is far away stays.
func moved(was, now pattern.Outline) error {
	for i, e := range now.Edges {
		first, last := gone(e.Points[0], was.Edges[i].Points[0]), gone(e.Points[len(e.Points)-1], was.Edges[i].Points[len(e.Points)-1])
		switch {
		case e.Name == "neck" && (first < 0.3*sideways || first > sideways+10):
			return fmt.Errorf("the neck begins %.0f µm from where it began", first)
		case e.Name == "hem" && first+last > 0:
			return fmt.Errorf("the hem moved")
		}
	}
	return nil
}

// turnedBy: the piece is turned, its grain line upright again.
func turnedBy(radians float64) func(was, now pattern.Outline) error {
	return func(was, now pattern.Outline) error {
		hem := func(o pattern.Outline) float64 { // how the hem lies
			for _, e := range o.Edges {
				if e.Name == "hem" {
					d := e.Points[len(e.Points)-1].Sub(e.Points[0])
					return math.Atan2(float64(d.Y), float64(d.X))
				}
			}
			return math.NaN()
		}
		if d := hem(now) - hem(was); !(math.Abs(math.Abs(d)-radians) < 1e-3) || now.GrainTop.X >= now.GrainFoot.X || math.Abs(float64(now.GrainTop.Y-now.GrainFoot.Y)) > 50 {
			return fmt.Errorf("turned by %.4f, the grain from %v to %v", d, now.GrainFoot, now.GrainTop)
		}
		if relative(now.Cut.Area(), was.Cut.Area()) > 1e-4 {
			return fmt.Errorf("the area changed")
		}
		return nil
	}
}

// offBy: the bounds grow by so much on every side.
func offBy(d int64) func(was, now pattern.Outline) error {
	return func(was, now pattern.Outline) error {
		a, b := was.Cut.Bounds(), now.Cut.Bounds()
		for _, off := range []int64{a.Min.Y - b.Min.Y, b.Max.Y - a.Max.Y, b.Max.X - a.Max.X} {
			if abs(off-d) > 5 {
				return fmt.Errorf("the bounds moved by %d, want %d", off, d)
			}
		}
		return nil
	}
}

func relative(a, b int64) float64 { return math.Abs(float64(a-b)) / float64(b) }

// TestEditsPerSizeAndForAll: every kind of edit, made on the front of the tank and of the sleep shirt as drawn
// in one size, changes that size alone or all of them alike.
func TestEditsPerSizeAndForAll(t *testing.T) {
	chart := draft.Chart()
	for _, p := range []pattern.Pattern{draft.Tank(chart), draft.Tee(chart)} {
		p, err := p.EditedPiece("A", (*pattern.Piece).OpenOut) // a whole front: no fold that keeps edges in place
		if err != nil {
			t.Fatal(err)
		}
		for name, e := range edits() {
			for _, drawn := range []string{"2", "7"} {
				for _, sizes := range [][]string{{drawn}, nil} {
					on := p.Pieces[0].Outlines[drawn]
					got, err := p.Edited("A", sizes, e.change(on))
					if err != nil {
						t.Errorf("%s: %s drawn in size %s, of %v: %v", p.Name, name, drawn, sizes, err)
						continue
					}
					for _, z := range p.Sizes {
						was, now := p.Pieces[0].Outlines[z.Name], got.Pieces[0].Outlines[z.Name]
						if sizes != nil && z.Name != drawn {
							if !slices.Equal(was.Cut, now.Cut) || !slices.Equal(was.Notches, now.Notches) || was.GrainTop != now.GrainTop {
								t.Errorf("%s: %s in size %s alone changed size %s", p.Name, name, drawn, z.Name)
							}
							continue
						}
						if err := e.holds(was, now); err != nil {
							t.Errorf("%s: %s drawn in size %s, size %s: %v", p.Name, name, drawn, z.Name, err)
						}
					}
				}
			}
		}
	}
}

// TestAlikeRefuses: an outline with another corner does not correspond, and says so; the size drawn is
// changed all the same.
func TestAlikeRefuses(t *testing.T) {
	p := draft.Tank(draft.Chart())
	p, err := p.Edited("A", []string{"3"}, func(o pattern.Outline) (pattern.Outline, error) {
		b := o.Cut.Bounds() // a slit in the hem
		i := slices.IndexFunc(o.Cut, func(p shape.Point) bool { return p.X == b.Max.X && p.Y > 0 })
		y := o.Cut[i].Y / 2
		o.Cut = slices.Insert(o.Cut, i, shape.Point{X: b.Max.X, Y: y - 5_000}, shape.Point{X: b.Max.X - 90_000, Y: y}, shape.Point{X: b.Max.X, Y: y + 5_000})
		return o, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	on := p.Pieces[0].Outlines["3"].Cut
	notch := sizing.Alike(on, func(to sizing.ToPlace) pattern.Change { return pattern.AddNotch(to(on[topOf(on)]), "single") })
	if _, err := p.Edited("A", nil, notch); err == nil || !strings.Contains(err.Error(), "size 1") || !strings.Contains(err.Error(), "other corners") {
		t.Errorf("%v", err)
	}
	if _, err := p.Edited("A", []string{"3"}, notch); err != nil {
		t.Error(err)
	}
}
