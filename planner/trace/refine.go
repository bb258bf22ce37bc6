package trace

import (
	"image"
	"math"
)

// A person marks a corner to a few pixels; the four sides, seen along their whole length,
// say it to a tenth of one. Each side is looked for across the line between two marks, a
// straight line is laid through what was found, and neighbouring lines meet in the corners.

const (
	sidePoints = 60  // places along a side that are looked at
	straightTo = 0.8 // pixels: a side is there when enough places lie this near to one line
	enough     = 0.45
)

// line is a straight line through at, along the unit vector dir.
type line struct{ at, dir Dot }

// refine returns the corners moved onto the edges of the sheet, or onto the middle of
// the lines of a mat. A side that is not plain to see stays as it was marked.
func refine(src *image.RGBA, r Rectangle) [4]Dot {
	var sides [4]line
	for i := range 4 {
		sides[i] = refineSide(src, r.Corners[i], r.Corners[(i+1)%4], searchRadius(src, r), r.Sheet)
	}
	out := r.Corners
	for i := range 4 {
		p, ok := crossing(sides[(i+3)%4], sides[i])
		if ok && math.Hypot(p.X-out[i].X, p.Y-out[i].Y) <= 2*searchRadius(src, r) {
			out[i] = p
		}
	}
	return out
}

// searchRadius is how far from the marks a side is looked for, in pixels. Lines of a mat
// have others beside them.
func searchRadius(src *image.RGBA, r Rectangle) float64 {
	b := src.Bounds()
	d := 0.006 * math.Hypot(float64(b.Dx()), float64(b.Dy()))
	if !r.Sheet {
		d /= 2
	}
	return min(max(d, 4), 20)
}

func refineSide(src *image.RGBA, a, b Dot, radius float64, edge bool) line {
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	dir := Dot{(b.X - a.X) / l, (b.Y - a.Y) / l}
	across := Dot{-dir.Y, dir.X}
	var along, off []float64
	for i := range sidePoints {
		s := l * (0.06 + 0.88*float64(i)/(sidePoints-1))
		at := Dot{a.X + s*dir.X, a.Y + s*dir.Y}
		if t, ok := strongest(src, at, across, radius, edge); ok {
			along, off = append(along, s), append(off, t)
		}
	}
	slope, start, ok := robustLine(along, off)
	if !ok {
		return line{a, dir}
	}
	from := Dot{a.X + start*across.X, a.Y + start*across.Y}
	d := Dot{dir.X + slope*across.X, dir.Y + slope*across.Y}
	n := math.Hypot(d.X, d.Y)
	return line{from, Dot{d.X / n, d.Y / n}}
}

// strongest returns where across a side the picture changes most (edge), or differs most
// from both sides (a printed line), in pixels from at.
func strongest(src *image.RGBA, at, across Dot, radius float64, edge bool) (float64, bool) {
	// Half pixels, compared over two pixels; as light: in the picture's own steps an edge
	// between dark and bright seems to lie farther on the dark side.
	const step, lap = 0.5, 4
	n := int(radius/step)*2 + 1
	profile := make([][3]float64, n+2*lap)
	for k := range profile {
		t := (float64(k-lap) - float64(n/2)) * step
		if !sample(src, Dot{at.X + t*across.X, at.Y + t*across.Y}, &profile[k]) {
			return 0, false
		}
		for c, v := range profile[k] {
			profile[k][c] = 255 * linear[uint8(v+0.5)]
		}
	}
	change := make([]float64, n)
	for k := range n {
		for c := range 3 {
			before, here, after := profile[k][c], profile[k+lap][c], profile[k+2*lap][c]
			if edge {
				change[k] += math.Abs(after - before)
			} else {
				change[k] += math.Abs(here - (before+after)/2)
			}
		}
	}
	best := 0
	for k, v := range change {
		if v > change[best] {
			best = k
		}
	}
	if change[best] < 8 || best == 0 || best == n-1 {
		return 0, false
	}
	return (centre(change, best) - float64(n/2)) * step, true
}

// centre is the middle of the hump round its top, weighed by its height.
func centre(v []float64, top int) float64 {
	lo, hi := top, top
	for lo > 0 && v[lo-1] > v[top]/2 && top-lo < 5 {
		lo--
	}
	for hi+1 < len(v) && v[hi+1] > v[top]/2 && hi-top < 5 {
		hi++
	}
	sum, weight := 0.0, 0.0
	for k := lo; k <= hi; k++ {
		w := v[k] - v[top]/3
		sum, weight = sum+w*float64(k), weight+w
	}
	return sum / weight
}

// robustLine lays a line through those points that agree: every pair of them far apart
// proposes one (M. Fischler, R. Bolles, 1981, here without chance, all pairs), the line
// with most followers is then fitted to these by least squares.
func robustLine(x, y []float64) (slope, start float64, ok bool) {
	most := 0
	for i := range x {
		for j := i + sidePoints/4; j < len(x); j++ {
			m := (y[j] - y[i]) / (x[j] - x[i])
			n := 0
			for k := range x {
				if math.Abs(y[k]-y[i]-m*(x[k]-x[i])) < straightTo {
					n++
				}
			}
			if n > most {
				most, slope, start = n, m, y[i]-m*x[i]
			}
		}
	}
	if float64(most) < enough*sidePoints {
		return 0, 0, false
	}
	for range 2 {
		var fx, fy []float64
		for k := range x {
			if math.Abs(y[k]-start-slope*x[k]) < straightTo {
				fx, fy = append(fx, x[k]), append(fy, y[k])
			}
		}
		if len(fx) < 3 {
			break
		}
		slope, start = leastSquares(fx, fy)
	}
	return slope, start, true
}

func leastSquares(x, y []float64) (slope, start float64) {
	n := float64(len(x))
	var mx, my, xx, xy float64
	for i := range x {
		mx, my = mx+x[i]/n, my+y[i]/n
	}
	for i := range x {
		xx, xy = xx+(x[i]-mx)*(x[i]-mx), xy+(x[i]-mx)*(y[i]-my)
	}
	slope = xy / xx
	return slope, my - slope*mx
}

// crossing is where two lines meet; false for lines nearly along each other.
func crossing(a, b line) (Dot, bool) {
	d := a.dir.X*b.dir.Y - a.dir.Y*b.dir.X
	if math.Abs(d) < 0.05 {
		return Dot{}, false
	}
	t := ((b.at.X-a.at.X)*b.dir.Y - (b.at.Y-a.at.Y)*b.dir.X) / d
	return Dot{a.at.X + t*a.dir.X, a.at.Y + t*a.dir.Y}, true
}
