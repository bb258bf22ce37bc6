package draft

import (
	"math"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// pt is a point in millimetres.
type pt struct{ x, y float64 }

func (a pt) add(b pt) pt        { return pt{a.x + b.x, a.y + b.y} }
func (a pt) sub(b pt) pt        { return pt{a.x - b.x, a.y - b.y} }
func (a pt) times(k float64) pt { return pt{a.x * k, a.y * k} }
func (a pt) len() float64       { return math.Hypot(a.x, a.y) }
func (a pt) cross(b pt) float64 { return a.x*b.y - a.y*b.x }
func (a pt) toward(b pt) pt     { d := b.sub(a); return d.times(1 / d.len()) }
func (a pt) outward() pt        { return pt{a.y, -a.x} } // right of a counter-clockwise way
func (a pt) turned(by float64) pt {
	sin, cos := math.Sincos(by)
	return pt{a.x*cos - a.y*sin, a.x*sin + a.y*cos}
}
func micro(v float64) int64           { return int64(math.Round(v * 1000)) }
func (a pt) point() shape.Point       { return shape.Point{X: micro(a.x), Y: micro(a.y)} }
func between(a, b, k float64) float64 { return a + (b-a)*k }

// flat is how far a flattened curve may lie from the true one, in millimetres.
const flat = 0.01

// side is one edge of a stitching line: its points in order, counter-clockwise
// round the piece, and how far the cutting line lies outside it.
type side struct {
	name      string
	pts       []pt
	allowance float64
}

func straight(name string, allowance float64, pts ...pt) side { return side{name, pts, allowance} }

// curve is a cubic Bézier from a to d with the handles b and c.
func curve(name string, allowance float64, a, b, c, d pt) side {
	return side{name, bezier(a, b, c, d), allowance}
}

// bezier flattens a cubic curve: with n equal steps the chord lies within
// √3/18·M/n² of it, M the greatest second difference (derived from |B”|/8n²).
func bezier(a, b, c, d pt) []pt {
	m := math.Max(a.sub(b.times(2)).add(c).len(), b.sub(c.times(2)).add(d).len())
	n := max(int(math.Ceil(math.Sqrt(6*m/(8*flat)))), 1)
	out := make([]pt, 0, n+1)
	for i := range n + 1 {
		t := float64(i) / float64(n)
		s := 1 - t
		out = append(out, a.times(s*s*s).add(b.times(3*s*s*t)).add(c.times(3*s*t*t)).add(d.times(t*t*t)))
	}
	return out
}

// outline turns the sides of a stitching line, counter-clockwise and closed, into
// a pattern piece's outline: the cutting line with its allowances, and the
// stitching line of every named side as an edge path.
func outline(sides []side, notches ...pattern.Notch) pattern.Outline {
	n := len(sides)
	moved := make([][]pt, n)
	for i, s := range sides {
		moved[i] = offset(s)
	}
	for i := range sides {
		corner(&moved[i], &moved[(i+1)%n])
	}
	cut := joined(moved...)
	o := pattern.Outline{Cut: ring(cut), Notches: notches}
	for _, s := range sides {
		if s.name == "" {
			continue
		}
		e := pattern.EdgePath{Name: s.name}
		for _, p := range s.pts {
			e.Points = append(e.Points, p.point())
		}
		e.Turn = pattern.Turning(e.Points)
		o.Edges = append(o.Edges, e)
	}
	return o
}

// offset moves a side outwards by its allowance; points between its ends move
// along the middle of their two edges.
func offset(s side) []pt {
	out := make([]pt, len(s.pts))
	for i, p := range s.pts {
		var n pt
		switch {
		case i == 0:
			n = p.toward(s.pts[1]).outward()
		case i == len(s.pts)-1:
			n = s.pts[i-1].toward(p).outward()
		default:
			a, b := s.pts[i-1].toward(p).outward(), p.toward(s.pts[i+1]).outward()
			n = a.add(b)
			n = n.times(2 / (n.len() * n.len()))
		}
		out[i] = p.add(n.times(s.allowance))
	}
	return out
}

// reach is how far moved sides are lengthened to meet at a corner, in millimetres.
const reach = 60.0

// corner trims or lengthens the end of a and the start of b to where the two moved
// sides cross, nearest to their ends. Where they do not cross, because they run on
// nearly straight, both ends stay.
func corner(a, b *[]pt) {
	p, q := slices.Clone(*a), slices.Clone(*b)
	n := len(p)
	p[n-1] = p[n-1].add(p[n-2].toward(p[n-1]).times(reach))
	q[0] = q[0].add(q[1].toward(q[0]).times(reach))
	for back := range n - 1 + len(q) - 1 {
		for i := n - 1; i > 0 && n-1-i <= back; i-- {
			j := back - (n - 1 - i)
			if j+1 >= len(q) {
				continue
			}
			if at, ok := crossing(p[i-1], p[i], q[j], q[j+1]); ok {
				*a = append(slices.Clone((*a)[:i]), at)
				*b = append([]pt{at}, (*b)[j+1:]...)
				return
			}
		}
	}
}

// crossing is where the segments a b and c d cross at a clear angle.
func crossing(a, b, c, d pt) (pt, bool) {
	u, v := b.sub(a), d.sub(c)
	det := u.cross(v)
	if math.Abs(det) < 0.03*u.len()*v.len() {
		return pt{}, false
	}
	k, m := c.sub(a).cross(v)/det, c.sub(a).cross(u)/det
	return a.add(u.times(k)), k >= 0 && k <= 1 && m >= 0 && m <= 1
}

// joined runs polylines on from one to the next.
func joined(lines ...[]pt) []pt {
	var out []pt
	for i, l := range lines {
		if i > 0 && len(l) > 0 && out[len(out)-1] == l[0] {
			l = l[1:]
		}
		out = append(out, l...)
	}
	return out
}

// ring rounds points to whole µm and drops what falls together.
func ring(pts []pt) shape.Ring {
	out := make(shape.Ring, len(pts))
	for i, p := range pts {
		out[i] = p.point()
	}
	out = out.Clean()
	if out.Area2() < 0 {
		out = out.Reverse()
	}
	return out
}

// lengthOf is the length of a polyline in millimetres.
func lengthOf(pts []pt) float64 {
	var sum float64
	for i := 1; i < len(pts); i++ {
		sum += pts[i].sub(pts[i-1]).len()
	}
	return sum
}

// notchOn is a notch on the moved side at a share of the way along it.
func notchOn(s side, share float64, kind string) pattern.Notch {
	pts := offset(s)
	want := lengthOf(pts) * share
	for i := 1; i < len(pts); i++ {
		d := pts[i].sub(pts[i-1]).len()
		if want <= d || i == len(pts)-1 {
			return pattern.Notch{At: pts[i-1].add(pts[i-1].toward(pts[i]).times(want)).point(), Kind: kind}
		}
		want -= d
	}
	return pattern.Notch{}
}
