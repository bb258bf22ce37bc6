package tracetest

import (
	"math"
	"math/rand/v2"
)

// rgb is linear light, 0 to 1.
type rgb [3]float64

func (a rgb) mix(b rgb, t float64) rgb {
	return rgb{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1]), a[2] + t*(b[2]-a[2])}
}

func (a rgb) times(k float64) rgb { return rgb{a[0] * k, a[1] * k, a[2] * k} }

// Pattern is how a surface varies.
type Pattern int

// The patterns of mats and cloth.
const (
	Plain Pattern = iota
	Lines
	Checks
	Planks
	Speckle
	Dots
	Stripes
)

// Mat is what the cloth lies on.
type Mat struct {
	Pattern     Pattern
	Base, Other rgb
	Size        float64 // mm, of the pattern
	Frame       bool    // the marked rectangle is printed on it
}

// Cloth is the leftover's look.
type Cloth struct {
	Pattern     Pattern
	Base, Other rgb
	Size        float64
	Rib         float64 // depth of its texture
}

func hex(v uint32) rgb {
	return rgb{light(float64(v >> 16)), light(float64(v >> 8 & 255)), light(float64(v & 255))}
}

func light(v float64) float64 {
	c := v / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

// Invented colours: base and second of mats, and of cloth.
var (
	mats = []Mat{
		{Pattern: Plain, Base: hex(0xb9b6ae)}, {Pattern: Plain, Base: hex(0x3f4a52)}, {Pattern: Plain, Base: hex(0xe4e0d8)},
		{Pattern: Lines, Base: hex(0x2f6b52), Other: hex(0xcfe0d2), Size: 10}, {Pattern: Lines, Base: hex(0x30343a), Other: hex(0xd8d8d0), Size: 25.4},
		{Pattern: Lines, Base: hex(0x5a7fa3), Other: hex(0xe6eef5), Size: 10}, {Pattern: Lines, Base: hex(0xa9a9a5), Other: hex(0x4d4d4d), Size: 20},
		{Pattern: Checks, Base: hex(0xd9d2c3), Other: hex(0x8d9b86), Size: 30}, {Pattern: Checks, Base: hex(0x9fb0bf), Other: hex(0x6f8296), Size: 22},
		{Pattern: Planks, Base: hex(0xb98b5e), Other: hex(0x8a5f3a), Size: 70}, {Pattern: Planks, Base: hex(0xd9c3a0), Other: hex(0xbfa27a), Size: 45},
		{Pattern: Speckle, Base: hex(0xb08a5f), Other: hex(0x7d5b38), Size: 4}, {Pattern: Speckle, Base: hex(0xcfcfcb), Other: hex(0x9a9a96), Size: 6},
		{Pattern: Dots, Base: hex(0x7b8f7a), Other: hex(0xdfe6da), Size: 25},
	}
	cloths = []Cloth{
		{Base: hex(0x1d2a4d)}, {Base: hex(0xa3402c)}, {Base: hex(0xf2ead8)}, {Base: hex(0x17171a)}, {Base: hex(0x6f8f72)},
		{Base: hex(0xc9922e)}, {Base: hex(0xd98a9a)}, {Base: hex(0x1f6f78)}, {Base: hex(0x6a4a78)}, {Base: hex(0x8c8f94), Pattern: Speckle, Other: hex(0x74777c), Size: 3},
		{Base: hex(0x9c2f4a)}, {Base: hex(0x2f5d9e)}, {Base: hex(0x1d2a4d), Pattern: Stripes, Other: hex(0xd65a4a), Size: 24},
		{Base: hex(0x7a2338), Pattern: Dots, Other: hex(0xf0d9c8), Size: 30}, {Base: hex(0x2f8f5b), Pattern: Stripes, Other: hex(0xe0b53a), Size: 40},
	}
	floors = []Mat{{Pattern: Planks, Base: hex(0xa77c52), Other: hex(0x7d5633), Size: 90}, {Pattern: Plain, Base: hex(0xdedbd5)}, {Pattern: Plain, Base: hex(0x77706a)}}
)

// plainly is how different cloth and mat are at least, as the distance in L*a*b*: less
// than that nobody would choose the mat for the cloth.
const plainly = 25

// materials draws a mat, a cloth that stands out from it, and a table beyond.
func materials(r *rand.Rand) (Mat, Cloth, Mat) {
	for {
		m, c, f := mats[r.IntN(len(mats))], cloths[r.IntN(len(cloths))], floors[r.IntN(len(floors))]
		c.Rib = 0.03 + 0.07*r.Float64()
		if distinct(m, c) {
			return m, c, f
		}
	}
}

// distinct looks at the colours that cover areas: lines of a mat are too thin to count.
func distinct(m Mat, c Cloth) bool {
	ground, cloth := []rgb{m.Base}, []rgb{c.Base}
	if m.Pattern != Plain && m.Pattern != Lines {
		ground = append(ground, m.Other)
	}
	if c.Pattern != Plain {
		cloth = append(cloth, c.Other)
	}
	for _, g := range ground {
		for _, k := range cloth {
			if difference(g, k) < plainly {
				return false
			}
		}
	}
	return true
}

// difference is the CIE 1976 colour difference.
func difference(a, b rgb) float64 {
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	of := func(c rgb) triple {
		x, y := f((0.4124564*c[0]+0.3575761*c[1]+0.1804375*c[2])/0.95047), f(0.2126729*c[0]+0.7151522*c[1]+0.0721750*c[2])
		z := f((0.0193339*c[0] + 0.1191920*c[1] + 0.9503041*c[2]) / 1.08883)
		return triple{116*y - 16, 500 * (x - y), 200 * (y - z)}
	}
	p, q := of(a), of(b)
	d := triple{p[0] - q[0], p[1] - q[1], p[2] - q[2]}
	return math.Sqrt(d.dot(d))
}

// at returns the mat's colour at a place.
func (m *Mat) at(x, y float64, n *grain) rgb {
	switch m.Pattern {
	case Lines:
		d := min(fromLine(x, m.Size), fromLine(y, m.Size)) - 0.2
		e := min(fromLine(x, 5*m.Size), fromLine(y, 5*m.Size)) - 0.5
		return m.Base.mix(m.Other, max(0.6*cover(d), cover(e)))
	case Checks:
		if (int(math.Floor(x/m.Size))+int(math.Floor(y/m.Size)))&1 == 0 {
			return m.Other
		}
	case Planks:
		k := math.Floor(y / m.Size)
		t := 0.5 + 0.35*n.at(x*0.1+k*37, y*1.2) + 0.25*n.at(k*11, k*7)
		return m.Base.mix(m.Other, min(max(t+0.6*cover(fromLine(y, m.Size)-0.6), 0), 1))
	case Speckle:
		return m.Base.mix(m.Other, 0.5+0.5*n.at(x*5/m.Size, y*5/m.Size))
	case Dots:
		dx, dy := fromLine(x, m.Size), fromLine(y, m.Size)
		return m.Base.mix(m.Other, cover(math.Hypot(dx, dy)-m.Size*0.18))
	}
	return m.Base
}

// at returns the cloth's colour at a place.
func (c *Cloth) at(x, y float64, n *grain) rgb {
	out := c.Base
	switch c.Pattern {
	case Stripes:
		if math.Mod(math.Abs(y+1000), c.Size) < c.Size/2 {
			out = c.Other
		}
	case Dots:
		out = c.Base.mix(c.Other, cover(math.Hypot(fromLine(x, c.Size), fromLine(y, c.Size))-c.Size*0.2))
	case Speckle:
		out = c.Base.mix(c.Other, 0.5+0.5*n.at(x*5/c.Size, y*5/c.Size))
	}
	// Ribs of a knit, and the soft waves in which it lies.
	return out.times(1 + c.Rib*n.at(x*2, y*0.4) + 0.6*c.Rib*n.at(x*0.04, y*0.04))
}

// fromLine is the distance to the nearest of lines that far apart.
func fromLine(v, apart float64) float64 { return math.Abs(v - apart*math.Round(v/apart)) }

// cover is how much of a pixel of about 1 mm lies within an edge at distance d.
func cover(d float64) float64 { return min(max(0.5-d, 0), 1) }

// grain is smooth noise, −1 to 1, that repeats after 256.
type grain [256 * 256]float32

func newGrain(r *rand.Rand) *grain {
	g := new(grain)
	for i := range g {
		g[i] = float32(2*r.Float64() - 1)
	}
	return g
}

func (g *grain) at(x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	i, j := int(fx)&255, int(fy)&255
	x, y = x-fx, y-fy
	i2, j2 := (i+1)&255, (j+1)&255
	a, b := float64(g[j*256+i]), float64(g[j*256+i2])
	c, d := float64(g[j2*256+i]), float64(g[j2*256+i2])
	return (a*(1-x)+b*x)*(1-y) + (c*(1-x)+d*x)*y
}
