package trace

import (
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// outline returns the zero line of the field as a valid polygon, or one without points.
func (f field) outline() shape.Polygon {
	loops := f.loops()
	if len(loops) == 0 {
		return shape.Polygon{}
	}
	slices.SortStableFunc(loops, func(a, b []Dot) int {
		return int(math.Copysign(1, math.Abs(area(b))-math.Abs(area(a))))
	})
	// The straight lines of cloth are cut by hand: half a millimetre is neither here nor there.
	for _, tolerance := range []float64{600, 250, 0} {
		var p shape.Polygon
		for i, l := range loops {
			r := whole(simplified(l, tolerance))
			if len(r) < 3 || i > 0 && math.Abs(area(l)) < leastHole {
				continue
			}
			switch {
			case i == 0 && r.Area2() < 0, i > 0 && r.Area2() > 0:
				r = r.Reverse()
			}
			if i == 0 {
				p.Outer = r
			} else {
				p.Holes = append(p.Holes, r)
			}
		}
		if p.Validate() == nil {
			return p
		}
	}
	return shape.Polygon{}
}

func area(l []Dot) float64 {
	sum := 0.0
	for i, a := range l {
		b := l[(i+1)%len(l)]
		sum += a.X*b.Y - a.Y*b.X
	}
	return sum / 2
}

func whole(l []Dot) shape.Ring {
	var r shape.Ring
	for _, d := range l {
		r = append(r, shape.Point{X: int64(math.Round(d.X)), Y: int64(math.Round(d.Y))})
	}
	return r.Clean()
}

// at is the field with a rim of background round it.
func (f field) at(x, y int) float64 {
	if x < 0 || y < 0 || x >= f.w || y >= f.h {
		return -1
	}
	v := float64(f.v[y*f.w+x])
	if math.Abs(v) < 1e-4 { // never through the middle of a pixel, so that lines cannot touch
		return math.Copysign(1e-4, v)
	}
	return v
}

// edge names the crossing between a pixel and its neighbour to the right or below.
type edge struct {
	x, y int
	down bool
}

// loops walks along the zero line, in µm of the plane: the squares between four middles
// of pixels, the line straight through each (W. Lorensen, H. Cline, 1987, in two
// dimensions). Where a square has two lines, they part the cloth.
func (f field) loops() [][]Dot {
	next := map[edge]edge{}
	for y := -1; y < f.h; y++ {
		for x := -1; x < f.w; x++ {
			f.square(x, y, next)
		}
	}
	var out [][]Dot
	starts := make([]edge, 0, len(next))
	for e := range next {
		starts = append(starts, e)
	}
	slices.SortFunc(starts, func(a, b edge) int {
		if a.y != b.y {
			return a.y - b.y
		}
		if a.x != b.x {
			return a.x - b.x
		}
		if a.down == b.down {
			return 0
		}
		if a.down {
			return 1
		}
		return -1
	})
	for _, start := range starts {
		var l []Dot
		for e := start; ; {
			to, ok := next[e]
			if !ok {
				break
			}
			delete(next, e)
			l = append(l, f.place(e))
			e = to
		}
		if len(l) >= 3 {
			out = append(out, l)
		}
	}
	return out
}

// square adds the lines through the square whose top left is pixel x, y: cloth lies on
// their left as one looks along them with y down.
func (f field) square(x, y int, next map[edge]edge) {
	a, b, c, d := f.at(x, y) > 0, f.at(x+1, y) > 0, f.at(x+1, y+1) > 0, f.at(x, y+1) > 0
	if a == b && b == c && c == d {
		return
	}
	top, right, bottom, left := edge{x, y, false}, edge{x + 1, y, true}, edge{x, y + 1, false}, edge{x, y, true}
	// Every corner that is cloth with neighbours that are not is cut off by itself.
	sides := [4]edge{top, right, bottom, left}
	in := [4]bool{a, b, c, d} // corner i lies between sides i−1 and i
	for i := range 4 {
		if in[i] || !in[(i+1)%4] {
			continue
		}
		// Side i goes from outside to inside, clockwise: a line begins or ends here. It
		// ends at the next side that goes from inside to outside.
		for k := 1; k < 4; k++ {
			j := (i + k) % 4
			if in[j] && !in[(j+1)%4] {
				next[sides[j]] = sides[i]
				break
			}
		}
	}
}

// place is where the field is zero on an edge, in the plane.
func (f field) place(e edge) Dot {
	a := f.at(e.x, e.y)
	d := Dot{float64(e.x+f.x) + 0.5, float64(e.y+f.y) + 0.5}
	if e.down {
		d.Y += a / (a - f.at(e.x, e.y+1))
	} else {
		d.X += a / (a - f.at(e.x+1, e.y))
	}
	return f.s.Plane(d)
}

// simplified leaves out points so that none lies farther than the tolerance from the
// line left: D. Douglas, T. Peucker, 1973, between two points far apart.
func simplified(l []Dot, tolerance float64) []Dot {
	if tolerance == 0 || len(l) < 5 {
		return l
	}
	a := farthest(l, l[0])
	b := farthest(l, l[a])
	a, b = min(a, b), max(a, b)
	if a == b {
		return l
	}
	round := append(slices.Clone(l[a:]), l[:a+1]...)
	keep := make([]bool, len(round))
	keep[0], keep[b-a], keep[len(round)-1] = true, true, true
	thin(round, 0, b-a, tolerance, keep)
	thin(round, b-a, len(round)-1, tolerance, keep)
	var out []Dot
	for i := range len(round) - 1 {
		if keep[i] {
			out = append(out, round[i])
		}
	}
	return out
}

func farthest(l []Dot, from Dot) int {
	best, d := 0, -1.0
	for i, p := range l {
		if e := math.Hypot(p.X-from.X, p.Y-from.Y); e > d {
			best, d = i, e
		}
	}
	return best
}

func thin(l []Dot, from, to int, tolerance float64, keep []bool) {
	best, far := -1, tolerance
	for i := from + 1; i < to; i++ {
		if d := fromSegment(l[i], l[from], l[to]); d > far {
			best, far = i, d
		}
	}
	if best < 0 {
		return
	}
	keep[best] = true
	thin(l, from, best, tolerance, keep)
	thin(l, best, to, tolerance, keep)
}

func fromSegment(p, a, b Dot) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l, 0), 1)
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
