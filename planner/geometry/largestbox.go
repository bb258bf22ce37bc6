package geometry

import (
	"math"
	"slices"

	"tallycloth/stash/shape"
)

const (
	// boxLines is how many lines a polygon is ruled into, each way, besides those
	// through its corners, to look for its largest rectangle.
	boxLines = 40
	// boxCorners is how many corners give lines of their own at most.
	boxCorners = 60
)

// LargestBox returns the largest upright rectangle inside a valid polygon, exactly
// inside it: the largest between ruled lines, those through the corners among them,
// its sides then pushed out as far as they go. Where slanted edges bound it, a little
// larger one may exist. It is false for a polygon too narrow for any ruled cell.
//
// Method: row by row the largest rectangle under a histogram of free columns, with a
// stack of rising columns (folklore; from memory); the ruling is ours.
func LargestBox(p shape.Polygon) (shape.Box, bool) {
	b, found := ruledBox(p)
	inside := func(b shape.Box) bool { return shape.Inside(b.Ring(), p) }
	if !found || !inside(b) {
		return shape.Box{}, false
	}
	return pushedOut(b, p.Bounds(), inside), true
}

// ruledBox is the largest rectangle of cells, between the ruled lines, that no edge of
// the polygon enters and that lie in it.
func ruledBox(p shape.Polygon) (shape.Box, bool) {
	xs, ys := lines(p, func(q shape.Point) int64 { return q.X }), lines(p, func(q shape.Point) int64 { return q.Y })
	free := make([][]bool, len(ys)-1)
	for j := range free {
		free[j] = make([]bool, len(xs)-1)
		middle := (ys[j] + ys[j+1]) / 2
		for i := range free[j] {
			free[j][i] = p.Contains(shape.Point{X: (xs[i] + xs[i+1]) / 2, Y: middle})
		}
	}
	for _, r := range p.Rings() {
		for _, e := range edgesOf(r) {
			enter(e, xs, ys, free)
		}
	}
	return underHistogram(xs, ys, free)
}

// enter marks the cells that an edge enters as taken.
func enter(e edge, xs, ys []int64, free [][]bool) {
	x0, x1 := float64(min(e.from.X, e.to.X)), float64(max(e.from.X, e.to.X))
	dx, dy := float64(e.to.X-e.from.X), float64(e.to.Y-e.from.Y)
	for j := range free {
		low, high := float64(ys[j]), float64(ys[j+1])
		from, to := x0, x1 // where the edge passes between the two lines
		if dy != 0 {
			a, b := float64(e.from.X)+dx*(low-float64(e.from.Y))/dy, float64(e.from.X)+dx*(high-float64(e.from.Y))/dy
			from, to = max(from, min(a, b)), min(to, max(a, b))
		}
		if float64(max(e.from.Y, e.to.Y)) <= low || float64(min(e.from.Y, e.to.Y)) >= high || from > to {
			continue
		}
		for i := range free[j] {
			if to > float64(xs[i])+edgeEps && from < float64(xs[i+1])-edgeEps {
				free[j][i] = false
			}
		}
	}
}

// edgeEps, in µm, is less than any coordinate differs by: an edge along a ruled line
// enters no cell.
const edgeEps = 0.25

func upright(x0, y0, x1, y1 int64) shape.Box {
	return shape.Box{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}}
}

// lines are the places of the ruled lines in one direction, in order.
func lines(p shape.Polygon, of func(shape.Point) int64) []int64 {
	var own []int64
	low, high := int64(math.MaxInt64), int64(math.MinInt64)
	for _, r := range p.Rings() {
		for _, q := range r {
			own = append(own, of(q))
			low, high = min(low, of(q)), max(high, of(q))
		}
	}
	slices.Sort(own)
	own = slices.Compact(own)
	var out []int64
	for k := 0; k < len(own); k += 1 + len(own)/boxCorners {
		out = append(out, own[k])
	}
	for k := range int64(boxLines + 1) {
		out = append(out, low+(high-low)*k/boxLines)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// underHistogram is the largest rectangle of free cells.
func underHistogram(xs, ys []int64, free [][]bool) (best shape.Box, found bool) {
	base := make([]int, len(xs)-1) // the row from which a column is free
	for j := range free {
		for i := range base {
			if !free[j][i] {
				base[i] = j + 1
			}
		}
		var stack []int // columns, each higher than the one before
		for i := 0; i <= len(base); i++ {
			for len(stack) > 0 && (i == len(base) || base[stack[len(stack)-1]] < base[i]) {
				top := stack[len(stack)-1]
				stack = stack[:len(stack)-1]
				left := 0
				if len(stack) > 0 {
					left = stack[len(stack)-1] + 1
				}
				if base[top] > j {
					continue
				}
				b := upright(xs[left], ys[base[top]], xs[i], ys[j+1])
				if b.Length()*b.Width() > best.Length()*best.Width() {
					best, found = b, true
				}
			}
			stack = append(stack, i)
		}
	}
	return best, found
}

// pushedOut moves each side in turn outwards as far as it goes.
func pushedOut(b, within shape.Box, ok func(shape.Box) bool) shape.Box {
	side := func(at *int64, limit int64) {
		from := *at
		near, far := int64(0), limit-from
		try := func(d int64) bool { *at = from + d; return ok(b) }
		if try(far) {
			return
		}
		for far-near > 1 || near-far > 1 {
			if mid := near + (far-near)/2; try(mid) {
				near = mid
			} else {
				far = mid
			}
		}
		*at = from + near
	}
	side(&b.Max.X, within.Max.X)
	side(&b.Min.X, within.Min.X)
	side(&b.Max.Y, within.Max.Y)
	side(&b.Min.Y, within.Min.Y)
	return b
}
