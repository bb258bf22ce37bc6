package nesttest

import (
	"math/rand/v2"

	"tallycloth/planner/nest"
	"tallycloth/stash/shape"
)

// Cut returns a question whose answer is known: a rectangle cut without waste
// into pieces pattern pieces, each then mirrored and turned so that it must be
// laid back. Cuts are zigzag lines between whole µm, so pieces share their edges
// exactly and touch all along them.
func Cut(seed uint64, pieces int) (nest.Instance, nest.Solution) {
	rng := rand.New(rand.NewPCG(seed, 0xc07))
	length, width := int64(300+rng.IntN(900))*mm, int64(300+rng.IntN(900))*mm
	in := nest.Instance{Ask: nest.FitsAll, Fabrics: []nest.Fabric{{Width: width, Length: length}}}
	sol := nest.Solution{Used: []int64{length}}
	for i, laid := range slices(rng, length, width, pieces) {
		place := shape.Placement{
			Angle: shape.Turn90 * shape.Angle(rng.IntN(4)),
			At:    shape.Point{X: int64(rng.IntN(2000)) * mm, Y: int64(rng.IntN(2000)) * mm},
		}
		mirror := nest.AsDrawn
		if rng.IntN(2) == 0 {
			mirror, place.Mirror = nest.Mirrored, true
		}
		in.Items = append(in.Items, nest.Item{
			Outline: takenUp(laid, place), Angles: []shape.Angle{place.Angle}, Group: nest.NoGroup, Mirror: mirror, Value: int64(i + 1),
		})
		sol.Laid = append(sol.Laid, nest.Laid{Item: i, Place: place})
		sol.Value += int64(i + 1)
	}
	return in, sol
}

// slices cuts a rectangle across by zigzag lines, one after the other along x.
func slices(rng *rand.Rand, length, width int64, n int) []shape.Ring {
	step := length / int64(n)
	line := []shape.Point{{}, {Y: width}} // the cut before, from low y to high y
	var out []shape.Ring
	for k := range n {
		next := []shape.Point{{X: length}, {X: length, Y: width}}
		if k < n-1 {
			next = zigzag(rng, step*int64(k+1), step/3, width)
		}
		r := shape.Ring(append([]shape.Point{}, next...))
		for i := len(line) - 1; i >= 0; i-- {
			r = append(r, line[i])
		}
		out = append(out, r)
		line = next
	}
	return out
}

// zigzag is a line across about x, off by at most reach.
func zigzag(rng *rand.Rand, x, reach, width int64) []shape.Point {
	corners := 2 + rng.IntN(5)
	var out []shape.Point
	for i := range corners {
		off := int64(rng.IntN(int(2*reach))) - reach
		out = append(out, shape.Point{X: x + off, Y: width * int64(i) / int64(corners-1)})
	}
	return out
}

// takenUp is the outline that place lays as laid; place turns by quarters.
func takenUp(laid shape.Ring, place shape.Placement) shape.Ring {
	back := shape.Placement{Angle: -place.Angle}.Apply(laid.Move(shape.Point{X: -place.At.X, Y: -place.At.Y}))
	if place.Mirror {
		back = shape.Placement{Mirror: true}.Apply(back)
	}
	return back
}
