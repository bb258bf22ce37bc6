package svg_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/svg"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

func equal(a, b []string) bool { return slices.Equal(a, b) }

const head = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="1000mm" height="1000mm" viewBox="0 0 1000 1000">`

func parse(text string) (drawn.Drawing, error) {
	return svg.Read(context.Background(), strings.NewReader(text), svg.Options{})
}

// must reads a drawing of a metre square whose unit is 1 mm.
func must(t testing.TB, body string) drawn.Drawing {
	t.Helper()
	d, err := parse(head + body + "</svg>")
	if err != nil {
		t.Fatalf("%s: %v", body, err)
	}
	return d
}

// one reads the single outline of a drawing.
func one(t testing.TB, body string) drawn.Found {
	t.Helper()
	d := must(t, body)
	if len(d.Shapes) != 1 || !d.Shapes[0].Usable() {
		t.Fatalf("%s: %+v, %+v", body, d.Shapes, d.Warnings)
	}
	return d.Shapes[0]
}

// Areas and lengths known in closed form: π r², the parabola's two thirds
// (Archimedes), a cubic's by Green's theorem.
func TestShapesOfKnownArea(t *testing.T) {
	const pi = math.Pi
	for _, tt := range []struct {
		name, body   string
		area, length float64 // mm², mm; length 0 is not compared
	}{
		{"square", `<rect width="100" height="100"/>`, 10000, 400},
		{"rounded", `<rect width="100" height="60" rx="10"/>`, 6000 - (4-pi)*100, 2*(80+40) + 20*pi},
		{"one radius counts for both, at most half a side", `<rect width="40" height="40" ry="50"/>`, pi * 400, 40 * pi},
		{"circle", `<circle cx="200" cy="200" r="100"/>`, pi * 1e4, 200 * pi},
		{"circle in cm", `<circle cx="20cm" cy="20cm" r="10cm"/>`, pi * 1e4 * (96 / 25.4) * (96 / 25.4), 200 * pi * 96 / 25.4},
		{"ellipse", `<ellipse cx="200" cy="200" rx="100" ry="50"/>`, pi * 5e3, 484.4224},
		{"polygon", `<polygon points="0,0 30,0 30,40"/>`, 600, 120},
		{"polygon without commas", `<polygon points="0 0 30-0 30,40"/>`, 600, 120},
		{"polyline that closes", `<polyline points="0,0 30,0 30,40 0,0"/>`, 600, 120},
		{"lines", `<path d="M10 10h30v40H10z"/>`, 1200, 140},
		{"pairs after m are lines", `<path d="m10,10 30,0 0,40-30,0z"/>`, 1200, 140},
		{"closed by its last point", `<path d="M10 10h30v40H10V10"/>`, 1200, 140},
		{"parabola", `<path d="M0 0Q50 60 100 0z"/>`, 2.0 / 3 * 100 * 30, 0},
		{"T mirrors the parabola", `<path d="M0 0Q50 60 100 0T200 0V-100H0z"/>`, 20000, 0},
		{"S mirrors the cubic", `<path d="M0 0C0 60 100 60 100 0S200-60 200 0V-100H0z"/>`, 20000, 0},
		{"T after a line has no handle", `<path d="M0 0L100 0T100 100z"/>`, 5000, 0},
		{"cubic", `<path d="M0 0C0 60 100 60 100 0z"/>`, 3600, 0},
		{"half circle", `<path d="M0 100A100 100 0 0 1 200 100z"/>`, pi * 5e3, 200 + 100*pi},
		{"large arc, flags run together", `<path d="M100 0a100 100 0 11-100 100h100z"/>`, pi * 1e4 * 3 / 4, 200 + 150*pi},
		{"arc with radii too small", `<path d="M0 100A1 1 0 0 0 200 100z"/>`, pi * 5e3, 200 + 100*pi},
		{"turned ellipse", `<path d="M0 0A100 50 90 0 1 0 200z"/>`, pi * 2500, 0},
		{"scaled", `<g transform="scale(2)"><rect transform="scale(1 3)" width="10" height="10"/></g>`, 1200, 160},
		{"matrix", `<rect transform="matrix(0 2 -2 0 300 5)" width="10" height="20"/>`, 800, 120},
		{"turned about a place", `<rect transform="rotate(30, 50, 50) translate(3,-4)" width="10" height="20"/>`, 200, 60},
		{"skewed", `<rect transform="skewX(45)skewY(0)" width="10" height="20"/>`, 200, 20 + 40*math.Sqrt2},
		{"mirrored", `<rect transform="scale(-1,1)" width="10" height="20"/>`, 200, 60},
		{"nested drawing", `<svg x="10" width="100" height="100" viewBox="0 0 10 20"><rect width="10" height="20"/></svg>`, 5000, 300},
		{"symbol", `<symbol id="s" viewBox="0 0 10 10"><rect width="10" height="10"/></symbol><use href="#s" width="50" height="50"/>`, 2500, 200},
		{"used", `<defs><rect id="r" width="10" height="10"/></defs><use xlink:href="#r" x="5" transform="scale(3)"/>`, 900, 120},
		{"used before it is defined", `<use href="#r"/><defs><g id="r" transform="scale(2)"><rect width="10" height="10"/></g></defs>`, 400, 80},
		{"switch", `<switch><foreignObject/><g><rect width="10" height="10"/></g></switch>`, 100, 40},
	} {
		t.Run(tt.name, func(t *testing.T) {
			f := one(t, tt.body)
			if got := float64(f.Area) / 1e6; math.Abs(got-tt.area) > 0.01*f.Length.Millimetres() {
				t.Errorf("area %.4f mm², want %.4f", got, tt.area)
			}
			if tt.length > 0 && math.Abs(f.Length.Millimetres()-tt.length) > 0.1 {
				t.Errorf("length %.4f mm, want %.4f", f.Length.Millimetres(), tt.length)
			}
		})
	}
}

// TestFrame: the top of the page is −x, its right side +y, and the face stays the face.
func TestFrame(t *testing.T) {
	f := one(t, `<polygon points="10,20 70,20 10,120"/>`)
	want := shape.Ring{{X: 20_000, Y: 10_000}, {X: 120_000, Y: 10_000}, {X: 20_000, Y: 70_000}}
	i := slices.Index(f.Ring, want[0])
	if i < 0 || len(f.Ring) != 3 || f.Ring[(i+1)%3] != want[1] || f.Ring[(i+2)%3] != want[2] {
		t.Errorf("%v, want %v", f.Ring, want)
	}
}

// TestUnits: CSS Values and Units Level 3, section 6.2: 1 in = 2.54 cm = 96 px = 72 pt = 6 pc.
func TestUnits(t *testing.T) {
	for _, tt := range []struct {
		attrs string
		unit  float64 // mm
	}{
		{`width="210mm" height="297mm" viewBox="0 0 210 297"`, 1},
		{`width="21cm" height="29.7cm" viewBox="0 0 210 297"`, 1},
		{`width="10in" height="10in" viewBox="0 0 10 10"`, 25.4},
		{`width="720pt" height="720pt" viewBox="0 0 720 720"`, 25.4 / 72},
		{`width="6pc" height="6pc" viewBox="0 0 1 1"`, 25.4},
		{`width="96px" height="96px"`, 25.4 / 96},
		{`width="96px" height="96px" viewBox="0 0 96 96"`, 25.4 / 96},
		{`width="100mm" height="100mm"`, 25.4 / 96},
		{`width="400Q" height="400Q" viewBox="0,0,100,100"`, 1},
		{`width="1e2mm" viewBox="-5 -5 100 50"`, 1},
		{`height="50MM" viewBox="0 0 100 50"`, 1},
		{`width="100mm" height="300mm" viewBox="0 0 100 100"`, 1},
	} {
		d, err := parse(`<svg xmlns="http://www.w3.org/2000/svg" ` + tt.attrs + `><rect width="10" height="10"/></svg>`)
		if err != nil {
			t.Errorf("%s: %v", tt.attrs, err)
			continue
		}
		want := measure.Length(math.Round(tt.unit * 10_000))
		if got := measure.Length(d.Shapes[0].Ring.Bounds().Length()); got < want-1 || got > want+1 {
			t.Errorf("%s: ten units are %d µm, want %d", tt.attrs, got, want)
		}
		if math.Abs(d.Scale.Unit-tt.unit) > 1e-9 || d.Scale.From == "" {
			t.Errorf("%s: %+v", tt.attrs, d.Scale)
		}
	}
}

// TestNoUnits: a drawing without units asks, and is read once the answer is known.
func TestNoUnits(t *testing.T) {
	for _, attrs := range []string{``, `width="800" height="600"`, `width="100%" height="100%" viewBox="0 0 800 600"`, `viewBox="0 0 800 600"`, `width="0mm" height="-3mm"`, `width="3em"`, `width="mm"`} {
		text := `<svg xmlns="http://www.w3.org/2000/svg" ` + attrs + `><rect width="800" height="800"/></svg>`
		_, err := parse(text)
		var e *stash.Error
		if !errors.Is(err, drawn.ErrNoUnits) || !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%s: %v", attrs, err)
		}
		d, err := svg.Read(context.Background(), strings.NewReader(text), svg.Options{Unit: 0.1})
		if err != nil || len(d.Squares) != 1 || d.Squares[0].Side != 8*measure.Centimetre || !d.Scale.Given {
			t.Errorf("%s with a unit of 0.1 mm: %+v, %v", attrs, d, err)
			continue
		}
		if u := d.UnitFor(d.Squares[0], 10*measure.Centimetre); math.Abs(u-0.125) > 1e-9 {
			t.Errorf("a square of 800 units that is 10 cm: unit %g mm, want 0.125", u)
		}
	}
}

// TestTransformsScaleAreas: area scales by the determinant, whatever is nested.
func TestTransformsScaleAreas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, name) }
		kx, ky, k := v("kx", 0.3, 2), v("ky", 0.3, 2), v("k", 0.5, 2)
		skew, turn := v("skew", -60, 60), v("turn", -360, 360)
		if rapid.Bool().Draw(t, "mirrored") {
			ky = -ky
		}
		det := math.Abs(kx*ky) * k * k
		text := fmt.Sprintf(`%s<g transform="skewX(%g) scale(%g,%g)"><g transform="rotate(%g)scale(%g)"><circle cx="10" cy="20" r="100"/></g></g></svg>`, head, skew, kx, ky, turn, k)
		got, err := parse(text)
		if err != nil || len(got.Shapes) != 1 || !got.Shapes[0].Usable() {
			t.Fatalf("%v %+v", err, got)
		}
		f := got.Shapes[0]
		if want := det * math.Pi * 1e4; math.Abs(float64(f.Area)/1e6-want) > 0.015*f.Length.Millimetres() {
			t.Fatalf("area %.3f, want %.3f", float64(f.Area)/1e6, want)
		}
	})
}

// TestFlatness: every point of a flattened arc lies on it, every chord within 0.01 mm.
func TestFlatness(t *testing.T) {
	for _, r := range []float64{0.5, 5, 50, 500} {
		f := one(t, fmt.Sprintf(`<circle cx="500" cy="500" r="%g"/>`, r))
		for i, p := range f.Ring {
			q := f.Ring[(i+1)%len(f.Ring)]
			x, y := float64(p.X+q.X)/2000-500, float64(p.Y+q.Y)/2000-500
			if off := r - math.Hypot(x, y); off > 0.0115 || off < -0.0015 { // and 1 µm of rounding
				t.Errorf("radius %g mm: a chord lies %.4f mm off", r, off)
			}
		}
	}
}

func BenchmarkRead(b *testing.B) {
	text, err := os.ReadFile(filepath.Join(drawings, "saved_layers.svg"))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := svg.Read(context.Background(), bytes.NewReader(text), svg.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRefuseMillionPoints(b *testing.B) {
	text := head + `<path d="M0 0` + strings.Repeat("1 1 ", 1_000_001) + `"/></svg>`
	for b.Loop() {
		if _, err := parse(text); err == nil {
			b.Fatal("not refused")
		}
	}
}
