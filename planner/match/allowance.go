package match

import (
	"math"

	"tallycloth/planner/geometry"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// CutLine is the line that a piece is cut along in a size: its outline, with the seam allowance of its pattern
// where it lacks one and that is known. Of a piece on the fold it is the half. The error says what is wrong
// with the outline.
func CutLine(pat pattern.Pattern, p pattern.Piece, size string) (shape.Ring, error) {
	ring := p.Outlines[size].Cut
	if err := ring.Validate(); err != nil || !p.WithoutAllowance || pat.SeamAllowance <= 0 {
		return ring, err
	}
	return withAllowance(ring, int64(pat.SeamAllowance), p.OnFold)
}

// withAllowance returns an outline that lacks its seam allowance with it added all
// round, corners rounded. Of a half on the fold, y = 0 stays the fold. The error says
// that nothing simple came out.
func withAllowance(r shape.Ring, allowance int64, onFold bool) (shape.Ring, error) {
	if onFold {
		r = pattern.Unfold(r)
	}
	out := geometry.Grow(r, allowance)
	if onFold {
		out = upperHalf(out)
	}
	return out, out.Validate()
}

// upperHalf keeps what lies in y ≥ 0, its cut along y = 0.
func upperHalf(r shape.Ring) shape.Ring {
	var out shape.Ring
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if p.Y >= 0 {
			out = append(out, p)
		}
		if p.Y < 0 && q.Y > 0 || p.Y > 0 && q.Y < 0 {
			k := float64(p.Y) / float64(p.Y-q.Y)
			out = append(out, shape.Point{X: p.X + int64(math.Round(k*float64(q.X-p.X)))})
		}
	}
	return out.Clean()
}
