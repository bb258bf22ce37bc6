package pdf

import (
	"math"

	"tallycloth/planner/exchange/drawn"
)

// matrix is the map (x, y) → (a·x + c·y + e, b·x + d·y + f), ISO 32000-1, 8.3.4.
type matrix [6]float64

func (m matrix) apply(x, y float64) drawn.Place {
	return drawn.Place{X: m[0]*x + m[2]*y + m[4], Y: m[1]*x + m[3]*y + m[5]}
}

// after is the map that does n first and m after it.
func (m matrix) after(n matrix) matrix {
	o := m.apply(n[4], n[5])
	return matrix{
		m[0]*n[0] + m[2]*n[1], m[1]*n[0] + m[3]*n[1],
		m[0]*n[2] + m[2]*n[3], m[1]*n[2] + m[3]*n[3], o.X, o.Y,
	}
}

func (m matrix) finite() bool {
	sum := m[0] + m[1] + m[2] + m[3] + m[4] + m[5]
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// scale is the mean factor by which it lengthens.
func (m matrix) scale() float64 { return math.Sqrt(math.Abs(m[0]*m[3] - m[1]*m[2])) }

// box is a rectangle on a page in mm.
type box struct{ left, top, right, low float64 }

func nowhere() box { return box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)} }

func (b box) with(p drawn.Place) box {
	return box{math.Min(b.left, p.X), math.Min(b.top, p.Y), math.Max(b.right, p.X), math.Max(b.low, p.Y)}
}

func (b box) meet(c box) box {
	return box{math.Max(b.left, c.left), math.Max(b.top, c.top), math.Min(b.right, c.right), math.Min(b.low, c.low)}
}

func (b box) wider(by float64) box { return box{b.left - by, b.top - by, b.right + by, b.low + by} }

func (b box) empty() bool      { return !(b.right > b.left && b.low > b.top) }
func (b box) wide() float64    { return b.right - b.left }
func (b box) tall() float64    { return b.low - b.top }
func (b box) middleX() float64 { return (b.left + b.right) / 2 }
func (b box) middleY() float64 { return (b.top + b.low) / 2 }

func (b box) holds(c box) bool {
	return c.left >= b.left && c.top >= b.top && c.right <= b.right && c.low <= b.low
}

func boxOf(points []drawn.Place) box {
	b := nowhere()
	for _, p := range points {
		b = b.with(p)
	}
	return b
}

// clip cuts a run down to a box: a closed run that lies in it stays as it is, anything else
// comes back as open stretches.
func (b box) clip(points []drawn.Place, closed bool) (out [][]drawn.Place, whole bool) {
	if b.holds(boxOf(points)) {
		return [][]drawn.Place{points}, true
	}
	if closed && len(points) > 0 {
		points = append(points[:len(points):len(points)], points[0])
	}
	var now []drawn.Place
	flush := func() {
		if len(now) > 1 {
			out = append(out, now)
		}
		now = nil
	}
	for i := 1; i < len(points); i++ {
		p, q, ok := b.part(points[i-1], points[i])
		if !ok {
			flush()
			continue
		}
		if len(now) == 0 || now[len(now)-1] != p {
			flush()
			now = []drawn.Place{p}
		}
		if q != p {
			now = append(now, q)
		}
		if q != points[i] {
			flush()
		}
	}
	flush()
	if closed && len(out) > 1 { // the stretch that runs over the first point is one
		first, last := out[0], out[len(out)-1]
		if first[0] == points[0] && last[len(last)-1] == points[0] {
			out[0] = append(last, first[1:]...)
			out = out[:len(out)-1]
		}
	}
	return out, false
}

// part is what of a stretch lies in the box (Liang and Barsky, ACM TOG 3(1), 1984).
func (b box) part(p, q drawn.Place) (drawn.Place, drawn.Place, bool) {
	from, to := 0.0, 1.0
	dx, dy := q.X-p.X, q.Y-p.Y
	for _, e := range [4][2]float64{{-dx, p.X - b.left}, {dx, b.right - p.X}, {-dy, p.Y - b.top}, {dy, b.low - p.Y}} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return p, q, false
			}
		case e[0] < 0:
			from = math.Max(from, e[1]/e[0])
		default:
			to = math.Min(to, e[1]/e[0])
		}
	}
	if from > to {
		return p, q, false
	}
	a, z := p, q
	if from > 0 {
		a = drawn.Place{X: p.X + from*dx, Y: p.Y + from*dy}
	}
	if to < 1 {
		z = drawn.Place{X: p.X + to*dx, Y: p.Y + to*dy}
	}
	return a, z, true
}
