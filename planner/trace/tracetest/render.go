package tracetest

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"

	"golang.org/x/image/vector"
)

// Take draws the photo of a scene.
func Take(s Scene) (Photo, error) {
	r := rand.New(rand.NewPCG(s.Seed, 0x70686f746f))
	c := canvas{scene: &s, cover: coverage(&s), noise: newGrain(r)}
	c.shadow = c.cover.soft(s.Shadow.Soft)
	raw := c.light(r)
	pic := develop(raw, s.Camera.Width, s.Camera.Height, s.Noise, r)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, pic, &jpeg.Options{Quality: s.Quality}); err != nil {
		return Photo{}, fmt.Errorf("compressing the photo: %w", err)
	}
	back, err := jpeg.Decode(&b)
	if err != nil {
		return Photo{}, fmt.Errorf("reading the photo back: %w", err)
	}
	return Photo{Scene: s, Picture: back, Marked: s.marked(r), Truth: s.Truth()}, nil
}

// mask is how much of each small square of the plane the cloth covers.
type mask struct {
	pix        []uint8
	w, h       int
	left, low  float64 // mm
	resolution float64 // mm
}

// coverage draws the cloth from above, by exact areas, 0.5 mm to the square.
func coverage(s *Scene) mask {
	b := bounds(s.Outer)
	if s.Second > 0 {
		b = bounds(append(s.second(), s.Outer...))
	}
	m := mask{left: b[0] - 5, low: b[1] - 5, resolution: 0.5}
	m.w, m.h = int((b[2]-b[0]+10)/m.resolution)+1, int((b[3]-b[1]+10)/m.resolution)+1
	z := vector.NewRasterizer(m.w, m.h)
	draw := func(p []Point, back bool) {
		for i := range p {
			q := p[i]
			if back {
				q = p[len(p)-1-i]
			}
			x, y := float32((q.X-m.left)/m.resolution), float32((q.Y-m.low)/m.resolution)
			if i == 0 {
				z.MoveTo(x, y)
			} else {
				z.LineTo(x, y)
			}
		}
		z.ClosePath()
	}
	draw(s.Outer, clockwise(s.Outer))
	for _, h := range s.Holes {
		draw(h, !clockwise(h))
	}
	if s.Second > 0 {
		draw(s.second(), clockwise(s.Outer))
	}
	a := image.NewAlpha(image.Rect(0, 0, m.w, m.h))
	z.Draw(a, a.Bounds(), image.Opaque, image.Point{})
	m.pix = a.Pix
	return m
}

func clockwise(p []Point) bool {
	sum := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += a.X*b.Y - a.Y*b.X
	}
	return sum < 0
}

// at is the share covered at a place, 0 to 1.
func (m *mask) at(x, y float64) float64 {
	x, y = (x-m.left)/m.resolution-0.5, (y-m.low)/m.resolution-0.5
	if x < 0 || y < 0 || x >= float64(m.w-1) || y >= float64(m.h-1) {
		return 0
	}
	i, j := int(x), int(y)
	x, y = x-float64(i), y-float64(j)
	p := m.pix[j*m.w+i:]
	q := m.pix[(j+1)*m.w+i:]
	return ((float64(p[0])*(1-x)+float64(p[1])*x)*(1-y) + (float64(q[0])*(1-x)+float64(q[1])*x)*y) / 255
}

// soft returns the mask at 4 mm with its edges spread by about that many mm, by three
// box filters.
func (m *mask) soft(spread float64) mask {
	const res = 4.0
	pad := 3*spread + 8
	out := mask{left: m.left - pad, low: m.low - pad, resolution: res}
	out.w, out.h = int((float64(m.w)*m.resolution+2*pad)/res)+1, int((float64(m.h)*m.resolution+2*pad)/res)+1
	v := make([]float64, out.w*out.h)
	for j := range out.h {
		for i := range out.w {
			v[j*out.w+i] = m.at(out.left+(float64(i)+0.5)*res, out.low+(float64(j)+0.5)*res)
		}
	}
	n := max(1, int(spread/res+0.5))
	for range 2 {
		v = box(box(v, out.w, out.h, 1, n), out.w, out.h, out.w, n)
	}
	out.pix = make([]uint8, len(v))
	for i, x := range v {
		out.pix[i] = uint8(255*x + 0.5)
	}
	return out
}

// box averages 2n+1 values along a step.
func box(v []float64, w, h, step, n int) []float64 {
	out := make([]float64, len(v))
	for j := range h {
		for i := range w {
			sum := 0.0
			for k := -n; k <= n; k++ {
				x, y := i, j
				if step == 1 {
					x += k
				} else {
					y += k
				}
				if x >= 0 && y >= 0 && x < w && y < h {
					sum += v[y*w+x]
				}
			}
			out[j*w+i] = sum / float64(2*n+1)
		}
	}
	return out
}

type canvas struct {
	scene         *Scene
	cover, shadow mask
	noise         *grain
}

// light returns the light that reaches each pixel.
func (c *canvas) light(r *rand.Rand) []rgb {
	s := c.scene
	w, h := s.Camera.Width, s.Camera.Height
	out := make([]rgb, w*h)
	lx, ly := (r.Float64()-0.5)*0.4, (r.Float64()-0.5)*0.4
	vignette := 0.1 + 0.2*r.Float64()
	for j := range h {
		for i := range w {
			x, y := apply(&s.Camera.back, float64(i)+0.5, float64(j)+0.5)
			u, v := float64(i)/float64(w)-0.5, float64(j)/float64(h)-0.5
			k := (1 + lx*u + ly*v) * (1 - vignette*2*(u*u+v*v))
			out[j*w+i] = c.at(x, y).times(k)
		}
	}
	return out
}

// at is the light from a place in the plane.
func (c *canvas) at(x, y float64) rgb {
	s := c.scene
	cover := c.cover.at(x, y)
	var under rgb
	if cover < 1 {
		under = c.under(x, y).times(1 - s.Shadow.Depth*c.shadow.at(x-s.Shadow.DX, y-s.Shadow.DY))
	}
	if cover > 0 {
		under = under.mix(s.Cloth.at(x, y, c.noise), cover)
	}
	if s.Shadow.Hand > 0 {
		d := (x*math.Cos(s.Shadow.HandTurn) + y*math.Sin(s.Shadow.HandTurn) - s.Shadow.HandX) / s.Shadow.HandWidth
		under = under.times(1 - s.Shadow.Hand*min(max(0.5+d, 0), 1))
	}
	return under
}

// under is the colour of what the cloth lies on.
func (c *canvas) under(x, y float64) rgb {
	s := c.scene
	if s.Sheet && x > -0.5 && y > -0.5 && x < s.Width+0.5 && y < s.Height+0.5 {
		in := cover(max(-x, x-s.Width)) * cover(max(-y, y-s.Height))
		return c.ground(x, y).mix(rgb{0.86, 0.86, 0.84}, in)
	}
	g := c.ground(x, y)
	if s.Mat.Frame {
		dx, dy := max(-x, x-s.Width), max(-y, y-s.Height)
		g = g.mix(s.Mat.line(), cover(math.Abs(max(dx, dy))-0.6))
	}
	return g
}

// line is the colour of what is printed on the mat.
func (m *Mat) line() rgb {
	if m.Pattern == Lines {
		return m.Other
	}
	if difference(m.Base, rgb{}) > 50 {
		return rgb{0.02, 0.02, 0.02}
	}
	return rgb{0.8, 0.8, 0.8}
}

func (c *canvas) ground(x, y float64) rgb {
	s := c.scene
	if b := s.MatBox; x < b[0] || y < b[1] || x > b[2] || y > b[3] {
		return s.Table.at(x, y, c.noise)
	}
	return s.Mat.at(x, y, c.noise)
}

// develop blurs as a lens does, adds noise and makes sRGB of light.
func develop(raw []rgb, w, h int, noise float64, r *rand.Rand) *image.RGBA {
	var normal [1 << 14]float64
	for i := range normal {
		normal[i] = noise * r.NormFloat64()
	}
	var srgb [4097]float64
	for i := range srgb {
		srgb[i] = encode(float64(i) / 4096)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for j := range h {
		at := int(r.Uint32())
		up, down := max(j-1, 0)*w, min(j+1, h-1)*w
		for i := range w {
			left, right := max(i-1, 0), min(i+1, w-1)
			for k := range 3 {
				v := 0.6*raw[j*w+i][k] + 0.1*(raw[up+i][k]+raw[down+i][k]+raw[j*w+left][k]+raw[j*w+right][k])
				at = at*1103515245 + 12345
				out.Pix[j*out.Stride+4*i+k] = uint8(min(max(srgb[int(min(max(v, 0), 1)*4096)]+normal[at>>16&(1<<14-1)]+0.5, 0), 255))
			}
			out.Pix[j*out.Stride+4*i+3] = 255
		}
	}
	return out
}

func encode(v float64) float64 {
	if v <= 0.0031308 {
		return 255 * 12.92 * v
	}
	return 255 * (1.055*math.Pow(v, 1/2.4) - 0.055)
}
