package stash_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"tallycloth/stash"
)

// The newest strip of a technique comes first; what was given is not changed.
func TestStripsThatWorked(t *testing.T) {
	var f stash.Fabric
	for i, technique := range []string{"folded band", "prefinished band", "folded band"} {
		g, err := f.WithStrip(stash.StripNote{Technique: " " + technique + " ", Ratio: []float64{0.8, 0.81, 0.82}[i], Note: " held well "})
		if err != nil || len(g.Strips) != len(f.Strips)+1 {
			t.Fatalf("%+v, %v", g, err)
		}
		f = g
	}
	got := f.StripsBy("folded band")
	if len(got) != 2 || got[0].Ratio != 0.82 || got[1].Ratio != 0.8 || got[0].Note != "held well" {
		t.Errorf("%+v", got)
	}
	if f.StripsBy("double-layer wrap") != nil {
		t.Error("nothing is noted of that")
	}
	for range 150 {
		f, _ = f.WithStrip(stash.StripNote{Technique: "folded band", Ratio: 0.9})
	}
	if len(f.Strips) != 100 || f.Strips[0].Ratio != 0.9 {
		t.Errorf("%d strips are kept", len(f.Strips))
	}
}

func TestStripNoteRefuses(t *testing.T) {
	for name, n := range map[string]stash.StripNote{
		"no technique": {Ratio: 0.9},
		"ratio":        {Technique: "folded band", Ratio: 3},
		"no number":    {Technique: "folded band", Ratio: math.NaN()},
		"drawn":        {Technique: "folded band", Ratio: 0.9, Drawn: 0.9},
		"width":        {Technique: "folded band", Ratio: 0.9, Width: -1},
		"long":         {Technique: "folded band", Ratio: 0.9, Note: strings.Repeat("x", 3000)},
	} {
		if _, err := (stash.Fabric{}).WithStrip(n); !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
