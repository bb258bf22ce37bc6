package widgets

import (
	"image"
	"image/color"
	"testing"

	"golang.org/x/image/vector"
	"pgregory.net/rapid"
)

// TestBox: an upright rectangle is filled as the general painter of outlines (golang.org/x/image/vector)
// fills it, over what is there, to two steps of 255 in each colour.
func TestBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func(name string) float32 { return float32(rapid.Float64Range(-3, 23).Draw(t, name)) }
		x0, y0, x1, y1 := at("x0"), at("y0"), at("x1"), at("y1")
		if x0 >= x1 || y0 >= y1 {
			return
		}
		b := rapid.Uint8()
		c := color.NRGBA{b.Draw(t, "r"), b.Draw(t, "g"), b.Draw(t, "b"), b.Draw(t, "a")}
		got, want := image.NewRGBA(image.Rect(0, 0, 20, 20)), image.NewRGBA(image.Rect(0, 0, 20, 20))
		for i := range got.Pix {
			got.Pix[i] = uint8(i * 7 % 200)
			if i%4 == 3 {
				got.Pix[i] = 255
			}
		}
		copy(want.Pix, got.Pix)
		(&brush{img: got}).box(c, x0, y0, x1, y1)
		z := vector.NewRasterizer(20, 20)
		in := func(v float32) float32 { return min(max(v, 0), 20) }
		z.MoveTo(in(x0), in(y0))
		z.LineTo(in(x1), in(y0))
		z.LineTo(in(x1), in(y1))
		z.LineTo(in(x0), in(y1))
		z.ClosePath()
		z.Draw(want, want.Bounds(), image.NewUniform(c), image.Point{})
		for i := range got.Pix {
			if d := int(got.Pix[i]) - int(want.Pix[i]); d > 2 || d < -2 {
				t.Fatalf("byte %d: %d, by the outline %d", i, got.Pix[i], want.Pix[i])
			}
		}
	})
}
