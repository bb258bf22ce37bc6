package tracetest

import (
	"math"
	"math/rand/v2"
)

// Camera is a pinhole camera over the plane: its map from the plane to the picture.
type Camera struct {
	Tilt          float64 // degrees from looking straight down
	Width, Height int     // pixels
	side, roll    float64
	m             [9]float64
	back          [9]float64
}

type triple [3]float64

func (a triple) cross(b triple) triple {
	return triple{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func (a triple) dot(b triple) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (a triple) unit() triple {
	l := math.Sqrt(a.dot(a))
	return triple{a[0] / l, a[1] / l, a[2] / l}
}

// look returns a camera tilted by up to 35°, from any side, as near as shows all points
// with a margin. Its lens sees about 67° corner to corner, as that of a telephone does.
func look(r *rand.Rand, show []Point, w, h int) Camera {
	c := Camera{Tilt: 35 * math.Sqrt(r.Float64()), Width: w, Height: h}
	c.side, c.roll = r.Float64()*2*math.Pi, (r.Float64()-0.5)*0.3
	if b := bounds(show); b[3]-b[1] > b[2]-b[0] { // held upright
		c.roll += math.Pi / 2
	}
	c.aimAt(show)
	return c
}

func (c *Camera) aimAt(show []Point) {
	b := bounds(show)
	for far := 300.0; ; far *= 1.01 {
		c.aim(b, far, c.side, c.roll)
		if c.shows(show) {
			return
		}
	}
}

// after returns the camera with its picture mapped once more, by rows of a matrix.
func (c Camera) after(m [9]float64) Camera {
	var out [9]float64
	for r := range 3 {
		for k := range 3 {
			out[3*r+k] = m[3*r]*c.m[k] + m[3*r+1]*c.m[3+k] + m[3*r+2]*c.m[6+k]
		}
	}
	c.m, c.back = out, inverse(out)
	return c
}

// Finer returns the same view with more pixels.
func (c Camera) Finer(w, h int) Camera {
	x, y := float64(w)/float64(c.Width), float64(h)/float64(c.Height)
	c.Width, c.Height = w, h
	return c.after([9]float64{x, 0, 0, 0, y, 0, 0, 0, 1})
}

// moved returns the view moved by so many pixels.
func (c Camera) moved(x, y float64) Camera { return c.after([9]float64{1, 0, x, 0, 1, y, 0, 0, 1}) }

// within says whether all points lie in the picture.
func (c *Camera) within(all []Point) bool {
	for _, p := range all {
		if x, y := c.project(p); x < 0 || y < 0 || x > float64(c.Width) || y > float64(c.Height) {
			return false
		}
	}
	return true
}

func (c *Camera) aim(b [4]float64, far, side, roll float64) {
	t := c.Tilt * math.Pi / 180
	at := triple{(b[0] + b[2]) / 2, (b[1] + b[3]) / 2, 0}
	look := triple{-math.Sin(t) * math.Cos(side), -math.Sin(t) * math.Sin(side), -math.Cos(t)}
	eye := triple{at[0] - far*look[0], at[1] - far*look[1], -far * look[2]}
	up := triple{-math.Sin(roll), math.Cos(roll), 0}
	right := look.cross(up).unit()
	down := look.cross(right).unit()
	f := 0.755 * math.Hypot(float64(c.Width), float64(c.Height))
	cx, cy := float64(c.Width)/2, float64(c.Height)/2
	for i, axis := range []triple{{1, 0, 0}, {0, 1, 0}, {-eye[0], -eye[1], -eye[2]}} {
		z := look.dot(axis)
		c.m[i], c.m[3+i], c.m[6+i] = f*right.dot(axis)+cx*z, f*down.dot(axis)+cy*z, z
	}
	c.back = inverse(c.m)
}

func (c *Camera) shows(all []Point) bool {
	mx, my := 0.05*float64(c.Width), 0.05*float64(c.Height)
	for _, p := range all {
		x, y := c.project(p)
		if x < mx || y < my || x > float64(c.Width)-mx || y > float64(c.Height)-my || c.m[6]*p.X+c.m[7]*p.Y+c.m[8] < 50 {
			return false
		}
	}
	return true
}

// project returns the place of a point in the picture, in pixels.
func (c *Camera) project(p Point) (x, y float64) { return apply(&c.m, p.X, p.Y) }

func apply(m *[9]float64, x, y float64) (float64, float64) {
	w := 1 / (m[6]*x + m[7]*y + m[8])
	return (m[0]*x + m[1]*y + m[2]) * w, (m[3]*x + m[4]*y + m[5]) * w
}

func inverse(h [9]float64) [9]float64 {
	return [9]float64{
		h[4]*h[8] - h[5]*h[7], h[2]*h[7] - h[1]*h[8], h[1]*h[5] - h[2]*h[4],
		h[5]*h[6] - h[3]*h[8], h[0]*h[8] - h[2]*h[6], h[2]*h[3] - h[0]*h[5],
		h[3]*h[7] - h[4]*h[6], h[1]*h[6] - h[0]*h[7], h[0]*h[4] - h[1]*h[3],
	}
}
