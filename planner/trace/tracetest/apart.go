package tracetest

import (
	"math"

	"tallycloth/stash/shape"
)

// Apart is how far two outlines lie apart at most, in µm: the Hausdorff distance of their
// boundaries, holes included, seen from points 1 mm apart on each.
func Apart(a, b shape.Polygon) float64 { return math.Max(oneWay(a, b), oneWay(b, a)) }

func oneWay(a, b shape.Polygon) float64 {
	edges := segments(b)
	far := 0.0
	for _, s := range segments(a) {
		n := int(math.Hypot(s[2]-s[0], s[3]-s[1])/1000) + 1
		for k := range n {
			t := float64(k) / float64(n)
			far = math.Max(far, toNearest(s[0]+t*(s[2]-s[0]), s[1]+t*(s[3]-s[1]), edges, far))
		}
	}
	return far
}

// toNearest is the distance to the nearest edge; it stops looking once that is under enough.
func toNearest(x, y float64, edges [][4]float64, enough float64) float64 {
	best := math.Inf(1)
	for _, e := range edges {
		dx, dy := e[2]-e[0], e[3]-e[1]
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = min(max(((x-e[0])*dx+(y-e[1])*dy)/l, 0), 1)
		}
		best = min(best, math.Hypot(x-e[0]-t*dx, y-e[1]-t*dy))
		if best < enough {
			break
		}
	}
	return best
}

func segments(p shape.Polygon) (out [][4]float64) {
	for _, r := range p.Rings() {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			out = append(out, [4]float64{float64(a.X), float64(a.Y), float64(b.X), float64(b.Y)})
		}
	}
	return out
}
