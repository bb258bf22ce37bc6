package pattern

import (
	"fmt"
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// bend is from what turning on a point of an outline is a corner, in radians (15°).
const bend = 15 * math.Pi / 180

// Corners are the indices of the points of a ring by which a person shapes it: where it turns, and
// some between so that no stretch without one is longer than a part of the way round. At most most
// of them, all where the ring has no more.
func Corners(r shape.Ring, most int) []int {
	if len(r) <= most {
		out := make([]int, len(r))
		for i := range out {
			out[i] = i
		}
		return out
	}
	step := r.Perimeter() / float64(most) * 2
	var out []int
	gone := 0.0
	for i, p := range r {
		before, after := r[(i+len(r)-1)%len(r)], r[(i+1)%len(r)]
		u, v := p.Sub(before), after.Sub(p)
		gone += math.Hypot(float64(u.X), float64(u.Y))
		turn := math.Atan2(float64(u.X)*float64(v.Y)-float64(u.Y)*float64(v.X), float64(u.X)*float64(v.X)+float64(u.Y)*float64(v.Y))
		if math.Abs(turn) >= bend || gone >= step {
			out, gone = append(out, i), 0
		}
	}
	for len(out) > most {
		out = slices.DeleteFunc(out, func(i int) bool { return i%2 == 1 && len(out) > most })
		if len(out) > most {
			out = out[:most]
		}
	}
	return out
}

// MoveCorners moves points of the cutting line, by their indices, each by so much; the points between two
// of them go with both by how near they are, and notches and stitching lines go with the cutting line beside
// them. of is how many points the outline has that they were
// chosen in: an outline with another number is refused, since its points do not correspond.
func MoveCorners(of int, corners []int, by []shape.Point) Change {
	return func(o Outline) (Outline, error) {
		if len(o.Cut) != of || len(corners) != len(by) {
			return o, invalid(fmt.Sprintf("its outline has %d points, not %d, so they do not correspond", len(o.Cut), of), "Move its points in this size alone.")
		}
		was := slices.Clone(o.Cut)
		for k, i := range corners {
			next := (k + 1) % len(corners)
			stretch(o.Cut, was, i, corners[next], by[k], by[next])
		}
		for i, n := range o.Notches {
			o.Notches[i].At = n.At.Add(moved(was, o.Cut, n.At))
		}
		for i, e := range o.Edges {
			for j, q := range e.Points {
				o.Edges[i].Points[j] = q.Add(moved(was, o.Cut, q))
			}
			o.Edges[i].Turn = Turning(o.Edges[i].Points)
		}
		return o, nil
	}
}

// stretch moves the points from one corner up to the next, in parts of the way along.
func stretch(out, was shape.Ring, from, to int, a, b shape.Point) {
	n := len(was)
	steps := (to - from + n) % n
	if steps == 0 {
		steps = n
	}
	way := make([]float64, steps+1)
	for k := 1; k <= steps; k++ {
		d := was[(from+k)%n].Sub(was[(from+k-1)%n])
		way[k] = way[k-1] + math.Hypot(float64(d.X), float64(d.Y))
	}
	for k := range steps {
		t := 0.0
		if way[steps] > 0 {
			t = way[k] / way[steps]
		}
		i := (from + k) % n
		out[i] = was[i].Add(shape.Point{X: int64(math.Round(float64(a.X)*(1-t) + float64(b.X)*t)), Y: int64(math.Round(float64(a.Y)*(1-t) + float64(b.Y)*t))})
	}
}

// moved is by how much a ring moved where it lies nearest to a point.
func moved(was, now shape.Ring, p shape.Point) shape.Point {
	i, k, _ := NearestSide(was, p)
	next := (i + 1) % len(was)
	a, b := now[i].Sub(was[i]), now[next].Sub(was[next])
	part := func(a, b int64) int64 { return a + int64(math.Round(k*float64(b-a))) }
	return shape.Point{X: part(a.X, b.X), Y: part(a.Y, b.Y)}
}
