package sizing_test

import (
	"errors"
	"slices"
	"testing"

	"tallycloth/planner/adjust"
	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// TestBlendOfOneSizeIsThatSize: all of the first or all of the second give their areas and
// bounds, to what whole micrometres round.
func TestBlendOfOneSizeIsThatSize(t *testing.T) {
	for _, p := range draft.DemoPatterns(func() stash.ID { return stash.ID{1} }) {
		for _, q := range p.Pieces {
			for _, to := range []string{"4", "5"} {
				a, b := q.Outlines["3"].Cut, q.Outlines[to].Cut
				for share, want := range map[float64]shape.Ring{0: a, 1: b} {
					got, err := sizing.Blend(a, b, []sizing.Stop{{Share: share}})
					if err != nil {
						t.Fatalf("%s %s to size %s: %v", p.Name, q.Name, to, err)
					}
					if got.Bounds() != want.Bounds() || abs(got.Area()-want.Area()) > want.Area()/1e6 {
						t.Errorf("%s %s: share %g is not that size", p.Name, q.Name, share)
					}
				}
			}
		}
	}
}

const cm = measure.Centimetre

func abs(v int64) int64 { return max(v, -v) }

// TestBlendByLevel: the tank of size 3 at the bust and larger at the hip has the bust of size
// 3 and the hip of the larger size, to a tenth of a millimetre, and between them grows from
// the one to the other; the outline is sound and stays on the fold.
func TestBlendByLevel(t *testing.T) {
	tank := draft.Tank(draft.Chart())
	rapid.Check(t, func(t *rapid.T) {
		to := rapid.SampledFrom([]string{"4", "5", "6"}).Draw(t, "to")
		front, _ := tank.Piece(rapid.SampledFrom([]string{"A", "B"}).Draw(t, "piece"))
		a, b := front.Outlines["3"].Cut, front.Outlines[to].Cut
		bust, hip := 26*cm, measure.Length(rapid.Int64Range(48, 57).Draw(t, "hip"))*cm
		got, err := sizing.Blend(a, b, []sizing.Stop{{Depth: hip, Share: 1}, {Depth: bust, Share: 0}})
		if err != nil {
			t.Fatal(err)
		}
		side := func(r shape.Ring, at measure.Length) int64 { return adjust.Crossings(r, int64(at))[1] }
		for at := bust - 2*cm; at <= bust; at += cm {
			if abs(side(got, at)-side(a, at)) > 100 {
				t.Fatalf("at %d: %d, size 3 has %d", at, side(got, at), side(a, at))
			}
		}
		low, high := int64(got.Bounds().Max.Y), int64(b.Bounds().Max.Y)
		if abs(low-high) > 100 {
			t.Fatalf("the hip is %d, size %s has %d", low, to, high)
		}
		for at := bust; at < hip; at += cm {
			if y := side(got, at); y < side(a, at)-200 || y > max(side(b, at), side(b, at+cm), side(b, at-cm))+200 {
				t.Fatalf("at %d: %d, size 3 has %d and size %s %d", at, y, side(a, at), to, side(b, at))
			}
		}
		if got.Bounds().Min.Y != 0 || pattern.Unfold(got).Validate() != nil {
			t.Fatal("it left the fold")
		}
	})
}

// TestBlendRefuses: what does not correspond is said.
func TestBlendRefuses(t *testing.T) {
	tank, shorts := draft.Tank(draft.Chart()), draft.Shorts(draft.Chart())
	a, b := tank.Pieces[0].Outlines["3"].Cut, shorts.Pieces[0].Outlines["3"].Cut
	for name, try := range map[string]func() error{
		"another garment": func() error { _, err := sizing.Blend(a, b, []sizing.Stop{{Share: 0.5}}); return err },
		"no level":        func() error { _, err := sizing.Blend(a, a, nil); return err },
		"a share of 2":    func() error { _, err := sizing.Blend(a, a, []sizing.Stop{{Share: 2}}); return err },
	} {
		var e *stash.Error
		if err := try(); !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestBlendSize: a size of its own, bust of 3 and hip of 5: valid, finished girths and area
// between those of the two, hem as wide as that of 5, neck and armholes as those of 3.
func TestBlendSize(t *testing.T) {
	for _, p := range []pattern.Pattern{draft.Tank(draft.Chart()), draft.Tee(draft.Chart())} {
		b, err := sizing.BlendSize(p, "3", "4", "5")
		if err != nil {
			t.Fatalf("%s: %v", p.Name, err)
		}
		if err := b.Pattern.Validate(); err != nil {
			t.Fatalf("%s: %v", p.Name, err)
		}
		s, ok := b.Pattern.Size(b.Size)
		three, _ := p.Size("3")
		five, _ := p.Size("5")
		if !ok || s.Finished[pattern.Bust] != three.Finished[pattern.Bust] || s.Finished[pattern.Hip] != five.Finished[pattern.Hip] || len(p.Sizes) != 8 {
			t.Errorf("%s: %+v", p.Name, s)
		}
		for i, q := range b.Pattern.Pieces {
			old := p.Pieces[i]
			got, low, high := q.Outlines[b.Size].Cut, old.Outlines["3"].Cut, old.Outlines["5"].Cut
			if old.OnFold && (got.Area() <= low.Area() || got.Area() >= high.Area() || abs(got.Bounds().Max.Y-high.Bounds().Max.Y) > 100) {
				t.Errorf("%s %s: area %d between %d and %d", p.Name, q.Name, got.Area(), low.Area(), high.Area())
			}
		}
		for _, e := range p.Edges {
			now, _ := b.Pattern.Edge(e.Name)
			got, missing := b.Pattern.Measure(now, b.Size)
			want, _ := p.Measure(e, "3")
			for i := range want {
				if len(missing) > 0 || got[i].Length != want[i].Length {
					t.Errorf("%s %s: %+v, want %+v", p.Name, e.Name, got, want)
				}
			}
		}
		if _, err := sizing.BlendSize(b.Pattern, "3", "4", "5"); err == nil {
			t.Error("the same blend twice")
		}
	}
	if _, err := sizing.BlendSize(draft.Shorts(draft.Chart()), "3", "4", "5"); err == nil {
		t.Error("shorts have no armhole")
	}
}

// TestHerBlendIsProposed: once a blend is a size, it is the one proposed for whom it fits.
func TestHerBlendIsProposed(t *testing.T) {
	tank := draft.Tank(draft.Chart())
	her := body{pattern.Bust: in(36), pattern.Hip: in(40)} // sizes 4 and 5 of the table of 1967/68
	b, err := sizing.BlendSize(tank, "4", "4", "5")
	if err != nil {
		t.Fatal(err)
	}
	for want, p := range map[string]pattern.Pattern{"4": tank, b.Size: b.Pattern} {
		c, err := sizing.Choose(sizing.Ask{Pattern: p, Body: her})
		if err != nil || c.Size != want {
			t.Errorf("%s, %v; want %s", c.Size, err, want)
		}
		if differ := slices.Contains(c.Why, sizing.LevelsDiffer); differ != (want == "4") {
			t.Errorf("size %s: %v", want, c.Why)
		}
	}
}
