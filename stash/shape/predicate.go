package shape

// MaxCoordinate is the greatest absolute coordinate, in µm, for which all
// predicates are exact: see the package comment.
const MaxCoordinate = 1<<29 - 1

// Orientation says on which side of the directed line a → b the point c lies:
// +1 left (a, b, c turn counter-clockwise), −1 right, 0 on the line.
//
//  1. Exact for coordinates within MaxCoordinate.
//  2. Orientation(a, b, c) = Orientation(b, c, a) = −Orientation(b, a, c).
//  3. 0 if two of the points are equal.
func Orientation(a, b, c Point) int { return sign(cross(a, b, c)) }

// cross is twice the signed area of the triangle a, b, c.
func cross(a, b, c Point) int64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}

func sign(v int64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// OnSegment says whether p lies on the closed segment a b.
//
//  1. The ends belong to the segment.
//  2. A segment of no length is its one point.
//  3. Exact: a point 1 µm beside the segment is not on it.
func OnSegment(p, a, b Point) bool {
	return min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) &&
		min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y) &&
		cross(a, b, p) == 0
}

// Meeting says how two closed segments lie to each other.
type Meeting int

// The ways two segments can meet.
const (
	Disjoint Meeting = iota // no point in common
	Touching                // one point in common, which is an end of at least one of them
	Crossing                // one point in common, inside both
	Along                   // collinear with more than one point in common
)

// Meet says how the segments a b and c d lie to each other.
//
//  1. Crossing only if each passes from one side of the other to the other.
//  2. An end on the other segment is Touching, also where two ends coincide.
//  3. Collinear segments that share a stretch are Along; sharing one end point only, Touching.
//  4. A segment of no length is a point: Touching if it lies on the other, else Disjoint.
//  5. The order of segments and of their ends does not matter.
func Meet(a, b, c, d Point) Meeting {
	abc, abd := Orientation(a, b, c), Orientation(a, b, d)
	cda, cdb := Orientation(c, d, a), Orientation(c, d, b)
	if abc*abd < 0 && cda*cdb < 0 {
		return Crossing
	}
	if abc == 0 && abd == 0 && cda == 0 && cdb == 0 {
		return meetOnLine(a, b, c, d)
	}
	if OnSegment(c, a, b) || OnSegment(d, a, b) || OnSegment(a, c, d) || OnSegment(b, c, d) {
		return Touching
	}
	return Disjoint
}

// meetOnLine is Meet for four points on one line: the common part of both is
// the box between the greater low ends and the lesser high ends.
func meetOnLine(a, b, c, d Point) Meeting {
	low := Point{max(min(a.X, b.X), min(c.X, d.X)), max(min(a.Y, b.Y), min(c.Y, d.Y))}
	high := Point{min(max(a.X, b.X), max(c.X, d.X)), min(max(a.Y, b.Y), max(c.Y, d.Y))}
	switch {
	case low.X > high.X || low.Y > high.Y:
		return Disjoint
	case low == high:
		return Touching
	}
	return Along
}
