package trace

import (
	"math"

	"tallycloth/stash"
)

// Homography maps one plane to another as a picture does: straight lines stay straight.
// It is a 3 × 3 matrix by rows, of which only the ratios count.
type Homography [9]float64

// FromPoints returns the homography that takes each of four places to its partner. No
// three of either four may lie on a line.
//
// It is the direct linear transformation for four pairs with both sides moved and scaled
// first so that their middle is the origin and their mean distance from it √2: R. Hartley,
// A. Zisserman, Multiple View Geometry in Computer Vision, 2nd edition 2004, algorithms 4.1
// and 4.2. The last entry is set to 1, which normalised points of a convex four allow: it
// would be 0 only if their middle went to infinity.
func FromPoints(from, to [4]Dot) (Homography, error) {
	a, na := normalised(from)
	b, nb := normalised(to)
	var m [8][9]float64
	for i := range 4 {
		x, y, u, v := a[i].X, a[i].Y, b[i].X, b[i].Y
		m[2*i] = [9]float64{x, y, 1, 0, 0, 0, -u * x, -u * y, u}
		m[2*i+1] = [9]float64{0, 0, 0, x, y, 1, -v * x, -v * y, v}
	}
	s, ok := solve(m)
	h := Homography{s[0], s[1], s[2], s[3], s[4], s[5], s[6], s[7], 1}
	if !ok || math.Abs(h.determinant()) < 1e-6 {
		return Homography{}, &stash.Error{Kind: stash.Invalid, What: "Three of the four corners lie on one line",
			Do: "Move each mark onto its own corner of the rectangle"}
	}
	return nb.inverse().times(h).times(na), nil
}

// normalised moves and scales four points, and returns the map that does.
func normalised(p [4]Dot) ([4]Dot, Homography) {
	var mx, my, far float64
	for _, d := range p {
		mx, my = mx+d.X/4, my+d.Y/4
	}
	for _, d := range p {
		far += math.Hypot(d.X-mx, d.Y-my) / 4
	}
	s := math.Sqrt2 / max(far, math.SmallestNonzeroFloat64)
	for i, d := range p {
		p[i] = Dot{(d.X - mx) * s, (d.Y - my) * s}
	}
	return p, Homography{s, 0, -s * mx, 0, s, -s * my, 0, 0, 1}
}

// solve solves eight linear equations by elimination with the largest pivot of a column.
func solve(m [8][9]float64) (x [8]float64, ok bool) {
	for c := range 8 {
		best := c
		for r := c + 1; r < 8; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[best][c]) {
				best = r
			}
		}
		if math.Abs(m[best][c]) < 1e-9 {
			return x, false
		}
		m[c], m[best] = m[best], m[c]
		for r := c + 1; r < 8; r++ {
			f := m[r][c] / m[c][c]
			for k := c; k < 9; k++ {
				m[r][k] -= f * m[c][k]
			}
		}
	}
	for c := 7; c >= 0; c-- {
		x[c] = m[c][8]
		for k := c + 1; k < 8; k++ {
			x[c] -= m[c][k] * x[k]
		}
		x[c] /= m[c][c]
	}
	return x, true
}

// times returns the map that does g first, then h.
func (h Homography) times(g Homography) (out Homography) {
	for r := range 3 {
		for c := range 3 {
			for k := range 3 {
				out[3*r+c] += h[3*r+k] * g[3*k+c]
			}
		}
	}
	return out
}

// determinant is zero for a map that flattens the plane.
func (h Homography) determinant() float64 {
	return h[0]*(h[4]*h[8]-h[5]*h[7]) - h[1]*(h[3]*h[8]-h[5]*h[6]) + h[2]*(h[3]*h[7]-h[4]*h[6])
}

// inverse returns the map back (the adjugate: only ratios count).
func (h Homography) inverse() Homography {
	return Homography{
		h[4]*h[8] - h[5]*h[7], h[2]*h[7] - h[1]*h[8], h[1]*h[5] - h[2]*h[4],
		h[5]*h[6] - h[3]*h[8], h[0]*h[8] - h[2]*h[6], h[2]*h[3] - h[0]*h[5],
		h[3]*h[7] - h[4]*h[6], h[1]*h[6] - h[0]*h[7], h[0]*h[4] - h[1]*h[3],
	}
}

// Apply maps a place. Those on the horizon go to infinity.
func (h Homography) Apply(d Dot) Dot {
	w := h.depth(d)
	return Dot{(h[0]*d.X + h[1]*d.Y + h[2]) / w, (h[3]*d.X + h[4]*d.Y + h[5]) / w}
}

// depth is zero on the horizon and has one sign on each side of it.
func (h Homography) depth(d Dot) float64 { return h[6]*d.X + h[7]*d.Y + h[8] }
