package drawn

import (
	"context"
	"errors"
	"fmt"
	"math"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Place is a point of the page in mm: X to the right, Y down from its top left corner.
type Place struct{ X, Y float64 }

// Collector gathers what a reader finds. Its zero value with Limits set is ready.
type Collector struct {
	Limits Limits
	// Brief tells of open lines outside all outlines in one sentence: where they are many and usual.
	Brief   bool
	out     Drawing
	dropped int // warnings beyond the most kept
}

// mostWarnings are kept; a drawing with more is told in one more sentence.
const mostWarnings = 300

// Warn adds a warning.
func (c *Collector) Warn(x Warning) {
	if len(c.out.Warnings) >= mostWarnings {
		c.dropped++
		return
	}
	c.out.Warnings = append(c.out.Warnings, x)
}

// Add takes a run of points as an outline or an open line; f says what is known of it.
// A run whose last point is its first is closed, whatever is said.
func (c *Collector) Add(points []Place, closed bool, f Found) {
	pts := make([]shape.Point, 0, len(points))
	for _, p := range points {
		q, ok := onPiece(p)
		if !ok {
			c.Warn(Warning{Reason: NoOutline, Name: f.Name, What: "it was left out: it reaches more than 500 m away", Do: "Check its place and the unit of the drawing."})
			return
		}
		if len(pts) == 0 || pts[len(pts)-1] != q {
			pts = append(pts, q)
		}
	}
	if last := len(pts) - 1; last > 0 && pts[0] == pts[last] {
		closed, pts = true, pts[:last]
	}
	f.Inside = -1
	if closed {
		c.closed(pts, f)
	} else if len(pts) > 1 {
		c.open(pts, f)
	}
}

// Finish returns the drawing at its scale, with shapes inside others and test squares found.
// The error is that of a context that ended.
func (c *Collector) Finish(ctx context.Context, s Scale) (Drawing, error) {
	c.out.Scale = s
	if c.dropped > 0 {
		c.out.Warnings = append(c.out.Warnings, Warning{Reason: NotRead, What: fmt.Sprintf("there are %d more warnings like these", c.dropped), Do: "Tidy the drawing in the editor and save again."})
	}
	switch err := nest(ctx, c.out.Shapes); {
	case errors.Is(err, errCrowded):
		c.out.Warnings = append(c.out.Warnings, Warning{Reason: NotRead, What: "there are so many shapes that lines drawn inside outlines were not told apart", Do: "Save only the pattern pieces."})
	case err != nil:
		return Drawing{}, err
	}
	c.tellOpen()
	c.out.nameByWords()
	c.out.Squares = squares(c.out.Shapes)
	return c.out, nil
}

// tellOpen tells how many open lines lie in no outline.
func (c *Collector) tellOpen() {
	lines := 0
	for _, f := range c.out.Shapes {
		if f.Ring == nil && f.Inside < 0 {
			lines++
		}
	}
	if c.Brief && lines > 0 {
		c.out.Warnings = append(c.out.Warnings, Warning{Reason: OpenPath, What: fmt.Sprintf("%s open and on no pattern piece: marks beside one, or outlines whose ends do not meet", counted(lines, "line is", "lines are")),
			Do: "If an outline is missing, look whether its lines are of one colour and dash, and whether the pages lie right."})
	}
}

// onPiece turns a point of the page into the frame of pattern pieces: x down the page,
// y to the right, which is a turn by a quarter seen from the face.
func onPiece(p Place) (shape.Point, bool) {
	x, y := math.Round(p.Y*1000), math.Round(p.X*1000)
	if !(math.Abs(x) <= shape.MaxCoordinate && math.Abs(y) <= shape.MaxCoordinate) {
		return shape.Point{}, false
	}
	return shape.Point{X: int64(x), Y: int64(y)}, true
}

// onPage is the place of a point of a piece on the page.
func onPage(p shape.Point) shape.Point { return shape.Point{X: p.Y, Y: p.X} }

func (c *Collector) closed(pts []shape.Point, f Found) {
	ring := shape.Ring(pts).Clean()
	if ring == nil {
		if len(pts) > 0 {
			c.Warn(Warning{Reason: NoOutline, Name: f.Name, What: "it encloses nothing and was left out", At: onPage(pts[0]), Placed: true, Do: "Nothing to do if it is a mark; otherwise draw it again."})
		}
		return
	}
	if len(ring) > c.Limits.Outline {
		c.Warn(Warning{Reason: NoOutline, Name: f.Name, What: fmt.Sprintf("it was left out: its outline has more than %d points", c.Limits.Outline), At: onPage(ring[0]), Placed: true, Do: "Simplify the path in the editor and save again."})
		return
	}
	if ring.Area2() < 0 {
		ring = ring.Reverse()
	}
	f.Ring, f.Length = ring, measure.Length(math.Round(ring.Perimeter()))
	f.Fault = ring.Validate()
	var fault *shape.Fault
	switch {
	case f.Fault == nil:
		f.Area = measure.Area(ring.Area())
	case errors.As(f.Fault, &fault):
		at := onPage(fault.At)
		c.Warn(Warning{Reason: Crossing, Name: f.Name, At: at, Placed: true,
			What: fmt.Sprintf("its outline %v %s from the left and %s from the top of the page", fault.Err, mm(at.X), mm(at.Y)),
			Do:   "Move the points there apart in the editor and save again."})
	}
	c.out.Shapes = append(c.out.Shapes, f)
}

func (c *Collector) open(pts []shape.Point, f Found) {
	f.Open = pts
	length := 0.0
	for i := 1; i < len(pts); i++ {
		length += apart(pts[i-1], pts[i])
	}
	f.Length = measure.Length(math.Round(length))
	c.out.Shapes = append(c.out.Shapes, f)
}

func apart(a, b shape.Point) float64 {
	d := b.Sub(a)
	return math.Hypot(float64(d.X), float64(d.Y))
}

// mm writes a distance for a message.
func mm(micrometres int64) string {
	return fmt.Sprintf("%.1f mm", float64(micrometres)/1000)
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
