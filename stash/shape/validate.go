package shape

import (
	"errors"
	"fmt"
	"math"
)

// What can be wrong with an outline; a Fault wraps one of them.
var (
	ErrTooFew    = errors.New("has fewer than three points")
	ErrTooLarge  = errors.New("reaches too far: places must stay within 536 m")
	ErrRepeated  = errors.New("has the same point twice in a row")
	ErrNoArea    = errors.New("encloses no area")
	ErrDoubled   = errors.New("doubles back along itself")
	ErrCrossing  = errors.New("crosses itself")
	ErrTouching  = errors.New("touches itself")
	ErrClockwise = errors.New("runs the wrong way round")
	ErrHoleOut   = errors.New("reaches out of the outline it is cut from")
	ErrHolesMeet = errors.New("overlaps another hole")
	ErrHoleEdge  = errors.New("shares an edge with another boundary")
)

// Fault says what is wrong with an outline and where.
type Fault struct {
	Err  error // one of the errors above
	At   Point
	Hole int // the hole it is about, from 1; 0 is the outer boundary
}

// Error says it in words, with the place in mm.
func (f *Fault) Error() string {
	what := "the outline"
	if f.Hole > 0 {
		what = fmt.Sprintf("hole %d", f.Hole)
	}
	if errors.Is(f.Err, ErrTooFew) {
		return fmt.Sprintf("%s %v", what, f.Err)
	}
	return fmt.Sprintf("%s %v near x %.3f mm, y %.3f mm", what, f.Err, float64(f.At.X)/1000, float64(f.At.Y)/1000)
}

// Unwrap returns the error of this package that f is about.
func (f *Fault) Unwrap() error { return f.Err }

func fault(err error, at Point) error { return &Fault{Err: err, At: at} }

// Validate says whether r is an outer boundary that every other function here
// accepts: nil, or a *Fault that says what is wrong and where. It looks in this
// order and reports the first:
//
//  1. at least three points (ErrTooFew);
//  2. coordinates within ±MaxCoordinate (ErrTooLarge);
//  3. no two equal points in a row, the last and the first included (ErrRepeated);
//  4. not all points on one line (ErrNoArea);
//  5. simple: no edge goes back along another (ErrDoubled), crosses another
//     (ErrCrossing) or touches one that is not its neighbour (ErrTouching);
//  6. counter-clockwise (ErrClockwise).
//
// Points in the middle of a straight edge are accepted. Typical outlines take
// time n·log n for n points.
func (r Ring) Validate() error {
	if len(r) < 3 {
		return fault(ErrTooFew, Point{})
	}
	for _, p := range r {
		if max(p.X, p.Y) > MaxCoordinate || min(p.X, p.Y) < -MaxCoordinate {
			return fault(ErrTooLarge, p)
		}
	}
	if err := r.validateEdges(); err != nil {
		return err
	}
	if err := newChain(r).selfMeeting(); err != nil {
		return err
	}
	if r.Area2() < 0 {
		return fault(ErrClockwise, r[0])
	}
	return nil
}

// validateEdges looks at points and edges with their neighbours only.
func (r Ring) validateEdges() error {
	flat := true
	for i, p := range r {
		if r.at(i+1) == p {
			return fault(ErrRepeated, p)
		}
		flat = flat && cross(r[0], r[1], p) == 0
	}
	if flat {
		return fault(ErrNoArea, r[0])
	}
	for i, p := range r {
		if before := r[(i+len(r)-1)%len(r)]; Meet(before, p, p, r.at(i+1)) == Along {
			return fault(ErrDoubled, p)
		}
	}
	return nil
}

// chain is a binary tree of boxes over the edges of a ring in their order, so
// that far parts are told apart many edges at once. Neighbouring edges lie near
// each other, which keeps the boxes small without sorting. (Derived here; the
// idea of boxes over runs of a line is D. H. Ballard's strip tree, 1981.)
type chain struct {
	ring  Ring
	boxes []Box // boxes[i] spans 2i and 2i+1; leaf e is at leaves + e
	leafs int
}

func newChain(r Ring) chain {
	leafs := 1
	for leafs < len(r) {
		leafs *= 2
	}
	c := chain{r, make([]Box, 2*leafs), leafs}
	for e := range leafs {
		edge := min(e, len(r)-1) // the spare leaves repeat the last edge
		c.boxes[leafs+e] = Ring{r[edge], r.at(edge + 1)}.Bounds()
	}
	for i := leafs - 1; i > 0; i-- {
		c.boxes[i] = union(c.boxes[2*i], c.boxes[2*i+1])
	}
	return c
}

func union(a, b Box) Box {
	return Box{
		Point{min(a.Min.X, b.Min.X), min(a.Min.Y, b.Min.Y)},
		Point{max(a.Max.X, b.Max.X), max(a.Max.Y, b.Max.Y)},
	}
}

// selfMeeting returns the fault at the first pair of edges found that meet where
// they must not.
func (c chain) selfMeeting() error { return c.within(1) }

// within looks at all pairs of edges below node i.
func (c chain) within(i int) error {
	if i >= c.leafs {
		return nil
	}
	if err := c.within(2 * i); err != nil {
		return err
	}
	if err := c.within(2*i + 1); err != nil {
		return err
	}
	return c.between(2*i, 2*i+1)
}

// between looks at all pairs of one edge below node i and one below node j,
// which are on one level.
func (c chain) between(i, j int) error {
	if !c.boxes[i].Meets(c.boxes[j]) {
		return nil
	}
	if i >= c.leafs {
		return c.edges(i-c.leafs, j-c.leafs)
	}
	for _, pair := range [4][2]int{{2 * i, 2 * j}, {2 * i, 2*j + 1}, {2*i + 1, 2 * j}, {2*i + 1, 2*j + 1}} {
		if err := c.between(pair[0], pair[1]); err != nil {
			return err
		}
	}
	return nil
}

// edges looks at the edges e < f.
func (c chain) edges(e, f int) error {
	n := len(c.ring)
	if f >= n {
		return nil
	}
	a, b, p, q := c.ring[e], c.ring.at(e+1), c.ring[f], c.ring.at(f+1)
	neighbours := f == e+1 || e == 0 && f == n-1
	switch Meet(a, b, p, q) {
	case Along:
		return fault(ErrDoubled, p)
	case Crossing:
		return fault(ErrCrossing, crossingPoint(a, b, p, q))
	case Touching:
		if !neighbours {
			return fault(ErrTouching, touchingPoint(a, b, p, q))
		}
	}
	return nil
}

// crossingPoint is where the lines a b and p q cross, to the nearest µm or so:
// for messages and drawings, never for decisions.
func crossingPoint(a, b, p, q Point) Point {
	t := share(a, b, p, q)
	return Point{a.X + int64(math.Round(t*float64(b.X-a.X))), a.Y + int64(math.Round(t*float64(b.Y-a.Y)))}
}

// share is how far along a b, from 0 to 1, the line p q crosses it.
func share(a, b, p, q Point) float64 {
	da, db := cross(p, q, a), cross(p, q, b)
	return float64(da) / float64(da-db)
}

func touchingPoint(a, b, p, q Point) Point {
	switch {
	case OnSegment(p, a, b):
		return p
	case OnSegment(q, a, b):
		return q
	case OnSegment(a, p, q):
		return a
	}
	return b
}

// Validate says whether p is a piece of fabric or a flaw that the other functions accept:
//
//  1. the outer ring passes Ring.Validate;
//  2. each hole, turned round, does too: holes run clockwise;
//  3. no hole reaches out of the outer ring (ErrHoleOut);
//  4. no two holes overlap (ErrHolesMeet);
//  5. boundaries may touch at single points, not along an edge (ErrHoleEdge).
func (p Polygon) Validate() error {
	if err := p.Outer.Validate(); err != nil {
		return err
	}
	for i, h := range p.Holes {
		if err := h.Reverse().Validate(); err != nil {
			f := *err.(*Fault)
			f.Hole = i + 1
			return &f
		}
		if err := p.validateHole(i); err != nil {
			return &Fault{err, h[0], i + 1}
		}
	}
	return nil
}

// validateHole looks how hole i lies to the outer ring and the holes before it.
func (p Polygon) validateHole(i int) error {
	h := p.Holes[i]
	if !insideRing(h, p.Outer) {
		return ErrHoleOut
	}
	if shareEdge(h, p.Outer) {
		return ErrHoleEdge
	}
	for _, g := range p.Holes[:i] {
		if Overlaps(g, h) {
			return ErrHolesMeet
		}
		if shareEdge(g, h) {
			return ErrHoleEdge
		}
	}
	return nil
}

// shareEdge says whether the boundaries have more than points in common.
func shareEdge(a, b Ring) bool {
	found := false
	forPairs(a, b, 0, func(i, j int) bool {
		found = Meet(a[i], a.at(i+1), b[j], b.at(j+1)) == Along
		return !found
	})
	return found
}
