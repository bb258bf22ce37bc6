package dxf_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
)

// The reference for reading and writing is ezdxf, an independent DXF library, with GEOS
// (shapely) to measure by.

var scripts = filepath.Join("..", "..", "..", "testdata", "dxf")

// measured is an outline in mm as the reference measures it, y up.
type measured struct {
	Name         string
	Area, Length float64
	Bounds       [4]float64
	Errors       []string
	Unit         int
}

// python runs a script of testdata and reads its lines.
func python(t *testing.T, script string, args ...string) []measured {
	t.Helper()
	cmd := exec.Command("/usr/bin/python3", append([]string{filepath.Join(scripts, script)}, args...)...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("ezdxf and shapely, which these tests need (Debian packages python3-ezdxf and python3-shapely): %v\n%s", err, stderr.String())
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

// written has the reference write a file, and reads it.
func written(t *testing.T, kind string) (drawn.Drawing, []measured) {
	t.Helper()
	name := filepath.Join(t.TempDir(), kind+".dxf")
	want := python(t, "write.py", kind, name)
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := dxf.Read(context.Background(), f, dxf.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return d, want
}

func off(a, b float64) bool { return !(math.Abs(a-b) <= 0.1) }

// compare holds an outline against the reference; bounds are left, low, right, high.
func compare(t *testing.T, name string, r shape.Ring, bounds [4]float64, w measured) {
	t.Helper()
	length := r.Perimeter() / 1000
	if off(length, w.Length) || math.Abs(float64(r.Area())/1e6-w.Area) > 0.02*length {
		t.Errorf("%s: %.3f mm², %.3f mm; the reference has %.3f and %.3f", name, float64(r.Area())/1e6, length, w.Area, w.Length)
	}
	for i := range bounds {
		if off(bounds[i], w.Bounds[i]) {
			t.Errorf("%s: bounds %.3f; the reference has %.3f", name, bounds, w.Bounds)
			return
		}
	}
}

// TestPlainOutlines: lines and arcs that join, bulges, circles, ellipses, splines, blocks
// in blocks, planes seen from behind.
func TestPlainOutlines(t *testing.T) {
	d, want := written(t, "plain")
	if d.Stated != nil || d.Scale.Unit != 10 {
		t.Fatalf("scale %+v", d.Scale)
	}
	got := map[string][]shape.Ring{}
	for _, f := range d.Shapes {
		if f.Usable() {
			got[f.Name] = append(got[f.Name], f.Ring)
		}
	}
	// All but one outline have no words in them, so they are told apart by their areas.
	top := 0.0
	for _, w := range want {
		top = max(top, w.Bounds[3])
	}
	for _, w := range want {
		var best shape.Ring
		for _, rings := range got {
			for _, r := range rings {
				if best == nil || math.Abs(float64(r.Area())/1e6-w.Area) < math.Abs(float64(best.Area())/1e6-w.Area) {
					best = r
				}
			}
		}
		b := best.Bounds() // x down the page from its top
		compare(t, w.Name, best, [4]float64{float64(b.Min.Y) / 1000, top - float64(b.Max.X)/1000, float64(b.Max.Y) / 1000, top - float64(b.Min.X)/1000}, w)
	}
	if n := len(d.Shapes); n != len(want)+1 || len(got["stadium"]) != 1 || len(got["POCKET"]) != 2 {
		t.Errorf("%d shapes, %d named POCKET", n, len(got["POCKET"]))
	}
	reasons := map[drawn.Reason]string{}
	for _, w := range d.Warnings {
		reasons[w.Reason] += w.Name + w.What
	}
	if len(reasons) != 2 || !strings.Contains(reasons[drawn.Hidden], "OFF") || !strings.Contains(reasons[drawn.NotRead], "hatching") {
		t.Errorf("%+v", d.Warnings)
	}
	pieces, _ := d.ToPieces(drawn.Choice{Size: "1"})
	if len(pieces) != len(want) {
		t.Errorf("%d pieces", len(pieces))
	}
}

// TestSewnProduct: blocks as pieces in two sizes, in inches, half a front with its fold on
// the right, a collar mirrored across its grain.
func TestSewnProduct(t *testing.T) {
	d, want := written(t, "sewn")
	if d.Stated == nil || d.Scale.Unit != 25.4 {
		t.Fatalf("%+v", d)
	}
	p, _ := d.Pattern(drawn.Choice{})
	if p.Name != "Harbour top" || p.Maker != "Tests" || len(p.Pieces) != 3 || len(p.Sizes) != 2 || p.Sizes[0].Name != "S" || p.Sizes[1].Name != "M" {
		t.Fatalf("%+v", p)
	}
	p.Name = "Harbour top"
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	for _, w := range want {
		name, size, _ := strings.Cut(w.Name, " ")
		for _, q := range p.Pieces {
			if q.Name == name {
				sewnPiece(t, q, size, w)
			}
		}
	}
	front, sleeve, collar := p.Pieces[0], p.Pieces[1], p.Pieces[2]
	if !front.OnFold || front.Role != pattern.Main || front.Cut != 1 {
		t.Errorf("%+v", front)
	}
	o := front.Outlines["M"]
	if len(o.Notches) != 2 || o.Notches[0].At.Y != 0 || len(o.Inner) != 1 || len(o.Dots) != 1 || o.Dots[0].Y != 101_600 || o.GrainFoot.X-o.GrainTop.X != 304_800 || o.GrainTop.Y != 101_600 {
		t.Errorf("what is drawn on the front: %+v", o)
	}
	if sleeve.Cut != 2 || !sleeve.Pairs || sleeve.Role != "Mesh 4" || !strings.Contains(p.Notes, "Sleeve: ease here") || !strings.Contains(p.Notes, "set in flat") {
		t.Errorf("%+v, notes %q", sleeve, p.Notes)
	}
	if collar.OnFold || collar.Cut != 2 || len(collar.Outlines) != 2 {
		t.Errorf("%+v", collar)
	}
	told := ""
	for _, w := range d.Warnings {
		told += w.Name + ": " + w.What + "\n"
	}
	for _, s := range []string{"Collar: its mirror line does not run along the grain", "Collar: it is drawn in one size", "Sleeve: its quantity", "Sleeve: its material", "upper one was taken"} {
		if !strings.Contains(told, s) {
			t.Errorf("nothing says %q in\n%s", s, told)
		}
	}
}

// sewnPiece holds a piece against the reference: a half is as drawn, what was opened out
// twice as large; lengthwise and crosswise are up and across the file for all of them.
func sewnPiece(t *testing.T, q pattern.Piece, size string, w measured) {
	t.Helper()
	r := q.Outlines[size].Cut
	b := r.Bounds()
	long, wide := float64(b.Length())/1000, float64(b.Width())/1000
	times, tall, length := 1.0, w.Bounds[3]-w.Bounds[1], r.Perimeter()/1000
	if q.Name == "Collar" {
		times, tall = 2, 2*tall
		w.Length = 2 * (w.Length - 203.2) // without the edge on the mirror line
	}
	if off(long, tall) || off(wide, w.Bounds[2]-w.Bounds[0]) || off(length, w.Length) || math.Abs(float64(r.Area())/1e6-times*w.Area) > 0.01*length {
		t.Errorf("%s %s: %.3f × %.3f mm, %.3f mm², %.3f mm round; the reference has %+v", q.Name, size, long, wide, float64(r.Area())/1e6, length, w)
	}
}

// TestTheReferenceReadsOurs: without an error, with the same outlines in the same places.
func TestTheReferenceReadsOurs(t *testing.T) {
	for _, p := range demo() {
		name := filepath.Join(t.TempDir(), "ours.dxf")
		f, err := os.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := dxf.WritePattern(f, p, drawn.Part{}); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
		all := python(t, "measure.py", name)
		if len(all[0].Errors) > 0 || all[0].Unit != 4 {
			t.Errorf("%s: %+v", p.Name, all[0])
		}
		n := 1
		for _, q := range p.Pieces {
			for _, z := range p.Sizes {
				r := q.Outlines[z.Name].Cut
				w, b := all[n], r.Bounds()
				x, y := w.Bounds[0]-float64(b.Min.X)/1000, w.Bounds[1]-float64(b.Min.Y)/1000 // where it is placed
				compare(t, p.Name+" "+q.Name+" "+z.Name, r, [4]float64{x + float64(b.Min.X)/1000, y + float64(b.Min.Y)/1000, x + float64(b.Max.X)/1000, y + float64(b.Max.Y)/1000}, w)
				n++
			}
		}
		if n != len(all) {
			t.Errorf("%s: %d outlines, the reference reads %d", p.Name, n-1, len(all)-1)
		}
	}
}

// thin gives every line a fifth of a millimetre.
func thin(scene.Style, float64) float64 { return 0.2 }

// TestLayoutAtTrueScale: the reference and we read back a layout where it lies.
func TestLayoutAtTrueScale(t *testing.T) {
	p := demo()[0]
	front := p.Pieces[0].Whole(p.Sizes[0].Name)
	l := scene.Layout{Cloth: shape.Polygon{Outer: shape.Box{Max: shape.Point{X: 1_500_000, Y: 1_200_000}}.Ring()},
		Pieces: []scene.Placed{{Name: "Front ä", Outline: shape.Placement{Angle: 30_000, At: shape.Point{X: 500_000, Y: 500_000}}.Apply(front)}}}
	var b bytes.Buffer
	if err := dxf.WriteScene(&b, l.Scene(), thin); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "layout.dxf")
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	all := python(t, "measure.py", name, "PIECE")
	if len(all) != 2 || len(all[0].Errors) > 0 {
		t.Fatalf("%+v", all)
	}
	box := l.Pieces[0].Outline.Bounds()
	compare(t, "front", l.Pieces[0].Outline, [4]float64{float64(box.Min.X) / 1000, float64(box.Min.Y) / 1000, float64(box.Max.X) / 1000, float64(box.Max.Y) / 1000}, all[1])
	d := read(t, b.Bytes(), dxf.Options{})
	found := 0
	for _, f := range d.Shapes {
		if f.Usable() && f.Group[0] == "PIECE" {
			found++
			if f.Name != "Front ä" || f.Ring.Area() != l.Pieces[0].Outline.Area() || off(f.Ring.Perimeter()/1000, all[1].Length) {
				t.Errorf("%s: %d µm², want %d", f.Name, f.Ring.Area(), l.Pieces[0].Outline.Area())
			}
		}
	}
	if found != 1 {
		t.Errorf("%d pieces were read back", found)
	}
	if err := dxf.WriteScene(&b, scene.Scene{}, thin); err == nil {
		t.Error("an empty scene was written")
	}
}
