package sheet_test

import (
	"bytes"
	"flag"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
)

var update = flag.Bool("update", false, "write the golden files anew")

var golden = filepath.Join("..", "..", "..", "testdata", "scene")

// small are the drawings kept as golden files.
func small(t testing.TB) map[string]scene.Scene {
	metric, plan, sources := tankStrips(t, measure.Metric)
	imperial, _, _ := tankStrips(t, measure.Imperial)
	return map[string]scene.Scene{
		"layout": layoutScene(), "leftover": leftoverScene(),
		"neck": stripScene(imperial[0], plan.Joins[0]), "armhole": stripScene(metric[1], plan.Joins[1]),
		"cut":             cutScene(metric, plan, sources[0]),
		"section-wrapped": sectionScene(binding.WrappedTurned), "section-band": sectionScene(binding.FoldedBand), "section-facing": sectionScene(binding.FoldedFacing),
	}
}

// font is what a drawing embeds of the font: its bytes may change with the writer of fonts.
var font = regexp.MustCompile(`base64,[A-Za-z0-9+/=]+`)

// TestGoldenSVG compares drawings, the font's bytes aside, with those looked at and kept.
func TestGoldenSVG(t *testing.T) {
	p := printer(t)
	for name, s := range small(t) {
		var b bytes.Buffer
		if err := p.SVG(&b, s); err != nil {
			t.Fatal(err)
		}
		got := font.ReplaceAll(b.Bytes(), []byte("base64,"))
		file := filepath.Join(golden, name+".svg")
		if *update {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s differs from its golden file (%v): look at it, then run the test with -update", name, err)
		}
	}
}

// TestGoldenPNG compares pictures pixel by pixel; on average they may differ by one level in
// 256, for floating point on other machines.
func TestGoldenPNG(t *testing.T) {
	p := printer(t)
	for _, name := range []string{"layout", "armhole"} {
		var b bytes.Buffer
		if err := p.PNG(&b, small(t)[name], 700); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(golden, name+".png")
		if *update {
			if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if d := difference(t, &b, bytes.NewReader(want)); d > 1 {
			t.Errorf("%s differs from its golden file by %.2f levels", name, d)
		}
	}
}

// difference is the mean difference of two pictures in levels of 256; infinite for other sizes.
func difference(t *testing.T, a, b io.Reader) float64 {
	x, err := png.Decode(a)
	if err != nil {
		t.Fatal(err)
	}
	y, err := png.Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	if x.Bounds() != y.Bounds() {
		return math.Inf(1)
	}
	sum, n := 0.0, 0.0
	for i := x.Bounds().Min.X; i < x.Bounds().Max.X; i++ {
		for j := x.Bounds().Min.Y; j < x.Bounds().Max.Y; j++ {
			r, g, b, _ := x.At(i, j).RGBA()
			u, v, w, _ := y.At(i, j).RGBA()
			sum += math.Abs(float64(r)-float64(u)) + math.Abs(float64(g)-float64(v)) + math.Abs(float64(b)-float64(w))
			n += 3
		}
	}
	return sum / n / 257
}
