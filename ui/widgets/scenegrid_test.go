package widgets

import (
	"fmt"
	"testing"

	"tallycloth/planner/scene"
)

// Where a drawing is small every second or third figure of a grid is written, evenly, and none lies
// over the next; where there is room all are.
func TestGridFiguresAreEven(t *testing.T) {
	for _, c := range []struct {
		name  string
		scale float64 // pixels a millimetre
	}{{"large", 1}, {"small", 0.17}, {"tiny", 0.06}} {
		t.Run(c.name, func(t *testing.T) {
			m := sceneMap{scale: c.scale}
			var items []scene.Item
			for v := 1; v <= 12; v++ {
				items = append(items, scene.Item{Style: scene.Grid, Text: fmt.Sprintf("%d cm", 20*v), At: scene.Point{X: float64(200 * v)}, Size: 30, Align: scene.Middle})
			}
			f := gridFigures(items, m)
			var at []int
			for i, it := range items {
				if f.next(it) {
					at = append(at, i)
				}
			}
			if c.name == "large" && len(at) != len(items) {
				t.Errorf("%d of %d figures are written where there is room", len(at), len(items))
			}
			if c.name == "tiny" && (len(at) == 0 || len(at) > 4) {
				t.Errorf("%d figures are written where there is room for three or four", len(at))
			}
			for i := 1; i < len(at); i++ {
				if i > 1 && at[i]-at[i-1] != at[1]-at[0] {
					t.Errorf("uneven: %v", at)
				}
				w, _ := extent(items[at[i]], m)
				if gap := float64(200*(at[i]-at[i-1])) * c.scale; gap <= w {
					t.Errorf("figures %d and %d lie %0.f pixels apart and are %.0f wide", at[i-1], at[i], gap, w)
				}
			}
		})
	}
}
