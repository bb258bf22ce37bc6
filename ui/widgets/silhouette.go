package widgets

import (
	"image"
	"math"

	"tallycloth/stash/shape"
	"tallycloth/ui/looks"
)

// Silhouettes draws outlines of pattern pieces beside each other to one scale, their
// grain upright with its top end above, in the size of a row's picture.
func Silhouettes(pieces []shape.Ring) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, swatchWidth, swatchHeight))
	if len(pieces) == 0 {
		return img
	}
	const between = 5.0 // pixels
	wide, high := 0.0, 0.0
	for _, r := range pieces {
		b := r.Bounds()
		wide += float64(b.Width()) / 1000
		high = math.Max(high, float64(b.Length())/1000)
	}
	scale := math.Min(float64(swatchHeight-2)/high, (swatchWidth-2-between*float64(len(pieces)-1))/wide)
	p := looks.Now()
	x := 1.0
	for _, r := range pieces {
		b := r.Bounds()
		brush := &brush{img: img, v: view{scale: scale, ox: x, oy: 1}}
		up := make(shape.Ring, len(r))
		for i, q := range r { // the piece's x runs down the picture, its y across
			up[i] = shape.Point{X: q.Y - b.Min.Y, Y: b.Min.X - q.X}
		}
		brush.fill(faded(p.Muted, 90), up)
		brush.stroke(p.Muted, 1, 0, up)
		x += float64(b.Width())/1000*scale + between
	}
	return img
}
