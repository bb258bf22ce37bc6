package drawn

import (
	"math"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// usual are the test squares that patterns are printed with (common practice).
var usual = []measure.Length{
	10 * measure.Centimetre, 5 * measure.Centimetre, 4 * measure.Inch, 2 * measure.Inch, measure.Inch,
	3 * measure.Centimetre, 2 * measure.Centimetre, 20 * measure.Centimetre, measure.Centimetre,
}

const (
	squareSlack = 0.005 // how far sides may differ and corners lean
	nearUsual   = 0.10  // how far off a test square may be and still be offered
	mostSquares = 20
)

// squares lists the outlines with four equal sides and right corners.
func squares(shapes []Found) []Square {
	var out []Square
	for i, f := range shapes {
		side, ok := squareSide(f.Ring)
		if !f.Usable() || !ok || len(out) == mostSquares {
			continue
		}
		s := Square{Shape: i, Side: measure.Length(math.Round(side))}
		best := nearUsual
		for _, u := range usual {
			if off := math.Abs(side/float64(u) - 1); off < best {
				best, s.Likely = off, u
			}
		}
		out = append(out, s)
	}
	return out
}

func squareSide(r shape.Ring) (mean float64, ok bool) {
	if len(r) != 4 {
		return 0, false
	}
	var sides [4]float64
	for i := range r {
		sides[i] = apart(r[i], r[(i+1)%4])
		mean += sides[i] / 4
	}
	slack := squareSlack*mean + 2 // µm, for rounding
	for _, s := range sides {
		if math.Abs(s-mean) > slack {
			return 0, false
		}
	}
	across, along := apart(r[0], r[2]), apart(r[1], r[3])
	return mean, math.Abs(across-along) <= 2*slack
}

// UnitFor is what one unit of the drawing would measure, in mm, if the side of a
// square were really that long: read the file again with it as Options.Unit. It is 0
// for a side or a length of 0.
func (d Drawing) UnitFor(s Square, side measure.Length) float64 {
	if s.Side <= 0 || side <= 0 {
		return 0
	}
	return d.Scale.Unit * float64(side) / float64(s.Side)
}
