package sizing_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"tallycloth/planner/adjust"
	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// along is the length of an edge of a pattern piece in a size, added up here.
func along(t testing.TB, p pattern.Pattern, piece, name, size string) float64 {
	t.Helper()
	q, _ := p.Piece(piece)
	for _, e := range q.Outlines[size].Edges {
		if e.Name == name {
			sum := 0.0
			for i := 1; i < len(e.Points); i++ {
				sum += math.Hypot(float64(e.Points[i].X-e.Points[i-1].X), float64(e.Points[i].Y-e.Points[i-1].Y))
			}
			return sum
		}
	}
	t.Fatalf("%s has no edge %s in size %s", piece, name, size)
	return 0
}

// across is how wide a pattern piece is at a depth.
func across(r shape.Ring, x int64) int64 {
	c := adjust.Crossings(r, x)
	return c[len(c)-1] - c[0]
}

// Legs of one size at the waist and others at hip and thigh: the waist is that of the first, from
// the crotch down they are those of the thigh, between them they grow without a step; what is
// sewn together stays equally long, to 2 mm.
func TestBlendOfLegs(t *testing.T) {
	p := draft.Shorts(draft.Chart())
	for _, to := range [][2]string{{"4", "4"}, {"6", "5"}, {"5", "6"}} {
		r, hip, thigh := t, to[0], to[1]
		b, err := sizing.BlendLevels(p, map[string]string{pattern.Waist: "3", pattern.Hip: hip, pattern.Thigh: thigh})
		if err != nil {
			r.Fatal(err)
		}
		if err := b.Pattern.Validate(); err != nil || len(b.Kept)+len(b.Whole) > 0 {
			r.Fatalf("%v, kept %v, left whole %v", err, b.Kept, b.Whole)
		}
		three, _ := p.Size("3")
		wide, _ := p.Size(hip)
		s, _ := b.Pattern.Size(b.Size)
		if s.Finished[pattern.Waist] != three.Finished[pattern.Waist] || s.Finished[pattern.Hip] != wide.Finished[pattern.Hip] {
			r.Fatalf("finished %v", s.Finished)
		}
		for _, code := range []string{"A", "B"} {
			if d := along(t, b.Pattern, code, "waist", b.Size) - along(t, p, code, "waist", "3"); math.Abs(d) > 100 {
				r.Fatalf("%s: the waist is off by %.0f µm", code, d)
			}
			if d := along(t, b.Pattern, code, "hem", b.Size) - along(t, p, code, "hem", thigh); math.Abs(d) > 100 {
				r.Fatalf("%s: the hem is off by %.0f µm", code, d)
			}
		}
		for _, seam := range []string{"side", "inseam"} {
			a, c := along(t, b.Pattern, "A", seam, b.Size), along(t, b.Pattern, "B", seam, b.Size)
			was := along(t, p, "A", seam, "3") - along(t, p, "B", seam, "3")
			if d := a - c - was; math.Abs(d) > 2000 {
				r.Fatalf("size %s: the %ss of front and back differ by %.0f µm, %.0f in size 3", b.Size, seam, a-c, was)
			}
		}
	}
}

// A sleeve of a larger upper arm keeps its cap, so that it goes into the armhole; its hem is that of
// the larger size, its two seams stay equally long, and what has no sleeve is as it was.
func TestBlendOfASleeve(t *testing.T) {
	p := draft.Tee(draft.Chart())
	b, err := sizing.BlendLevels(p, map[string]string{pattern.Bust: "3", sizing.UpperArm: "5"})
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Pattern.Validate(); err != nil || b.Size != "3, upper arm 5" {
		t.Fatalf("size %q, %v", b.Size, err)
	}
	if d := along(t, b.Pattern, "C", "cap", b.Size) - along(t, p, "C", "cap", "3"); d != 0 {
		t.Errorf("the cap is off by %.0f µm", d)
	}
	if d := along(t, b.Pattern, "C", "hem", b.Size) - along(t, p, "C", "hem", "5"); math.Abs(d) > 100 {
		t.Errorf("the hem is off by %.0f µm", d)
	}
	front, back := along(t, b.Pattern, "C", "underarm front", b.Size), along(t, b.Pattern, "C", "underarm back", b.Size)
	if math.Abs(front-back) > 100 {
		t.Errorf("its seams are %.0f and %.0f µm", front, back)
	}
	sleeve, _ := b.Pattern.Piece("C")
	small, large := sleeve.Outlines["3"].Cut, sleeve.Outlines["5"].Cut
	foot := min(small.Bounds().Max.X, large.Bounds().Max.X)
	for x := small.Bounds().Min.X + 20_000; x < foot-20_000; x += 5000 {
		if w := across(sleeve.Outlines[b.Size].Cut, x); w < across(small, x)-1500 || w > across(large, x)+1500 {
			t.Errorf("at %d it is %d wide, size 3 %d and size 5 %d", x, w, across(small, x), across(large, x))
		}
	}
	for _, code := range []string{"A", "B"} {
		q, _ := b.Pattern.Piece(code)
		if !slices.Equal(q.Outlines[b.Size].Cut, q.Outlines["3"].Cut) {
			t.Errorf("%s changed", code)
		}
	}
}

// The seams of a blended top are known as those of its sizes are.
func TestBlendKeepsItsSeams(t *testing.T) {
	p := draft.Tank(draft.Chart())
	b, err := sizing.BlendSize(p, "3", "4", "5")
	if err != nil {
		t.Fatal(err)
	}
	front, back := along(t, b.Pattern, "A", "side", b.Size), along(t, b.Pattern, "B", "side", b.Size)
	was := along(t, p, "A", "side", "3") - along(t, p, "B", "side", "3")
	if math.Abs(front-back-was) > 2000 {
		t.Errorf("front %.0f, back %.0f µm", front, back)
	}
	// the armhole of size 5 is deeper, so from that of size 3 the side is a little longer
	low, high := along(t, p, "A", "side", "3"), along(t, p, "A", "side", "5")
	if front < low-5000 || front > high+20_000 {
		t.Errorf("front %.0f µm, between %.0f and %.0f", front, low, high)
	}
}

// What cannot be blended is said: a level that no pattern piece has, a size that is not there, one
// size everywhere, a pattern whose pieces have no such edges.
func TestBlendLevelsRefuses(t *testing.T) {
	shorts, tank := draft.Shorts(draft.Chart()), draft.Tank(draft.Chart())
	plain := tank
	plain.Pieces = slices.Clone(tank.Pieces)
	for i, q := range plain.Pieces {
		outlines := map[string]pattern.Outline{}
		for s, o := range q.Outlines {
			o.Edges = nil
			outlines[s] = o
		}
		plain.Pieces[i].Outlines = outlines
	}
	for name, c := range map[string]struct {
		p  pattern.Pattern
		at map[string]string
	}{
		"no level":         {tank, nil},
		"another level":    {tank, map[string]string{"knee": "3"}},
		"no such size":     {tank, map[string]string{pattern.Bust: "3", pattern.Hip: "33"}},
		"one size":         {shorts, map[string]string{pattern.Waist: "3", pattern.Hip: "3"}},
		"arms of shorts":   {shorts, map[string]string{pattern.Waist: "3", sizing.UpperArm: "5"}},
		"edges not named":  {plain, map[string]string{pattern.Bust: "3", pattern.Hip: "5"}},
		"thighs of a tank": {tank, map[string]string{pattern.Bust: "3", pattern.Thigh: "5"}},
	} {
		var e *stash.Error
		if _, err := sizing.BlendLevels(c.p, c.at); !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	both, err := sizing.BlendLevels(tank, map[string]string{pattern.Bust: "3", pattern.Hip: "5", sizing.UpperArm: "4"})
	if err != nil || !slices.Equal(both.Whole, []string{sizing.UpperArm}) || both.Size != "3 to 5" {
		t.Errorf("%q, %v, %v", both.Size, both.Whole, err)
	}
}

// The size of thigh and upper arm is found where pattern and person know them, and goes into the
// blend; neither leads to a size.
func TestChoiceByLevelOfLimbs(t *testing.T) {
	p := draft.Shorts(draft.Chart())
	for i := range p.Sizes {
		p.Sizes[i].Body[pattern.Thigh] = measure.Length(500+i*20) * measure.Millimetre
	}
	hip, _ := p.Size("3")
	c, err := sizing.Choose(sizing.Ask{Pattern: p, Body: map[string]measure.Length{pattern.Hip: hip.Body[pattern.Hip], pattern.Waist: hip.Body[pattern.Waist], pattern.Thigh: 580 * measure.Millimetre}})
	if err != nil || c.Size != "3" || !slices.Contains(c.Why, sizing.LevelsDiffer) {
		t.Fatalf("%+v, %v", c, err)
	}
	if at := c.AtLevels(); at[pattern.Thigh] != "5" || at[pattern.Waist] != "3" || at[pattern.Bust] != "" {
		t.Errorf("%v", at)
	}
	if _, err := sizing.Choose(sizing.Ask{Pattern: p, Body: map[string]measure.Length{pattern.Thigh: 580 * measure.Millimetre}}); err == nil {
		t.Error("a thigh alone led to a size")
	}
}
