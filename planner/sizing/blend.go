package sizing

import (
	"cmp"
	"math"
	"slices"

	"tallycloth/planner/adjust"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Stop says what share of the larger size a garment has at a depth, measured down the piece
// of the first size: 0 is the first size, 1 the second.
type Stop struct {
	Depth measure.Length
	Share float64
}

// Blend makes an outline between two graded sizes of one pattern piece, both with their
// cutting lines counter-clockwise: at each stop its share of the second size, above the first
// and below the last stop theirs, between them running over smoothly (a cubic that is level
// at both ends). With shares of 0 everywhere it is the first outline, of 1 the second. It
// refuses outlines that do not correspond: other corners, or corners elsewhere.
func Blend(a, b shape.Ring, stops []Stop) (shape.Ring, error) {
	if len(stops) == 0 || slices.ContainsFunc(stops, func(s Stop) bool { return !(s.Share >= 0 && s.Share <= 1) }) {
		return nil, invalid("the sizes to blend are not said by level", "Say which size it is at one level at least.")
	}
	stops = slices.Clone(stops)
	slices.SortFunc(stops, func(x, y Stop) int { return cmp.Compare(x.Depth, y.Depth) })
	pairs, ok := corresponding(a, b)
	if !ok {
		return nil, invalid("the outlines of the two sizes do not correspond: they have other corners", "Take one size for the whole piece, or draw the blended seam by hand.")
	}
	out := make(shape.Ring, 0, len(pairs))
	for _, p := range pairs {
		k := shareAt(stops, p[0].X)
		out = append(out, shape.Point{X: mixed(p[0].X, p[1].X, k), Y: mixed(p[0].Y, p[1].Y, k)})
	}
	if out = out.Clean(); out.Validate() != nil {
		return nil, invalid("the blended outline would cross itself", "Blend sizes nearer to each other, or over a longer way.")
	}
	return out, nil
}

func mixed(a, b int64, k float64) int64 { return a + int64(math.Round(k*float64(b-a))) }

// shareAt is the share of the second size at a depth.
func shareAt(stops []Stop, x int64) float64 {
	for i, s := range stops {
		if x > int64(s.Depth) {
			continue
		}
		if i == 0 {
			return s.Share
		}
		before := stops[i-1]
		t := float64(x-int64(before.Depth)) / float64(s.Depth-before.Depth)
		return before.Share + (s.Share-before.Share)*t*t*(3-2*t)
	}
	return stops[len(stops)-1].Share
}

// cornerApart is how far corners that correspond lie apart at most, as a share of the piece, the pieces
// laid over each other by their bounds (ours).
const cornerApart = 1.0 / 12

// finest is how close points of a blended outline lie: 5 mm.
const finest = int64(5 * measure.Millimetre)

// corresponding pairs the points of two outlines, corner by corner, between corners by the
// share of the way. It is false where they do not correspond.
func corresponding(a, b shape.Ring) ([][2]shape.Point, bool) {
	ca, cb := adjust.Corners(a), adjust.Corners(b)
	if len(ca) < 2 || len(ca) != len(cb) {
		return nil, false
	}
	turn, ok := aligned(a, b, ca, cb)
	if !ok {
		return nil, false
	}
	var out [][2]shape.Point
	n := len(ca)
	for i := range n {
		x := stretch(a, ca[i], ca[(i+1)%n])
		y := stretch(b, cb[(i+turn)%n], cb[(i+1+turn)%n])
		out = append(out, paired(x, y)...)
	}
	return out, true
}

// aligned finds how far the corners of b are counted on so that they lie at those of a.
func aligned(a, b shape.Ring, ca, cb []int) (int, bool) {
	best, at := math.Inf(1), 0
	for turn := range cb {
		worst := 0.0
		for i := range ca {
			worst = math.Max(worst, apart(a, b, a[ca[i]], b[cb[(i+turn)%len(cb)]]))
		}
		if worst < best {
			best, at = worst, turn
		}
	}
	return at, best <= cornerApart
}

// apart is how far two points lie from each other as shares of their pieces.
func apart(a, b shape.Ring, p, q shape.Point) float64 {
	x, y := a.Bounds(), b.Bounds()
	along := float64(p.X-x.Min.X)/float64(x.Length()) - float64(q.X-y.Min.X)/float64(y.Length())
	across := float64(p.Y-x.Min.Y)/float64(x.Width()) - float64(q.Y-y.Min.Y)/float64(y.Width())
	return math.Hypot(along, across)
}

// stretch is the run of points from one place of a ring to another.
func stretch(r shape.Ring, from, to int) []shape.Point {
	out := []shape.Point{r[from]}
	for i := from; i != to; {
		i = (i + 1) % len(r)
		out = append(out, r[i])
	}
	return out
}

// paired runs along two lines together, with a pair at every point of either and none
// further apart than finest, without the last.
func paired(x, y []shape.Point) [][2]shape.Point {
	sx, sy := shares(x), shares(y)
	all := append(slices.Clone(sx), sy...)
	n := int(math.Max(length(x), length(y))/float64(finest)) + 1
	for k := range n {
		all = append(all, float64(k)/float64(n))
	}
	slices.Sort(all)
	all = slices.Compact(all)
	var out [][2]shape.Point
	for _, s := range all {
		if s < 1 {
			out = append(out, [2]shape.Point{pointAt(x, sx, s), pointAt(y, sy, s)})
		}
	}
	return out
}

func length(line []shape.Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += adjust.Gap(line[i-1], line[i])
	}
	return sum
}

// shares are how far along a line its points lie, from 0 to 1.
func shares(line []shape.Point) []float64 {
	out := make([]float64, len(line))
	whole, at := length(line), 0.0
	for i := 1; i < len(line); i++ {
		at += adjust.Gap(line[i-1], line[i])
		out[i] = at / whole
	}
	out[len(out)-1] = 1
	return out
}

func pointAt(line []shape.Point, shares []float64, s float64) shape.Point {
	i, exact := slices.BinarySearch(shares, s)
	if exact || i == 0 {
		return line[i]
	}
	k := (s - shares[i-1]) / (shares[i] - shares[i-1])
	return shape.Point{X: mixed(line[i-1].X, line[i].X, k), Y: mixed(line[i-1].Y, line[i].Y, k)}
}
