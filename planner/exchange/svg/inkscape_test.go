package svg_test

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

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/drawn/drawntest"
	"tallycloth/planner/exchange/svg"
	"tallycloth/stash/shape"
)

var drawings = filepath.Join("..", "..", "..", "testdata", "svg")

// measured is an outline in mm, as GEOS measures it.
type measured struct{ Area, Length, X, Y float64 }

// measurePostScript measures what an editor drew, by way of cairo and GEOS.
func measurePostScript(t *testing.T, path string) []measured {
	t.Helper()
	cmd := exec.Command("/usr/bin/python3", filepath.Join(drawings, "measure.py"), path)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("measuring with GEOS (Debian package python3-shapely): %v\n%s", err, stderr.String())
	}
	var all []measured
	for s := bufio.NewScanner(bytes.NewReader(out)); s.Scan(); {
		var m measured
		if err := json.Unmarshal(s.Bytes(), &m); err != nil {
			t.Fatal(err)
		}
		all = append(all, m)
	}
	return all
}

// centre is the centre of area on the page, in mm.
func centre(r shape.Ring) (x, y float64) {
	var a float64
	for i, p := range r {
		q := r[(i+1)%len(r)]
		c := float64(p.X)*float64(q.Y) - float64(p.Y)*float64(q.X)
		a += c
		x += c * float64(p.Y+q.Y)
		y += c * float64(p.X+q.X)
	}
	return x / (3 * a) / 1000, y / (3 * a) / 1000
}

func read(t *testing.T, path string) drawn.Drawing {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := svg.Read(context.Background(), f, svg.Options{})
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return d
}

// compare holds every outline against the editor's own geometry.
func compare(t *testing.T, d drawn.Drawing, want []measured) {
	t.Helper()
	var rings []drawn.Found
	for _, f := range d.Shapes {
		if f.Usable() {
			rings = append(rings, f)
		}
	}
	if len(rings) != len(want) || len(want) != 8 {
		t.Fatalf("%d outlines, the editor draws %d of 8", len(rings), len(want))
	}
	for i, f := range rings {
		w, length := want[i], f.Length.Millimetres()
		x, y := centre(f.Ring)
		if math.Abs(length-w.Length) > 0.1 || math.Abs(float64(f.Area)/1e6-w.Area) > 0.02*length {
			t.Errorf("%s: %.3f mm², %.3f mm, the editor has %.3f and %.3f", f.Name, float64(f.Area)/1e6, length, w.Area, w.Length)
		}
		page := d.Scale.Height.Millimetres()
		if math.Abs(x-w.X) > 0.1 || math.Abs(y-(page+w.Y)) > 0.5 { // cairo rounds the page's height up to whole points
			t.Errorf("%s: centre %.3f, %.3f, the editor has %.3f, %.3f", f.Name, x, y, w.X, page+w.Y)
		}
	}
}

// TestFilesSavedByInkscape reads the files kept in testdata.
func TestFilesSavedByInkscape(t *testing.T) {
	for _, name := range []string{"saved_layers", "saved_plain", "saved_edited"} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(drawings, name+".svg")
			ps := filepath.Join(t.TempDir(), name+".ps")
			drawntest.Inkscape(t, "file-open:"+path+";export-type:ps;export-filename:"+ps+";export-do")
			compare(t, read(t, path), measurePostScript(t, ps))
		})
	}
}

// TestInkscapeSavesNow lets the editor that is installed save the drawing.
func TestInkscapeSavesNow(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	drawntest.Inkscape(t, "file-open:"+filepath.Join(drawings, "source.svg")+
		";export-filename:"+in("layers.svg")+";export-do;export-type:ps;export-filename:"+in("drawn.ps")+";export-do")
	drawntest.Inkscape(t, "file-open:"+filepath.Join(drawings, "source.svg")+";export-plain-svg;export-filename:"+in("plain.svg")+";export-do")
	want := measurePostScript(t, in("drawn.ps"))
	compare(t, read(t, in("layers.svg")), want)
	compare(t, read(t, in("plain.svg")), want)
}

// TestWhatInkscapeNames holds names, layers, what was left out and the test square.
func TestWhatInkscapeNames(t *testing.T) {
	d := read(t, filepath.Join(drawings, "saved_layers.svg"))
	var names []string
	for _, f := range d.Shapes {
		names = append(names, f.Name)
		if f.Group[0] != "Size 3" {
			t.Errorf("%s lies in %v", f.Name, f.Group)
		}
	}
	want := []string{"Test square", "Front", "Cuff", "Gusset", "Tab", "Cap", "Yoke", "pocket-edge", "Waistline"}
	if !equal(names, want) {
		t.Errorf("names %q, want %q", names, want)
	}
	reasons := map[drawn.Reason]string{}
	_, more := d.ToPieces(drawn.Choice{})
	for _, w := range more {
		if w.Reason == drawn.Text { // about a fold, at no piece
			d.Warnings = append(d.Warnings, w)
		}
	}
	for _, w := range d.Warnings {
		reasons[w.Reason] = w.Name
		if w.What == "" || w.Do == "" {
			t.Errorf("warning without words: %+v", w)
		}
	}
	if len(reasons) != 2 || reasons[drawn.Text] != "Cut one on the fold" || reasons[drawn.Hidden] != "Old notes" {
		t.Errorf("warnings %v", d.Warnings)
	}
	if len(d.Squares) != 1 || d.Squares[0].Side != 50_000 || d.Squares[0].Likely != 50_000 || d.Shapes[d.Squares[0].Shape].Name != "Test square" {
		t.Errorf("squares %+v", d.Squares)
	}
	if w := d.Shapes[8]; w.Inside != 1 {
		t.Errorf("the waistline lies in %d, want the front", w.Inside)
	}
}
