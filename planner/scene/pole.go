package scene

import (
	"container/heap"
	"math"

	"tallycloth/stash/shape"
)

// box is where a text of an aspect fits into an outline.
type fit struct {
	at   Point
	size float64 // height
	turn float64
}

// fitText returns the place and height of the largest text box, aspect times as wide as
// high, upright or turned a quarter, that lies around the outline's pole of inaccessibility: the
// point farthest from its edges, in coordinates squeezed so that the box is a square.
// Its half diagonal is no more than that distance, so the box lies within the outline.
// Size zero for an outline without area.
//
// Source of the pole: D. Garcia-Castellanos and U. Lombardo, 2007; found by a best-first quadtree.
func fitText(p shape.Polygon, aspect float64) fit {
	flat := p
	best := fit{}
	for _, turn := range []float64{0, 90} {
		sx, sy := 1/aspect, 1.0
		if turn == 90 {
			sx, sy = 1, 1/aspect
		}
		at, r := pole(squeeze(flat, sx, sy))
		// Upright reads more easily: turned text must be a third larger.
		if size := r * math.Sqrt2; size > best.size*map[bool]float64{true: 1.33, false: 1}[turn != 0] {
			best = fit{Point{at.X / sx, at.Y / sy}, size, turn}
		}
	}
	return best
}

func squeeze(p shape.Polygon, sx, sy float64) []Line {
	out := area(p)
	for _, l := range out {
		for i := range l.Points {
			l.Points[i].X *= sx
			l.Points[i].Y *= sy
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
func pole(lines []Line) (Point, float64) {
	b := bounds(lines)
	side := min(b.Width(), b.Height())
	if len(lines) == 0 || side <= 0 {
		return Point{}, 0
	}
	todo := &cells{}
	add := func(x, y, half float64) {
		at := Point{x, y}
		d := inside(at, lines)
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
	b := Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
	for _, l := range lines {
		for _, p := range l.Points {
			b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
			b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
		}
	}
	return b
}

// inside returns the distance of p to the nearest line, negative outside the area.
func inside(p Point, lines []Line) float64 {
	in, d := false, math.Inf(1)
	for _, l := range lines {
		n := len(l.Points)
		for i, a := range l.Points {
			b := l.Points[(i+1)%n]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < (b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y)+a.X {
				in = !in
			}
			d = min(d, distance(p, a, b))
		}
	}
	if !in {
		return -d
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
