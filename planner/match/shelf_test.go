package match_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/google/uuid"

	"tallycloth/planner/draft"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

const (
	pc = measure.OnePercent
	cm = measure.Centimetre
	mm = measure.Millimetre
)

// id gives the n-th of a row of IDs.
func id(n int) stash.ID { return uuid.NewSHA1(uuid.NameSpaceOID, fmt.Append(nil, n)) }

// demo are the studio's own patterns.
func demo(t testing.TB) (tank, tee, shorts pattern.Pattern) {
	t.Helper()
	n := 0
	ps := draft.DemoPatterns(func() stash.ID { n++; return id(n) })
	return ps[0], ps[1], ps[2]
}

// jersey is measured and right for a knit top.
func jersey(width measure.Length) stash.Fabric {
	f := stash.Fabric{ID: id(100), Name: "Test jersey", Construction: stash.Jersey, FullWidth: width, SelvedgeLoss: cm,
		Weight: 190 * measure.GramPerSquareMetre}
	f.Crosswise = stash.Grain{Stretch: stash.Measured(52 * pc), Recovery: stash.Measured(93 * pc), Shrinkage: stash.Measured(-3 * pc)}
	f.Lengthwise = stash.Grain{Stretch: stash.Measured(24 * pc), Recovery: stash.Measured(88 * pc), Shrinkage: stash.Measured(-5 * pc)}
	return f
}

// lengthOf is a washed and trued plain length of a fabric.
func lengthOf(f stash.Fabric, length measure.Length) stash.ClothState {
	c := stash.Cloth{ID: id(200), FabricID: f.ID, Code: "T1", Length: length, Width: f.OpenWidth(), Washed: true, SelvedgeLow: true, SelvedgeHigh: true}
	return stash.StateOf(c, f, nil, c.Area())
}

// leftoverOf is a washed leftover with an outline and no selvedge.
func leftoverOf(f stash.Fabric, p shape.Polygon) stash.ClothState {
	b := p.Bounds()
	c := stash.Cloth{ID: id(201), FabricID: f.ID, Code: "T2", Outline: p, Length: measure.Length(b.Length()), Width: measure.Length(b.Width()), Washed: true}
	return stash.StateOf(c, f, nil, c.Area())
}

// askFor is the usual question about a pattern.
func askFor(p pattern.Pattern, size string) match.Ask {
	return match.Ask{Pattern: p, Size: size, Role: pattern.Main, Clearance: 3 * mm, Fold: true,
		Tight: match.TightLimits{Length: 2 * cm, Width: cm}, EndLoss: 2 * cm}
}

func ask(t testing.TB, a match.Ask) *match.Question {
	t.Helper()
	q, err := match.New(a)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func verdict(t testing.TB, a match.Ask, c stash.ClothState) match.Verdict {
	t.Helper()
	v, err := ask(t, a).Check(context.Background(), c)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
