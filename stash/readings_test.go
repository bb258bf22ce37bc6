package stash_test

import (
	"errors"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

const (
	mm = measure.Millimetre
	cm = measure.Centimetre
	pc = measure.OnePercent
)

// length and percent read a cell of a table.
func length(t *testing.T, s string) measure.Length {
	t.Helper()
	l, err := measure.ParseLength(s, mm)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func percent(t *testing.T, s string) measure.Percent {
	t.Helper()
	p, err := measure.ParsePercent(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestStretch(t *testing.T) {
	for _, row := range tableRows(t, "stretch/stretch.csv", ",") {
		test := stash.StretchTest{Before: length(t, row[0]), Stretched: length(t, row[1]), After: length(t, row[0])}
		if got, want := test.Stretch(), percent(t, row[2]); got != want {
			t.Errorf("%s to %s: %s, want %s (%s)", row[0], row[1], measure.FormatPercent(got), measure.FormatPercent(want), row[3])
		}
	}
}

func TestRecovery(t *testing.T) {
	for _, row := range tableRows(t, "stretch/recovery.csv", ",") {
		test := stash.StretchTest{Before: length(t, row[0]), Stretched: length(t, row[1]), After: length(t, row[2])}
		recovery, ok := test.Recovery()
		for i, got := range []measure.Percent{test.Stretch(), test.Growth(), recovery, test.RecoveredElongation()} {
			if want := percent(t, row[3+i]); got != want || !ok {
				t.Errorf("%v, column %d: %s, want %s", row[:3], 3+i, measure.FormatPercent(got), measure.FormatPercent(want))
			}
		}
	}
}

// TestRecoveryIdentity: recovery = (stretch − growth)/stretch, derived from the definitions.
func TestRecoveryIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.Int64Range(50_000, 500_000).Draw(t, "before")
		stretched := rapid.Int64Range(before+5_000, 3*before).Draw(t, "stretched")
		after := rapid.Int64Range(before, stretched).Draw(t, "after")
		test := stash.StretchTest{Before: measure.Length(before), Stretched: measure.Length(stretched), After: measure.Length(after)}
		if err := test.Validate(); err != nil {
			t.Fatal(err)
		}
		recovery, _ := test.Recovery()
		s, g := float64(test.Stretch()), float64(test.Growth())
		if got, want := float64(recovery), (s-g)/s*1e4; got-want > 1e4/s+1 || want-got > 1e4/s+1 {
			t.Fatalf("recovery %v, from stretch and growth %v", got, want)
		}
	})
}

func TestStretchTestApply(t *testing.T) {
	shrinks := stash.Grain{Shrinkage: stash.Measured(-300)}
	g, err := stash.StretchTest{Before: 100 * mm, Stretched: 140 * mm, After: 104 * mm, WidthBefore: 50 * mm, WidthStretched: 45 * mm}.Apply(shrinks)
	want := stash.Grain{Stretch: stash.Measured(40 * pc), Growth: stash.Measured(4 * pc), Recovery: stash.Measured(90 * pc), Narrowing: stash.Measured(10 * pc), Shrinkage: stash.Measured(-300)}
	if err != nil || g != want {
		t.Errorf("%+v, %v; want %+v", g, err, want)
	}
	g, err = stash.StretchTest{Before: 100 * mm, Stretched: 100 * mm, After: 100 * mm}.Apply(g)
	if err != nil || g.Recovery.Known || g.Stretch != stash.Measured(0) || g.Narrowing != want.Narrowing {
		t.Errorf("cloth that does not stretch: %+v, %v", g, err)
	}
	for name, bad := range map[string]stash.StretchTest{
		"nothing":           {},
		"shorter stretched": {Before: 100 * mm, Stretched: 90 * mm, After: 100 * mm},
		"shorter after":     {Before: 100 * mm, Stretched: 140 * mm, After: 90 * mm},
		"longer after":      {Before: 100 * mm, Stretched: 140 * mm, After: 150 * mm},
		"units mixed":       {Before: 4 * mm, Stretched: 140 * mm, After: 104 * mm},
		"one width":         {Before: 100 * mm, Stretched: 140 * mm, After: 104 * mm, WidthBefore: 50 * mm},
	} {
		if got, err := bad.Apply(shrinks); !errors.Is(err, stash.ErrInvalid) || got != shrinks {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
}

func TestDimensionalChange(t *testing.T) {
	for _, row := range tableRows(t, "stretch/shrinkage.csv", ",") {
		got, err := stash.DimensionalChange(length(t, row[0]), length(t, row[1]))
		if want := percent(t, row[2]); err != nil || got != want {
			t.Errorf("%s to %s: %s, %v; want %s", row[0], row[1], measure.FormatPercent(got), err, measure.FormatPercent(want))
		}
	}
	if _, err := stash.DimensionalChange(0, cm); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("from nothing: %v", err)
	}
}

func TestBeforeWashing(t *testing.T) {
	for _, row := range tableRows(t, "stretch/allowance.csv", ",") {
		after, dc := length(t, row[0]), percent(t, row[1])
		got := stash.BeforeWashing(after, dc)
		if want := length(t, row[2]); got-want > 50 || want-got > 50 { // the table has four decimals
			t.Errorf("%s at %s %%: %d µm, want %s", row[0], row[1], got, row[2])
		}
		if naive := length(t, row[3]); naive >= got || stash.AfterWashing(naive, dc) >= after {
			t.Errorf("%s at %s %%: the naive %s is not too short", row[0], row[1], row[3])
		}
	}
}

// TestWashingBothWays: what BeforeWashing asks for is enough, and 1 µm less is not.
func TestWashingBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := measure.Length(rapid.Int64Range(1, int64(measure.LongestLength)).Draw(t, "wanted"))
		dc := measure.Percent(rapid.Int64Range(-5000, 1000).Draw(t, "change"))
		need := stash.BeforeWashing(want, dc)
		if stash.AfterWashing(need, dc) < want || stash.AfterWashing(need-1, dc) >= want {
			t.Fatalf("for %d at %d: %d becomes %d", want, dc, need, stash.AfterWashing(need, dc))
		}
	})
}

func TestAssumed(t *testing.T) {
	f := stash.Fabric{Name: "a jersey", Construction: stash.Jersey}
	f.Crosswise.Stretch = stash.Measured(55 * pc)
	a := stash.Assumed(f)
	if a.Crosswise.Stretch != stash.Measured(55*pc) {
		t.Errorf("a measured value became %+v", a.Crosswise.Stretch)
	}
	if a.Lengthwise.Stretch.Known || a.Crosswise.Recovery.Known || a.Crosswise.Shrinkage.Known || a.Lengthwise.Stretch.Value == 0 || a.Weight == 0 {
		t.Errorf("assumed values are missing or count as measured: %+v", a)
	}
	if f.Crosswise.Recovery.Value != 0 {
		t.Error("the fabric given was changed")
	}
	if got := stash.Assumed(stash.Fabric{Construction: "felted lace"}); got.Crosswise.Stretch.Value == 0 {
		t.Error("nothing is assumed of an unknown construction")
	}
	with, without := f, f
	with.Fibres = stash.Fibres{{Name: "cotton", Share: 95 * pc}, {Name: "elastane", Share: 5 * pc}}
	if stash.Assumed(with).Lengthwise.Recovery.Value <= stash.Assumed(without).Lengthwise.Recovery.Value {
		t.Error("elastane does not help recovery")
	}
}

// TestAssumedByConstruction: plain jersey is assumed to stretch about twice as much
// widthwise as lengthwise and rib about twice as much as jersey (published weft-knit
// notes); knits to shrink within 2–7 % or less (Zakaria & Gupta, p. 356); swim knit and
// power net to stretch most lengthwise, wovens not at all (common practice).
func TestAssumedByConstruction(t *testing.T) {
	of := func(c stash.Construction) stash.Fabric { return stash.Assumed(stash.Fabric{Construction: c}) }
	if j := of(stash.Jersey); j.Crosswise.Stretch.Value != 2*j.Lengthwise.Stretch.Value || of(stash.Rib).Crosswise.Stretch.Value != 2*j.Crosswise.Stretch.Value {
		t.Errorf("jersey %v, rib %v", j.Crosswise.Stretch, of(stash.Rib).Crosswise.Stretch)
	}
	for _, c := range stash.Constructions() {
		f := of(c)
		most := f.Crosswise.Stretch.Value >= f.Lengthwise.Stretch.Value
		if along := c == stash.SwimKnit || c == stash.PowerNet; most == along {
			t.Errorf("%s stretches %d along and %d across", c, f.Lengthwise.Stretch.Value, f.Crosswise.Stretch.Value)
		}
		if !c.Knit() && f.Crosswise.Stretch.Value != 0 {
			t.Errorf("%s is a woven and stretches", c)
		}
		for _, g := range []stash.Grain{f.Lengthwise, f.Crosswise} {
			if g.Shrinkage.Value > 0 || g.Shrinkage.Value < -7*pc {
				t.Errorf("%s changes by %d in washing", c, g.Shrinkage.Value)
			}
			if want := g.Stretch.Value * (100*pc - g.Recovery.Value) / (100 * pc); g.Growth.Value != want {
				t.Errorf("%s grows %d, by its recovery %d", c, g.Growth.Value, want)
			}
		}
	}
}
