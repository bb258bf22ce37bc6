package widgets

import (
	"image"
	"image/color"
	"sync"

	"tallycloth/ui/looks"
)

// picture is what stands before the title: a swatch, several small ones, or the
// life of a garment as a line of stitches.
func (r Row) picture() *image.RGBA {
	switch {
	case r.Drawn != nil:
		return r.Drawn
	case r.Swatch != nil:
		return r.Swatch.Picture(swatchWidth, swatchHeight)
	case r.StitchesOf > 0:
		return stitches(r.Stitches, r.StitchesOf, r.Swatches)
	}
	return nil
}

type stitchKey struct {
	done, of int
	first    string
	accent   color.NRGBA
}

var stitchLines sync.Map

// stitches draws a line of stitches, the first done ones sewn, over the colours of
// the fabrics reserved.
func stitches(done, of int, fabrics []Swatch) *image.RGBA {
	p := looks.Now()
	key := stitchKey{done: done, of: of, accent: p.Accent}
	for _, f := range fabrics {
		key.first += f.Colour
	}
	if old, ok := stitchLines.Load(key); ok {
		return old.(*image.RGBA)
	}
	img := image.NewRGBA(image.Rect(0, 0, swatchWidth, swatchHeight))
	for i, f := range fabrics {
		drawChip(img, i, len(fabrics), f)
	}
	step := swatchWidth / of
	for i := range of {
		c := color.RGBA(p.Line)
		if i < done {
			c = color.RGBA(p.Accent)
		}
		for x := i*step + 2; x < (i+1)*step-3; x++ {
			for y := swatchHeight - 8; y < swatchHeight-4; y++ {
				if i >= done && y > swatchHeight-7 && y < swatchHeight-5 {
					continue
				}
				img.SetRGBA(x, y, c)
			}
		}
	}
	stitchLines.Store(key, img)
	return img
}

func drawChip(img *image.RGBA, i, n int, s Swatch) {
	w := min(swatchWidth/n-2, 28)
	base := ParseColour(s.Colour)
	for y := range 18 {
		for x := range w {
			c := texture(base, s, x, y)
			if x == 0 || y == 0 || x == w-1 || y == 17 {
				c = lighter(c, -48)
			}
			img.SetRGBA(i*(w+2)+x, y, c)
		}
	}
}
