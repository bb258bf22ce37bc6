package sizing

import (
	"slices"

	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// ToPlace carries a place at the outline of one size over to another size.
type ToPlace func(shape.Point) shape.Point

// Alike makes of a change whose places are said on the outline of one size a change of the
// outline of any size: its places are carried over, the same share of the way between corners that
// correspond, and as far off the cutting line as they are. An outline whose corners do not
// correspond is refused.
func Alike(on shape.Ring, change func(ToPlace) pattern.Change) pattern.Change {
	return func(o pattern.Outline) (pattern.Outline, error) {
		to, ok := carrier(on, o.Cut)
		if !ok {
			return o, invalid("its outline has other corners, so the place is not known there", "Change it in that size alone.")
		}
		return change(to)(o)
	}
}

// carrier finds the places of one outline on another.
func carrier(from, on shape.Ring) (ToPlace, bool) {
	if slices.Equal(from, on) {
		return func(p shape.Point) shape.Point { return p }, true
	}
	rows, ok := corresponding([]shape.Ring{from, on})
	if !ok {
		return nil, false
	}
	a, b := make(shape.Ring, len(rows)), make(shape.Ring, len(rows))
	for i, r := range rows {
		a[i], b[i] = r[0], r[1]
	}
	return func(p shape.Point) shape.Point {
		i, k, _ := pattern.NearestSide(a, p)
		next := (i + 1) % len(b)
		there := shape.Point{X: mixed(b[i].X, b[next].X, k), Y: mixed(b[i].Y, b[next].Y, k)}
		return there.Add(p.Sub(pattern.Onto(a, p)))
	}, true
}

// MoveAlike moves corners of the outline of one size, by their indices, each by so much, and in
// any other size the places that correspond, as pattern.MoveCorners does.
func MoveAlike(on shape.Ring, corners []int, by []shape.Point) pattern.Change {
	return func(o pattern.Outline) (pattern.Outline, error) {
		if slices.Equal(on, o.Cut) {
			return pattern.MoveCorners(len(on), corners, by)(o)
		}
		return Alike(on, func(to ToPlace) pattern.Change {
			return func(o pattern.Outline) (pattern.Outline, error) {
				for _, i := range corners {
					o.Cut = withPoint(o.Cut, to(on[i]))
				}
				there := make([]int, len(corners))
				for k, i := range corners {
					there[k] = nearestPoint(o.Cut, to(on[i]))
				}
				return pattern.MoveCorners(len(o.Cut), there, by)(o)
			}
		})(o)
	}
}

// sameSpot is how near a point of an outline is taken for a place on it: 1 mm.
const sameSpot = 1_000.0

// withPoint is the ring with a point at a place on it, where it has none there yet.
func withPoint(r shape.Ring, p shape.Point) shape.Ring {
	if adjust.Gap(r[nearestPoint(r, p)], p) <= sameSpot {
		return r
	}
	i, _, _ := pattern.NearestSide(r, p)
	return slices.Insert(slices.Clone(r), i+1, p)
}

func nearestPoint(r shape.Ring, p shape.Point) int {
	at := 0
	for i, q := range r {
		if adjust.Gap(q, p) < adjust.Gap(r[at], p) {
			at = i
		}
	}
	return at
}

// GrainAlike makes a line drawn over the outline of one size the grain line of any size: in the
// same direction, at the same place of the piece's bounds.
func GrainAlike(on shape.Ring, foot, top shape.Point) pattern.Change {
	return func(o pattern.Outline) (pattern.Outline, error) {
		a, b := on.Bounds(), o.Cut.Bounds()
		at := b.Min.Add(shape.Point{X: scaled(foot.X-a.Min.X, b.Length(), a.Length()), Y: scaled(foot.Y-a.Min.Y, b.Width(), a.Width())})
		return pattern.SetGrain(at, at.Add(top.Sub(foot)))(o)
	}
}

func scaled(v, to, from int64) int64 {
	if from == 0 {
		return v
	}
	return mixed(0, to, float64(v)/float64(from))
}
