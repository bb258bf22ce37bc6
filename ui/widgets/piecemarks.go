package widgets

import (
	"image"
	"image/color"
	"image/draw"

	"tallycloth/stash/shape"
)

// stripes shades an outline with stripes at 45°, so that it shows without colour too.
func (b *brush) stripes(r shape.Ring, c color.NRGBA, px int) {
	box := b.reach(r, 1).Intersect(b.img.Bounds())
	if box.Empty() {
		return
	}
	mask := b.mask(r, box)
	wide := max(px/2, 3)
	for y := range box.Dy() {
		for x := range box.Dx() {
			if (x+box.Min.X+y+box.Min.Y)%(3*wide) >= wide {
				mask.Pix[y*mask.Stride+x] = 0
			}
		}
	}
	draw.DrawMask(b.img, box, image.NewUniform(c), image.Point{}, mask, image.Point{}, draw.Over)
}

// pin draws a dressmaker's pin across the upper part of a piece: a shaft and a round head.
func (b *brush) pin(q PicturePiece, px int) {
	box := b.reach(q.Outline, 0)
	s := float32(px)
	if box.Dx() < 3*px || box.Dy() < 2*px {
		s = float32(min(box.Dx()/3, box.Dy()/2))
	}
	x, y := float32(box.Min.X+box.Max.X)/2, float32(box.Min.Y)+float32(box.Dy())*0.28
	b.quad(ink, max(s*0.16, 1.5), x-s*1.1, y+s*0.55, x+s*0.7, y-s*0.35)
	b.disc(ink, x+s*0.9, y-s*0.45, s*0.42)
	b.disc(foldInk, x+s*0.9, y-s*0.45, s*0.3)
}

// disc fills a circle, as a polygon of sixteen corners.
func (b *brush) disc(c color.NRGBA, x, y, radius float32) {
	box := image.Rect(int(x-radius)-1, int(y-radius)-1, int(x+radius)+2, int(y+radius)+2).Intersect(b.img.Bounds())
	if box.Empty() {
		return
	}
	ax, ay := float32(box.Min.X), float32(box.Min.Y)
	b.z.Reset(box.Dx(), box.Dy())
	for i, p := range circle {
		if px, py := x+p[0]*radius-ax, y+p[1]*radius-ay; i == 0 {
			b.z.MoveTo(px, py)
		} else {
			b.z.LineTo(px, py)
		}
	}
	b.z.ClosePath()
	b.z.Draw(b.img, box, image.NewUniform(c), image.Point{})
}

// circle are the corners of a regular polygon of sixteen sides.
var circle = [16][2]float32{{1, 0}, {0.9239, 0.3827}, {0.7071, 0.7071}, {0.3827, 0.9239}, {0, 1}, {-0.3827, 0.9239}, {-0.7071, 0.7071}, {-0.9239, 0.3827},
	{-1, 0}, {-0.9239, -0.3827}, {-0.7071, -0.7071}, {-0.3827, -0.9239}, {0, -1}, {0.3827, -0.9239}, {0.7071, -0.7071}, {0.9239, -0.3827}}
