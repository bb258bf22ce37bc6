package outlines_test

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/planner/pattern"
)

// saved reads a file that an editor saved (testdata/svg/README.md says how).
func saved(t *testing.T, path ...string) drawn.Drawing {
	t.Helper()
	name := filepath.Join(append([]string{"..", "..", "..", "testdata"}, path...)...)
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := outlines.Read(context.Background(), f, name, outlines.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// bib checks the piece that all these files hold: 160 × 220 mm, its arrow, its notches and its name.
func bib(t *testing.T, q pattern.Piece, size string, notch float64) {
	t.Helper()
	o := q.Outlines[size]
	b := o.Cut.Bounds()
	if q.Name != "Bib front" || math.Abs(float64(b.Length())-220_000) > 60 || math.Abs(float64(b.Width())-160_000) > 60 {
		t.Errorf("%s %v", q.Name, b)
	}
	if len(o.Notches) != 2 || len(o.Inner) != 0 || math.Abs(float64(o.GrainFoot.X-o.GrainTop.X)-90_000) > 6_000 {
		t.Errorf("notches %v, lines %v, grain %v to %v", o.Notches, o.Inner, o.GrainFoot, o.GrainTop)
	}
	for _, n := range o.Notches {
		if math.Abs(float64(n.At.X)-notch) > 60 {
			t.Errorf("a notch at %v", n.At)
		}
	}
}

// TestSavedByDraw: what LibreOffice Draw (Debian package libreoffice-draw) saved, as SVG and as PDF: names from
// titles and words, the arrow as grain, strokes as notches, the test square.
func TestSavedByDraw(t *testing.T) {
	for _, path := range [][]string{{"svg", "saved_draw.svg"}, {"pdf", "saved_draw.pdf"}} {
		d := saved(t, path...)
		p, _ := d.Pattern(drawn.Choice{})
		if len(p.Pieces) != 2 || len(d.Squares) != 1 || math.Abs(float64(d.Squares[0].Side)-50_000) > 100 {
			t.Fatalf("%v: %d pieces, squares %+v, %+v", path, len(p.Pieces), d.Squares, d.Warnings)
		}
		i := slices.IndexFunc(p.Pieces, func(q pattern.Piece) bool { return q.Name == "Bib front" })
		bib(t, p.Pieces[max(i, 0)], drawn.OneSize, 130_000)
		if path[0] == "svg" && p.Pieces[1-max(i, 0)].Name != "Tie" { // a PDF has no titles
			t.Errorf("%+v", p.Pieces)
		}
	}
}

// TestSavedByInkscape: the same piece in two sizes, saved by Inkscape as SVG and as PDF: sizes told by layer
// where the file has layers, by colour, by dash.
func TestSavedByInkscape(t *testing.T) {
	for name, c := range map[string]struct {
		path []string
		pick drawn.Pick
	}{
		"layers":      {[]string{"svg", "saved_worded.svg"}, drawn.Pick{By: drawn.ByLayer, Sizes: map[string]string{"2": "2", "4": "4"}}},
		"colours":     {[]string{"svg", "saved_worded.svg"}, drawn.Pick{By: drawn.ByColour, Sizes: map[string]string{"#cc2244": "2", "#2244cc": "4"}}},
		"dashes":      {[]string{"svg", "saved_worded.svg"}, drawn.Pick{By: drawn.ByDash, Sizes: map[string]string{"": "2", "3-1.5": "4"}}},
		"PDF, colour": {[]string{"pdf", "saved_worded.pdf"}, drawn.Pick{By: drawn.ByColour, Sizes: map[string]string{"#cc2244": "2", "#2244cc": "4"}}},
		"PDF, dashes": {[]string{"pdf", "saved_worded.pdf"}, drawn.Pick{By: drawn.ByDash, Sizes: map[string]string{"": "2", "3-1.5": "4"}}},
	} {
		t.Run(name, func(t *testing.T) {
			d := saved(t, c.path...)
			d, err := d.Picked(context.Background(), c.pick)
			if err != nil {
				t.Fatal(err)
			}
			p, _ := d.Pattern(drawn.Choice{Layers: true})
			p.Name = "Bib"
			if err := p.Validate(); err != nil || len(p.Pieces) != 1 || len(p.Sizes) != 2 {
				t.Fatalf("%v, %d pieces, %+v", err, len(p.Pieces), p.Sizes)
			}
			bib(t, p.Pieces[0], "2", 120_000)
			if b := p.Pieces[0].Outlines["4"].Cut.Bounds(); math.Abs(float64(b.Length())-234_000) > 60 || math.Abs(float64(b.Width())-172_000) > 60 || len(p.Pieces[0].Outlines["4"].Notches) != 2 {
				t.Errorf("%v, %+v", b, p.Pieces[0].Outlines["4"])
			}
		})
	}
}
