package trace

import "math"

// lab is a colour by CIE 1976 (L*, a*, b*) for the white D65 (ISO/CIE 11664-4), with
// lightness weighed less than hue and chroma: light and shadow change it most.
type lab [3]float32

// lightWeight is what a step of lightness counts beside one of a* or b*.
const lightWeight = 0.8

// linear is the light of each sRGB value (IEC 61966-2-1).
var linear = func() (t [256]float64) {
	for i := range t {
		c := float64(i) / 255
		if c <= 0.04045 {
			t[i] = c / 12.92
		} else {
			t[i] = math.Pow((c+0.055)/1.055, 2.4)
		}
	}
	return t
}()

// cube is the function f of ISO/CIE 11664-4, tabled: steps of 1/4096.
var cube = func() (t [4098]float32) {
	for i := range t {
		t[i] = float32(cubeOf(float64(i) / 4096))
	}
	return t
}()

func cubeOf(x float64) float64 {
	if x > 216.0/24389 {
		return math.Cbrt(x)
	}
	return (24389.0/27*x + 16) / 116
}

func cubeRoot(x float64) float32 {
	x = min(max(x, 0), 1) * 4096
	i := int(x)
	f := float32(x - float64(i))
	return cube[i] + f*(cube[i+1]-cube[i])
}

// labOf returns the colour of light r, g, b (linear, 0 to 1).
func labOf(r, g, b float64) lab {
	x := cubeRoot((0.4124564*r + 0.3575761*g + 0.1804375*b) / 0.95047)
	y := cubeRoot(0.2126729*r + 0.7151522*g + 0.0721750*b)
	z := cubeRoot((0.0193339*r + 0.1191920*g + 0.9503041*b) / 1.08883)
	return lab{lightWeight * (116*y - 16), 500 * (x - y), 200 * (y - z)}
}

func labOfPixel(p []uint8) lab { return labOf(linear[p[0]], linear[p[1]], linear[p[2]]) }

func (c lab) distance2(d lab) float32 {
	x, y, z := c[0]-d[0], c[1]-d[1], c[2]-d[2]
	return x*x + y*y + z*z
}

func (c lab) distance(d lab) float64 { return math.Sqrt(float64(c.distance2(d))) }

// light returns the linear light of a lab colour, for shading it.
func (c lab) light() [3]float64 {
	fy := (float64(c[0])/lightWeight + 16) / 116
	fx, fz := fy+float64(c[1])/500, fy-float64(c[2])/200
	x, y, z := 0.95047*uncube(fx), uncube(fy), 1.08883*uncube(fz)
	return [3]float64{
		3.2404542*x - 1.5371385*y - 0.4985314*z,
		-0.9692660*x + 1.8760108*y + 0.0415560*z,
		0.0556434*x - 0.2040259*y + 1.0572252*z,
	}
}

func uncube(f float64) float64 {
	if f > 6.0/29 {
		return f * f * f
	}
	return (116*f - 16) * 27 / 24389
}

// shaded returns the colour under s times the light.
func (c lab) shaded(s float64) lab {
	l := c.light()
	return labOf(s*l[0], s*l[1], s*l[2])
}

// clusters groups colours into at most k, as k-means does (S. Lloyd, 1982), begun with
// the mean and then always the colour farthest from those chosen; groups nearer than
// apart to each other are one. It returns the middles and the group of each colour.
func clusters(c []lab, k int, apart float64) (middles []lab, of []int) {
	if len(c) == 0 {
		return nil, nil
	}
	middles = begin(c, k, apart)
	of = make([]int, len(c))
	for range 8 {
		for i, p := range c {
			of[i], _ = nearest(middles, p)
		}
		middles = means(c, of, middles)
	}
	return middles, of
}

func begin(c []lab, k int, apart float64) []lab {
	out := means(c, make([]int, len(c)), []lab{{}})
	far := make([]float32, len(c))
	for i := range far {
		far[i] = c[i].distance2(out[0])
	}
	for len(out) < k {
		// Not the farthest of all, which may be a speck: the farthest but 1 %.
		i := quantileIndex(far, 0.99)
		if math.Sqrt(float64(far[i])) < apart {
			break
		}
		out = append(out, c[i])
		for j := range far {
			far[j] = min(far[j], c[j].distance2(c[i]))
		}
	}
	return out
}

func nearest(middles []lab, p lab) (int, float32) {
	best, d := 0, float32(math.Inf(1))
	for i, m := range middles {
		if e := m.distance2(p); e < d {
			best, d = i, e
		}
	}
	return best, d
}

func means(c []lab, of []int, before []lab) []lab {
	sum := make([][3]float64, len(before))
	n := make([]float64, len(before))
	for i, p := range c {
		for k := range 3 {
			sum[of[i]][k] += float64(p[k])
		}
		n[of[i]]++
	}
	out := make([]lab, len(before))
	for i := range out {
		out[i] = before[i]
		if n[i] > 0 {
			out[i] = lab{float32(sum[i][0] / n[i]), float32(sum[i][1] / n[i]), float32(sum[i][2] / n[i])}
		}
	}
	return out
}
