package binding_test

import (
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// along is how long a line is sideways: what the section shows of the strip's width.
func along(line []shape.Point) measure.Length {
	sum := int64(0)
	for i := 1; i < len(line); i++ {
		sum += max(line[i].X-line[i-1].X, line[i-1].X-line[i].X)
	}
	return measure.Length(sum)
}

// TestSectionIsAsWideAsTheStrip: the layers drawn add up to the cut width, but for the steps
// that set layers apart and the turn of cloth.
func TestSectionIsAsWideAsTheStrip(t *testing.T) {
	own := []string{"two widths, two seams", "three widths and a seam, wraps the edge", "4 widths, 2 seams, 1 turn, stands above the edge",
		"one width, two seams, turned in", "two widths, one seam, a caught edge", "2 widths, turned in", "two widths, two seams, turned in"}
	for i, technique := range append(binding.Techniques(), "", "", "", "", "", "", "") {
		f := binding.Finish{Technique: technique, Width: 9 * mm, Seam: 8 * mm, Turn: mm, Caught: 6 * mm}
		if known := len(binding.Techniques()); i >= known {
			r, err := binding.ParseRecipe(own[i-known])
			if err != nil {
				t.Fatal(err)
			}
			f.Technique, f.Own = binding.Technique(own[i-known]), r
		}
		width, err := f.CutWidth()
		if err != nil {
			t.Fatal(err)
		}
		s := f.Section()
		drawn := along(s.Strip)
		if off := drawn - width; off > 4*s.Step || off < -4*s.Step {
			t.Errorf("%s: %d is drawn of %d", technique, drawn, width)
		}
		strip := binding.Strip{Job: binding.Job{Finish: f}, CutWidth: 2 * width}
		for i, l := range strip.FoldLines() {
			if l <= 0 || l >= 2*width || i > 0 && l <= strip.FoldLines()[i-1] {
				t.Errorf("%s: fold lines %v in %d", technique, strip.FoldLines(), 2*width)
			}
		}
	}
	if s := (binding.Finish{Technique: "knotted"}).Section(); s.Strip != nil {
		t.Errorf("%+v", s)
	}
}
