package nest

import (
	"math"

	"tallycloth/stash/shape"
)

// shrunk returns a ring of at most so many corners within the given one, where that
// can be had by cutting corners off: always the one with the least triangle. A
// triangle that holds another corner is not cut off, so that the ring stays simple.
func shrunk(r shape.Ring, most int) shape.Ring {
	out := append(shape.Ring(nil), r...)
	cost := make([]int64, len(out))
	for i := range out {
		cost[i] = cutCost(out, i)
	}
	for len(out) > most {
		k := 0
		for i, c := range cost {
			if c < cost[k] {
				k = i
			}
		}
		if cost[k] == math.MaxInt64 {
			break
		}
		out = append(out[:k], out[k+1:]...)
		cost = append(cost[:k], cost[k+1:]...)
		n := len(out)
		for _, i := range [2]int{(k + n - 1) % n, k % n} {
			cost[i] = cutCost(out, i)
		}
	}
	return out
}

// cutCost is twice the area lost by leaving corner i out, or MaxInt64 where that cannot
// be: the corner is hollow, or the triangle holds another.
func cutCost(r shape.Ring, i int) int64 {
	n := len(r)
	a, b, c := r[(i+n-1)%n], r[i], r[(i+1)%n]
	if shape.Orientation(a, b, c) < 0 {
		return math.MaxInt64
	}
	triangle := shape.Ring{a, b, c}
	box := triangle.Bounds()
	for _, p := range r {
		if p == a || p == b || p == c || p.X < box.Min.X || p.X > box.Max.X || p.Y < box.Min.Y || p.Y > box.Max.Y {
			continue
		}
		if shape.Orientation(a, b, p) >= 0 && shape.Orientation(b, c, p) >= 0 && shape.Orientation(c, a, p) >= 0 {
			return math.MaxInt64
		}
	}
	return triangle.Area2()
}
