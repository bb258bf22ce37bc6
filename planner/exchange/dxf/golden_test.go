package dxf_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

var update = flag.Bool("update", false, "write golden files anew")

// small is a pattern with everything that is written.
func small() pattern.Pattern {
	outline := func(k int64) pattern.Outline {
		return pattern.Outline{
			Cut:      shape.Ring{{X: 0}, {X: 300_000 * k}, {X: 280_001, Y: 90_500 * k}, {X: 12_345, Y: 100_000 * k}},
			Notches:  []pattern.Notch{{At: shape.Point{X: 100_000}, Kind: "single"}, {At: shape.Point{X: 200_000}, Kind: "double"}},
			Dots:     []shape.Point{{X: 50_000, Y: 50_000}},
			Inner:    [][]shape.Point{{{X: 20_000, Y: 10_000}, {X: 20_000, Y: 60_000}, {X: 30_000, Y: 70_007}}},
			GrainTop: shape.Point{X: 60_000, Y: 30_000}, GrainFoot: shape.Point{X: 240_000, Y: 30_000},
			MatchMarks: []pattern.MatchMark{{Name: "hem", X: 270_000}},
			Edges:      []pattern.EdgePath{{Name: "neck", Points: []shape.Point{{X: 12_345, Y: 100_000}, {X: 0}}, Halved: true}},
		}
	}
	return pattern.Pattern{Name: "Sluice bib", Maker: "Löwenmühle",
		Sizes: []pattern.Size{{Name: "1"}, {Name: "2"}}, Roles: []pattern.Role{{Name: pattern.Main}, {Name: pattern.Lining}},
		Pieces: []pattern.Piece{
			{Code: "A", Name: "Bib", Role: pattern.Main, Cut: 1, OnFold: true, Fixed: true, Outlines: map[string]pattern.Outline{"1": outline(1), "2": outline(2)}},
			{Code: "B", Name: "Tie", Role: pattern.Lining, Cut: 2, Pairs: true, Grain: pattern.Bias, WithoutAllowance: true, Outlines: map[string]pattern.Outline{"1": outline(1), "2": outline(2)}},
		}}
}

// TestGolden: the file for a small pattern is known byte for byte, and comes back.
func TestGolden(t *testing.T) {
	var b bytes.Buffer
	if err := dxf.WritePattern(&b, small(), drawn.Part{}); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(scripts, "small.dxf")
	if *update {
		if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(b.Bytes(), want) {
		t.Errorf("%d bytes that are not those of %s: if that is right, run with -update", b.Len(), name)
	}
	back, _ := read(t, want, dxf.Options{}).Pattern(drawn.Choice{})
	if back.Maker != "Löwenmühle" || len(back.Pieces) != 2 || back.Pieces[1].Grain != pattern.Bias || !back.Pieces[0].OnFold {
		t.Errorf("%+v", back)
	}
}
