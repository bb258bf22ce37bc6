package pattern

import (
	"math"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Whole returns the outline of the piece as it is cut from one layer: the half of
// a piece on the fold opened out about y = 0. A ring that does not touch the fold
// is returned as it is.
func (q Piece) Whole(size string) shape.Ring {
	half := q.Outlines[size].Cut
	if !q.OnFold {
		return half
	}
	return Unfold(half)
}

// Unfold opens a half out about y = 0. The half is counter-clockwise in y ≥ 0 with
// one stretch on the fold; points on the fold between its ends are dropped.
func Unfold(half shape.Ring) shape.Ring {
	n := len(half)
	start := -1
	for i, p := range half {
		if p.Y == 0 && half[(i+1)%n].Y > 0 {
			start = i
		}
	}
	if start < 0 {
		return half
	}
	var open shape.Ring // from the fold round to the fold, y > 0 between
	for k := range n {
		p := half[(start+k)%n]
		open = append(open, p)
		if k > 0 && p.Y == 0 {
			break
		}
	}
	out := append(shape.Ring{}, open...)
	for k := len(open) - 2; k > 0; k-- {
		out = append(out, shape.Point{X: open[k].X, Y: -open[k].Y})
	}
	return out
}

// Length is the length of the path, in µm.
func (e EdgePath) Length() measure.Length {
	var sum float64
	for i := 1; i < len(e.Points); i++ {
		d := e.Points[i].Sub(e.Points[i-1])
		sum += math.Hypot(float64(d.X), float64(d.Y))
	}
	return measure.Length(math.Round(sum))
}

// Turning is the signed turning of a polyline in radians, positive where the
// garment, on its left, lies outside the curve (neckline, armhole). Repeated
// points count for nothing.
func Turning(points []shape.Point) float64 {
	var sum float64
	var last shape.Point
	for i := 1; i < len(points); i++ {
		d := points[i].Sub(points[i-1])
		if d == (shape.Point{}) {
			continue
		}
		if last != (shape.Point{}) {
			cross := float64(last.X)*float64(d.Y) - float64(last.Y)*float64(d.X)
			dot := float64(last.X)*float64(d.X) + float64(last.Y)*float64(d.Y)
			sum -= math.Atan2(cross, dot)
		}
		last = d
	}
	return sum
}
