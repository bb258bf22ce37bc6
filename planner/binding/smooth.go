package binding

import "math"

// curveSteps is how many points a smooth line has from one drawn point to the next.
const curveSteps = 24

// Smooth returns points along a smooth line through the points drawn, in the same unit: a centripetal
// Catmull-Rom spline (Barry, Goldman, 1988; its centripetal form neither loops nor cusps within a span: Yuksel,
// Schaefer, Keyser, 2011). A closed line comes back to its first point. Fewer than three points come back as they are.
func Smooth(points [][2]float64, closed bool) [][2]float64 {
	var p [][2]float64
	for _, q := range points {
		if n := len(p); n == 0 || q != p[n-1] {
			p = append(p, q)
		}
	}
	if closed && len(p) > 1 && p[0] == p[len(p)-1] {
		p = p[:len(p)-1]
	}
	n := len(p)
	if n < 3 {
		return p
	}
	at := func(i int) [2]float64 {
		switch {
		case closed:
			return p[((i%n)+n)%n]
		case i < 0: // beyond an end the line bends on as it began
			return mirrored(p[2], p[0], p[1])
		case i >= n:
			return mirrored(p[n-3], p[n-1], p[n-2])
		}
		return p[i]
	}
	spans := n - 1
	if closed {
		spans = n
	}
	var out [][2]float64
	for i := range spans {
		out = append(out, curve(at(i-1), at(i), at(i+1), at(i+2))...)
	}
	if closed {
		return out
	}
	return append(out, p[n-1])
}

// mirrored is q seen in a mirror half-way between a and b: of points on a circle, the next one.
func mirrored(q, a, b [2]float64) [2]float64 {
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	ux, uy := (b[0]-a[0])/l, (b[1]-a[1])/l
	off := (q[0]-(a[0]+b[0])/2)*ux + (q[1]-(a[1]+b[1])/2)*uy
	return [2]float64{q[0] - 2*off*ux, q[1] - 2*off*uy}
}

// curve is the line from b to c, without c, between the neighbours a and d.
func curve(a, b, c, d [2]float64) [][2]float64 {
	knot := func(t float64, p, q [2]float64) float64 {
		return t + math.Max(math.Sqrt(math.Hypot(q[0]-p[0], q[1]-p[1])), 1e-9)
	}
	t1 := knot(0, a, b)
	t2 := knot(t1, b, c)
	t3 := knot(t2, c, d)
	mix := func(p, q [2]float64, from, to, t float64) [2]float64 {
		k := (t - from) / (to - from)
		return [2]float64{p[0] + (q[0]-p[0])*k, p[1] + (q[1]-p[1])*k}
	}
	out := make([][2]float64, 0, curveSteps)
	for i := range curveSteps {
		t := t1 + (t2-t1)*float64(i)/curveSteps
		x, y, z := mix(a, b, 0, t1, t), mix(b, c, t1, t2, t), mix(c, d, t2, t3, t)
		out = append(out, mix(mix(x, y, 0, t2, t), mix(y, z, t1, t3, t), t1, t2, t))
	}
	return out
}
