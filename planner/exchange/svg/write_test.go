package svg_test

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/drawn/drawntest"
	"tallycloth/planner/exchange/svg"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// moved brings the least corner of a ring to the origin, its first point first.
func moved(r shape.Ring) shape.Ring {
	b := r.Bounds()
	return r.Move(shape.Point{X: -b.Min.X, Y: -b.Min.Y})
}

// TestPatternComesBack: what is written is read with the same outlines to the µm, layers as
// sizes, and the test square is seen.
func TestPatternComesBack(t *testing.T) {
	for _, p := range draft.DemoPatterns(func() stash.ID { return stash.NoID }) {
		var b bytes.Buffer
		if err := svg.WritePattern(&b, p, drawn.Part{}); err != nil {
			t.Fatal(err)
		}
		d, err := svg.Read(context.Background(), &b, svg.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(d.Squares) == 0 || d.Squares[0].Side != 100_000 {
			t.Errorf("squares %+v", d.Squares)
		}
		got, _ := d.Pattern(drawn.Choice{Layers: true})
		if len(got.Sizes) != len(p.Sizes) || len(got.Pieces) != len(p.Pieces) {
			t.Fatalf("%s: %d sizes, %d pieces; want %d and %d", p.Name, len(got.Sizes), len(got.Pieces), len(p.Sizes), len(p.Pieces))
		}
		for i, q := range p.Pieces {
			if got.Pieces[i].Name != q.Name {
				t.Errorf("%q, want %q", got.Pieces[i].Name, q.Name)
			}
			for z, o := range q.Outlines {
				r, want := got.Pieces[i].Outlines[z].Cut, moved(o.Cut.Clean())
				if r.Area() != want.Area() || math.Abs(r.Perimeter()-want.Perimeter()) > 1e-3 || r.Bounds() != want.Bounds() {
					t.Errorf("%s %s: %d µm², want %d", q.Name, z, r.Area(), want.Area())
				}
			}
		}
	}
}

// TestMarksComeBack: grain line, notches, dots and lines of what is written are recognised in every size.
func TestMarksComeBack(t *testing.T) {
	for _, p := range draft.DemoPatterns(func() stash.ID { return stash.NoID }) {
		var b bytes.Buffer
		if err := svg.WritePattern(&b, p, drawn.Part{}); err != nil {
			t.Fatal(err)
		}
		d, err := svg.Read(context.Background(), &b, svg.Options{})
		if err != nil {
			t.Fatal(err)
		}
		got, _ := d.Pattern(drawn.Choice{Layers: true})
		for i, q := range p.Pieces {
			for z, o := range q.Outlines {
				g := got.Pieces[i].Outlines[z]
				folds := 0
				if q.OnFold {
					folds = 1
				}
				if len(g.Notches) != len(o.Notches) || len(g.Dots) != len(o.Dots) || len(g.Inner) != len(o.Inner)+folds {
					t.Errorf("%s %s %s: %d notches, %d dots, %d lines; want %d, %d, %d", p.Name, q.Name, z, len(g.Notches), len(g.Dots), len(g.Inner), len(o.Notches), len(o.Dots), len(o.Inner)+folds)
				}
				if long := o.GrainFoot.X - o.GrainTop.X; g.GrainFoot.X-g.GrainTop.X != long {
					t.Errorf("%s %s: grain of %d µm, want %d", q.Name, z, g.GrainFoot.X-g.GrainTop.X, long)
				}
				least := o.Cut.Bounds().Min
				for _, n := range o.Notches {
					if !slices.ContainsFunc(g.Notches, func(m pattern.Notch) bool {
						at := n.At.Sub(least).Sub(m.At)
						return m.Kind == n.Kind && math.Hypot(float64(at.X), float64(at.Y)) < 100
					}) {
						t.Errorf("%s %s: no %s notch at %v: %v", q.Name, z, n.Kind, n.At.Sub(least), g.Notches)
					}
				}
			}
		}
	}
}

// TestInkscapeReadsOurs: the editor draws the outlines where we wrote them.
func TestInkscapeReadsOurs(t *testing.T) {
	p := draft.DemoPatterns(func() stash.ID { return stash.NoID })[0]
	dir := t.TempDir()
	var b bytes.Buffer
	if err := svg.WritePattern(&b, p, drawn.Part{Sizes: []string{p.Sizes[0].Name}}); err != nil {
		t.Fatal(err)
	}
	filled := bytes.ReplaceAll(b.Bytes(), []byte(`fill="none" stroke="#000"`), []byte(`fill="#888" stroke="none"`)) // the measuring looks at areas
	name := filepath.Join(dir, "ours.svg")
	if err := os.WriteFile(name, filled, 0o600); err != nil {
		t.Fatal(err)
	}
	drawntest.Inkscape(t, "file-open:"+name+";export-type:ps;export-filename:"+filepath.Join(dir, "ours.ps")+";export-do")
	all := measurePostScript(t, filepath.Join(dir, "ours.ps"))
	for _, q := range p.Pieces {
		o, found := q.Outlines[p.Sizes[0].Name], false
		length, area := o.Cut.Perimeter()/1000, float64(o.Cut.Area())/1e6
		for _, m := range all {
			found = found || math.Abs(m.Length-length) <= 0.1 && math.Abs(m.Area-area) <= 0.02*length
		}
		if !found {
			t.Errorf("%s: %.3f mm², %.3f mm is not among what the editor draws: %+v", q.Name, area, length, all)
		}
	}
}
