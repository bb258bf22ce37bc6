package paper_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
)

// A layout in full size as DXF: ezdxf, an independent library, finds no error, millimetres, the
// outlines where they lie on the cloth to a hundredth of a millimetre, the extents of the drawing, and
// lines as wide as was chosen.
func TestFullSizeDXF(t *testing.T) {
	s, g := studio(t)
	made, err := s.CuttingSheet(context.Background(), g.ID)
	if err != nil {
		t.Fatal(err)
	}
	page := paper.LayoutPage(say.Voice{}, made, made.Cloths[0])
	d, err := paper.Document(page, paper.OneDXF, sheet.Full{Grid: 100, Weight: 0.4})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := paper.OneDXF.Write(d)(&b); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "layout.dxf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("/usr/bin/python3", filepath.Join("..", "..", "testdata", "dxf", "measure.py"), path, "PIECE").Output()
	if err != nil {
		t.Fatalf("ezdxf and shapely, which this needs (Debian packages python3-ezdxf and python3-shapely): %v", err)
	}
	type measured struct {
		Bounds [4]float64
		Area   float64
		Errors []string
		Unit   int
		// Weights are widths of lines by layers, in hundredths of a millimetre.
		Weights map[string]int
	}
	var all []measured
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); {
		var m measured
		if err := json.Unmarshal(lines.Bytes(), &m); err != nil {
			t.Fatal(err)
		}
		all = append(all, m)
	}
	if len(all) != 1+len(made.Cloths[0].Pieces) || len(all[0].Errors) > 0 || all[0].Unit != 4 { // 4: millimetres
		t.Fatalf("%d outlines of %d: %+v", len(all)-1, len(made.Cloths[0].Pieces), all)
	}
	// A thin line was chosen 0.4 mm wide: grain arrows have that, outlines one and a half of it, as in the PDF.
	if w := all[0].Weights; w["GRAIN"] != 40 || w["PIECE"] != 60 || w["GRID"] >= w["GRAIN"] {
		t.Errorf("lines are %v wide", w)
	}
	for i, p := range made.Cloths[0].Pieces {
		o := p.Outline.Bounds()
		for k, want := range []int64{o.Min.X, o.Min.Y, o.Max.X, o.Max.Y} {
			if off := all[1+i].Bounds[k] - float64(want)/1000; math.Abs(off) > 0.01 {
				t.Errorf("%s lies %.3f mm off", p.Name, off)
			}
		}
	}
	// The grid goes to the bounds of the drawing, in which all else lies.
	within := page.Scene.Bounds
	for k, want := range []float64{within.Min.X, within.Min.Y, within.Max.X, within.Max.Y} {
		if off := all[0].Bounds[k] - want; math.Abs(off) > 0.01 {
			t.Errorf("the drawing ends %.3f mm off (%v, %v)", off, all[0].Bounds, within)
		}
	}
}
