package widgets

import (
	"image"
	"image/color"
	"image/draw"
	"strings"

	"tallycloth/planner/scene"
	"tallycloth/ui/looks"
)

// dashScale is how many pixels a hair of a garment's line is on the screen.
const dashScale = 1.3

// paint draws what is left: brighter than the cloth, a dashed line round it, and its size
// in one, two or three lines, as there is room.
func (l LeftPiece) paint(b *brush, px int) {
	b.fill(color.NRGBA{0xFF, 0xFF, 0xFF, 90}, l.Outline.Rings()...)
	for _, r := range l.Outline.Rings() {
		b.stroke(looks.Light.Good, 1.5, 5, r)
	}
	box := b.reach(l.Straight.Ring(), 0)
	x, y := float32(box.Min.X+box.Max.X)/2, float32(box.Min.Y+box.Max.Y)/2
	length, width, _ := strings.Cut(l.Size, " × ")
	for _, lines := range [][]string{{"left " + l.Size}, {"left", l.Size}, {"left", length, "× " + width}} {
		wide := 0
		for _, s := range lines {
			wide = max(wide, wordsWidth(s, px))
		}
		high := float32(px) * 1.3
		if box.Dx() < wide+4 || float32(box.Dy()) < high*float32(len(lines)) {
			continue
		}
		for i, s := range lines {
			b.words(s, x, y+(float32(i)-float32(len(lines)-1)/2)*high, 0, px, ink)
		}
		return
	}
}

// around draws the line round a pattern piece, as its garment has it.
func (b *brush) around(q PicturePiece) {
	if q.Tint <= 0 {
		b.stroke(ink, 1.3, 0, q.Outline)
		return
	}
	l := scene.Line{Closed: true}
	for _, p := range q.Outline {
		x, y := b.v.at(p)
		l.Points = append(l.Points, scene.Point{X: float64(x), Y: float64(y)})
	}
	b.dashed(l, scene.MarkOf(q.Tint))
}

// dashed draws a line in pixels as a garment has it.
func (b *brush) dashed(l scene.Line, m scene.GarmentMark) {
	dash := make([]float64, len(m.Dash))
	for i, d := range m.Dash {
		dash[i] = d * dashScale
	}
	b.parts(ink, 1.7, scene.Dashes(l, dash))
}

// GarmentLine names the line that the pattern pieces of a garment have.
func GarmentLine(tint int) string { return scene.MarkOf(tint).Line }

// GarmentPicture shows how the pattern pieces of a garment are drawn among others: for the
// row of a list.
func GarmentPicture(tintOf int) *image.RGBA {
	const w, h = swatchWidth, swatchHeight
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	const edge = 4 // paper stands out round the line, so that the line shows in the dark too
	draw.Draw(img, img.Bounds(), image.NewUniform(opaque(tint(tintOf, false, false))), image.Point{}, draw.Src)
	x0, y0, x1, y1 := float64(edge), float64(edge), float64(w)-edge, float64(h)-edge
	l := scene.Line{Points: []scene.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}, Closed: true}
	(&brush{img: img}).dashed(l, scene.MarkOf(tintOf))
	return img
}

// opaque lays a colour that is seen through on paper.
func opaque(c color.NRGBA) color.NRGBA {
	p := looks.Light.Raised
	mix := func(a, b uint8) uint8 { return uint8((int(a)*int(c.A) + int(b)*(255-int(c.A))) / 255) }
	return color.NRGBA{mix(c.R, p.R), mix(c.G, p.G), mix(c.B, p.B), 255}
}
