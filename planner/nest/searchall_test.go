package nest

import (
	"testing"

	"tallycloth/stash/shape"
)

// TestSearchGainsWithEachOption: with each option of a strip the search takes
// length off the first layout. Solve checks every answer, so an invalid one fails.
func TestSearchGainsWithEachOption(t *testing.T) {
	flaw := shape.Polygon{Outer: shape.Box{Min: shape.Point{X: 300_000, Y: 400_000}, Max: shape.Point{X: 380_000, Y: 500_000}}.Ring()}
	for name, option := range map[string]func(*Instance){
		"one fold": func(in *Instance) {
			in.Fabrics[0].Width = 1_600_000
			in.Fabrics[0].Bands = []Band{{To: 700_000, Layers: 2, FoldLow: true}, {From: 700_000, To: 1_600_000, Layers: 1}}
		},
		"two folds": func(in *Instance) {
			in.Fabrics[0].Width = 1_600_000
			in.Fabrics[0].Bands = []Band{{To: 800_000, Layers: 2, FoldLow: true}, {From: 800_000, To: 1_600_000, Layers: 2, FoldHigh: true}}
		},
		"obstacle": func(in *Instance) { in.Fabrics[0].Obstacles = []shape.Polygon{flaw} },
		"repeat":   func(in *Instance) { in.Items[0].Repeat, in.Items[0].Phase = 60_000, 20_000 },
		"tilt":     func(in *Instance) { in.Items[0].Tilt = 2000 },
		"mirror":   func(in *Instance) { in.Items[0].Mirror, in.Items[1].Mirror = EitherFace, Mirrored },
		"group": func(in *Instance) {
			in.Groups = []Group{{Angles: []shape.Angle{shape.Turn0, shape.Turn180}}}
			in.Items[0].Group, in.Items[0].Angles = 0, nil
		},
	} {
		t.Run(name, func(t *testing.T) {
			in := heap(15, 2000)
			option(&in)
			first := solved(t, in, Options{FirstOnly: true}).Solution.Used[0]
			more := solved(t, in, Options{Steps: 60}).Solution.Used[0]
			t.Logf("%d µm at first, %d after a search", first, more)
			if more >= first {
				t.Errorf("%d µm at first, %d after a search", first, more)
			}
		})
	}
}
