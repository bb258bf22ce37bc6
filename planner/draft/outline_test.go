package draft

import (
	"math"
	"testing"

	"tallycloth/stash/shape"
)

// TestAllowances: the cutting line lies outside the stitching line by the allowance
// everywhere but at corners.
func TestAllowances(t *testing.T) {
	for _, p := range demo(t) {
		for _, q := range p.Pieces {
			for _, want := range []struct {
				edge string
				mm   float64
			}{{"hem", hemDepth}, {"neck", 0}, {"armhole", 0}, {"inseam", sideSeam}, {"shoulder", sideSeam}, {"cap", sideSeam}, {"waist", casing}} {
				o := q.Outlines["4"]
				for _, e := range o.Edges {
					if e.Name != want.edge {
						continue
					}
					at := e.Points[len(e.Points)/2]
					if len(e.Points) == 2 {
						at = shape.Point{X: (e.Points[0].X + e.Points[1].X) / 2, Y: (e.Points[0].Y + e.Points[1].Y) / 2}
					}
					allowance := want.mm
					if allowance == 0 {
						allowance = map[string]float64{"tank": bindingSeam, "sleep shirt": sideSeam}[p.Kind]
					}
					if d := outside(o.Cut, at); math.Abs(d-allowance) > 0.05 {
						t.Errorf("%s %s: the cutting line is %.2f mm outside the %s, want %.0f", p.Name, q.Name, d, e.Name, allowance)
					}
				}
			}
		}
	}
}

// outside is how far a point is from the boundary of a ring, in mm.
func outside(r shape.Ring, p shape.Point) float64 {
	best := math.Inf(1)
	for i, a := range r {
		b := r[(i+1)%len(r)]
		u, v := pt{float64(b.X - a.X), float64(b.Y - a.Y)}, pt{float64(p.X - a.X), float64(p.Y - a.Y)}
		k := min(1, max(0, (u.x*v.x+u.y*v.y)/(u.len()*u.len())))
		best = min(best, v.sub(u.times(k)).len()/1000)
	}
	return best
}

// TestEdgesMeetSquare: neck and hem meet the fold square, so that the opened piece has
// no corner there; the armhole leaves the side seam square (common practice).
func TestEdgesMeetSquare(t *testing.T) {
	for _, p := range demo(t)[:2] {
		for _, q := range p.Pieces[:2] {
			neck := edgeOf(t, q, "5", "neck").Points
			a, b := neck[len(neck)-2], neck[len(neck)-1]
			if b.Y != 0 || math.Abs(float64(b.X-a.X)) > 0.02*math.Abs(float64(b.Y-a.Y)) {
				t.Errorf("%s %s: the neck comes to the fold from %v to %v", p.Name, q.Name, a, b)
			}
			hole := edgeOf(t, q, "5", "armhole").Points
			if a, b := hole[0], hole[1]; math.Abs(float64(b.X-a.X)) > 0.1*math.Abs(float64(b.Y-a.Y)) {
				t.Errorf("%s %s: the armhole leaves the side seam from %v to %v", p.Name, q.Name, a, b)
			}
		}
	}
}
