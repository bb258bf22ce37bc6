package geometry

import "tallycloth/stash/shape"

// vcross is the cross product of two directions, vdot their scalar product.
// Exact while coordinates stay under shape.MaxCoordinate.
func vcross(u, v shape.Point) int64 { return u.X*v.Y - u.Y*v.X }
func vdot(u, v shape.Point) int64   { return u.X*v.X + u.Y*v.Y }

func sub(a, b shape.Point) shape.Point { return a.Sub(b) }
func add(a, b shape.Point) shape.Point { return a.Add(b) }

func sign(v int64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}
