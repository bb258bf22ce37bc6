package scene

import (
	"testing"

	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
)

// TestEveryPlaceHasItsTape: the drawing of each measurement shows the figure and a tape on
// it, and everything lies within its frame.
func TestEveryPlaceHasItsTape(t *testing.T) {
	bare := len(Figure("").Items)
	for _, at := range sizing.Places() {
		s := Figure(at.Name)
		if len(s.Items) != bare+1 {
			t.Errorf("%s: %d items, the figure has %d", at.Name, len(s.Items), bare)
		}
		for _, it := range s.Items {
			for _, p := range it.corners() {
				if p.X < s.Bounds.Min.X || p.X > s.Bounds.Max.X || p.Y < s.Bounds.Min.Y || p.Y > s.Bounds.Max.Y {
					t.Errorf("%s: %v lies outside", at.Name, p)
				}
			}
		}
		if closed := s.Items[bare].Lines[0].Closed; closed != at.Girth {
			t.Errorf("%s: goes round: %v, want %v", at.Name, closed, at.Girth)
		}
	}
}

// TestEasesAreToScale: bars are as long as their eases, on their own side of the line.
func TestEasesAreToScale(t *testing.T) {
	o := func(size string, mm ...measure.Length) sizing.Option {
		out := sizing.Option{Size: size}
		for i, l := range mm {
			w := sizing.Loose
			if l < 0 {
				w = sizing.TooFar
			}
			out.Eases = append(out.Eases, sizing.Ease{Level: []string{"bust", "hip"}[i], Ease: l * measure.Millimetre, Wear: w})
		}
		return out
	}
	s := Eases([]sizing.Option{o("1", -40, 20), o("2", 10, 80)}, "2")
	var widths []float64
	for _, it := range s.Items {
		if it.ID == "" {
			continue
		}
		w := it.Lines[0].Points[1].X - it.Lines[0].Points[0].X
		if it.Style == Overlap {
			w = -w
		}
		widths = append(widths, w)
	}
	if len(widths) != 4 || widths[0] != -2*widths[1] || widths[3] != 8*widths[2] || widths[3] != -2*widths[0] {
		t.Errorf("bars %v", widths)
	}
	if len(Eases(nil, "").Items) != 0 {
		t.Error("nothing was drawn of nothing")
	}
}
