package outlines_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// TestSavedOutlinesComeIn: as either kind of file, with the same area in every size.
func TestSavedOutlinesComeIn(t *testing.T) {
	p := draft.DemoPatterns(func() stash.ID { return stash.NoID })[1]
	for _, ending := range []string{".dxf", ".SVG"} {
		path := filepath.Join(t.TempDir(), "tee"+ending)
		if err := outlines.Save(path, p, drawn.Part{}); err != nil {
			t.Fatal(err)
		}
		if !outlines.Known(path) {
			t.Errorf("%s is not known", path)
		}
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		d, err := outlines.Read(context.Background(), f, path, outlines.Options{})
		if err != nil {
			t.Fatal(err)
		}
		got, _ := d.Pattern(drawn.Choice{Layers: true})
		for i, q := range p.Pieces {
			for z, o := range q.Outlines {
				if got.Pieces[i].Outlines[z].Cut.Area() != o.Cut.Area() {
					t.Errorf("%s: %s in size %s has another area", ending, q.Name, z)
				}
			}
		}
		if err := outlines.Save(path, p, drawn.Part{}); err == nil {
			t.Errorf("%s was replaced", path)
		}
	}
}

func TestWhatCannotBeSaved(t *testing.T) {
	p := draft.DemoPatterns(func() stash.ID { return stash.NoID })[0]
	for name, c := range map[string]struct {
		path string
		p    pattern.Pattern
		part drawn.Part
	}{
		"ending":      {"tank.png", p, drawn.Part{}},
		"no outlines": {"tank.dxf", pattern.Pattern{Name: "Bare"}, drawn.Part{}},
		"no size":     {"tank.svg", p, drawn.Part{Sizes: []string{"none"}}},
		"no folder":   {"none/tank.dxf", p, drawn.Part{}},
	} {
		path := filepath.Join(t.TempDir(), c.path)
		var e *stash.Error
		if err := outlines.Save(path, c.p, c.part); !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := os.Stat(path); err == nil {
			t.Errorf("%s: a file is left", name)
		}
	}
}
