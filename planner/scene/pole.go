package scene

import (
	"container/heap"
	"math"

	"tallycloth/stash/shape"
)

// fit is where a text box fits into an outline.
type fit struct {
	at   Point
	size float64 // height
	turn float64
}

// fitText returns where a text box, aspect times as wide as high, lies within an outline and
// clear of some lines in it, as large as it can be up to a height of most. A box upright is
// preferred to one turned a quarter, unless turning makes it a third larger; a place near the middle of
// the outline to one near its pole of inaccessibility, the point farthest from its edges.
// Size zero for an outline without area.
//
// Coordinates are squeezed so that the box is a square; where its half diagonal is no more
// than the distance to the nearest edge, the box lies within the outline.
//
// Source of the pole: D. Garcia-Castellanos and U. Lombardo, 2007; found by a best-first quadtree.
func fitText(p shape.Polygon, clear []Line, aspect, most float64) fit {
	best := fit{}
	for _, turn := range []float64{0, 90} {
		sx, sy := 1/aspect, 1.0
		if turn == 90 {
			sx, sy = 1, 1/aspect
		}
		a := room{squeeze(area(p), sx, sy), squeeze(clear, sx, sy)}
		at, r := a.middle(), most/math.Sqrt2
		switch d := a.inside(at); {
		case d >= r:
		case a.even():
			r = max(0, d)
		default:
			at, r = a.pole()
		}
		size := min(most, r*math.Sqrt2)
		if turn != 0 && size <= best.size*1.33 {
			break
		}
		at = a.nearMiddle(at, size/math.Sqrt2)
		best = fit{Point{at.X / sx, at.Y / sy}, size, turn}
	}
	return best
}

// room is an area and open lines to keep clear of.
type room struct{ area, clear []Line }

// even says whether the area is one parallelogram and nothing else is in the way: its middle then
// is its pole, as for every outline that is convex and the same turned half round.
func (a room) even() bool {
	if len(a.clear) > 0 || len(a.area) != 1 || len(a.area[0].Points) != 4 {
		return false
	}
	p := a.area[0].Points
	far := math.Abs(p[0].X+p[2].X-p[1].X-p[3].X) + math.Abs(p[0].Y+p[2].Y-p[1].Y-p[3].Y)
	b := bounds(a.area)
	return far <= 1e-6*(b.Width()+b.Height())
}

// nearMiddle moves from the pole towards the middle of the area for as long as there is
// a distance of r.
func (a room) nearMiddle(pole Point, r float64) Point {
	mid := a.middle()
	const steps = 24
	for i := range steps {
		t := float64(i) / steps
		p := Point{mid.X + (pole.X-mid.X)*t, mid.Y + (pole.Y-mid.Y)*t}
		if a.inside(p) >= r {
			return p
		}
	}
	return pole
}

// middle is the middle of the area's bounds.
func (a room) middle() Point {
	b := bounds(a.area)
	return Point{(b.Min.X + b.Max.X) / 2, (b.Min.Y + b.Max.Y) / 2}
}

func squeeze(lines []Line, sx, sy float64) []Line {
	out := make([]Line, len(lines))
	for i, l := range lines {
		out[i].Closed = l.Closed
		for _, p := range l.Points {
			out[i].Points = append(out[i].Points, Point{p.X * sx, p.Y * sy})
		}
	}
	return out
}

// cell is a square with its centre's distance to the outline, negative outside.
type cell struct {
	at             Point
	half, d, limit float64
}

// cells is a heap, the most promising first.
type cells []cell

func (c cells) Len() int           { return len(c) }
func (c cells) Less(i, j int) bool { return c[i].limit > c[j].limit }
func (c cells) Swap(i, j int)      { c[i], c[j] = c[j], c[i] }
func (c *cells) Push(x any)        { *c = append(*c, x.(cell)) }
func (c *cells) Pop() any {
	last := (*c)[len(*c)-1]
	*c = (*c)[:len(*c)-1]
	return last
}

// pole returns the point farthest inside an area, to a fiftieth of that distance, and
// the distance; zero for an area of none.
func (a room) pole() (Point, float64) {
	b := bounds(a.area)
	side := min(b.Width(), b.Height())
	if len(a.area) == 0 || side <= 0 {
		return Point{}, 0
	}
	todo := &cells{}
	add := func(x, y, half float64) {
		at := Point{x, y}
		d := a.inside(at)
		heap.Push(todo, cell{at, half, d, d + half*math.Sqrt2})
	}
	for x := b.Min.X; x < b.Max.X; x += side {
		for y := b.Min.Y; y < b.Max.Y; y += side {
			add(x+side/2, y+side/2, side/2)
		}
	}
	best := cell{}
	for steps := 0; todo.Len() > 0 && steps < 2000; steps++ {
		c := heap.Pop(todo).(cell)
		if c.d > best.d {
			best = c
		}
		if c.limit-best.d <= best.d/50 || c.half < side/1e4 {
			break
		}
		h := c.half / 2
		for _, o := range []Point{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
			add(c.at.X+o.X, c.at.Y+o.Y, h)
		}
	}
	return best.at, max(0, best.d)
}

func bounds(lines []Line) Box {
	var all []Point
	for _, l := range lines {
		all = append(all, l.Points...)
	}
	return boxOf(all)
}

// inside returns the distance of p to the nearest line, negative outside the area.
func (a room) inside(p Point) float64 {
	in, d := false, math.Inf(1)
	for _, l := range a.area {
		n := len(l.Points)
		for i, q := range l.Points {
			r := l.Points[(i+1)%n]
			if (q.Y > p.Y) != (r.Y > p.Y) && p.X < (r.X-q.X)*(p.Y-q.Y)/(r.Y-q.Y)+q.X {
				in = !in
			}
			d = min(d, distance(p, q, r))
		}
	}
	if !in {
		return -d
	}
	for _, l := range a.clear {
		for i := 1; i < len(l.Points); i++ {
			d = min(d, distance(p, l.Points[i-1], l.Points[i]))
		}
	}
	return d
}

// distance is from p to the segment a b.
func distance(p, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(1, max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
