package shape

// Point is a place on the cloth or on a pattern piece, in µm.
type Point struct{ X, Y int64 }

// Ring is a closed outline: its points in order, counter-clockwise for an
// outer boundary, clockwise for a hole, the closing edge implied.
type Ring []Point

// Polygon is an outer boundary with holes.
type Polygon struct {
	Outer Ring
	Holes []Ring
}

// Box is an upright rectangle, Min included, Max included.
type Box struct{ Min, Max Point }

// Angle is a turn counter-clockwise in thousandths of a degree, normalised to
// 0 ≤ a < 360 000.
type Angle int32

// The quarter turns, which are exact.
const (
	Turn0   Angle = 0
	Turn90  Angle = 90_000
	Turn180 Angle = 180_000
	Turn270 Angle = 270_000
)

// Placement lays an outline: first mirrored about the grain line
// ((x, y) → (x, −y)) if Mirror, then turned by Angle about its own origin, each
// point rounded once to whole µm, then moved by At.
type Placement struct {
	Angle  Angle
	Mirror bool
	At     Point
}
