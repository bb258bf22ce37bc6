package widgets

import (
	"image"
	"image/color"
	"strconv"
	"strings"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"tallycloth/stash/shape"
)

// Swatch is what a swatch shows: a fabric in its colour, as long as what is left of
// it, the free part brighter.
type Swatch struct {
	Colour string // "#rrggbb", else a neutral
	Woven  bool
	Ribbed bool
	Length float32 // 0 to 1: of the longest on the shelf
	Free   float32 // 0 to 1: of what is there
	// Outline is that of an odd piece, drawn in the box that a plain one would fill; its x runs along.
	Outline *shape.Polygon
}

// swatchSteps is how finely lengths are drawn, so that few pictures serve many rows.
const swatchSteps = 48

type swatchKey struct {
	s    Swatch
	w, h int
}

var swatches sync.Map // swatchKey → *image.RGBA

// Picture draws the swatch in a strip of w × h pixels. The same swatch gives the
// same picture, kept from the first time on.
func (s Swatch) Picture(w, h int) *image.RGBA {
	s.Length = float32(int(s.Length*swatchSteps+0.5)) / swatchSteps
	s.Free = float32(int(s.Free*swatchSteps+0.5)) / swatchSteps
	if s.Outline != nil {
		return s.draw(w, h) // hardly ever alike
	}
	key := swatchKey{s, w, h}
	if old, ok := swatches.Load(key); ok {
		return old.(*image.RGBA)
	}
	img := s.draw(w, h)
	swatches.Store(key, img)
	return img
}

func (s Swatch) draw(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	end := max(int(float32(w)*s.Length), h/2)
	free := int(float32(end) * s.Free)
	base := ParseColour(s.Colour)
	there := s.mask(min(end, w), h)
	for y := range h {
		for x := range min(end, w) {
			if !there(x, y) {
				continue
			}
			c := texture(base, s, x, y)
			if x >= free {
				c = reservedTint(c, x, y)
			}
			if !there(x-1, y) || !there(x+1, y) || !there(x, y-1) || !there(x, y+1) {
				c = lighter(c, -48) // an edge, so that pale cloth is seen on a pale ground
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// mask says where in a box of w × h pixels there is cloth; the low edge of an outline lies at the bottom.
func (s Swatch) mask(w, h int) func(x, y int) bool {
	inside := func(x, y int) bool { return x >= 0 && y >= 0 && x < w && y < h }
	if s.Outline == nil {
		return inside
	}
	box := s.Outline.Bounds()
	cells := make([]bool, w*h)
	for i := range cells {
		x, y := int64(2*(i%w)+1), int64(2*(h-1-i/w)+1)
		cells[i] = s.Outline.Contains(shape.Point{X: box.Min.X + box.Length()*x/int64(2*w), Y: box.Min.Y + box.Width()*y/int64(2*h)})
	}
	return func(x, y int) bool { return inside(x, y) && cells[y*w+x] }
}

// ParseColour reads "#rrggbb"; anything else gives a neutral.
func ParseColour(s string) color.RGBA {
	v, err := strconv.ParseUint(strings.TrimPrefix(s, "#"), 16, 32)
	if err != nil || len(s) != 7 {
		return color.RGBA{0xB8, 0xAE, 0xA2, 0xFF}
	}
	return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 0xFF}
}

// texture is the colour at a place: rows of slanted stitches for a knit, over and
// under for a weave, ridges for a rib.
func texture(c color.RGBA, s Swatch, x, y int) color.RGBA {
	shade := 0
	switch {
	case s.Woven:
		if (x/2+y/2)%2 == 0 {
			shade = -14
		}
	case s.Ribbed:
		if y%6 < 2 {
			shade = -26
		} else if y%6 == 3 {
			shade = 10
		}
	default:
		up := y % 8
		if up >= 4 {
			up = 7 - up
		}
		if (x+up)%5 == 0 {
			shade = -22
		}
		if y%8 == 0 {
			shade -= 8
		}
	}
	return lighter(c, shade)
}

func lighter(c color.RGBA, by int) color.RGBA {
	f := func(v uint8) uint8 { return uint8(min(max(int(v)+by, 0), 255)) }
	return color.RGBA{f(c.R), f(c.G), f(c.B), 0xFF}
}

// reservedTint fades cloth that is reserved and hatches it.
func reservedTint(c color.RGBA, x, y int) color.RGBA {
	mix := func(v uint8) uint8 { return uint8((int(v)*2 + 3*0x99) / 5) }
	out := color.RGBA{mix(c.R), mix(c.G), mix(c.B), 0xFF}
	if (x+y)%7 == 0 {
		return lighter(out, -40)
	}
	return out
}

// NewSwatch returns a picture of the swatch of that size in units of the canvas.
func NewSwatch(s Swatch, size fyne.Size) *canvas.Image {
	img := canvas.NewImageFromImage(s.Picture(int(size.Width), int(size.Height)))
	img.FillMode = canvas.ImageFillStretch
	img.ScaleMode = canvas.ImageScaleFastest
	img.SetMinSize(size)
	return img
}
