package drawn

import "math"

// Flat is how far a flattened curve may lie from the true one, in mm.
const Flat = 0.01

// Steps turns a count into a whole one of at least 1, far too many for any limit when it is not
// a number.
func Steps(n float64) int {
	if !(n < 1e9) {
		return 1e9
	}
	return max(1, int(math.Ceil(n)))
}

func (p Place) mid(q Place, t float64) Place { return Place{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t} }

// CubicSteps is in how many equal steps a cubic curve is flattened: with n of them each chord
// lies within 6·M/(8n²) of the curve, M the greatest second difference of its four points
// (derived from chord error ≤ max|B″|/8n² and |B″| ≤ 6·M).
func CubicSteps(a, b, c, d Place) int {
	bend := math.Max(math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y), math.Hypot(b.X-2*c.X+d.X, b.Y-2*c.Y+d.Y))
	return Steps(math.Sqrt(6 * bend / (8 * Flat)))
}

// Cubic is the point of a cubic curve at t from 0 to 1.
func Cubic(a, b, c, d Place, t float64) Place {
	ab, bc, cd := a.mid(b, t), b.mid(c, t), c.mid(d, t)
	return ab.mid(bc, t).mid(bc.mid(cd, t), t)
}
