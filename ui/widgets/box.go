package widgets

import (
	"image"
	"image/color"
	"math"

	"tallycloth/planner/scene"
)

// box fills an upright rectangle given in pixels; what covers a pixel in part is blended in as much. Most of
// a drawing of strips and cloth is such rectangles, and they want no tracing of outlines.
func (b *brush) box(c color.Color, x0, y0, x1, y1 float32) {
	of := b.img.Bounds()
	x0, y0 = max(x0, float32(of.Min.X)), max(y0, float32(of.Min.Y))
	x1, y1 = min(x1, float32(of.Max.X)), min(y1, float32(of.Max.Y))
	if x0 >= x1 || y0 >= y1 {
		return
	}
	cr, cg, cb, ca := c.RGBA() // premultiplied, 16 bits
	r := image.Rect(int(math.Floor(float64(x0))), int(math.Floor(float64(y0))), int(math.Ceil(float64(x1))), int(math.Ceil(float64(y1))))
	for y := r.Min.Y; y < r.Max.Y; y++ {
		high := min(y1, float32(y+1)) - max(y0, float32(y))
		row := b.img.Pix[b.img.PixOffset(r.Min.X, y) : b.img.PixOffset(r.Max.X-1, y)+4]
		for x := r.Min.X; x < r.Max.X; x++ {
			p := row[4*(x-r.Min.X):][:4]
			part := uint32(high * (min(x1, float32(x+1)) - max(x0, float32(x))) * 0xffff)
			if part >= 0xfff0 && ca == 0xffff {
				p[0], p[1], p[2], p[3] = uint8(cr>>8), uint8(cg>>8), uint8(cb>>8), 0xff
				continue
			}
			keep := 0xffff - ca*part/0xffff
			p[0] = blend(p[0], cr*part/0xffff, keep)
			p[1] = blend(p[1], cg*part/0xffff, keep)
			p[2] = blend(p[2], cb*part/0xffff, keep)
			p[3] = blend(p[3], ca*part/0xffff, keep)
		}
	}
}

// blend lays so much colour (16 bits) over a pixel, of which so much is kept.
func blend(was uint8, add, keep uint32) uint8 {
	return uint8((uint32(was)*0x101*keep/0xffff + add) >> 8)
}

// upright returns the rectangle, in pixels, of lines that are one upright rectangle and nothing else.
func upright(m sceneMap, lines []scene.Line) (x0, y0, x1, y1 float32, ok bool) {
	if len(lines) != 1 || !lines[0].Closed || len(lines[0].Points) != 4 {
		return
	}
	p := lines[0].Points
	if !(p[0].X == p[1].X && p[1].Y == p[2].Y && p[2].X == p[3].X && p[3].Y == p[0].Y ||
		p[0].Y == p[1].Y && p[1].X == p[2].X && p[2].Y == p[3].Y && p[3].X == p[0].X) {
		return
	}
	ax, ay := m.at(p[0])
	bx, by := m.at(p[2])
	return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by), true
}
