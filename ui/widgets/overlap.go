package widgets

import (
	"image"
	"image/color"
	"image/draw"

	"tallycloth/stash/shape"
	"tallycloth/ui/looks"
)

// overlap shades what two outlines have in common, and writes how deep it is.
func (b *brush) overlap(o Overlap, c color.NRGBA, px int) {
	box := b.reach(o.A, 1).Intersect(b.reach(o.B, 1)).Intersect(b.img.Bounds())
	if box.Empty() {
		return
	}
	both := b.mask(o.A, box)
	other := b.mask(o.B, box)
	sum, x, y := 0, 0, 0
	for i, a := range both.Pix {
		both.Pix[i] = min(a, other.Pix[i])
		if both.Pix[i] > 127 {
			sum, x, y = sum+1, x+i%both.Stride, y+i/both.Stride
		}
	}
	draw.DrawMask(b.img, box, image.NewUniform(faded(c, 190)), image.Point{}, both, image.Point{}, draw.Over)
	if sum > 0 && o.Note != "" {
		b.words(o.Note, float32(box.Min.X+x/sum), float32(box.Min.Y+y/sum)-float32(px), 0, px, looks.Light.Bad)
	}
}

// mask is a ring as a mask of a box of pixels.
func (b *brush) mask(r shape.Ring, box image.Rectangle) *image.Alpha {
	out := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	b.z.Reset(box.Dx(), box.Dy())
	b.trace(r, box.Min)
	b.z.Draw(out, out.Rect, image.Opaque, image.Point{})
	return out
}
