package binding

import (
	"math"

	"tallycloth/stash/measure"
)

// JoinTake returns how much strip length one join uses:
//
//   - straight, 2s;
//   - on the slant, strips of straight grain with square ends laid at right angles and
//     sewn corner to corner, the cut width w;
//   - on the slant, bias strips with 45° ends, 2√2·s.
//
// Derived here from the seam's own geometry: corner to corner each strip loses half of
// a w × w square; at 45° a seam allowance s measures √2·s along the strip, twice.
func (j Job) JoinTake(cutWidth measure.Length) measure.Length {
	s := j.joinSeam()
	switch {
	case j.JoinAt45 && j.Grain == Bias:
		return rounded(2 * math.Sqrt2 * float64(s))
	case j.JoinAt45:
		return cutWidth
	}
	return 2 * s
}

func (j Job) joinSeam() measure.Length {
	if j.JoinSeam == 0 {
		return j.Finish.Seam
	}
	return j.JoinSeam
}

// Joins returns how many joins a strip of n lengths has: n as a ring, n − 1 open.
func (j Job) Joins(n int) int {
	if j.Closed {
		return n
	}
	return max(0, n-1)
}
