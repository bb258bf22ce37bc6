package shape

import (
	"cmp"
	"math"
	"slices"
)

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the way from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// at returns point i, counted round the ring, for 0 ≤ i ≤ len(r).
func (r Ring) at(i int) Point {
	if i == len(r) {
		return r[0]
	}
	return r[i]
}

// Area2 returns twice the signed area in µm²: an integer even where the area is
// not one.
//
//  1. Positive counter-clockwise, negative clockwise.
//  2. 0 for fewer than three points and for points on one line.
//  3. Unchanged by moving the ring and by starting it at another point.
//  4. Exact for simple rings. (Sums wrap round at 2^64 on the way, which cancels,
//     as the result itself stays under 2^62.)
//
// Source: the trapezoid or "shoelace" sum (A. L. F. Meister, 1769).
func (r Ring) Area2() int64 {
	var sum int64
	for i := 1; i+1 < len(r); i++ {
		sum += cross(r[0], r[i], r[i+1])
	}
	return sum
}

// Area returns the area in µm², without its sign, rounded down to a whole µm².
func (r Ring) Area() int64 {
	a := r.Area2()
	if a < 0 {
		a = -a
	}
	return a / 2
}

// Perimeter returns the length round the ring in µm, closing edge included: 0
// for fewer than two points, twice the way for two.
func (r Ring) Perimeter() float64 {
	sum := 0.0
	for i := range r {
		d := r.at(i + 1).Sub(r[i])
		sum += math.Hypot(float64(d.X), float64(d.Y))
	}
	return sum
}

// Bounds returns the least upright box that holds all points; the zero Box for
// an empty ring.
func (r Ring) Bounds() Box {
	if len(r) == 0 {
		return Box{}
	}
	b := Box{r[0], r[0]}
	for _, p := range r[1:] {
		b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
		b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	}
	return b
}

// Length returns the box's extent in x (lengthwise), in µm.
func (b Box) Length() int64 { return b.Max.X - b.Min.X }

// Width returns the box's extent in y (crosswise), in µm.
func (b Box) Width() int64 { return b.Max.Y - b.Min.Y }

// Meets says whether two boxes have a point in common, edges included.
func (b Box) Meets(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Grown returns the box with every side moved outwards by d µm.
func (b Box) Grown(d int64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

// Ring returns the box's four corners, counter-clockwise from Min.
func (b Box) Ring() Ring {
	return Ring{b.Min, {b.Max.X, b.Min.Y}, b.Max, {b.Min.X, b.Max.Y}}
}

// Where says how a point lies to an outline.
type Where int

// The places a point can have.
const (
	Outside Where = iota
	OnEdge
	Within
)

// Locate says how p lies to a simple ring, whichever way round it runs.
//
//  1. OnEdge on any edge or corner, exactly.
//  2. Within strictly inside, Outside strictly outside.
//  3. A ring without area has no inside; its points and edges are OnEdge.
//
// Source: crossing number with half-open edges (M. Shimrat, 1962).
func (r Ring) Locate(p Point) Where { return r.locate(p, 1) }

// locate is Locate for the ring enlarged by scale; relate.go asks about
// half-way points at scale 2, where the products still fit.
func (r Ring) locate(p Point, scale int64) Where {
	if len(r) == 0 {
		return Outside
	}
	in := false
	b := r[0].times(scale)
	for i := range r {
		a := b
		b = r.at(i + 1).times(scale)
		if a.Y < p.Y && b.Y < p.Y || a.Y > p.Y && b.Y > p.Y || a.X < p.X && b.X < p.X {
			continue // above, below or to the left: neither on it nor crossed by a ray to the right
		}
		if OnSegment(p, a, b) {
			return OnEdge
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && (cross(a, b, p) > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	if in {
		return Within
	}
	return Outside
}

func (p Point) times(k int64) Point { return Point{p.X * k, p.Y * k} }

// Contains says whether p lies inside a simple ring or on its edge.
func (r Ring) Contains(p Point) bool { return r.Locate(p) != Outside }

// Reverse returns a copy that runs the other way round, from the same first point.
func (r Ring) Reverse() Ring {
	out := make(Ring, 0, len(r))
	for i := range r {
		out = append(out, r[(len(r)-i)%len(r)])
	}
	return out
}

// Move returns a copy moved by d.
func (r Ring) Move(d Point) Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[i] = p.Add(d)
	}
	return out
}

// Clean returns a copy without repeated points and without points in the middle
// of a straight edge.
//
//  1. The area and the set of points enclosed stay exactly the same.
//  2. Spikes (the outline going out and back along one line) are cut off.
//  3. A ring without area gives nil.
//  4. Cleaning again changes nothing.
func (r Ring) Clean() Ring {
	out := make(Ring, 0, len(r))
	for _, p := range r {
		out = trimTail(append(out, p))
	}
	// What was kept may still be superfluous where the ring closes.
	for n := -1; n != len(out) && len(out) >= 3; {
		n = len(out)
		if cross(out[n-2], out[n-1], out[0]) == 0 {
			out = out[:n-1]
		} else if cross(out[n-1], out[0], out[1]) == 0 {
			out = out[1:]
		}
	}
	if len(out) < 3 {
		return nil
	}
	return out
}

// trimTail drops the last point but one for as long as it adds nothing.
func trimTail(r Ring) Ring {
	for n := len(r); n >= 2; n = len(r) {
		last := r[n-1]
		if r[n-2] != last && (n < 3 || cross(r[n-3], r[n-2], last) != 0) {
			break
		}
		r = append(r[:n-2], last)
	}
	return r
}

// Hull returns the corners of the convex hull, counter-clockwise from the lowest
// x (lowest y among equals), without points in the middle of an edge; nil for a
// ring without area.
//
// Source: monotone chain (A. M. Andrew, 1979).
func (r Ring) Hull() Ring {
	pts := sortedPoints(r)
	if len(pts) < 3 {
		return nil
	}
	hull := make(Ring, 0, 2*len(pts))
	half := func(pts []Point) {
		base := len(hull)
		for _, p := range pts {
			for len(hull) >= base+2 && cross(hull[len(hull)-2], hull[len(hull)-1], p) <= 0 {
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, p)
		}
		hull = hull[:len(hull)-1]
	}
	half(pts)
	slices.Reverse(pts)
	half(pts)
	if len(hull) < 3 {
		return nil
	}
	return hull
}

// sortedPoints returns the distinct points by x, then y.
func sortedPoints(r Ring) []Point {
	pts := slices.Clone(r)
	slices.SortFunc(pts, func(a, b Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	return slices.Compact(pts)
}
