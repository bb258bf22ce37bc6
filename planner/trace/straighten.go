package trace

import (
	"context"
	"image"
	"image/draw"
	"math"
	"runtime"
	"sync"

	"tallycloth/stash"
)

// Straight is the picture as seen from right above.
type Straight struct {
	// Image has alpha 0 where the picture did not reach.
	Image *image.RGBA
	// Pixel is the side of a pixel in µm.
	Pixel int64
	// Left and Top are where its top left corner lies in the plane, in µm.
	Left, Top int64
}

// Plane returns the place in the plane, in µm, of a place in the image.
func (s Straight) Plane(d Dot) Dot {
	return Dot{float64(s.Left) + d.X*float64(s.Pixel), float64(s.Top) - d.Y*float64(s.Pixel)}
}

// Dot returns the place in the image of a place in the plane.
func (s Straight) Dot(p Dot) Dot {
	return Dot{(p.X - float64(s.Left)) / float64(s.Pixel), (float64(s.Top) - p.Y) / float64(s.Pixel)}
}

const (
	mostPixels = 2_000_000 // of a straightened picture
	reach      = 3e6       // µm beyond the marked rectangle that is looked at
	// shallowest is how much farther than the rectangle something may lie, as the ratio of
	// depths: beyond that a pixel spans too much.
	shallowest = 0.33
)

// flat returns a picture as opaque RGBA that starts at (0, 0).
func flat(picture image.Image) *image.RGBA {
	b := picture.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(out, out.Bounds(), picture, b.Min, draw.Over)
	return out
}

// straighten samples the picture by the homography h from it to the plane, about 1 mm
// to the pixel; finer where the picture is, coarser where it shows a large area.
func straighten(ctx context.Context, src *image.RGBA, h Homography, r Rectangle) (Straight, error) {
	box, ok := view(src.Bounds(), h, r)
	if !ok {
		return Straight{}, &stash.Error{Kind: stash.Invalid, What: "The marks make no sense as a rectangle seen by a camera",
			Do: "Move each mark onto its own corner"}
	}
	s := Straight{Pixel: pixelSize(box, h, r)}
	s.Left, s.Top = int64(math.Floor(box[0])), int64(math.Ceil(box[3]))
	w := int((box[2]-box[0])/float64(s.Pixel)) + 1
	ht := int((box[3]-box[1])/float64(s.Pixel)) + 1
	s.Image = image.NewRGBA(image.Rect(0, 0, w, ht))
	back := h.inverse()
	// Places of the same sign as the rectangle's middle lie before the camera.
	front := back.depth(Dot{float64(r.Along) / 2, float64(r.Across) / 2})
	bands(ht, func(from, to int) {
		for y := from; y < to && ctx.Err() == nil; y++ {
			s.row(src, back, front, y)
		}
	})
	return s, ctx.Err()
}

// bands shares the rows of a picture out between the processors.
func bands(rows int, do func(from, to int)) {
	n := min(runtime.GOMAXPROCS(0), max(1, rows/16))
	var wg sync.WaitGroup
	for i := range n {
		wg.Go(func() { do(rows*i/n, rows*(i+1)/n) })
	}
	wg.Wait()
}

// view returns the least box of the plane (left, low, right, high, in µm) that holds
// what the picture shows, within reach.
func view(b image.Rectangle, h Homography, r Rectangle) (box [4]float64, ok bool) {
	w, ht := float64(b.Dx()), float64(b.Dy())
	middle := h.inverse().Apply(Dot{float64(r.Along) / 2, float64(r.Across) / 2})
	limit := shallowest * h.depth(middle)
	corners := []Dot{{0, 0}, {w, 0}, {w, ht}, {0, ht}}
	var seen []Dot
	for i, p := range corners {
		q := corners[(i+1)%4]
		dp, dq := h.depth(p)/limit-1, h.depth(q)/limit-1
		if dp >= 0 {
			seen = append(seen, p)
		}
		if (dp >= 0) != (dq >= 0) {
			t := dp / (dp - dq)
			seen = append(seen, Dot{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)})
		}
	}
	box = [4]float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range seen {
		g := h.Apply(p)
		box = [4]float64{min(box[0], g.X), min(box[1], g.Y), max(box[2], g.X), max(box[3], g.Y)}
	}
	box = [4]float64{max(box[0], -reach), max(box[1], -reach), min(box[2], float64(r.Along)+reach), min(box[3], float64(r.Across)+reach)}
	return box, box[2] > box[0] && box[3] > box[1]
}

// pixelSize chooses 0.5 mm where the picture is that fine and shows little, else 1 mm or
// as much as the most pixels ask for.
func pixelSize(box [4]float64, h Homography, r Rectangle) int64 {
	p := int64(500)
	if spread(h.inverse(), Dot{float64(r.Along) / 2, float64(r.Across) / 2}, float64(p)) < 1 {
		p = 1000
	}
	for (box[2]-box[0])*(box[3]-box[1])/float64(p*p) > mostPixels {
		if p < 1000 {
			p = 1000
		} else {
			p += 250
		}
	}
	return p
}

// spread is how many pixels of the picture a step in the plane spans at a place, the
// longer way.
func spread(back Homography, at Dot, step float64) float64 {
	p := back.Apply(at)
	a, b := back.Apply(Dot{at.X + step, at.Y}), back.Apply(Dot{at.X, at.Y + step})
	return max(math.Hypot(a.X-p.X, a.Y-p.Y), math.Hypot(b.X-p.X, b.Y-p.Y))
}

// row fills one row, each pixel from as many samples as it spans pixels of the picture,
// at most 4 × 4.
func (s Straight) row(src *image.RGBA, back Homography, front float64, y int) {
	step := float64(s.Pixel)
	out := s.Image.Pix[y*s.Image.Stride:]
	n := 0
	for x := range s.Image.Rect.Dx() {
		at := s.Plane(Dot{float64(x) + 0.5, float64(y) + 0.5})
		if back.depth(at)*front <= 0 {
			continue
		}
		if x%8 == 0 || n == 0 { // it changes slowly
			n = int(min(4, math.Ceil(spread(back, at, step)-0.01)))
		}
		sum, whole := [3]int{}, n > 0
		for j := 0; j < n && whole; j++ {
			for i := 0; i < n && whole; i++ {
				d := back.Apply(Dot{at.X + step*((float64(i)+0.5)/float64(n)-0.5), at.Y + step*((float64(j)+0.5)/float64(n)-0.5)})
				whole = quick(src, d, &sum)
			}
		}
		if !whole {
			continue
		}
		k := n * n << 16
		out[4*x], out[4*x+1], out[4*x+2], out[4*x+3] = uint8((sum[0]+k/2)/k), uint8((sum[1]+k/2)/k), uint8((sum[2]+k/2)/k), 255
	}
}

// quick is sample in whole numbers: places to 1/256 of a pixel, sums times 2^16.
func quick(src *image.RGBA, d Dot, sum *[3]int) bool {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	if !(d.X >= 0 && d.Y >= 0 && d.X <= float64(w) && d.Y <= float64(h)) {
		return false
	}
	fx, fy := min(max(int(d.X*256)-128, 0), (w-1)<<8), min(max(int(d.Y*256)-128, 0), (h-1)<<8)
	x, y := min(fx>>8, w-2), min(fy>>8, h-2)
	fx, fy = fx-x<<8, fy-y<<8
	p := src.Pix[y*src.Stride+4*x:][:8]
	q := src.Pix[(y+1)*src.Stride+4*x:][:8]
	a, b, c, e := (256-fx)*(256-fy), fx*(256-fy), (256-fx)*fy, fx*fy
	sum[0] += a*int(p[0]) + b*int(p[4]) + c*int(q[0]) + e*int(q[4])
	sum[1] += a*int(p[1]) + b*int(p[5]) + c*int(q[1]) + e*int(q[5])
	sum[2] += a*int(p[2]) + b*int(p[6]) + c*int(q[2]) + e*int(q[6])
	return true
}

// sample adds the picture's colour at a place, between the four pixels round it; false
// outside the picture.
func sample(src *image.RGBA, d Dot, sum *[3]float64) bool {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	if !(d.X >= 0 && d.Y >= 0 && d.X <= float64(w) && d.Y <= float64(h)) {
		return false
	}
	fx, fy := min(max(d.X-0.5, 0), float64(w-1)), min(max(d.Y-0.5, 0), float64(h-1))
	x, y := min(int(fx), w-2), min(int(fy), h-2)
	fx, fy = fx-float64(x), fy-float64(y)
	p := src.Pix[y*src.Stride+4*x:]
	q := src.Pix[(y+1)*src.Stride+4*x:]
	a, b, c, e := (1-fx)*(1-fy), fx*(1-fy), (1-fx)*fy, fx*fy
	for k := range 3 {
		sum[k] += a*float64(p[k]) + b*float64(p[4+k]) + c*float64(q[k]) + e*float64(q[4+k])
	}
	return true
}
