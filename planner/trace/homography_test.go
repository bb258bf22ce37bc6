package trace

import (
	"errors"
	"math"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tallycloth/stash"

	"pgregory.net/rapid"
)

// TestHomographyCorners: it takes each corner to its partner, and its inverse back.
func TestHomographyCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := marks(t)
		h, err := r.homography()
		if err != nil {
			t.Fatal(err)
		}
		back := h.inverse()
		for i, p := range r.plane() {
			if got := h.Apply(r.Corners[i]); math.Hypot(got.X-p.X, got.Y-p.Y) > 0.01 {
				t.Fatalf("corner %d comes to %v, not %v", i, got, p)
			}
			if got := back.Apply(p); math.Hypot(got.X-r.Corners[i].X, got.Y-r.Corners[i].Y) > 1e-6 {
				t.Fatalf("corner %d comes back to %v, not %v", i, got, r.Corners[i])
			}
		}
	})
}

// marks draws four marks that Validate accepts.
func marks(t *rapid.T) Rectangle {
	off := rapid.Float64Range(-80, 80)
	r := Rectangle{Along: 210_000, Across: 297_000}
	for i, c := range [4]Dot{{200, 150}, {600, 150}, {600, 650}, {200, 650}} {
		r.Corners[i] = Dot{c.X + off.Draw(t, "x"), c.Y + off.Draw(t, "y")}
	}
	return r
}

// perspective has ImageMagick find the map of four pairs of places: the terms of its
// PerspectiveProjection, first six figures of each.
func perspective(t *testing.T, from, to [4]Dot) Homography {
	t.Helper()
	var pairs []string
	for i := range 4 {
		for _, v := range []float64{from[i].X, from[i].Y, to[i].X, to[i].Y} {
			pairs = append(pairs, strconv.FormatFloat(v, 'f', 6, 64))
		}
	}
	out, err := exec.Command("convert", "-size", "10x10", "xc:white", "-verbose", "-distort", "Perspective", strings.Join(pairs, " "), "null:").CombinedOutput()
	if err != nil {
		t.Fatalf("convert: %v\n%s", err, out)
	}
	terms := regexp.MustCompile(`(?s)PerspectiveProjection \\\s*'([^']*)'`).FindSubmatch(out)
	if terms == nil {
		t.Fatalf("convert says no terms:\n%s", out)
	}
	h := Homography{8: 1}
	for i, f := range strings.Split(string(terms[1]), ",") {
		if h[i], err = strconv.ParseFloat(strings.TrimSpace(f), 64); err != nil {
			t.Fatal(err)
		}
	}
	return h
}

// TestLikeImageMagick compares the map with that of ImageMagick's perspective distortion.
func TestLikeImageMagick(t *testing.T) {
	for _, from := range [][4]Dot{
		{{100, 80}, {700, 120}, {640, 560}, {60, 500}},
		{{300, 40}, {500, 60}, {790, 580}, {10, 590}},
		{{20, 20}, {780, 20}, {780, 580}, {20, 580}},
	} {
		to := [4]Dot{{0, 0}, {420, 0}, {420, 297}, {0, 297}}
		own, err := FromPoints(from, to)
		if err != nil {
			t.Fatal(err)
		}
		other := perspective(t, from, to)
		for _, p := range []Dot{{120, 130}, {400, 300}, {650, 500}, {5, 595}, {799, 3}} {
			a, b := own.Apply(p), other.Apply(p)
			if d := math.Hypot(a.X-b.X, a.Y-b.Y); d > 2e-4*(500+math.Hypot(a.X, a.Y)) {
				t.Errorf("%v: %v comes to %v, by ImageMagick to %v", from, p, a, b)
			}
		}
	}
}

// TestLabLikeImageMagick compares colours with ImageMagick's conversion to L*a*b*.
func TestLabLikeImageMagick(t *testing.T) {
	found := regexp.MustCompile(`cielab\(([-0-9.e]+),([-0-9.e]+),([-0-9.e]+)\)`)
	for _, c := range [][3]uint8{{192, 128, 64}, {255, 0, 0}, {0, 255, 0}, {0, 0, 255}, {32, 64, 96}, {255, 255, 255}, {20, 20, 20}} {
		name := "xc:rgb(" + strconv.Itoa(int(c[0])) + "," + strconv.Itoa(int(c[1])) + "," + strconv.Itoa(int(c[2])) + ")"
		out, err := exec.Command("convert", name, "-depth", "16", "-colorspace", "Lab", "txt:-").Output()
		m := found.FindSubmatch(out)
		if err != nil || m == nil {
			t.Fatalf("convert: %v\n%s", err, out)
		}
		own := labOfPixel(c[:])
		own[0] /= lightWeight
		for k := range 3 {
			want, err := strconv.ParseFloat(string(m[k+1]), 64)
			if err != nil || math.Abs(float64(own[k])-want) > 0.05 {
				t.Errorf("%v: %v, by ImageMagick %s", c, own, out)
				break
			}
		}
		back := own
		back[0] *= lightWeight
		for k, v := range back.light() {
			if math.Abs(v-linear[c[k]]) > 0.002 {
				t.Errorf("%v comes back as %v", c, back.light())
			}
		}
	}
}

func TestCornersOnALine(t *testing.T) {
	_, err := FromPoints([4]Dot{{0, 0}, {10, 0}, {20, 0}, {0, 10}}, [4]Dot{{0, 0}, {1, 0}, {1, 1}, {0, 1}})
	if !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("%v", err)
	}
}
