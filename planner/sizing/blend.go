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
	return blendAll(a, []shape.Ring{b}, [][]Stop{stops})
}

// blendAll runs an outline over to one size after the other, each by its own stops; depths are
// those of the first outline.
func blendAll(a shape.Ring, sizes []shape.Ring, stops [][]Stop) (shape.Ring, error) {
	rows, ok := corresponding(append([]shape.Ring{a}, sizes...))
	if !ok {
		return nil, invalid("the outlines of the sizes do not correspond: they have other corners", "Take one size for the whole pattern piece, or draw the blended seam by hand.")
	}
	out := make(shape.Ring, 0, len(rows))
	for _, row := range rows {
		out = append(out, runOver(row, stops))
	}
	if out = out.Clean(); out.Validate() != nil {
		return nil, invalid("the blended outline would cross itself", "Blend sizes nearer to each other, or over a longer way.")
	}
	return out, nil
}

// runOver mixes one point of several sizes, the first as it is above all stops.
func runOver(row []shape.Point, stops [][]Stop) shape.Point {
	p := row[0]
	for i, q := range row[1:] {
		k := shareAt(stops[i], row[0].X)
		p = shape.Point{X: mixed(p.X, q.X, k), Y: mixed(p.Y, q.Y, k)}
	}
	return p
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

// corresponding puts points of several outlines beside each other, corner by corner, between
// corners by the share of the way. It is false where they do not correspond to the first.
func corresponding(rings []shape.Ring) ([][]shape.Point, bool) {
	corners, turns := make([][]int, len(rings)), make([]int, len(rings))
	for i, r := range rings {
		if corners[i] = adjust.Corners(r); len(corners[i]) < 2 || len(corners[i]) != len(corners[0]) {
			return nil, false
		}
		turn, ok := aligned(rings[0], r, corners[0], corners[i])
		if !ok {
			return nil, false
		}
		turns[i] = turn
	}
	var out [][]shape.Point
	n := len(corners[0])
	for i := range n {
		lines := make([][]shape.Point, len(rings))
		for k, r := range rings {
			lines[k] = stretch(r, corners[k][(i+turns[k])%n], corners[k][(i+1+turns[k])%n])
		}
		out = append(out, abreast(lines)...)
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

// abreast runs along several lines together, with a row at every point of each and none further
// apart than finest, without the last.
func abreast(lines [][]shape.Point) [][]shape.Point {
	at := make([][]float64, len(lines))
	var all []float64
	longest := 0.0
	for i, l := range lines {
		at[i] = shares(l)
		all = append(all, at[i]...)
		longest = math.Max(longest, length(l))
	}
	n := int(longest/float64(finest)) + 1
	for k := range n {
		all = append(all, float64(k)/float64(n))
	}
	slices.Sort(all)
	all = slices.Compact(all)
	var out [][]shape.Point
	for _, s := range all {
		if s >= 1 {
			break
		}
		row := make([]shape.Point, len(lines))
		for i, l := range lines {
			row[i] = pointAt(l, at[i], s)
		}
		out = append(out, row)
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
