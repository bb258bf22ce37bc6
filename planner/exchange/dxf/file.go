package dxf

import "math"

// File is a DXF file, shaped like it; lengths are in its own units.
type File struct {
	Header   Header
	Hidden   map[string]bool // layers that are off or frozen
	Blocks   []Block
	Entities []Entity
	// Unread counts the kinds of entities that are passed over.
	Unread map[string]int
	// BreaksOff says that the file has no proper end.
	BreaksOff bool
	byName    map[string]int
}

// Header is what of the header matters here.
type Header struct {
	// Units is the number of $INSUNITS, 0 when it is not said.
	Units int
	// Encoding is that of the file's text.
	Encoding string
}

// Block is a named group of entities.
type Block struct {
	Name     string
	Base     Vec
	Entities []Entity
}

// Entity is one object. Which fields matter depends on its kind, as in the file.
type Entity struct {
	Kind  string // LINE, POINT, LWPOLYLINE, POLYLINE, ARC, CIRCLE, ELLIPSE, SPLINE, TEXT, MTEXT, ATTRIB, INSERT
	Layer string
	// Vertices are a line's two ends, a polyline's or a spline's points, or one place.
	Vertices []Vertex
	Closed   bool
	Unseen   bool
	OnPaper  bool    // on a sheet for plotting, not in the drawing itself
	Normal   *Normal // nil when it is seen from above
	Text     string
	Block    string // that an INSERT places
	Curve    *Curve
	Placed   *Placed
}

// Vertex is a point and how the line bends on its way to the next: the tangent of a
// quarter of the angle of an arc, 0 for a straight line.
type Vertex struct{ X, Y, Bulge float64 }

// Normal is the direction that an object is seen from.
type Normal struct{ X, Y, Z float64 }

// Curve is an arc, circle, ellipse or spline.
type Curve struct {
	Radius     float64 // or the ratio of an ellipse's axes
	From, To   float64 // degrees of an arc, radians of an ellipse
	Major      Vec     // half of the longer axis
	Degree     int
	Knots      []float64
	Weights    []float64
	Through    []Vec // points that a spline goes through
	haveAngles int
}

// Placed says how an INSERT places its block.
type Placed struct {
	Scale      Vec
	Turn       float64 // degrees
	Cols, Rows int
	Step       Vec
}

// Vec is a point or a direction.
type Vec struct{ X, Y float64 }

func (a Vec) add(b Vec) Vec           { return Vec{a.X + b.X, a.Y + b.Y} }
func (a Vec) sub(b Vec) Vec           { return Vec{a.X - b.X, a.Y - b.Y} }
func (a Vec) times(k float64) Vec     { return Vec{a.X * k, a.Y * k} }
func (a Vec) len() float64            { return math.Hypot(a.X, a.Y) }
func (a Vec) cross(b Vec) float64     { return a.X*b.Y - a.Y*b.X }
func (a Vec) dot(b Vec) float64       { return a.X*b.X + a.Y*b.Y }
func (v Vertex) at() Vec              { return Vec{v.X, v.Y} }
func (a Vec) turned(s, c float64) Vec { return Vec{c*a.X - s*a.Y, s*a.X + c*a.Y} }

// affine maps (x, y) to (a·x + c·y + e, b·x + d·y + f).
type affine struct{ a, b, c, d, e, f float64 }

func (m affine) apply(p Vec) Vec { return Vec{m.a*p.X + m.c*p.Y + m.e, m.b*p.X + m.d*p.Y + m.f} }

// then is the map that does n first and m after it.
func (m affine) then(n affine) affine {
	x, y, o := m.linear(Vec{n.a, n.b}), m.linear(Vec{n.c, n.d}), m.apply(Vec{n.e, n.f})
	return affine{x.X, x.Y, y.X, y.Y, o.X, o.Y}
}

func (m affine) linear(p Vec) Vec { return Vec{m.a*p.X + m.c*p.Y, m.b*p.X + m.d*p.Y} }

// stretch is the greatest factor by which m lengthens anything: its larger singular value.
func (m affine) stretch() float64 {
	p, q := m.a*m.a+m.b*m.b+m.c*m.c+m.d*m.d, m.a*m.d-m.b*m.c
	return math.Sqrt((p + math.Sqrt(math.Max(0, p*p-4*q*q))) / 2)
}

func scaled(x, y float64) affine { return affine{a: x, d: y} }

func moved(d Vec) affine { return affine{1, 0, 0, 1, d.X, d.Y} }

func rotated(radians float64) affine {
	sin, cos := math.Sincos(radians)
	return affine{a: cos, b: sin, c: -sin, d: cos}
}
