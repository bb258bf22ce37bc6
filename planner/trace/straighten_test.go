package trace

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// waves is a smooth picture, in which a shift of a pixel shows.
func waves(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := func(a, b float64) uint8 { return uint8(128 + 100*math.Sin(float64(x)/a)*math.Cos(float64(y)/b)) }
			img.SetRGBA(x, y, color.RGBA{v(17, 23), v(29, 13), v(11, 31), 255})
		}
	}
	return img
}

// TestStraightLikeImageMagick straightens a picture and has ImageMagick distort it by the
// same four pairs of places: the pixels agree.
func TestStraightLikeImageMagick(t *testing.T) {
	src := waves(800, 600)
	r := Rectangle{Corners: [4]Dot{{240, 150}, {560, 180}, {600, 450}, {200, 420}}, Along: 300_000, Across: 250_000}
	h, err := r.homography()
	if err != nil {
		t.Fatal(err)
	}
	s, err := straighten(t.Context(), src, h, r)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.png"), filepath.Join(dir, "out.png")
	writePNG(t, in, src)
	var pairs []string
	for i, p := range r.plane() {
		d := s.Dot(p)
		for _, v := range []float64{r.Corners[i].X, r.Corners[i].Y, d.X, d.Y} {
			pairs = append(pairs, strconv.FormatFloat(v, 'f', 6, 64))
		}
	}
	size := strconv.Itoa(s.Image.Rect.Dx()) + "x" + strconv.Itoa(s.Image.Rect.Dy())
	if b, err := exec.Command("convert", in, "-virtual-pixel", "black", "-define", "distort:viewport="+size+"+0+0",
		"-distort", "Perspective", strings.Join(pairs, " "), "+repage", out).CombinedOutput(); err != nil {
		t.Fatalf("convert: %v\n%s", err, b)
	}
	other := readPNG(t, out)
	if other.Bounds() != s.Image.Rect {
		t.Fatalf("%v, by ImageMagick %v", s.Image.Rect, other.Bounds())
	}
	compare(t, s, other)
}

// compare looks at the pixels well within the picture.
func compare(t *testing.T, s Straight, other image.Image) {
	t.Helper()
	n, sum := 0, 0.0
	inside := func(x, y int) bool {
		return image.Pt(x, y).In(s.Image.Rect) && s.Image.RGBAAt(x, y).A == 255
	}
	for y := range s.Image.Rect.Dy() {
		for x := range s.Image.Rect.Dx() {
			if !inside(x-3, y) || !inside(x+3, y) || !inside(x, y-3) || !inside(x, y+3) {
				continue
			}
			a := s.Image.RGBAAt(x, y)
			r, g, b, _ := other.At(x, y).RGBA()
			sum += math.Abs(float64(a.R)-float64(r)/257) + math.Abs(float64(a.G)-float64(g)/257) + math.Abs(float64(a.B)-float64(b)/257)
			n += 3
		}
	}
	if n < 300_000 || sum/float64(n) > 1 {
		t.Errorf("%d values compared, %.2f of 255 apart on average", n, sum/float64(n))
	}
}

func writePNG(t *testing.T, name string, img image.Image) {
	t.Helper()
	f, err := os.Create(name)
	if err == nil {
		err = png.Encode(f, img)
	}
	if err == nil {
		err = f.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
}

func readPNG(t *testing.T, name string) image.Image {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// TestAnyMarks: whatever the marks, there is an answer or an error, never a panic, and
// an outline is always valid.
func TestAnyMarks(t *testing.T) {
	src := waves(160, 120)
	answers := 0
	rapid.Check(t, func(t *rapid.T) {
		off := rapid.Float64Range(-45, 45)
		r := Rectangle{Along: 40_000, Across: 30_000, Sheet: rapid.Bool().Draw(t, "sheet")}
		for i, c := range [4]Dot{{40, 30}, {110, 30}, {110, 90}, {40, 90}} {
			r.Corners[i] = Dot{c.X + off.Draw(t, "x"), c.Y + off.Draw(t, "y")}
		}
		a, err := Trace(t.Context(), src, r)
		if err != nil {
			return
		}
		answers++
		if len(a.Outline.Outer) > 0 {
			if err := a.Outline.Validate(); err != nil {
				t.Fatal(err)
			}
		}
	})
	if answers < 10 {
		t.Errorf("only %d marks were answered", answers)
	}
}
