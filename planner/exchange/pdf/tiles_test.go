package pdf_test

import (
	"bytes"
	"context"
	"fmt"
	"testing"

	"tallycloth/assets"
	"tallycloth/planner/draft"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/drawn/drawntest"
	"tallycloth/planner/exchange/pdf"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// tiled is the full-size print of a pattern in a size, as the program writes it.
func tiled(t testing.TB, p pattern.Pattern, size string, f sheet.Full) []byte {
	t.Helper()
	d := scene.Pieces{Room: 1_000_000}
	for _, q := range p.Pieces {
		o := q.Outlines[size]
		d.Pieces = append(d.Pieces, scene.Placed{ID: q.Code, Name: q.Name, Outline: o.Cut, GrainFrom: o.GrainFoot, GrainTo: o.GrainTop, Inner: o.Inner})
	}
	printer, err := sheet.New(assets.FontRegular)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := printer.Tiles(sheet.Page{Title: p.Name, Scene: d.Scene()}, f)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := doc.PDF(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func read(t testing.TB, all []byte) pdf.File {
	t.Helper()
	f, err := pdf.Read(context.Background(), bytes.NewReader(all), drawn.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func lay(t testing.TB, f pdf.File, plan drawn.Plan) drawn.Drawing {
	t.Helper()
	d, err := f.Lay(context.Background(), plan, "", 0)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// within says whether every point of a ring lies within so many µm of the edge of another, both
// moved so that their boxes begin in the same place.
func within(a, b shape.Ring, most float64) error {
	a, b = moved(a), moved(b)
	for _, x := range [2][2]shape.Ring{{a, b}, {b, a}} {
		for _, p := range x[0] {
			if d := drawntest.Off(x[1], p); d > most {
				return fmt.Errorf("%v lies %.0f µm off", p, d)
			}
		}
	}
	return nil
}

func moved(r shape.Ring) shape.Ring {
	b := r.Bounds()
	return r.Move(shape.Point{X: -b.Min.X, Y: -b.Min.Y})
}

// quarter turns a ring as the full-size print turns it: its length runs along the paper.
func quarter(r shape.Ring) shape.Ring {
	out := make(shape.Ring, len(r))
	for i, p := range r {
		out[i] = shape.Point{X: -p.Y, Y: p.X}
	}
	return out
}

// TestOwnTilesComeBack: full-size prints of the demo patterns over A4 and A3, with the
// overlaps that can be chosen, are joined by their frames and marks, and every outline
// comes back within 0.3 mm.
func TestOwnTilesComeBack(t *testing.T) {
	for _, p := range draft.DemoPatterns(func() stash.ID { return stash.NoID }) {
		size := p.Sizes[len(p.Sizes)/2].Name
		for name, full := range map[string]sheet.Full{"A4": {Paper: sheet.A4}, "A3, 2 cm": {Paper: sheet.A3, Overlap: 20}} {
			t.Run(p.Name+" "+name, func(t *testing.T) {
				f := read(t, tiled(t, p, size, full))
				found := f.Find()
				if found.Plan.Rows == nil || found.Stops > 0 {
					t.Fatalf("%+v", found)
				}
				d := lay(t, f, found.Plan)
				for _, q := range p.Pieces {
					want, best := quarter(q.Outlines[size].Cut), fmt.Errorf("there is no outline")
					for _, s := range d.Shapes {
						if err := within(s.Ring, want, 300); s.Usable() && (err == nil || best != nil) {
							best = err
						}
						if best == nil {
							break
						}
					}
					if best != nil {
						t.Errorf("%s: %v", q.Name, best)
					}
				}
				sides := map[int64]bool{}
				for _, q := range d.Squares {
					sides[int64(q.Side)] = true
				}
				if !sides[100_000] || !sides[101_600] {
					t.Errorf("squares %+v", d.Squares)
				}
				if got, _ := d.Pattern(drawn.Choice{}); len(got.Pieces) != len(p.Pieces) {
					t.Errorf("%d pieces, want %d", len(got.Pieces), len(p.Pieces))
				}
			})
		}
	}
}
